"""Boxes on a surface: their plates, which zones go by, and their holes, which are cut."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.model.circuit import Circuit, Point
from records.model.fabric import Box, Fixture, Mark, Spot, Surface
from records.model.record import Record

SIZES: dict[Box, tuple[float, float, float, float]] = {
    # Plate and hole, width and height [mm]: plates of BS 4662 boxes 86 and 146 x 86; the holes are
    # those of usual dry-lining boxes (common practice), a lamp's and a board's differ by make.
    Box.ONE_GANG: (86, 86, 75, 75),
    Box.TWO_GANG: (146, 86, 135, 75),
    Box.ROUND: (85, 85, 68, 68),
    Box.LAMP: (90, 90, 70, 70),
    Box.JOINT: (85, 85, 85, 85),
    Box.FREE_JOINT: (85, 85, 85, 85),
    Box.BOARD: (250, 300, 250, 300),
}


@dataclass(frozen=True, slots=True)
class Placed:
    """Something that sits on a surface."""

    name: str
    spot: Spot
    circuit: Circuit | None = None
    point: Point | None = None
    fixture: Fixture | None = None

    @property
    def is_opening(self) -> bool:
        """Whether it is a door or a window."""
        return self.fixture is not None and self.fixture.is_opening


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle on a surface [mm]."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def centre(self) -> tuple[float, float]:
        """Its middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2


def hole(spot: Spot) -> Rect:
    """Return the edges of the hole that is cut; a height given to the underside is its lower edge.

    Without a kind of box and a size of its own it is a point: no hole is known.
    """
    plate = SIZES[spot.box] if spot.box is not None else (0.0, 0.0, 0.0, 0.0)
    wide, high = spot.width or plate[2], spot.height or plate[3]
    bottom = spot.up if spot.to is Mark.UNDERSIDE else spot.up - high / 2
    return Rect(spot.along - wide / 2, bottom, spot.along + wide / 2, bottom + high)


def overlap(one: Rect, other: Rect) -> tuple[float, float] | None:
    """Return how wide and how high two rectangles lie on each other [mm]; None: they don't."""
    wide = min(one.right, other.right) - max(one.left, other.left)
    high = min(one.top, other.top) - max(one.bottom, other.bottom)
    return (wide, high) if wide > 0 and high > 0 else None


def plate(spot: Spot) -> Rect:
    """Return the edges of what is seen when it is finished: as wide and high as its zones are."""
    cut = hole(spot)
    x, y = cut.centre
    sizes = SIZES[spot.box] if spot.box is not None else (0.0, 0.0, 0.0, 0.0)
    wide = max(sizes[0], cut.right - cut.left)
    high = max(sizes[1], cut.top - cut.bottom)
    return Rect(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)


def placed(record: Record, surface: Surface | None = None) -> Iterator[Placed]:
    """Yield what is placed, on one surface or on all: points of circuits, then fixtures."""
    for circuit in record.circuits:
        for point in circuit.points:
            if point.spot is not None and _is_on(point.spot, surface):
                yield Placed(point.name or f"{circuit.id} {point.id}", point.spot, circuit, point)
    for each in record.fabric.fixtures:
        if _is_on(each.spot, surface):
            yield Placed(each.name or each.id, each.spot, fixture=each)


def _is_on(spot: Spot, surface: Surface | None) -> bool:
    return surface is None or spot.surface == surface.id
