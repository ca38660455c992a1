"""How the sheets group what they list: origin, feed, board, then circuit by circuit."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from records.model.reading import Place, Slot, place_of
from records.model.record import Record
from records.model.slots import measured_by, title
from records.terms import Part, Stage

T = TypeVar("T")


STAGES = {
    Stage.BEFORE_COVERING: "before covering",
    Stage.DEAD: "dead",
    Stage.LIVE: "live",
}
"""Stages in the few letters that a narrow column has."""


def group_of(place: Place) -> Place:
    """Return the part or the circuit that a place belongs to, without its point."""
    return place_of(place.part, place.circuit)


def group_places(record: Record) -> list[Place]:
    """Return all groups of a record, in the order of the work."""
    parts = [place_of(part) for part in Part if part is not Part.CIRCUIT]
    return parts + [place_of(Part.CIRCUIT, each.id) for each in record.circuits]


def grouped(
    record: Record, things: Iterable[T], place: Callable[[T], Place]
) -> list[tuple[Place, list[T]]]:
    """Return things by group, groups that have some in the order of the work, things as given."""
    found: dict[Place, list[T]] = {each: [] for each in group_places(record)}
    for thing in things:
        found.setdefault(group_of(place(thing)), []).append(thing)
    return [(group, inside) for group, inside in found.items() if inside]


def group_name(record: Record, place: Place) -> str:
    """Return what stands over the rows of a group."""
    return title(record, group_of(place))


def point_name(record: Record, place: Place) -> str:
    """Return the point of a place, with what it is called; "" if the place has none."""
    if place.point is None:
        return ""
    if place.part is Part.CIRCUIT and place.circuit is not None:
        names = {each.id: each.name for each in record.circuit(place.circuit).points}
    else:
        names = {each.id: each.what for each in record.board.bonds}
    called = names.get(place.point, "")
    known = f"{place.point} {called}" if called != place.point else called
    return known.strip()


def what_name(slot: Slot) -> str:
    """Return what a slot measures, without saying “at each point” where one is named."""
    words = measured_by(slot).title
    return words.removesuffix(", at each point") if slot.place.point else words


def together(record: Record, slots: Iterable[Slot]) -> str:
    """Return what some slots of one group measure, points of the same thing put together."""
    points: dict[str, list[str]] = {}
    for slot in slots:
        named = points.setdefault(what_name(slot), [])
        point = point_name(record, slot.place)
        if point and point not in named:
            named.append(point)
    return "; ".join(
        f"{what}: {', '.join(named)}" if named else what for what, named in points.items()
    )
