"""Design checks that fail only because a reading is worse than the design."""

from __future__ import annotations

from collections.abc import Iterable

from records.expected.plan import expected
from records.expected.results import What
from records.judgement.facts import BOARD, ORIGIN, Facts
from records.judgement.one_reading import own_line
from records.judgement.review_types import Judged
from records.model.reading import Quantity, slot_of
from records.terms import Stage, Verdict

_REACHED = (What.ZS, What.TIME, What.CPC_SIZE, What.BREAKING)
"""Checks that take a highest or a lowest current, which a reading can make worse."""
_READ = (
    (ORIGIN, Quantity.ZE),
    (ORIGIN, Quantity.FAULT_LN),
    (ORIGIN, Quantity.FAULT_LE),
    (BOARD, Quantity.ZDB),
    (BOARD, Quantity.FAULT_LN),
    (BOARD, Quantity.FAULT_LE),
)


def told_by_readings(
    facts: Facts, lines: Iterable[Judged], without: Iterable[Judged]
) -> list[Judged]:
    """Let a reading that is a finding tell what it does to the design.

    Args:
        facts: The record.
        lines: Its design checks.
        without: The same checks of the record without its readings; asked for only if needed.
    Returns:
        The lines. One that would hold without the readings points to the gravest reading that is
        outside or unlikely; where all readings are sound it stays a finding of its own.
    """
    done = list(lines)
    late = [each for each in done if each.verdict is Verdict.OUTSIDE and each.what in _REACHED]
    doubted = _doubted(facts) if late else ""
    if not doubted:
        return done
    sound = {each.key for each in without if each.verdict is not Verdict.OUTSIDE}
    return [
        each._replace(part_of=doubted) if each in late and each.key in sound else each
        for each in done
    ]


def without_readings(facts: Facts) -> Facts:
    """Return the same job before anything was read."""
    record = facts.record.model_copy(update={"readings": (), "remedies": ()})
    return Facts.of(record, expected(record))


def _doubted(facts: Facts) -> str:
    """Return the key of the gravest of the readings that a current follows from."""
    found = [own_line(facts, slot_of(quantity, place, Stage.LIVE)) for place, quantity in _READ]
    for verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY):
        of_it = [each for each in found if each.verdict is verdict]
        if of_it:
            return max(of_it, key=lambda each: each.weight).key
    return ""
