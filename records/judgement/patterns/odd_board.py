"""Zdb that every circuit contradicts alike: it is the odd one out, not the circuits."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.judgement.loop.circuit_share import own_share
from records.judgement.loop.loop_facts import is_calculated
from records.judgement.loop.zs import most_loop
from records.judgement.older import read_again
from records.judgement.review_types import Limit
from records.judgement.wording import rounded
from records.model.reading import Quantity, Slot, slot_of
from records.terms import Stage, Verdict
from records.units import Unit

LEAST = 3
"""Circuits that agree against one reading: common practice."""
ALIKE = 0.1
"""Ω that what they say of Zdb may differ by: common practice."""
OFF, OFF_SHARE = 0.15, 0.3
"""Ω, and share of what they say, that Zdb is off at least: common practice."""


def odd_board(facts: Facts) -> Iterator[Pattern]:
    """Every circuit's Zs less its R1+R2 gives the same, and Zdb as read is something else."""
    slot = slot_of(Quantity.ZDB, BOARD, Stage.LIVE)
    zdb, last = facts.plain(slot), facts.last(slot)
    if zdb is None or last is None or is_calculated(last):
        return
    says: dict[Slot, float] = {}
    for circuit, place in facts.circuits():
        each = slot_of(Quantity.ZS, place, Stage.LIVE)
        value, own = facts.plain(each), own_share(facts, circuit)
        if value is not None and own is not None and not is_calculated(facts.attempts(each)[-1]):
            says[each] = value - own
    if len(says) < LEAST or max(says.values()) - min(says.values()) > ALIKE + SLACK:
        return
    middle = median(says.values())
    if abs(zdb - middle) <= max(OFF, OFF_SHARE * abs(middle)) + SLACK:
        return
    expected = facts.meter_value(slot)
    if expected is not None and abs(zdb - expected) <= max(OFF, OFF_SHARE * expected) + SLACK:
        return  # it is as the design has it: the circuits have something in common
    concern = read_again(facts, last, *says) or Concern(
        "odd zdb",
        Verdict.UNLIKELY,
        f"All {len(says)} circuits give about {rounded(middle, Unit.OHM)} for it (Zs less R1+R2): "
        "they agree, and this reading does not.",
        ("read at another board, or written in the wrong row",),
        do(Act.READ_LIVE, "Read Zdb again at its incoming terminals; the circuits can wait."),
        cite.LOOP_METHOD,
        5,
    )
    fine = tuple(each for each in says if not _is_over(facts, each))
    yield Pattern(
        concern, BOARD, "Board: Zdb against all circuits", (slot, *says), gathers=fine, into=slot
    )


def _is_over(facts: Facts, slot: Slot) -> bool:
    value, bound = facts.plain(slot), most_loop(facts, slot)
    return value is not None and isinstance(bound, Limit) and value > bound.value + SLACK
