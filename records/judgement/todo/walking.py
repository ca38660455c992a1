"""What is still to test by where one stands: house, sub-board, then room by room.

A test is only safe because the ones before it were right. What has to wait for a room is read when
one comes back to the board: insulation after continuity, an RCD after its loop.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from records.judgement.wording import listed
from records.model.circuit import Circuit, Point
from records.model.measurement import Stand
from records.model.reading import Place, Quantity, Slot, place_of
from records.model.record import Record
from records.model.safe_order import Waiting
from records.model.slots import measured_by, slots, title
from records.terms import Form, Stage

HOUSE = "At the house"
BOARD = "At the sub-board"
NO_ROOM = "No room named"


@dataclass(frozen=True, slots=True)
class Stop:
    """A place to stand, and what is left to be taken there."""

    name: str
    """HOUSE, BOARD, the name of a room, or NO_ROOM."""
    slots: tuple[Slot, ...]
    """In the safe order of the tests."""
    again: bool = False
    """Whether one comes back there: what is read then had to wait."""

    @property
    def heading(self) -> str:
        """The place, and that one comes back to it."""
        return f"{self.name}, again" if self.again else self.name


def left(record: Record, stage: Stage) -> tuple[Stop, ...]:
    """Return the readings of a stage that the job needs and that have nothing entered.

    Args:
        record: The job.
        stage: The stage.
    Returns:
        The places with something left, in walking order: the house, the sub-board, the rooms in
        the order in which they are first met along the circuits, then points without a room; then
        round again, for what had to wait for another reading.
    """
    found: dict[str, list[Slot]] = {}
    stands = _Stands.of(record)
    for slot in slots(record, stage):
        if not record.taken(slot):
            found.setdefault(stands.name(slot), []).append(slot)
    # A room may be called as one of these: it is one stop all the same.
    order = tuple(dict.fromkeys((HOUSE, BOARD, *rooms(record), NO_ROOM)))
    return tuple(_rounds(found, order))


def _rounds(found: dict[str, list[Slot]], order: tuple[str, ...]) -> Iterator[Stop]:
    """Yield the stops, round by round, each with what may be read by then."""
    waiting = Waiting(slot for each in found.values() for slot in each)
    seen: set[str] = set()
    left = sum(map(len, found.values()))
    while left:
        waiting.round_begins()
        for name in order:
            now = []
            for slot in found.get(name, ()):
                if waiting.may_come(slot):
                    waiting.came(slot)
                    now.append(slot)
            if now:
                found[name] = [slot for slot in found[name] if slot not in now]
                yield Stop(name, tuple(now), again=name in seen)
                seen.add(name)
                left -= len(now)


def stand_of(record: Record, slot: Slot) -> str:
    """Return where one stands for a reading, by the name that `left` gives it."""
    return _Stands.of(record).name(slot)


def stop_words(record: Record, stop: Stop) -> tuple[str, ...]:
    """Return what is left at a stop in words, one text for each part or circuit there.

    Such as `C1 Bench: r1 and rn` or `C1 Bench: cross-connected L-N at S2 and S3`.
    """
    found: dict[Place, dict[Quantity, list[str]]] = {}
    for slot in stop.slots:
        whole = place_of(slot.place.part, slot.place.circuit)
        points = found.setdefault(whole, {}).setdefault(slot.quantity, [])
        if slot.place.point is not None:
            points.append(title(record, slot.place).removeprefix(f"{title(record, whole)}, "))
    return tuple(
        f"{title(record, whole)}: "
        + listed([_at(what.value, points, _count(record, whole)) for what, points in rows.items()])
        for whole, rows in found.items()
    )


def _at(what: str, points: list[str], count: int) -> str:
    if not points:
        return what
    return f"{what} at {listed(points) if len(points) < count or count < 2 else 'every point'}"


def _count(record: Record, whole: Place) -> int:
    if whole.circuit is None:
        return 0
    return len(record.circuit(whole.circuit).points)


def rooms(record: Record) -> tuple[str, ...]:
    """Return the rooms that points are in, as first written, in the order they are first met.

    Capitals and blanks make no other room of it: “Store” and “store ” are one.
    """
    return tuple(_spelt(record).values())


def _from_board(point: Point, around: float) -> float:
    """Return the cable before a ring's point, both ways side by side [m]: a spur without a place
    counts as half way round."""
    at = around / 2 if point.at is None else point.at
    return at * (1 - at / around)


def far_point(circuit: Circuit) -> Point | None:
    """Return the point with the most cable before it; None if the circuit has no points.

    On a ring both legs lead there, so it is the one nearest the middle; a spur adds to it. Where
    a distance is not entered, points count as spread evenly in the order they were entered.
    """
    points = circuit.points
    lengths = [run.length for run in circuit.runs]
    around = sum(each or 0.0 for each in lengths)
    if circuit.form is Form.RING:
        if (
            any(each.at is None and not each.spur for each in points)
            or None in lengths
            or not (around > 0)
        ):
            return points[len(points) // 2] if points else None
        return max(
            points,
            key=lambda each: _from_board(each, around) + (each.spur or 0),
            default=None,
        )
    if any(each.at is None for each in points):
        return points[-1] if points else None
    return max(points, key=lambda each: (each.at or 0.0) + (each.spur or 0.0), default=None)


@dataclass(frozen=True, slots=True)
class _Stands:
    """Where one stands on each circuit, looked up once for all slots."""

    point: Mapping[tuple[str, str], str]
    """Room of a point, by circuit and point."""
    far: Mapping[str, str]
    """Room of the furthest point, by circuit."""

    @classmethod
    def of(cls, record: Record) -> _Stands:
        spelt = _spelt(record)

        def room(point: Point | None) -> str:
            return spelt.get(_folded(point.room), NO_ROOM) if point is not None else NO_ROOM

        return cls(
            {(c.id, point.id): room(point) for c in record.circuits for point in c.points},
            {each.id: room(far_point(each)) for each in record.circuits},
        )

    def name(self, slot: Slot) -> str:
        match measured_by(slot).stand:
            case Stand.HOUSE:
                return HOUSE
            case Stand.BOARD:
                return BOARD
            case Stand.FAR:
                return self.far.get(slot.place.circuit or "", NO_ROOM)
            case Stand.POINT:
                return self.point.get((slot.place.circuit or "", slot.place.point or ""), NO_ROOM)


def _spelt(record: Record) -> dict[str, str]:
    found: dict[str, str] = {}
    for circuit in record.circuits:
        for point in circuit.points:
            if point.room.strip():
                found.setdefault(_folded(point.room), point.room.strip())
    return found


def _folded(room: str) -> str:
    return " ".join(room.casefold().split())
