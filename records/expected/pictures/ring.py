"""A ring as a picture: its cross-connected readings over the way round, and what is expected."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from records.errors import OutOfRange
from records.expected.context import Context
from records.expected.formulas.ring import cross_connected, fraction
from records.expected.results import Expected, NotWorkedOut, Worked
from records.model.circuit import Circuit, Point
from records.model.reading import Figure, Place, Quantity, Slot, place_of, slot_of
from records.model.record import Record
from records.terms import Form, Part, Sign, Stage
from records.units import Ohm

_REACH = 2.2
"""How far above the expected line the picture reaches, for readings that are off."""
_STEPS = 40
"""Stretches of the expected line: enough for it to look round."""


@dataclass(frozen=True, slots=True)
class RingPoint:
    """One cross-connected reading."""

    id: str
    name: str
    x: float
    """How far round the ring, 0 to 1."""
    value: Ohm | None
    """What was read; None if it was not, or was over the meter's range."""
    over: bool
    """Whether it was over the range: no path."""
    expected: Ohm | None
    doubted: bool
    """Whether a verdict speaks against it."""
    spur: bool


@dataclass(frozen=True, slots=True)
class RingLine:
    """The readings of one crossing, and the line they should lie on."""

    name: str
    """"L-N" or "L-cpc"."""
    line: tuple[tuple[float, Ohm], ...]
    """Expected on the ring itself: how far round, and the reading; empty if not known."""
    points: tuple[RingPoint, ...]

    @property
    def read(self) -> tuple[RingPoint, ...]:
        """The points that were read."""
        return tuple(each for each in self.points if each.value is not None or each.over)


@dataclass(frozen=True, slots=True)
class RingPicture:
    """Both crossings of one ring."""

    lines: tuple[RingLine, ...]
    around: float | None
    """Length all the way round [m]; None: points stand in the order of entry, evenly."""
    ground: str
    """What the expected lines are worked out from."""

    @property
    def most(self) -> Ohm:
        """The resistance at the top of the picture; what is read above it stands at its edge."""
        due = max((ohms for each in self.lines for _, ohms in each.line), default=0.0)
        read = max((p.value or 0.0 for each in self.lines for p in each.points), default=0.0)
        return Ohm(max(1.2 * due, 1.1 * (min(read, _REACH * due) if due else read), 0.05))

    def ticks(self) -> tuple[Ohm, ...]:
        """Return the resistances to name on the axis, up to five, from nought."""
        step = next(each for each in _distances() if self.most / each <= 4.5)
        return tuple(Ohm(at * step) for at in range(int(self.most / step + 1e-9) + 1))

    @property
    def doubted(self) -> tuple[tuple[str, RingPoint], ...]:
        """The readings that a verdict speaks against, each with the name of its crossing."""
        return tuple(
            (line.name, each) for line in self.lines for each in line.points if each.doubted
        )


def _distances() -> Iterator[float]:
    """Yield the distances on an axis that read well: 0.02, 0.05, 0.1, 0.2 …"""
    power = 0.01
    while True:
        yield from (2 * power, 5 * power, 10 * power)
        power *= 10


def ring_picture(
    record: Record, expected: Expected, place: Place, doubted: Collection[Slot]
) -> RingPicture | NotWorkedOut:
    """Return the picture of a ring, or why there is none.

    The line is worked out from the ends as read where both were, as the review does; else from
    the design.

    Args:
        record: The job.
        expected: What follows from it.
        place: The circuit, or a point on it.
        doubted: Readings that a verdict speaks against.
    Source:
        `ring.cross_connected`.
    """
    circuit = record.circuit(place.circuit) if place.circuit is not None else None
    if circuit is None or circuit.form is not Form.RING:
        return NotWorkedOut("ring", "this is not a ring.")
    if not circuit.points:
        return NotWorkedOut("ring", f"no points are entered (Circuits, {circuit.id}).")
    context = Context(record)
    around, where = _positions(circuit)
    ends = {quantity: _ends(context, expected, circuit, quantity) for quantity in _NAMES}
    lines = tuple(
        RingLine(
            name,
            _line(ends[quantity]),
            tuple(
                _point(context.record, expected, circuit, quantity, each, x, doubted)
                for each, x in zip(circuit.points, where, strict=True)
            ),
        )
        for quantity, name in _NAMES.items()
    )
    by_ends = all(each is not None and each[2] for each in ends.values())
    ground = "by the ends as measured" if by_ends else "by the design, where no ends were read"
    return RingPicture(lines, around, ground)


_NAMES = {Quantity.CROSS_LN: "L-N", Quantity.CROSS_LE: "L-cpc"}
_OTHER = {Quantity.CROSS_LN: Quantity.RN, Quantity.CROSS_LE: Quantity.R2}


def _positions(circuit: Circuit) -> tuple[float | None, list[float]]:
    """Return the length round and how far round each point is, or them evenly in their order."""
    around = sum(run.length or 0.0 for run in circuit.runs)
    try:
        if any(each.at is None for each in circuit.points):
            raise OutOfRange("A point has no distance.")
        return around, [fraction(each.at or 0.0, around) for each in circuit.points]
    except OutOfRange:
        count = len(circuit.points)
        return None, [(at + 1) / (count + 1) for at in range(count)]


def _ends(
    context: Context, expected: Expected, circuit: Circuit, quantity: Quantity
) -> tuple[Ohm, Ohm, bool] | None:
    """Return both conductors end to end [Ω], and whether they were read."""
    pair = (Quantity.R1, _OTHER[quantity])
    read = [context.readings.find(each, Part.CIRCUIT, circuit.id) for each in pair]
    if all(each is not None and each > 0 for each in read):
        return Ohm(read[0] or 0.0), Ohm(read[1] or 0.0), True
    place = place_of(Part.CIRCUIT, circuit.id)
    due = [expected.meter.get(slot_of(each, place, Stage.DEAD)) for each in pair]
    if all(isinstance(each, Worked) and each.value > 0 for each in due):
        one, other = (Ohm(each.value) for each in due if isinstance(each, Worked))
        return one, other, False
    return None


def _line(ends: tuple[Ohm, Ohm, bool] | None) -> tuple[tuple[float, Ohm], ...]:
    if ends is None:
        return ()
    places = (at / _STEPS for at in range(_STEPS + 1))
    return tuple((x, cross_connected(ends[0], ends[1], x)) for x in places)


def _point(
    record: Record,
    expected: Expected,
    circuit: Circuit,
    quantity: Quantity,
    point: Point,
    x: float,
    doubted: Collection[Slot],
) -> RingPoint:
    place = place_of(Part.CIRCUIT, circuit.id, point.id)
    slot = slot_of(quantity, place, Stage.DEAD)
    readings = record.taken(slot)
    taken = readings[-1].taken if readings else None
    figure = taken if isinstance(taken, Figure) else None
    due = expected.meter.get(slot)
    return RingPoint(
        point.id,
        point.name or point.id,
        x,
        Ohm(figure.value) if figure is not None and figure.sign is Sign.EQUAL else None,
        figure is not None and figure.sign is Sign.OVER,
        Ohm(due.value) if isinstance(due, Worked) else None,
        slot in doubted,
        bool(point.spur),
    )
