"""The same figure on circuits that can't have it: one reading written for several."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.loop.loop_facts import is_calculated
from records.judgement.loop.zs import most_loop
from records.judgement.review_types import Limit
from records.judgement.wording import amount
from records.model.reading import Quantity, Slot, slot_of
from records.terms import Stage, Verdict
from records.units import Unit

LEAST = 3
"""Equal readings that are more than chance: common practice."""
HALF = 0.5
"""Of the circuits that were read: fewer that agree may be chance. Common practice."""
APART = 0.05
"""Ω that the loops of those circuits differ by at least, as expected: common practice."""
SCATTER = 0.02
"""Of a loop, that two readings of it scatter by: by an electrode it hides all that cables add.
Common practice."""


def equal_loops(facts: Facts) -> Iterator[Pattern]:
    """The same Zs on circuits whose cables differ."""
    taken = {
        slot: value
        for slot, value in _taken(facts, Quantity.ZS).items()
        if not is_calculated(facts.attempts(slot)[-1])
    }
    same = _same(taken)
    expected = [each for slot in same if (each := facts.meter_value(slot)) is not None]
    if not same or not expected:
        return
    if max(expected) - min(expected) <= max(APART, SCATTER * taken[same[0]]) + SLACK:
        return
    concern = Concern(
        "equal loops",
        Verdict.UNLIKELY,
        f"{len(same)} circuits of different length show the same Zs, "
        f"{amount(taken[same[0]], Unit.OHM)}.",
        ("all read at one point, such as the board", "one reading written for each"),
        do(Act.AGAIN, "Read each again at its own furthest point."),
        cite.COMMON,
        26,
    )
    # What is over its limit is so wherever it was read.
    fine = tuple(slot for slot in same if not _is_over(facts, slot, taken[slot]))
    yield Pattern(concern, BOARD, "Zs of several circuits, all equal", same, gathers=fine)


def equal_times(facts: Facts) -> Iterator[Pattern]:
    """The same operating time of several RCDs."""
    taken = _taken(facts, Quantity.RCD_TIME)
    same = _same(taken)
    if not same:
        return
    concern = Concern(
        "equal times",
        Verdict.UNLIKELY,
        f"{len(same)} RCDs opened in the very same time, "
        f"{amount(taken[same[0]], Unit.MILLISECOND, 0)}: true times scatter.",
        ("one device read several times", "one reading written for each"),
        do(Act.AGAIN, "Read each again at its own circuit."),
        cite.COMMON,
        12,
    )
    yield Pattern(concern, BOARD, "RCD times of several circuits, all equal", same)


def _taken(facts: Facts, quantity: Quantity) -> Mapping[Slot, float]:
    slots = (slot_of(quantity, place, Stage.LIVE) for _, place in facts.circuits())
    return {slot: value for slot in slots if (value := facts.plain(slot)) is not None}


def _same(taken: Mapping[Slot, float]) -> tuple[Slot, ...]:
    """Return the readings that share one figure, if those are more than chance."""
    if not taken:
        return ()
    figure, count = Counter(taken.values()).most_common(1)[0]
    if count < LEAST or count < HALF * len(taken):
        return ()
    return tuple(slot for slot, value in taken.items() if value == figure)


def _is_over(facts: Facts, slot: Slot, value: float) -> bool:
    bound = most_loop(facts, slot)
    return isinstance(bound, Limit) and value > bound.value + SLACK
