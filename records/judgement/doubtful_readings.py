"""Readings that a verdict speaks against, for pictures that mark them."""

from __future__ import annotations

from records.judgement.review_types import Judged, Review
from records.model.reading import Quantity, Slot
from records.terms import Verdict

_AGAINST = (Verdict.OUTSIDE, Verdict.UNLIKELY)
_CROSSED = (Quantity.CROSS_LN, Quantity.CROSS_LE)


def doubted(review: Review) -> frozenset[Slot]:
    """Return the slots whose own reading stands outside or is unlikely."""
    against = (each for each in review.lines if each.verdict in _AGAINST)
    return frozenset(each.slot for each in against if each.slot is not None)


def ring_patterns(review: Review, circuit: str) -> tuple[Judged, ...]:
    """Return what the cross-connected readings of a ring say together against it."""
    return tuple(
        each
        for each in review.lines
        if each.verdict in _AGAINST
        and any(s.quantity in _CROSSED and s.place.circuit == circuit for s in each.about)
    )
