"""Trying one step after another: the last that still holds, and what stops the next."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from records.expected.plan import expected
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.judgement.remedy.smallest_change import worse
from records.judgement.review_types import Judged
from records.model.record import Record


@dataclass(frozen=True, slots=True)
class Edge:
    """How far something can go."""

    steps: int
    """How many steps still hold; 0: not even one."""
    stops: tuple[Judged, ...]
    """What fails with one step more; empty: nothing did, up to where it was tried."""


def checks(record: Record) -> dict[str, Judged]:
    """Return the design checks of a record by their keys."""
    return {each.key: each for each in design_lines(Facts.of(record, expected(record)))}


def made_worse(before: Mapping[str, Judged], record: Record) -> tuple[Judged, ...]:
    """Return the checks that a change makes fail, fail by more, or no longer be shown.

    Args:
        before: The checks without the change.
        record: The job with it.
    """
    now = checks(record)
    found = [each for key, each in now.items() if worse(before.get(key), each)]
    # What another line tells as a whole stands behind it.
    return tuple(sorted(found, key=lambda each: (bool(each.part_of), each.rank)))


def edge(record: Record, step: Callable[[int], Record], most: int) -> Edge:
    """Return how many steps can be taken before a design check gets worse than it may.

    One that fails now stops at the first step that makes it fail by more.

    The checks have to get worse step by step, which they do for loads and lengths; then the search
    halves what is left.

    Args:
        record: The job as it is.
        step: Gives the record with so many steps taken.
        most: Up to where it is tried.
    """
    before = checks(record)

    def new(steps: int) -> tuple[Judged, ...]:
        return made_worse(before, step(steps))

    stops = new(most)
    if not stops:
        return Edge(most, ())
    low, high = 0, most
    while high - low > 1:
        middle = (low + high) // 2
        found = new(middle)
        if found:
            high, stops = middle, found
        else:
            low = middle
    return Edge(low, stops)
