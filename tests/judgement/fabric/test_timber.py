"""Holes and notches, held against published guidance for joists and BS 7671 522.6.201.

BS 5268-2 and builders' summaries of it: holes up to 0.25 of the depth, on the neutral axis, between
0.25 and 0.4 of the span, 3 diameters apart, 100 mm from a notch; notches 0.125 of the depth between
0.07 and 0.25 of the span. A house-builders' standard of 2020: 0.15, between 0.1 and 0.2. Solid
joists up to 250 mm deep.
"""

from __future__ import annotations

import pytest

from records.model.fabric import Hole, SurfaceKind, Timber
from records.terms import Verdict
from tests.judgement.fabric.walls import job, judged, leg, wall

WITHIN, OUTSIDE, NEAR = Verdict.WITHIN, Verdict.OUTSIDE, Verdict.NEAR
CEILING = wall(kind=SurfaceKind.CEILING)


def joist(**changes):
    """A hole of 25 mm in the middle of a joist of 200 mm, at 0.3 of a span of 3 m."""
    hole = Hole(
        timber=Timber.JOIST,
        at=100.0,
        size=25.0,
        deep=200.0,
        from_face=87.5,
        span=3000.0,
        from_support=900.0,
    )
    return hole.model_copy(update=changes)


def notch(**changes):
    return joist(is_notch=True, from_face=0.0, size=20.0, from_support=450.0).model_copy(
        update=changes
    )


def stud(**changes):
    hole = Hole(timber=Timber.STUD, at=100.0, size=20.0, deep=95.0, from_face=37.5)
    return hole.model_copy(update=changes)


def line(hole, **parts):
    return judged(job(leg(holes=(hole,)), **parts), "timber L1-1")


@pytest.mark.parametrize(
    ("changes", "found"),
    [
        ({}, WITHIN),
        ({"size": 50.0, "from_face": 75.0}, WITHIN),
        ({"size": 51.0, "from_face": 74.5}, OUTSIDE),
        ({"from_support": 750.0}, WITHIN),
        ({"from_support": 749.0}, OUTSIDE),
        ({"from_support": 1200.0}, WITHIN),
        ({"from_support": 1201.0}, OUTSIDE),
        ({"from_support": 2100.0}, WITHIN),  # 900 from the other support
        ({"from_face": 75.0}, WITHIN),
        ({"from_face": 74.0}, OUTSIDE),  # more than half its size off the neutral axis
        ({"from_face": 49.0}, OUTSIDE),  # 522.6.201: 50 mm from the top
        ({"deep": 250.0, "from_face": 112.5}, WITHIN),
        ({"deep": 251.0, "from_face": 113.0}, NEAR),
        ({"span": None}, Verdict.NOT_TAKEN),
    ],
)
def test_a_hole_in_a_joist(changes, found):
    assert line(joist(**changes), surfaces=(CEILING,)).verdict is found


def test_a_joist_of_125_mm_takes_no_cable_50_mm_from_top_and_bottom_beyond_25():
    """125 mm: 50 and 50 leave 25 mm, which is less than a quarter (31 mm)."""
    fits = joist(deep=125.0, size=25.0, from_face=50.0)

    assert line(fits, surfaces=(CEILING,)).verdict is WITHIN
    assert line(fits.model_copy(update={"from_face": 51.0}), surfaces=(CEILING,)).verdict is OUTSIDE


@pytest.mark.parametrize(
    ("size", "place", "says"),
    [
        (25.0, 300.0, None),
        (25.1, 300.0, "at most 25 mm"),
        (20.0, 600.0, None),
        (20.0, 601.0, "0.1 to 0.2"),
        (20.0, 299.0, "0.1 to 0.2"),
    ],
)
def test_a_notch_keeps_the_stricter_of_two_published_rules(size, place, says):
    """200 mm: 0.125 is 25 mm (0.15 would be 30). The cable in it needs a steel plate besides."""
    found = line(notch(size=size, from_support=place), surfaces=(CEILING,))

    assert found.verdict is OUTSIDE
    assert "plate" in found.next_check
    assert (says or "at most") in found.why if says else "at most" not in found.why


def test_both_rules_for_notches_are_named():
    from records.model.fabric import Cover

    covered = leg(holes=(notch(size=26.0),), cover=Cover.PLATE)
    found = judged(job(covered, surfaces=(CEILING,)), "timber L1-1")

    assert "BS 5268-2" in str(found.source)
    assert "0.15" in str(found.source)


@pytest.mark.parametrize(("apart", "found"), [(75.0, WITHIN), (74.0, OUTSIDE)])
def test_holes_of_two_cables_in_one_joist_are_three_diameters_apart(apart, found):
    one = leg(holes=(joist(),))
    other = leg(id="L2", circuit="C2", up=800.0 + apart, to_up=800.0 + apart, holes=(joist(),))

    assert judged(job(one, other, surfaces=(CEILING,)), "timber L2-1").verdict is found


def test_a_hole_and_a_notch_are_100_mm_apart_and_another_joist_does_not_count():
    one = leg(holes=(notch(),))
    near = leg(id="L2", circuit="C2", up=880.0, to_up=880.0, holes=(joist(),))
    next_joist = near.model_copy(update={"holes": (joist(at=500.0),)})

    assert judged(job(one, near, surfaces=(CEILING,)), "timber L2-1").verdict is OUTSIDE
    assert judged(job(one, next_joist, surfaces=(CEILING,)), "timber L2-1").verdict is WITHIN


def test_rafters_are_for_their_maker_or_designer_to_say():
    assert line(joist(timber=Timber.RAFTER)).verdict is NEAR
    assert line(notch(timber=Timber.RAFTER)).verdict is OUTSIDE


@pytest.mark.parametrize(
    ("changes", "found"),
    [
        ({}, WITHIN),
        ({"from_face": 32.5}, WITHIN),
        ({"from_face": 32.0}, OUTSIDE),
        ({"from_face": 43.0}, OUTSIDE),  # as near to the other face
        ({"from_face": 10.0}, OUTSIDE),
        ({"size": 23.75, "from_face": 35.625}, WITHIN),
        ({"size": 24.0, "from_face": 35.5}, NEAR),
        ({"deep": 145.0, "from_face": 50.0}, WITHIN),
        ({"deep": 145.0, "from_face": 37.5}, WITHIN),  # with the board in front it is 50
        ({"deep": 145.0, "from_face": 37.0}, OUTSIDE),
    ],
)
def test_a_hole_in_a_stud(changes, found):
    """One of 95 mm can't be bored 50 mm from both faces: it is bored in the middle."""
    assert line(stud(**changes)).verdict is found


def test_a_hole_larger_than_its_timber_is_an_entry_to_correct():
    found = line(stud(from_face=80.0))

    assert found.verdict is Verdict.UNLIKELY
    assert "95 mm deep" in found.why
