"""How thick cables are, how far apart their supports stand, and how tightly they may be bent."""

from __future__ import annotations

from functools import cache

from records.errors import NotTabulated
from records.tables.table import Published, size, table
from records.terms import CableKind

_SHAPED_FROM = 25.0
"""mm² from which the conductors of armoured cable may be shaped: the larger factor is taken."""
_UNSURE = 1.0
"""mm that a cable may be thinner than its listed size: the supports of the row below are taken."""


@cache
def overall(cable: CableKind, cores: int, csa: float) -> Published[float]:
    """Return the overall diameter of a cable, of flat cable its width [mm].

    Args:
        cable: Flat or armoured.
        cores: Insulated cores, of armoured cable.
        csa: Cross-section of the line [mm²].
    Raises:
        NotTabulated: If its size isn't listed.
    """
    if cable is CableKind.FLAT:
        return table("overall_flat").number(size(csa))
    if cable.is_armoured:
        return table("overall_armoured").number(f"{cores}-core", size(csa))
    raise NotTabulated(f"No overall size is listed of {cable.value}.")


@cache
def clip_spacing(cable: CableKind, across: float) -> Published[tuple[float, float]]:
    """Return how far apart the supports of a cable stand, along and up [mm].

    Args:
        cable: Flat or armoured.
        across: Its overall diameter, or the width of flat cable [mm].
    Raises:
        NotTabulated: If it is thicker than any that is listed.
    """
    page, kind = table("clip_spacing"), "armoured" if cable.is_armoured else "sheathed"
    row = _row(page.under(kind), across - _UNSURE, f"supports of a cable {across:g} mm across")
    along, up = (page.number(kind, row, way) for way in ("along", "up"))
    return Published((along.value, up.value), along.source)


@cache
def least_bend(cable: CableKind, csa: float, across: float) -> Published[float]:
    """Return the least inside radius of a bend [mm].

    Args:
        cable: Flat or armoured.
        csa: Cross-section of the line [mm²].
        across: Its overall diameter, or the width of flat cable [mm].
    Raises:
        NotTabulated: If it is thicker than any that is listed.
    """
    page = table("bend_factor")
    if cable.is_armoured:
        found = page.number("armoured", "shaped" if csa >= _SHAPED_FROM else "circular")
    else:
        row = _row(page.under("sheathed"), across, f"bends of a cable {across:g} mm across")
        found = page.number("sheathed", row)
    return Published(found.value * across, found.source)


def _row(rows: tuple[str, ...], across: float, what: str) -> str:
    """Return the first row whose upper end holds a diameter."""
    for each in rows:
        if across <= float(each):
            return each
    raise NotTabulated(f"Nothing is listed for {what}.")
