"""Two circuits that show each other's reading."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.path import LEAST, SHARE
from records.judgement.facts import BOARD, Facts
from records.model.reading import Quantity, Slot, slot_of
from records.terms import Stage, Verdict


def swapped(facts: Facts) -> Iterator[Pattern]:
    """Each of two circuits is off its own expectation and fits the other's."""
    for quantity, stages in (
        (Quantity.R1_R2, (Stage.BEFORE_COVERING, Stage.DEAD)),
        (Quantity.ZS, (Stage.LIVE,)),
    ):
        for stage in stages:
            slots = [slot_of(quantity, place, stage) for _, place in facts.circuits()]
            for one, other in combinations(slots, 2):
                if _swapped(facts, one, other):
                    yield _pattern(facts, one, other)


def _swapped(facts: Facts, one: Slot, other: Slot) -> bool:
    a, b = facts.plain(one), facts.plain(other)
    ea, eb = facts.meter_value(one), facts.meter_value(other)
    if a is None or b is None or ea is None or eb is None:
        return False
    off = abs(a - ea) > _allowed(ea) and abs(b - eb) > _allowed(eb)
    return off and abs(a - eb) <= _allowed(eb) and abs(b - ea) <= _allowed(ea)


def _allowed(expected: float) -> float:
    return max(LEAST, SHARE * expected)


def _pattern(facts: Facts, one: Slot, other: Slot) -> Pattern:
    names = f"{facts.title(one.place)} and {facts.title(other.place)}"
    concern = Concern(
        "readings swapped", Verdict.UNLIKELY,
        f"{names}: each is off what is expected and fits the other.",
        ("the tails are labelled the wrong way round", "the readings stand in each other's row"),
        do(
            Act.LEAVE_OFF,
            "Until it is known, isolate the whole board: the named breaker may not make it dead.",
        )
        + do(Act.AGAIN, "Read one of them again at the point that is named."), cite.COMMON, 25,
    )  # fmt: skip
    mark = f"{one.place.circuit}+{other.place.circuit}"
    title = f"{one.quantity.value} of {names}"
    return Pattern(concern, BOARD, title, (one, other), (one, other), mark=mark)
