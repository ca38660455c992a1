"""How each of several readings in one slot stood when it was taken: nothing is smoothed over."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from records.judgement.facts import Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Judged, Stood
from records.model.reading import Reading, Slot, when_taken
from records.reuse import Once


@dataclass(frozen=True, slots=True, eq=False)
class _Until(Mapping[Slot, tuple[Reading, ...]]):
    """The readings that had been taken by some moment, looked up as they are asked for."""

    readings: Mapping[Slot, tuple[Reading, ...]]
    until: tuple[datetime, float]

    def __getitem__(self, slot: Slot) -> tuple[Reading, ...]:
        known = self.readings[slot]
        if when_taken(known[-1]) <= self.until:
            return known
        kept = tuple(each for each in known if when_taken(each) <= self.until)
        if not kept:
            raise KeyError(slot)
        return kept

    def __iter__(self) -> Iterator[Slot]:
        return (slot for slot in self.readings if slot in self)

    def __len__(self) -> int:
        return sum(1 for _ in self)


def facts_at(facts: Facts, until: tuple[datetime, float]) -> Facts:
    """Return what was known at some moment, with the design as it is now.

    Args:
        facts: The record.
        until: As `when_taken` gives it; what was taken just then counts.
    """
    # What is kept of it by name is of now: nothing of that may be taken for what was then.
    return replace(facts, readings=_Until(facts.readings, until), reuse=Once())


def stood(facts: Facts, line: Judged) -> tuple[Stood, ...]:
    """Return how each attempt of a line stood by itself; empty if there are not several.

    Each is held against the design as it is now and against the readings that had been taken by
    then, so a first reading keeps the verdict that it got.

    Args:
        facts: The record.
        line: The verdict on the last attempt.
    """
    if len(line.attempts) < 2:
        return ()
    return tuple(stood_at(facts, each) for each in line.attempts)


def stood_at(facts: Facts, reading: Reading) -> Stood:
    """Return how a reading stood by itself when it was taken."""
    found = own_line(facts_at(facts, when_taken(reading)), reading.slot)
    return Stood(found.verdict, found.why, found.causes)
