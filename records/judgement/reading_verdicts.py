"""How each single reading stands, for whoever has to decide what may be taken next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from records.judgement.concern import graver
from records.judgement.loop.ze import USUAL
from records.judgement.review_types import Judged
from records.terms import Stage, Verdict

_WRONG = (Verdict.OUTSIDE, Verdict.UNLIKELY)
_ABOUT_THE_BOOKS = (
    "identical insulation",
    "worked out backwards",
    "made by arithmetic",
    "even steps",
    "only fives and noughts",
    "calibration",
    "covered before read",
    "before the start",
    "too fast",
    "much not taken",
)
"""Patterns that doubt how readings were written down, not what they show of the wiring."""
_TO_REPEAT = "earlier tests again"
_TO_EXPLAIN = "what was done"


def reading_verdicts(lines: Sequence[Judged], *, to_repeat: bool = True) -> Mapping[str, Verdict]:
    """Return how each figure and answer stands, by the id of its reading.

    An earlier reading has the verdict that it got when it was taken. What a pattern of dead
    readings doubts is doubted; what a repair may have influenced isn't shown right until it is
    tested again, nor what turned right until somebody says by what.

    Args:
        lines: All verdicts on a record.
        to_repeat: Whether what a repair or an answer is still asked for counts: it does for what is
            taken next, and says nothing of what was taken before.
    """
    found: dict[str, Verdict] = {}
    wider: list[Judged] = []
    for line in lines:
        if line.slot is None:
            wider.append(line)
            continue
        for attempt, stood in zip(line.attempts, line.stood, strict=False):
            found[attempt.id] = stood.verdict
        if line.attempts:
            found[line.attempts[-1].id] = Verdict.NEAR if _only_unusual(line) else line.verdict
    last = {line.slot: line.attempts[-1].id for line in lines if line.slot and line.attempts}
    for line in wider:
        asked = _TO_REPEAT in line.patterns or _TO_EXPLAIN in line.patterns
        if not _counts(line) or (asked and not to_repeat):
            continue
        for slot in line.about:
            if slot in last and slot.stage is not Stage.LIVE:
                found[last[slot]] = graver(found[last[slot]], line.verdict)
    return found


def _only_unusual(line: Judged) -> bool:
    """Return whether a reading is outside a usual figure only: no device is held to that."""
    return line.verdict is Verdict.OUTSIDE and line.patterns == (USUAL,)


def _counts(line: Judged) -> bool:
    if line.once or not line.is_finding or any(each in _ABOUT_THE_BOOKS for each in line.patterns):
        return False
    return line.verdict in _WRONG or _TO_REPEAT in line.patterns
