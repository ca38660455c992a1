"""The changes that points of a circuit are added and loaded by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from records.errors import BadText
from records.model.circuit import Circuit, Point
from records.model.record import next_id
from records.store.edits import append, put
from records.store.patch import Op
from records.typed import read_typed
from records.units import Unit

if TYPE_CHECKING:
    from records.shorthand.points_line import NewPoint, Points

MOST_AT_ONCE = 40


def read_points_line(circuit: Circuit, text: str) -> Points:
    """Return what a line of points says, beside the points that are there."""
    from records.shorthand.points_line import NewPoint, read_points

    there: list[NewPoint] = [
        NewPoint(each.name or each.id, each.at, each.spur) for each in circuit.points
    ]
    return read_points(text, there)


def named_points(circuit: Circuit, pointer: str, named: tuple[NewPoint, ...]) -> list[Op]:
    """Return the changes that add the points of a line.

    Args:
        circuit: Gets them.
        pointer: Where it stands in the record.
        named: What the line says.
    """
    points, ops = list(circuit.points), list[Op]()
    for each in named:
        id = next_id("S", points)
        point = Point(id=id, name=each.name).model_copy(update={"at": each.at, "spur": each.spur})
        points.append(point)
        ops += append(f"{pointer}/points", point)
    return ops


def new_point(circuit: Circuit) -> Point:
    """Return the next point of a circuit, named after its number."""
    id = next_id("S", circuit.points)
    return Point(id=id, name=id)


def row_of_points(circuit: Circuit, pointer: str, count: int) -> list[Op]:
    """Return the changes that add so many points at the end, named after their number."""
    points, ops = list(circuit.points), list[Op]()
    for _ in range(count):
        id = next_id("S", points)
        points.append(Point(id=id, name=id))
        ops += append(f"{pointer}/points", points[-1])
    return ops


def how_many(text: str) -> int:
    """Return how many points are asked for, as typed.

    Raises:
        BadText: If it is no number of points that can be added at once.
    """
    number = int(text) if text.isascii() and text.isdigit() else 0
    if not 1 <= number <= MOST_AT_ONCE:
        raise BadText(f"“{text[:20]}”: type how many points, 1 to {MOST_AT_ONCE}.")
    return number


def same_load(circuit: Circuit, pointer: str, text: str) -> list[Op]:
    """Return the changes that put one load at every point, in place of what stands there.

    Args:
        circuit: Its points get it.
        pointer: Where it stands in the record.
        text: As typed: `10 W` and `0.05 kW` are a power, `2 A` and a bare number a current.
    Raises:
        BadQuantity: If it is no load.
    """
    name, other = ("power", "load") if "w" in text.casefold() else ("load", "power")
    value = read_typed(text, Unit.KILOWATT if name == "power" else Unit.AMPERE).value
    return [
        each
        for at, _ in enumerate(circuit.points)
        for each in (
            *put(f"{pointer}/points/{at}/{name}", value),
            *put(f"{pointer}/points/{at}/{other}", None),
        )
    ]
