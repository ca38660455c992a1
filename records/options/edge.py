"""Trying one step after another: the last that still holds, and what stops the next."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from records.judgement.compare import SLACK
from records.judgement.design.all_checks import design_lines
from records.judgement.design.line import line
from records.judgement.facts import FEED, Facts
from records.judgement.remedy.smallest_change import worse
from records.judgement.review_types import Judged
from records.model.reading import Place
from records.model.record import Record
from records.options.cell import Cell, Check, gravity
from records.options.cells import feed_alone
from records.terms import Verdict


@dataclass(frozen=True, slots=True)
class Edge:
    """How far something can go."""

    steps: int
    """How many steps still hold; 0: not even one."""
    stops: tuple[Judged, ...]
    """What fails with one step more; empty: nothing did, up to where it was tried."""
    already: bool = False
    """Whether that fails as it is: then no step holds, however small."""


def checks(record: Record) -> dict[str, Judged]:
    """Return the design checks of a record by their keys.

    While circuits are not all entered the feed's own voltage drop is one of them: else nothing
    would be held against it.
    """
    facts = Facts.of(record, expected(record))
    found = {each.key: each for each in design_lines(facts)}
    alone = feed_alone(record)
    if alone is not None:
        base = line(facts, FEED, What.VOLT_DROP, "voltage drop, its share")
        found[base.key] = base._replace(
            verdict=alone.verdict, why=alone.why, expected=alone.result, weight=10
        )
    return found


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


Quick = Callable[[Record], Iterable[Cell]]
"""Works out the few checks that a step can change: to find the edge with little work."""


def edge(
    before: Mapping[str, Judged],
    quick: Quick,
    step: Callable[[int], Record],
    most: int,
    *,
    aside: bool = False,
) -> Edge:
    """Return how many steps can be taken before a design check gets worse than it may.

    One that fails now stops at the first step that makes it fail by more.

    The checks have to get worse step by step, which they do for loads and lengths; then the search
    halves what is left. It is done with a few checks; all of them are looked at where it ends, and
    have the last word.

    Args:
        before: All design checks of the job as it is.
        quick: The checks that decide as a rule.
        step: Gives the record with so many steps taken; 0: as it is.
        most: Up to where it is tried.
        aside: Whether what fails already is left aside.
    """
    now = _gravest(quick(step(0)))

    def new(steps: int) -> tuple[Judged, ...]:
        found = made_worse(before, step(steps))
        return tuple(each for each in found if not (aside and _failed(before.get(each.key))))

    def guessed(steps: int) -> bool:
        after = _gravest(quick(step(steps)))
        return not any(_is_worse(now.get(key), each, aside) for key, each in after.items())

    guess, stops = _last(0, most, guessed), None
    if guess and new(guess):
        guess = _last(0, guess - 1, lambda steps: not new(steps))
    elif guess < most:
        stops = new(guess + 1)
        if not stops:
            guess, stops = _last(guess + 1, most, lambda steps: not new(steps)), None
    if stops is None:
        stops = new(guess + 1) if guess < most else ()
    return Edge(guess, stops, bool(stops) and _failed(before.get(stops[0].key)))


def _last(low: int, high: int, holds: Callable[[int], bool]) -> int:
    """Return the last number from `low`, which holds, up to `high` that holds."""
    if high <= low or holds(high):
        return max(low, high)
    while high - low > 1:
        middle = (low + high) // 2
        if holds(middle):
            low = middle
        else:
            high = middle
    return low


def _gravest(cells: Iterable[Cell]) -> dict[tuple[Check, Place], Cell]:
    found: dict[tuple[Check, Place], Cell] = {}
    for each in cells:
        key = each.check, each.place
        found[key] = min(found.get(key, each), each, key=gravity)
    return found


def _failed(line: Judged | None) -> bool:
    return line is not None and line.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY)


def _is_worse(before: Cell | None, after: Cell, aside: bool) -> bool:
    was = Verdict.WITHIN if before is None else before.verdict
    if after.verdict is Verdict.NOT_TAKEN:
        return was is not Verdict.NOT_TAKEN and before is not None
    if after.verdict is not Verdict.OUTSIDE or was is not Verdict.OUTSIDE:
        return after.verdict is Verdict.OUTSIDE
    more = (after.used or 0.0) > ((before.used if before is not None else None) or 0.0) + SLACK
    return more and not aside


def unknown(cells: Iterable[Cell]) -> str:
    """Return why a check can't be judged as an input is missing; empty if all can."""
    for each in cells:
        if isinstance(each.result, NotWorkedOut) and each.verdict is Verdict.NOT_TAKEN:
            return each.result.why
    return ""
