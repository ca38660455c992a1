"""Voltage drop of the feed and the circuits, with the loads where they are."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from records.errors import NotTabulated
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, once, where
from records.expected.feed_load import feed_current
from records.expected.formulas.drop import LoadAt, radial_drop, ring_drop
from records.expected.loads import design_current, point_current
from records.expected.results import Cited, Worked
from records.expected.workings import Missing, need, placed
from records.model.circuit import Circuit, Point
from records.model.wiring import Run
from records.tables.demand import ring_load_at_end
from records.tables.drop import drop_limit, volt_drop
from records.tables.known_sizes import must_be, no_such_size
from records.tables.rounding import cut_down
from records.tables.table import Published
from records.terms import Form, Use
from records.units import Ampere, Ohm, OhmPerMetre, SquareMillimetre, Unit, Volt

_HOT = "With conductors at operating temperature: on the safe side."
Placed = list[tuple[Point, float]]
"""Points and what they draw [A]."""
_AT_END = (
    "Worst case: all of the load at the furthest point. Enter the loads at their points to take "
    "them "
    "where they are."
)

_ONE_POINT = "Worst case: all of the load at the furthest point."


@dataclass(slots=True)
class _Cable:
    """Runs in series: length [m] and z, line and neutral [Ω/m], of each."""

    parts: list[tuple[float, Published[OhmPerMetre]]]

    @property
    def length(self) -> float:
        return sum(length for length, _ in self.parts)

    @property
    def whole(self) -> Ohm:
        """Line and neutral, one way each [Ω]."""
        return Ohm(sum(length * each.value for length, each in self.parts))

    def to(self, at: float) -> tuple[Ohm, OhmPerMetre]:
        """Return line and neutral as far as a place [Ω], and z of the cable that lies there."""
        found, here = 0.0, self.parts[-1][1].value
        for length, each in self.parts:
            piece = min(length, max(at, 0.0))
            found += piece * each.value
            at -= length
            here = each.value
            if at <= 0:
                break
        return Ohm(found), here

    def __str__(self) -> str:
        return " + ".join(f"{each.value * 1000:.3g} × {length:g}" for length, each in self.parts)

    def cited(self) -> tuple[Source, ...]:
        """Return the sources."""
        return (cited.DROP, *(each.source for _, each in self.parts))


def _cable(runs: tuple[Run, ...], at: str) -> _Cable:
    if not runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    parts = []
    for number, run in enumerate(runs, start=1):
        length, csa, cable = run.length, run.csa, run.cable
        if length is None or csa is None or cable is None:
            here = f"{at}, run {number}"
            need(length, "the length is", here)
            need(csa, "the line's cross-section is", here)
            raise Missing(f"the kind of cable is not entered yet ({here}).")
        try:
            must_be(no_such_size(cable, csa))
            each = volt_drop(cable, SquareMillimetre(csa))
        except NotTabulated as error:
            raise placed(error, f"{at}, run {number}") from None
        parts.append((length, each))
    return _Cable(parts)


@once
def feed_drop(context: Context) -> Worked:
    """Return the voltage drop of the feed.

    Where Ib is only added up from the circuits and comes to more than the feed's own device
    carries for long, In is taken for it.
    """
    load = feed_current(context)
    current, notes = load.value, [load.note]
    rating = context.record.feed.device.rating
    if context.record.feed.load is None and rating is not None and rating < current:
        current, notes = rating, [f"Loaded with In {rating:g} A: the circuits add up to more."]
    return _feed_drop(context, current, notes)


@once
def _feed_cable(context: Context) -> _Cable:
    return _cable(context.record.feed.runs, "Feed")


def _feed_drop(context: Context, current: float, notes: Sequence[str]) -> Worked:
    cable = _feed_cable(context)
    return Worked(
        "ΔU",
        cable.whole * current,
        Unit.VOLT,
        "ΔU = Σ (mV/A/m) · L · Ib / 1000",
        ("({}) × {:.3g} / 1000", cable, current),
        (cable,),
        note=lambda: " ".join(filter(None, (_HOT, *notes))),
    )


def _feed_for(context: Context, circuit: Circuit, own: float) -> Worked:
    """Return the feed's drop as a circuit meets it: with at least its own Ib in the feed."""
    feed = feed_drop(context)
    cable = _feed_cable(context)
    if not own * cable.whole > feed.value:
        return feed
    return _feed_drop(context, own, [f"With Ib of {circuit.id}, which is more than the feed's."])


def drop_before(context: Context, circuit: Circuit) -> Volt:
    """Return how much of the voltage drop at a circuit's furthest point is lost in the feed [V].

    Raises:
        Missing: As for `circuit_drop`.
    """
    return Volt(_feed_for(context, circuit, design_current(context, circuit).value).value)


def circuit_drop(context: Context, circuit: Circuit) -> Worked:
    """Return the highest voltage drop from the origin to any point of a circuit."""
    load = design_current(context, circuit).value
    feed = _feed_for(context, circuit, load)
    at = where(circuit)
    need(circuit.form, "the arrangement of the circuit is", at)
    cable = _cable(circuit.runs, at)
    if circuit.form is Form.RING:
        return _ring(context, circuit, feed, cable, load)
    return _radial(context, circuit, feed, cable, load)


def _radial(context: Context, circuit: Circuit, feed: Worked, cable: _Cable, load: float) -> Worked:
    points, rest, cut = _placed(context, circuit, load, lambda at: at)
    loads = [_load_at(cable, each, current, cable.length) for each, current in points]
    # The rest is at the end of the cable, or of a branch off it, wherever it drops most.
    ends = [LoadAt(Ampere(rest), cable.whole, Ohm(0.0))]
    ends += [_load_at(cable, each, rest, cable.length) for each in _branches(circuit, points)]
    drops = [radial_drop([*loads, each], cable.whole) for each in ends]
    own = max(drops)
    if not loads:
        low = _shared_by_lamps(circuit, cable, load)
        branch = own > drops[0]
        text = f"{own:.3g}, at the end of a branch off " if branch else ""
        text += f"({cable}) × {load:.3g} / 1000"
        note = _AT_END if len(circuit.points) != 1 else _ONE_POINT
        return _added(feed, own, text, (cable,), note, None if low is None else low + feed.value)
    note = f"With the loads of {len(loads)} points where they are{_rest(rest)}.{cut}"
    text = f"{own:.3g}, from {_listed(points)} along {cable} mV/A"
    return _added(feed, own, text, (cable,), note)


def _shared_by_lamps(circuit: Circuit, cable: _Cable, load: float) -> float | None:
    """Return what it would be if all lamps of a circuit drew alike; None if that isn't known."""
    points = circuit.points
    if circuit.use is not Use.LIGHTING or len(points) < _SEVERAL:
        return None
    if any(each.at is None for each in points):
        return None
    each_one = load / len(points)
    return radial_drop(
        [_load_at(cable, each, each_one, cable.length) for each in points], cable.whole
    )


_SEVERAL = 2


def _branches(circuit: Circuit, loaded: Placed) -> list[Point]:
    """Return the points on spurs that have no load of their own."""
    known = {each.id for each, _ in loaded}
    return [each for each in circuit.points if each.spur and each.id not in known]


def _ring(context: Context, circuit: Circuit, feed: Worked, cable: _Cable, load: float) -> Worked:
    points, rest, cut = _placed(context, circuit, load, lambda at: min(at, cable.length - at))
    half = cable.length / 2
    loads = [_load_at(cable, each, current, half) for each, current in points]
    most = ring_load_at_end()
    end = min(rest, most.value)
    spurs = [
        (place.at, Ohm(place.spur * _share_through(each, end)))
        for each in _branches(circuit, points)
        for place in (_load_at(cable, each, 0.0, half),)
    ]
    own = ring_drop(loads, cable.whole, movable=Ampere(end), spread=Ampere(rest - end), spurs=spurs)
    where_rest = f"{end:.3g} A at the worst point{' or spur' if spurs else ''}"
    where_rest += ", the rest spread evenly" if rest > end else ""
    parts = [f"the loads of {len(loads)} points where they are"] if loads else []
    parts += [where_rest] if rest else []
    text = f"{own:.3g}, ring of ({cable}) mV/A"
    text += f", {_listed(points)}" if points else ""
    sources = (most.source, cable) if rest else (cable,)
    return _added(feed, own, text, sources, f"Ring: {', '.join(parts)}.{cut}")


def _share_through(point: Point, current: float) -> float:
    """Return how much of a current a spur carries: no more than the fuse of its connection unit."""
    return 1.0 if point.fuse is None or not current else min(point.fuse / current, 1.0)


def _placed(
    context: Context, circuit: Circuit, load: float, far: Callable[[float], float]
) -> tuple[Placed, float, str]:
    """Return the points with loads, what of Ib is at none of them [A], and a note.

    Where they come to more than Ib, not all are on at once: those that drop most count first.
    """
    found = [
        (each, current)
        for each in circuit.points
        if (current := point_current(each, context.u0)) is not None
    ]
    total = sum(current for _, current in found)
    if total <= load:
        return found, max(load - total, 0.0), ""
    left = load
    taken: Placed = []

    def reach(pair: tuple[Point, float]) -> float:
        at = math.inf if pair[0].at is None else far(pair[0].at)
        return at + (pair[0].spur or 0.0)

    for point, current in sorted(found, key=reach, reverse=True):
        if left <= 0:
            break
        taken.append((point, min(current, left)))
        left -= current
    note = f" They add up to {total:.3g} A, more than Ib: the furthest are taken first."
    return taken, 0.0, note


def _load_at(cable: _Cable, point: Point, current: float, without: float) -> LoadAt:
    """Return the load of a point at its place; without a place at `without` [m]."""
    at = without if point.at is None else min(point.at, cable.length)
    found, here = cable.to(at)
    return LoadAt(Ampere(current), found, Ohm(here * (point.spur or 0.0)))


def _rest(rest: float) -> str:
    return f", and {rest:.3g} A at the furthest point" if rest > _NONE else ""


_NONE = 1e-9
"""A: what is left of Ib by rounding alone."""


def _listed(points: Placed) -> str:
    return ", ".join(
        f"{current:.3g} A " + ("no place entered" if each.at is None else f"at {each.at:g} m")
        for each, current in points
    )


def _added(
    feed: Worked, own: Volt, text: str, sources: Cited, note: str, low: float | None = None
) -> Worked:
    return Worked(
        "ΔU",
        feed.value + own,
        Unit.VOLT,
        "ΔU = ΔU of the feed + ΔU of the circuit",
        ("{:.2f} + {}", feed.value, text),
        (feed, *sources),
        low=low,
        note=note,
    )


def drop_limit_of(context: Context, circuit: Circuit) -> Worked:
    """Return the highest voltage drop from the origin to a circuit's furthest point."""
    if circuit.use is None:
        need(circuit.use, "what the circuit feeds is", where(circuit))
    return _drop_limit(circuit.use is Use.LIGHTING, context.u0)


@lru_cache(maxsize=64)
def _drop_limit(lighting: bool, u0: float) -> Worked:
    share = drop_limit(lighting=lighting)
    return Worked(
        "ΔU",
        cut_down(share.value * u0),
        Unit.VOLT,
        "ΔU ≤ share of U0",
        f"{share.value * 100:g} % of {u0:g}",
        (share.source,),
    )
