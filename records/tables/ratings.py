"""Current-carrying capacity of cables and the factors on it."""

from __future__ import annotations

from functools import cache

from records.errors import NotTabulated, OutOfRange
from records.tables.table import Published, Table, size, table
from records.terms import CableKind, DeviceKind, Method
from records.units import Ampere, Celsius, SquareMillimetre

CONTAINS_INSULATION = (Method.A, Method.M100, Method.M101, Method.M102, Method.M103)
"""Methods whose rating already contains the thermal insulation."""


@cache
def tabulated_rating(
    cable: CableKind, method: Method, line: SquareMillimetre, *, as_70_degrees: bool = False
) -> Published[Ampere]:
    """Return It, the tabulated current-carrying capacity with two loaded conductors [A].

    Args:
        cable: The cable.
        method: How it is laid.
        line: Cross-section [mm²].
        as_70_degrees: For 90 °C armoured cable on terminals for 70 °C, which is most equipment:
            rate it as 70 °C cable (BS 7671, Regulation 512.1.5 and Table 4E4A, note).
    Raises:
        NotTabulated: If that cable, method and size has no rating in the table.
    """
    if cable is CableKind.FLEX:
        if method not in (Method.C, Method.E):
            raise NotTabulated(
                f"Flexible cable is rated in free air (enter C or E), not by method {method.value}."
            )
        return _ampere(table("rating_flex").number(size(line)))
    if cable is CableKind.FLAT and method in (Method.B, Method.E):
        return _ampere(table("rating_multicore").number(method.value, size(line)))
    if cable is CableKind.FLAT:
        page = table("rating_flat")
    elif cable is CableKind.SINGLES:
        page = table("rating_singles")
    elif cable is CableKind.SWA_XLPE and not as_70_degrees:
        page = table("rating_armoured_xlpe_2")
    else:
        page = table("rating_armoured_pvc_2")
    return _ampere(page.number(method.value, size(line)))


@cache
def ambient_factor(
    conductor: Celsius, surroundings: Celsius, *, in_ground: bool
) -> Published[float]:
    """Return Ca, the factor for the temperature of the air or the ground.

    Between two rows the hotter one is taken, below the first row the first: errs low.

    Args:
        conductor: Operating temperature of the conductor, 70 or 90 [°C].
        surroundings: Of the air or the ground [°C].
        in_ground: Whether the cable is buried (method D).
    Raises:
        NotTabulated: Above the last row.
    """
    page = table("ca_ground" if in_ground else "ca_air")
    return _next_row(page, (size(conductor),), surroundings, "°C")


@cache
def grouping_factor(
    circuits: int, method: Method, *, in_duct: bool = False, gap_m: float = 0.0
) -> Published[float]:
    """Return Cg for circuits that lie together.

    Method C: a single layer, touching; E: touching on perforated tray; D: laid in the ground or
    each in a duct of its own, by the gap between them; others: bunched or enclosed. Each is the
    least favourable spacing of its table; of two rows of gaps the closer one is taken.

    Args:
        circuits: Loaded circuits together, this one included.
        method: How they are laid.
        in_duct: Whether they lie in ducts (method D).
        gap_m: Clear distance from one cable or duct to the next, for method D [m].
    Raises:
        NotTabulated: For more circuits than the table has.
        OutOfRange: If there is less than one circuit.
    """
    if circuits < 1:
        raise OutOfRange("A group has at least one circuit: the one that is rated.")
    if method is Method.D:
        page = table("cg_ducts" if in_duct else "cg_buried")
        start = _gap(page, gap_m)
    else:
        page = table("cg_air")
        start = {Method.C: "single layer, touching", Method.E: "perforated tray, touching"}.get(
            method, "bunched"
        )
    if circuits == 1:
        return Published(1.0, page.source(start, page.under(start)[0]))
    return _next_row(page, (start,), circuits, "circuits")


@cache
def insulation_factor(length_mm: float) -> Published[float]:
    """Return Ci for cable wholly surrounded by thermal insulation over a length [mm].

    Between two rows the longer one is taken; from 500 mm up it is 0.5.

    Raises:
        OutOfRange: If the length is negative.
    """
    if length_mm < 0:
        raise OutOfRange(f"A length in insulation can't be {length_mm:g} mm.")
    page = table("ci")
    if length_mm == 0:
        return Published(1.0, page.source("50"))
    return _next_row(page, (), min(length_mm, 500.0), "mm")


@cache
def soil_factor(resistivity: float, *, in_duct: bool) -> Published[float]:
    """Return Cs for soil of a thermal resistivity [K·m/W]; between two rows the drier one.

    Raises:
        NotTabulated: Above the last row.
    """
    return _next_row(table("cs"), ("duct" if in_duct else "direct",), resistivity, "K·m/W")


@cache
def depth_factor(depth_m: float, *, in_duct: bool) -> Published[float]:
    """Return Cd for a depth of burial [m]; between two rows the deeper one.

    Raises:
        NotTabulated: Below the last row.
    """
    return _next_row(table("cd"), ("duct" if in_duct else "direct",), depth_m, "m")


@cache
def device_factor(kind: DeviceKind, *, in_ground: bool) -> Published[float]:
    """Return Cc, for a BS 3036 fuse and for burial; 1 where neither applies.

    Source:
        BS 7671, Regulation 433.1.202 and Appendix 4, section 5.1.
    """
    page = table("cc")
    rows = [
        name
        for name, here in (("BS 3036", kind is DeviceKind.BS_3036), ("buried", in_ground))
        if here
    ]
    if not rows:
        return Published(1.0, page.source("buried"))
    return page.number(", ".join(rows))


def ring_least_rating() -> Published[Ampere]:
    """Return the least capacity of the cable of a ring with a 30 A or 32 A device [A]."""
    return _ampere(table("ring_capacity").number("least capacity of the cable, A"))


def ring_least_size() -> Published[SquareMillimetre]:
    """Return the least line and neutral of such a ring [mm²]."""
    found = table("ring_capacity").number("least line and neutral, mm²")
    return Published(SquareMillimetre(found.value), found.source)


def _gap(page: Table, gap_m: float) -> str:
    """Return the row of the widest gap that is not wider than the one given."""
    wide = [row for row in page.under() if row.endswith(" m apart")]
    kept = [row for row in wide if float(row.removesuffix(" m apart")) <= gap_m]
    return max(kept, key=lambda row: float(row.removesuffix(" m apart")), default="touching")


def _ampere(found: Published[float]) -> Published[Ampere]:
    return Published(Ampere(found.value), found.source)


def _next_row(page: Table, start: tuple[str, ...], value: float, unit: str) -> Published[float]:
    rows = page.under(*start)
    if not rows:
        page.printed(*start)
    for row in rows:
        if value <= float(row):
            return page.number(*start, row)
    raise NotTabulated(
        f"{page.title}: the table ends at {rows[-1]} {unit}; {value:g} is beyond it."
    )
