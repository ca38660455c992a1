"""Glands for armoured cable: how thick the cable is, and the size that closes on it."""

from __future__ import annotations

from functools import cache

from records.tables.table import Published, size, table
from records.units import SquareMillimetre


@cache
def overall_diameter(cores: int, line: SquareMillimetre) -> Published[float]:
    """Return the approximate overall diameter of armoured XLPE cable [mm].

    Raises:
        NotTabulated: If that cable is not tabulated.
    """
    return table("armoured_diameter").number(f"{cores}-core", size(line))


@cache
def outer_seal(gland: str) -> Published[float]:
    """Return the largest diameter over the sheath that a size of gland closes on [mm].

    Raises:
        NotTabulated: If there is no such size.
    """
    return table("gland_outer").number(gland)


def usual_gland(diameter: float) -> str | None:
    """Return the smallest size of gland that closes on a diameter [mm]; None: none tabulated."""
    sizes = table("gland_outer").under()
    return next((each for each in sizes if outer_seal(each).value >= diameter), None)
