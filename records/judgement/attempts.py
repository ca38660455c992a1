"""How each of several readings in one slot stood when it was taken: nothing is smoothed over."""

from __future__ import annotations

from dataclasses import replace

from records.judgement.facts import Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Judged, Stood
from records.model.reading import Reading, when_taken


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
    return tuple(_then(facts, each) for each in line.attempts)


def _then(facts: Facts, reading: Reading) -> Stood:
    until = when_taken(reading)
    known = {
        slot: kept
        for slot, attempts in facts.readings.items()
        if (kept := tuple(each for each in attempts if when_taken(each) <= until))
    }
    found = own_line(replace(facts, readings=known), reading.slot)
    return Stood(found.verdict, found.why)
