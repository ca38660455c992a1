"""Resistances and sizes of conductors and of armour."""

from __future__ import annotations

from functools import cache

from records.evidence import Source
from records.tables.table import Published, size, table
from records.terms import Basis, CableKind
from records.units import Celsius, OhmPerMetre, SquareMillimetre

_PER_METRE = 1e-3  # from Ω/km, and from mΩ/m

REACTANCE_FROM = SquareMillimetre(25.0)
"""Line cross-section from which reactance counts [mm²] (BS 7671 Appendix 4, from memory)."""


@cache
def copper(area: SquareMillimetre, *, flexible: bool = False) -> Published[OhmPerMetre]:
    """Return the highest resistance of a copper conductor at 20 °C [Ω/m].

    Args:
        area: Nominal cross-section [mm²].
        flexible: Class 5 (flexible) instead of class 1 or 2.
    Raises:
        NotTabulated: For other sizes: conductors are bought, not interpolated.
    Source:
        IEC 60228, Tables 1 to 3.
    """
    page = table("copper_class_5" if flexible else "copper_class_2")
    found = page.number(size(area), times=_PER_METRE)
    return Published(OhmPerMetre(found.value), found.source)


@cache
def flat_cpc(line: SquareMillimetre) -> Published[SquareMillimetre]:
    """Return the cpc size [mm²] in flat twin-and-earth cable by the size of its line [mm²].

    Raises:
        NotTabulated: If flat cable is not made with that line.
    """
    found = table("flat_cable_cpc").number(size(line))
    return Published(SquareMillimetre(found.value), found.source)


@cache
def armour_resistance(
    cable: CableKind, cores: int, line: SquareMillimetre
) -> Published[OhmPerMetre]:
    """Return the highest d.c. resistance of steel-wire armour at 20 °C [Ω/m].

    Args:
        cable: An armoured kind of cable.
        cores: Number of cores, 2 to 4.
        line: Cross-section of the cores [mm²].
    Raises:
        NotTabulated: If that cable is not tabulated.
    """
    found = table(f"armour_resistance_{_insulation(cable)}").number(
        f"{cores}-core", size(line), times=_PER_METRE
    )
    return Published(OhmPerMetre(found.value), found.source)


@cache
def armour_area(
    cable: CableKind, cores: int, line: SquareMillimetre
) -> Published[SquareMillimetre]:
    """Return the cross-section of steel-wire armour [mm²]; arguments as `armour_resistance`."""
    found = table(f"armour_area_{_insulation(cable)}").number(f"{cores}-core", size(line))
    return Published(SquareMillimetre(found.value), found.source)


@cache
def alpha(metal: str) -> Published[float]:
    """Return the temperature coefficient of resistance at 20 °C [1/K] of copper or steel.

    Copper is 0.00393 (IEC 60287-1-1), not the 0.004 that guides round it to: at 70 °C the guides'
    factor 1.20 stands 0.3 % above the 1.197 here.
    """
    return table("alpha").number(metal)


@cache
def operating_temperature(part: str, cable: str) -> Published[Celsius]:
    """Return the temperature that a part of a cable is worked out at [°C].

    Args:
        part: "conductor", "armour" or "separate conductor".
        cable: code of a `CableKind`; for a separate conductor "not bunched with the cable".
    """
    found = table("operating_temperature").number(part, cable)
    return Published(Celsius(found.value), found.source)


@cache
def reactance() -> Published[OhmPerMetre]:
    """Return the reactance of one conductor [Ω/m], used from 25 mm² up.

    It is the general 0.08 mΩ/m of IEC 60364-5-52, Annex G, for want of other details; the x columns
    of the voltage-drop tables give 0.075 to 0.085 mΩ/m per conductor for armoured cable.
    """
    return _per_metre("reactance of one conductor, mΩ/m")


@cache
def armour_loop_reactance() -> Published[OhmPerMetre]:
    """Return the reactance of line and armour together [Ω/m] (PD CLC/TR 50480)."""
    return _per_metre("reactance of line and armour together, mΩ/m")


@cache
def armour_ac_factor() -> Published[float]:
    """Return how much higher the a.c. resistance of armour is than its d.c. resistance."""
    return table("loop_allowances").number("armour, a.c. over d.c. resistance")


def line_sizes(cable: CableKind) -> tuple[float, ...]:
    """Return the line sizes that a kind of cable is made in, as far as it is tabulated [mm²]."""
    if cable is CableKind.FLAT:
        rows = table("flat_cable_cpc").under()
    elif cable.is_armoured:
        rows = table(f"armour_resistance_{_insulation(cable)}").under("2-core")
    else:
        flexible = cable is CableKind.FLEX
        rows = table("copper_class_5" if flexible else "copper_class_2").under()
    return tuple(float(row) for row in rows)


def worked_out(source: Source) -> Source:
    """Return the same place with the basis changed: a figure worked out from what stands there."""
    return Source(source.work, source.place, Basis.WORKED_OUT)


@cache
def _per_metre(row: str) -> Published[OhmPerMetre]:
    found = table("loop_allowances").number(row, times=_PER_METRE)
    return Published(OhmPerMetre(found.value), found.source)


def _insulation(cable: CableKind) -> str:
    return "xlpe" if cable is CableKind.SWA_XLPE else "pvc"
