"""Insulation resistance: the limit, what new wiring shows, and what a low pair means."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.cable_path import wet_place
from records.judgement.concern import Concern
from records.judgement.fabric.behind import look_along, split_at
from records.judgement.facts import Facts
from records.judgement.insulation.likely_causes import NEW, PAIRS, meaning, pair
from records.judgement.insulation.test_method import gentle, how_taken, two_voltages, voltage_used
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.wording import rounded, said
from records.model.reading import Figure, Quantity, Reading, Slot, slot_of
from records.model.slots import measured_by
from records.tables.testing import insulation_minimum
from records.terms import Sign, Stage, Verdict
from records.units import Unit, Volt

_FALL = 10.0
"""How many times lower than before covering is a fall worth a look: common practice."""
_TOP = 20_000.0
"""MΩ that installation testers show at most, about: common practice."""
_GROUP_SHARE = 0.5
"""Of what the circuits come to: less than this is more than scatter. Common practice."""


def _least(facts: Facts, _slot: Slot) -> Bound:
    found = insulation_minimum(Volt(facts.record.origin.u0))
    return Limit(Sense.LEAST, found.value / 1e6, Unit.MEGOHM, found.source, digits=1)


def _low(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is Verdict.OUTSIDE:
            causes, check = meaning(facts, reading.slot, figure)
            for found in two_voltages(facts, reading, figure):
                causes, check = (*found.causes, *causes), found.next_check
            yield each._replace(causes=causes, next_check=check, weight=30)
        else:
            yield each._replace(next_check=_LOWERS)


def _concerns(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from how_taken(facts, reading, figure)
    yield from _too_good(figure)
    fallen = list(_fallen(facts, reading, figure))
    yield from fallen
    if not fallen:
        yield from _not_new(facts, reading, figure)


def _not_new(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    if figure.value >= NEW or gentle(facts, reading):
        return
    if figure.sign is Sign.OVER:
        yield Concern(
            "insulation-not-shown",
            Verdict.UNLIKELY,
            f"New, dry wiring shows {NEW:.0f} MΩ or more, and this range doesn't reach that.",
            next_check=do(Act.AGAIN, "Repeat on the highest range of the meter."),
        )
    else:
        yield Concern(
            "insulation-not-new",
            Verdict.UNLIKELY,
            f"New, dry wiring shows {NEW:.0f} MΩ or more.",
            (
                wet_place(facts, reading.slot.place),
                "something still connected",
                "leads damp or dirty",
            ),
            do(
                Act.LIFT,
                "Dry, clean leads. Loads and electronics out. Repeat, on another day if need be.",
            ),
        )


def _too_good(figure: Figure) -> Iterator[Concern]:
    """More than a tester reaches: 400 000 Ω typed as megohms would pass, and is 0.4 MΩ.

    A low figure is never taken for gigohms: it may be a nail.
    """
    if figure.value > _TOP:
        yield Concern(
            "insulation-too-good",
            Verdict.UNLIKELY,
            f"{figure.value:.0f} would fit as kΩ: is it "
            f"{rounded(figure.value / 1000, Unit.MEGOHM)}? As Ω it is only "
            f"{rounded(figure.value / 1e6, Unit.MEGOHM)}.",
            ("kΩ or Ω typed as MΩ", "a figure too long by a digit or more"),
            do(Act.ENTER, "Read it again and type it with its unit, such as 0.4 Mohm."),
            cite.COMMON,
            25,
        )


def _fallen(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Well below what the same pair showed before covering."""
    slot = reading.slot
    if slot.stage is Stage.BEFORE_COVERING or figure.sign is Sign.OVER:
        return
    early = pair(slot, slot.quantity, Stage.BEFORE_COVERING)
    before = facts.figure(early)
    if before is None or before.sign is Sign.UNDER or figure.value >= NEW:
        return
    if before.value <= _FALL * figure.value or gentle(facts, reading):
        return
    others = [facts.figure(pair(slot, each)) for each in PAIRS if each is not slot.quantity]
    one = all(now is not None and now.value >= NEW for now in others)
    causes = (
        ("a screw or nail has gone into the cable since it was covered", "a crushed cable")
        if one and slot.quantity is Quantity.IR_LE
        else ("something connected since", "a screw or nail in the cable")
        if one
        else ("damp plaster or a wet box: all pairs fall and recover", "damage since covering")
    )
    yield Concern(
        "insulation-fallen",
        Verdict.UNLIKELY,
        f"Before covering this pair showed {said(before, measured_by(early))}"
        f"{_times(before, figure)}{'; the other pairs are still high' if one else ''}.",
        causes,
        look_along(facts.record, slot.place) + split_at(facts.record, slot.place),
        weight=30,
    )


def _times(before: Figure, now: Figure) -> str:
    """Return how many times as much it was, where both are figures above zero.

    A meter has two figures worth saying here, and beyond a thousand none: `> 999` is no amount.
    """
    if now.value <= 0:
        return ""
    ratio = before.value / now.value
    if ratio >= 1000:
        return ", more than a thousand times as much"
    step = 10 if ratio >= 100 else 1
    if before.sign is Sign.OVER or now.sign is Sign.UNDER:
        return f", more than {int(ratio // step) * step} times as much"
    return f", {round(ratio / step) * step} times as much"


def _group(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from voltage_used(facts, reading)
    yield from _too_good(figure)
    behind = [
        found
        for _, place in facts.circuits()
        for each in (Quantity.IR_LE, Quantity.IR_NE)
        if (found := facts.figure(slot_of(each, place, Stage.DEAD))) is not None and found.value > 0
    ]
    if not behind or figure.sign is Sign.OVER or any(each.sign is Sign.UNDER for each in behind):
        return
    # Side by side they come to less than any of them; with over-range ones to no less than this.
    together = 1 / sum(1 / each.value for each in behind)
    if figure.value < _GROUP_SHARE * together:
        yield Concern(
            "group-below-circuits",
            Verdict.UNLIKELY,
            f"The circuits that were read alone come to {rounded(together, Unit.MEGOHM)} "
            "side by side.",
            _IN_THE_BOARD,
            _LIFT,
            cite.COMMON,
            10,
        )


def _group_low(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        yield each._replace(causes=_IN_THE_BOARD, next_check=_LIFT, weight=20)


_IN_THE_BOARD = (
    "electronics in the board: RCBOs, AFDDs, surge protection, indicators",
    "one bad circuit: the worst pulls all of them down",
    "a damp board, or a circuit that wasn't read alone",
)
_LIFT = do(Act.LIFT, "Disconnect what is electronic; circuits out one at a time, and repeat.")


def _foil(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from how_taken(facts, reading, figure)
    yield from _too_good(figure)
    yield from _not_new(facts, reading, figure)


def _foil_low(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is not Verdict.OUTSIDE:
            yield each._replace(next_check=_LOWERS)
            continue
        yield each._replace(
            weight=40,
            says=f"{each.says} The lining could be live, and no reading to earth shows it while "
            "it is joined to none.",
            causes=(
                "a staple, a screw or a cut edge has gone into the cable",
                "the lining touches the screws or terminals of a box",
            ),
            next_check=do(Act.LEAVE_OFF, "Keep it isolated and locked off.")
            + do(Act.OPEN, "Look at staples and cut edges; cut the lining back from boxes.")
            + do(Act.ASK, "The certifier decides whether it is bonded."),
        )


_LOWERS = do(Act.LIFT, "Loads and electronics out, and repeat: new wiring is far above.")


FOIL = Rule(_least, _foil, _foil_low)
INSULATION = Rule(_least, _concerns, _low)
GROUP = Rule(_least, _group, _group_low)
