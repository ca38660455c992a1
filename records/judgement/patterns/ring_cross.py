"""A ring's cross-connected readings together: crossed on the same leg, or bridged inside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from records.expected.formulas.ring import same_leg_joined
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.path import LEAST
from records.judgement.continuity.ring_readings import ring_value
from records.judgement.facts import Facts
from records.judgement.wording import amount
from records.model.circuit import Circuit
from records.model.reading import Place, Quantity, Slot
from records.terms import Form, Stage, Verdict
from records.units import Ohm, Unit

_SHARE = 0.15
_STAGES = (Stage.BEFORE_COVERING, Stage.DEAD)


@dataclass(frozen=True, slots=True)
class _Round:
    """The plain readings of one crossing, point by point along the ring, spurs left out."""

    circuit: Circuit
    place: Place
    quantity: Quantity
    low: float
    high: float
    slots: tuple[Slot, ...]
    values: tuple[float, ...]
    at: tuple[float | None, ...]

    @property
    def mark(self) -> str:
        """Which crossing, in the key."""
        return "L-N" if self.quantity is Quantity.CROSS_LN else "L-cpc"

    @property
    def short(self) -> tuple[Slot, ...]:
        """The readings that are less than the ring can give."""
        return tuple(
            slot
            for slot, value in zip(self.slots, self.values, strict=True)
            if value < self.low - LEAST
        )


def _rounds(facts: Facts) -> Iterator[_Round]:
    for circuit, place in facts.circuits():
        if circuit.form is not Form.RING:
            continue
        for stage, quantity in product(_STAGES, (Quantity.CROSS_LN, Quantity.CROSS_LE)):
            span = ring_value(facts, circuit, quantity)
            taken = [
                (pair[quantity is Quantity.CROSS_LE], point.at)
                for pair, point in zip(facts.points(circuit, stage), circuit.points, strict=True)
                if not point.spur
            ]
            known = [
                (slot, value, at) for slot, at in taken if (value := facts.plain(slot)) is not None
            ]
            as_designed = all(
                (expected := facts.meter_value(slot)) is not None
                and abs(value - expected) <= LEAST + SLACK
                for slot, value, _ in known
            )  # then it is the ends, which they are held against, that are off
            if span is not None and len(known) >= 3 and not as_designed:
                slots, values, at = zip(*known, strict=True)
                yield _Round(circuit, place, quantity, *span, slots, values, at)


def same_leg(facts: Facts) -> Iterator[Pattern]:
    """Readings that grow from near nothing at the board: both conductors of one leg were joined."""
    for each in _rounds(facts):
        if not each.short or not _grows(each):
            continue
        concern = Concern(
            "crossed on the same leg",
            Verdict.UNLIKELY,
            f"The readings grow from {amount(min(each.values), Unit.OHM)} near the board to "
            f"{amount(max(each.values), Unit.OHM)} half way round. Both conductors of the "
            "same leg joined give that; it is no fault in the cable.",
            ("line of leg 1 was joined to the other conductor of leg 1",),
            do(Act.JOIN, "Join opposite legs and repeat, before you doubt the cable."),
            cite.GUIDANCE,
            20,
        )
        title = f"{facts.title(each.place)}: {each.quantity.value}, all points"
        yield Pattern(concern, each.place, title, each.slots, each.short, mark=each.mark)


def _grows(each: _Round) -> bool:
    around = sum(run.length or 0.0 for run in each.circuit.runs)
    total = 4 * each.high
    if around > 0 and all(at is not None and 0 <= at <= around for at in each.at):
        given = [
            same_leg_joined(Ohm(total / 2), Ohm(total / 2), (at or 0.0) / around) for at in each.at
        ]
        return all(
            abs(value - one) <= max(LEAST, _SHARE * one)
            for value, one in zip(each.values, given, strict=True)
        )
    # Without distances: low at both ends, right in the middle, in the order the points stand.
    middle = each.values[len(each.values) // 2]
    ends = max(each.values[0], each.values[-1])
    return ends < 0.7 * middle and abs(middle - each.high) <= max(LEAST, _SHARE * each.high)


def bridged(facts: Facts) -> Iterator[Pattern]:
    """Several readings in a stretch below what the ring can give: joined across inside."""
    for each in _rounds(facts):
        if len(each.short) < 2 or _grows(each):
            continue
        concern = Concern(
            "bridge in the ring",
            Verdict.UNLIKELY,
            f"{len(each.short)} points show less than the ring's ends give "
            f"({amount(round(each.high, 2), Unit.OHM)}).",
            (
                "two conductors joined across inside the ring",
                "two rings joined to one another",
                "the ends crossed wrongly",
            ),
            do(Act.OPEN, "Split the ring half way: the ends of both halves add up to the ring."),
            cite.GUIDANCE,
            20,
        )
        title = f"{facts.title(each.place)}: {each.quantity.value}, all points"
        yield Pattern(concern, each.place, title, each.slots, each.short, mark=each.mark)
