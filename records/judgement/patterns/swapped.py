"""Two circuits that show each other's reading."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

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
            for one, other in combinations(_off(facts, quantity, stage), 2):
                if _fits(one.read, other.expected) and _fits(other.read, one.expected):
                    yield _pattern(facts, one.slot, other.slot)


class _Off(NamedTuple):
    """A reading that is off its own expectation."""

    slot: Slot
    read: float
    expected: float


def _off(facts: Facts, quantity: Quantity, stage: Stage) -> Iterator[_Off]:
    for _, place in facts.circuits():
        slot = slot_of(quantity, place, stage)
        read, expected = facts.plain(slot), facts.meter_value(slot)
        if read is not None and expected is not None and not _fits(read, expected):
            yield _Off(slot, read, expected)


def _fits(read: float, expected: float) -> bool:
    return abs(read - expected) <= max(LEAST, SHARE * expected)


def _pattern(facts: Facts, one: Slot, other: Slot) -> Pattern:
    names = f"{facts.title(one.place)} and {facts.title(other.place)}"
    concern = Concern(
        "readings swapped",
        Verdict.UNLIKELY,
        f"{names}: each is off what is expected and fits the other.",
        ("the tails are labelled the wrong way round", "the readings are in each other's row"),
        do(
            Act.LEAVE_OFF,
            "Until it is known, isolate the whole board: the named breaker may not make it dead.",
        )
        + do(Act.AGAIN, "Read one of them again at the point that is named."),
        cite.COMMON,
        25,
    )
    mark = f"{one.place.circuit}+{other.place.circuit}"
    title = f"{one.quantity.value} of {names}"
    return Pattern(concern, BOARD, title, (one, other), (one, other), mark=mark)
