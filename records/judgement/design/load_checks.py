"""Design checks of loads: a circuit against its feed, a motor's start, a load and what it is on."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import What, Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.design.line import design_key, line
from records.judgement.facts import FEED, Facts
from records.judgement.review_types import Judged
from records.judgement.wording import rounded
from records.model.circuit import Circuit
from records.model.reading import Place
from records.tables.devices import breaker_band
from records.terms import LoadKind, Use, Verdict
from records.units import Unit

_OF_USE = {LoadKind.SOCKETS: Use.SOCKETS, LoadKind.LIGHTING: Use.LIGHTING}
"""Kinds of load that only one use of a circuit has."""


def load_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each load that doesn't fit what feeds it; none where all fit."""
    for circuit, place in facts.circuits():
        yield from _above_feed(facts, circuit, place)
        yield from _device_above_feed(facts, circuit, place)
        yield from _start(facts, circuit, place)
        yield from _kind(facts, circuit, place)
        yield from _at_points(facts, circuit, place)


def _amperes(value: float) -> str:
    return rounded(value, Unit.AMPERE, 1)


def _above_feed(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A circuit that draws more than the feed was said to carry, or than its device does."""
    own, feed = facts.design(place, What.IB), facts.record.feed
    if not isinstance(own, Worked):
        return
    stated = bool(circuit.load or circuit.power or any(p.load or p.power for p in circuit.points))
    words, verdict, told = "", Verdict.OUTSIDE, ""
    if feed.device.rating is not None and own.value > feed.device.rating + SLACK:
        words = f"the feed's device is {feed.device.rating:g} A"
        told = design_key(FEED, What.IB.value)  # the feed carries as much: its own check says so
    elif stated and feed.load is not None and own.value > feed.load + SLACK:
        words, verdict = f"Ib of the feed is entered as {_amperes(feed.load)}", Verdict.UNLIKELY
    if words:
        yield line(facts, place, "load above the feed", "Ib against the feed")._replace(
            verdict=verdict,
            source=cite.OVERLOAD,
            weight=20,
            part_of=told,
            why=f"Ib {own}; {words}. The feed carries at least its largest circuit.",
            causes=(
                "the load, or Ib of the feed, was entered wrongly",
                "the feed was planned before this load",
            ),
            next_check=do(
                Act.ENTER,
                "Enter the load and Ib of the feed again. If both are right, "
                "plan a larger feed or less load.",
            ).text(),
        )


def _device_above_feed(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A device of a higher rating than the one before the feed: that one opens first."""
    own, feed = circuit.device.rating, facts.record.feed.device.rating
    if own is None or feed is None or own <= feed + SLACK:
        return
    yield line(facts, place, "device above the feed", "In against the feed's device")._replace(
        verdict=Verdict.UNLIKELY,
        source=cite.bs7671("Regulation 536.4.1"),
        weight=8,
        why=f"In {own:g} A; the feed's device is {feed:g} A. On overload the whole outbuilding "
        "goes off before this circuit does.",
        causes=("one of the ratings was entered wrongly", "the device is too large for this feed"),
        next_check=do(
            Act.PLAN,
            "Plan a smaller device here. A larger one before the feed only if its cable allows it.",
        ).text(),
    )


def _start(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A motor whose start a breaker may take for a fault."""
    device, starting = circuit.device, circuit.starting
    if starting is None or device.kind is None or device.kind.is_fuse or device.rating is None:
        return
    band = breaker_band(device.kind)
    least, most = band.lower * device.rating, band.upper * device.rating
    base = line(facts, place, "motor start", "starting current")._replace(
        weight=6, source=band.source
    )
    words = f"Starting current {starting:g} A; {device.kind} {device.rating:g} A opens at once"
    if starting < least - SLACK:
        why = f"{words} from {least:g} A at the earliest."
        yield base._replace(verdict=Verdict.WITHIN, why=why)
        return
    opens = starting >= most - SLACK
    says = f"{words} {'at' if opens else 'from'} {most if opens else least:g} A."
    yield base._replace(
        verdict=Verdict.OUTSIDE if opens else Verdict.NEAR,
        why=f"{says} {'It opens' if opens else 'It may open'} when the motor starts.",
        causes=("a breaker of a curve for resistive loads",),
        next_check=do(
            Act.PLAN,
            "Plan a device of type C or D whose Zs limit the loop still keeps, or a soft start.",
        ).text(),
    )


def _kind(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A kind of load that the use of its circuit doesn't have."""
    kind, use = circuit.kind, circuit.use
    if kind is None or use is None:
        return
    fits = _OF_USE.get(kind, use) is use
    if fits and not (use is Use.LIGHTING and kind is not LoadKind.LIGHTING):
        return
    yield line(facts, place, "kind of load", "kind of load against use")._replace(
        verdict=Verdict.UNLIKELY,
        source=cite.COMMON,
        weight=5,
        why=f"Its use is {use.value}, its kind of load {kind.value}.",
        causes=("one of both was entered wrongly",),
        next_check=do(Act.ENTER, "Enter what it feeds, and the kind of load that it is.").text(),
    )


def _at_points(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """One point that draws more than the whole circuit was said to."""
    own = facts.design(place, What.IB)
    if not isinstance(own, Worked):
        return
    u0 = facts.record.origin.u0
    for point in circuit.points:
        current = point.load or (point.power or 0.0) * 1000 / u0
        if current <= own.value + SLACK:
            continue
        at = place.at_point(point.id)
        yield line(facts, at, "load above the circuit", "its load against Ib")._replace(
            verdict=Verdict.OUTSIDE,
            source=cite.OVERLOAD,
            weight=15,
            why=f"It draws {_amperes(current)}; Ib of the circuit is {own}.",
            causes=("one of both was entered wrongly",),
            next_check=do(Act.ENTER, "Enter the load of the point and Ib again.").text(),
        )


def where_lamps_are(facts: Facts, found: Judged) -> Judged:
    """Return the check of a voltage drop; not outside where only the worst case fails.

    Args:
        facts: The record.
        found: The check with all of the load at the furthest point.
    """
    drop, limit = found.expected, found.limit
    if found.verdict is not Verdict.OUTSIDE or not isinstance(drop, Worked) or limit is None:
        return found
    if drop.low is None or drop.low > limit.value + SLACK:
        return found
    circuit = next((each for each, at in facts.circuits() if at == found.place), None)
    count = len(circuit.points) if circuit is not None else 0
    return found._replace(
        verdict=Verdict.NEAR,
        causes=(),
        why=f"ΔU {drop} with all of the load at the furthest point, over {limit}. Shared alike by "
        "its "
        f"{count} points it is {rounded(drop.low, Unit.VOLT)}, which passes.",
        next_check=do(Act.ENTER, "Enter the load of each lamp at its point (Circuits).").text(),
    )
