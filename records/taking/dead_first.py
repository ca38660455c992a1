"""What in the dead tests makes a live test unsafe at one place."""

from __future__ import annotations

from records.judgement.review_types import Review
from records.model.reading import Place
from records.terms import Part, Stage


def not_right(review: Review, place: Place) -> tuple[str, ...]:
    """Return the dead tests that are missing or wrong where a live test would be taken.

    Args:
        review: All verdicts.
        place: Of the live test. A circuit answers for itself; the board answers for the feed too.
    """
    return tuple(
        f"{line.title}: {line.verdict.value}"
        for line in review.lines
        if line.slot is not None
        and line.slot.stage is Stage.DEAD
        and line.verdict.is_finding
        and _behind(line.slot.place, place)
    )


def _behind(dead: Place, live: Place) -> bool:
    if live.part is Part.CIRCUIT:
        return dead.circuit == live.circuit
    return live.part in (Part.BOARD, Part.FEED) and dead.part in (Part.BOARD, Part.FEED)
