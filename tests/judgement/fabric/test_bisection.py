"""Halving the length in doubt finds a fault soonest (common practice); no point is split twice."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from records.judgement.fabric.bisection import found_words, whole
from records.model.circuit import Point
from tests.judgement.fabric.test_behind import ring
from tests.judgement.jobs import RING


def test_each_answer_halves_what_is_left_until_no_point_is_within():
    """Points at 6, 15, 25, 36 and 45 of 50 m: a fault at 12 m is found in three splits."""
    doubt = whole(RING)
    asked = []
    while doubt.split is not None:
        asked.append(doubt.split[0])
        doubt = doubt.after(near_is_bad=doubt.low + doubt.split[1] > 12.0)

    assert asked == ["S3", "S2", "S1"]
    assert (doubt.low, doubt.high) == (6.0, 15.0)
    assert doubt.ends == ("S1", "S2")


@given(
    st.lists(st.floats(1, 49), min_size=1, max_size=20, unique=True),
    st.floats(0, 50),
)
def test_wherever_the_fault_is_it_stays_within_and_is_closed_in(ats, fault):
    points = tuple(
        Point(id=f"P{number}", name=f"S{number}", at=at) for number, at in enumerate(ats, start=1)
    )
    doubt = whole(RING.model_copy(update={"points": points}))
    splits = 0
    while doubt.split is not None:
        doubt = doubt.after(near_is_bad=fault < doubt.low + doubt.split[1])
        splits += 1
        assert doubt.low <= fault <= doubt.high
    assert splits <= len(ats)
    assert not [each for each in ats if doubt.low < each < doubt.high]


def test_what_is_found_names_both_ends_and_the_walls():
    words = found_words(ring(north=45.0), whole(RING).after(near_is_bad=True))

    assert "between the board and S3: 25 m of cable" in words
    assert "Look first at North wall, inside" in words


def test_without_distances_there_is_nothing_to_halve():
    assert whole(RING.model_copy(update={"points": (Point(id="P1"),)})) is None
    bare = RING.runs[0].model_copy(update={"length": None})
    assert whole(RING.model_copy(update={"runs": (bare,)})) is None
