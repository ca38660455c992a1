"""Protective conductors: k values, least sizes, bonding."""

from __future__ import annotations

from functools import cache

from records.errors import OutOfRange
from records.tables.table import Published, table
from records.terms import CableKind
from records.units import Ampere, SquareMillimetre


def insulation_words(cable: CableKind) -> str:
    """Return how the k tables call the insulation of a cable."""
    return "90 °C thermosetting" if cable is CableKind.SWA_XLPE else "70 °C thermoplastic"


@cache
def k_live(cable: CableKind) -> Published[float]:
    """Return k of the line conductor [A·√s/mm²] (BS 7671, Table 43.1)."""
    return table("k_live").number(insulation_words(cable))


@cache
def k_core(cable: CableKind) -> Published[float]:
    """Return k of a cpc that is a core of the cable, or bunched [A·√s/mm²] (Table 54.3)."""
    return table("k_cpc_in_cable").number(insulation_words(cable))


@cache
def k_separate() -> Published[float]:
    """Return k of a separate cpc, not bunched [A·√s/mm²] (Table 54.2).

    That of ordinary wiring, 70 °C: whatever the cable beside it is made of, the separate
    conductor's own insulation counts, and isn't entered.
    """
    return table("k_cpc_separate").number("70 °C thermoplastic")


@cache
def k_armour(cable: CableKind) -> Published[float]:
    """Return k of steel-wire armour [A·√s/mm²] (Table 54.4)."""
    return table("k_armour").number(insulation_words(cable))


@cache
def least_by_line(line: SquareMillimetre) -> Published[SquareMillimetre]:
    """Return the least protective conductor of the line's metal without calculation [mm²].

    Raises:
        OutOfRange: If the line has no size.
    Source:
        BS 7671, Table 54.7: S, 16 mm², S/2.
    """
    if line <= 0:
        raise OutOfRange(f"A line conductor can't be {line:g} mm².")
    page = table("cpc_by_line")
    row = "S up to 16" if line <= 16 else "S over 16 up to 35" if line <= 35 else "S over 35"
    cell = page.printed(row)
    if not isinstance(cell, str):
        return Published(SquareMillimetre(float(cell)), page.source(row))
    _, _, part = cell.partition("/")
    return Published(SquareMillimetre(line / float(part or 1)), page.source(row))


def least_separate(*, protected: bool) -> Published[SquareMillimetre]:
    """Return the least separate cpc [mm²] (Regulation 543.1.1)."""
    row = "protected against mechanical damage" if protected else "not protected"
    return _area(table("cpc_least").number(row))


def least_buried_earthing(*, against_corrosion: bool) -> Published[SquareMillimetre]:
    """Return the least copper earthing conductor in the ground [mm²] (Table 54.1)."""
    row = (
        "protected against corrosion, not against mechanical damage"
        if against_corrosion
        else "not protected against corrosion"
    )
    return _area(table("earthing_buried").number(row))


def least_bond_pme(supply_neutral: SquareMillimetre) -> Published[SquareMillimetre]:
    """Return the least main bonding conductor of a PME supply, copper [mm²] (Table 54.8).

    Args:
        supply_neutral: Neutral of the supply [mm²].
    """
    page = table("bonding_pme")
    *sizes, largest = page.under()
    row = next((each for each in sizes if supply_neutral <= float(each)), largest)
    return _area(page.number(row))


def least_bond(earthing: SquareMillimetre) -> Published[SquareMillimetre]:
    """Return the least main bonding conductor of other supplies, copper [mm²].

    Half the earthing conductor of the installation, at least 6, at most 25 mm² (544.1.1).
    """
    page = table("bonding_other")
    least = page.number("at least")
    most = page.number("need not be over")
    share = page.number("of the earthing conductor, %", times=0.01)
    value = min(max(earthing * share.value, least.value), most.value)
    return Published(SquareMillimetre(value), least.source)


def _area(found: Published[float]) -> Published[SquareMillimetre]:
    return Published(SquareMillimetre(found.value), found.source)


def least_behind_class_3(
    curve: str, rating: Ampere, fault: Ampere
) -> Published[SquareMillimetre] | None:
    """Return the least cpc of 70 °C cable behind a class 3 breaker [mm²]; None if not tabulated.

    Args:
        curve: B or C; type D isn't tabulated.
        rating: In, up to 40 A [A].
        fault: Highest fault current, up to 6 kA [A].
    Source:
        IET On-Site Guide, from the let-through energy of class 3 (BS EN 60898-1), from memory.
    """
    size = "up to 16 A" if rating <= 16 else "up to 40 A"
    level = "3 kA" if fault <= 3000 else "6 kA"
    return None if rating > 40 or fault > 6000 else _class_3(curve, size, level)


@cache
def _class_3(curve: str, size: str, level: str) -> Published[SquareMillimetre] | None:
    page = table("cpc_class_3")
    if (curve, size, level) not in page.cells:
        return None
    return _area(page.number(curve, size, level))
