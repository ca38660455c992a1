"""Which readings a picture marks: those that a verdict speaks against, and no others."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.judgement.doubtful_readings import doubted, ring_patterns
from records.judgement.review_types import Judged, Review
from records.model.reading import Quantity, Remedy
from records.terms import Verdict, WorkKind
from tests.judgement.jobs import START, at, own, reviewed, spoilt

RUN, CROSSED = at(Quantity.R1_R2, "C2"), at(Quantity.CROSS_LE, "C1", point="P2")
AGAINST = (Verdict.OUTSIDE, Verdict.UNLIKELY)


@pytest.mark.parametrize("verdict", Verdict)
def test_only_what_is_outside_or_unlikely_is_marked(verdict: Verdict) -> None:
    reading = Judged("a", verdict, RUN.place, "t", "w", RUN)
    pattern = Judged("b", verdict, CROSSED.place, "t", "w", about=(CROSSED,))
    design = Judged("c", verdict, RUN.place, "t", "w")
    review = Review((reading, pattern, design))

    assert doubted(review) == (frozenset({RUN}) if verdict in AGAINST else frozenset())
    assert ring_patterns(review, "C1") == ((pattern,) if verdict in AGAINST else ())
    assert ring_patterns(review, "C2") == ()


def test_a_pattern_of_other_readings_says_nothing_of_a_ring() -> None:
    other = Judged("b", Verdict.UNLIKELY, RUN.place, "t", "w", about=(RUN,))

    assert ring_patterns(Review((other,)), "C2") == ()


def test_tests_to_repeat_after_a_repair_are_no_doubt_of_the_ring() -> None:
    le = at(Quantity.IR_LE, "C1")
    record = spoilt((le, 0.4))
    remedy = Remedy(
        id="W1",
        finding=own(record, le).key,
        done="socket remade",
        at=START + timedelta(minutes=900),
        kind=WorkKind.POINT,
    )
    review = reviewed(record.model_copy(update={"remedies": (remedy,)}))

    assert any("earlier tests again" in each.patterns for each in review.lines)
    assert ring_patterns(review, "C1") == ()
