"""Plane geometry of a surface: convex pieces of it, and what of a straight line lies in none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

_FAR = 1.0
"""mm by which a line has to miss a rectangle round a zone for nobody to look closer."""
_SHORT = 1.0
"""mm: a stretch shorter than this is rounding, not cable."""

Line = tuple[float, float, float, float]
"""From x, y to x, y [mm]."""
HalfPlane = tuple[float, float, float]
"""a, b, c: the points with a·x + b·y ≤ c."""


@dataclass(frozen=True, slots=True)
class Zone:
    """A convex part of a surface, as the points that lie in all of its half planes."""

    sides: tuple[HalfPlane, ...]
    why: str
    """What makes it one: `150 mm below the top`, `level with S3`."""
    box: tuple[float, float, float, float]
    """Left, bottom, right, top of a rectangle round it: most lines miss it by far."""


def rectangle(x0: float, y0: float, x1: float, y1: float, why: str) -> Zone:
    """Return the zone between two corners [mm]."""
    return Zone(((-1, 0, -x0), (1, 0, x1), (0, -1, -y0), (0, 1, y1)), why, (x0, y0, x1, y1))


def below_top(width: float, left: float, right: float, band: float, why: str) -> Zone:
    """Return the band under a level or sloping top.

    It is measured straight down: on a slope that is narrower than square to it, which errs towards
    calling a cable outside.

    Args:
        width: Of the surface [mm].
        left: Height at x = 0 [mm].
        right: Height at x = width [mm].
        band: How far down it reaches [mm].
        why: What makes it a zone.
    """
    slope = (right - left) / width if width else 0.0
    sides = ((-1, 0, 0), (1, 0, width), (slope, -1, band - left), (-slope, 1, left))
    return Zone(sides, why, (0, min(left, right) - band, width, max(left, right)))


def inside(line: Line, zone: Zone) -> tuple[float, float] | None:
    """Return which part of a line lies in a zone, as shares of its length; None: no part."""
    x0, y0, x1, y1 = line
    left, bottom, right, top = zone.box
    if (x0 < left - _FAR and x1 < left - _FAR) or (x0 > right + _FAR and x1 > right + _FAR):
        return None
    if (y0 < bottom - _FAR and y1 < bottom - _FAR) or (y0 > top + _FAR and y1 > top + _FAR):
        return None
    low, high = 0.0, 1.0
    for a, b, c in zone.sides:
        begin, change = a * x0 + b * y0 - c, a * (x1 - x0) + b * (y1 - y0)
        if change == 0:
            if begin > 1e-9:
                return None
        elif change > 0:
            high = min(high, -begin / change)
        else:
            low = max(low, -begin / change)
    return (low, high) if low <= high else None


def outside(line: Line, zones: Iterable[Zone]) -> tuple[tuple[float, float], ...]:
    """Return the stretches of a line that lie in no zone, as mm from its beginning.

    Args:
        line: A straight leg of cable.
        zones: Where cable may be.
    """
    x0, y0, x1, y1 = line
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    if length < _SHORT:
        return ()
    held = sorted(found for zone in zones if (found := inside(line, zone)) is not None)
    return tuple(
        (low * length, high * length) for low, high in _gaps(held) if (high - low) * length > _SHORT
    )


def _gaps(held: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    at = 0.0
    for low, high in held:
        if low > at:
            yield at, low
        at = max(at, high)
    if at < 1:
        yield at, 1.0


def top_at(x: float, width: float, left: float, right: float) -> float:
    """Return how high a surface is at a distance along it [mm]."""
    return left + (right - left) * (x / width if width else 0.0)


def distance(line: Line, x: float, y: float) -> float:
    """Return how far a point is from a straight stretch of cable [mm]."""
    x0, y0, x1, y1 = line
    dx, dy = x1 - x0, y1 - y0
    square = dx * dx + dy * dy
    share = max(0.0, min(1.0, ((x - x0) * dx + (y - y0) * dy) / square)) if square else 0.0
    return float(((x - x0 - share * dx) ** 2 + (y - y0 - share * dy) ** 2) ** 0.5)
