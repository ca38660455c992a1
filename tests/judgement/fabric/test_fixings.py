"""Screws against cables, strips to keep out of, the ground, and drawing against design.

Clearances are common practice. The ground: BS 7671, Regulation 522.8.10 (no depth in figures), and
usual depths from a reprint of an electrician's guide and from trade forums.
"""

from __future__ import annotations

import jsonpatch
import pytest

from records.judgement.fabric.agreement import lengths_apart
from records.judgement.fabric.fixings import keep_out
from records.model.fabric import Box, Buried, Cover, GroundCover, Hole, Lagging, Spot, Timber
from records.model.record import Record
from records.places.changing import with_drawn_length
from records.terms import Verdict
from tests.judgement.fabric.walls import job, judged, leg, wall
from tests.judgement.jobs import RING, circuit, sound_job

WITHIN, NEAR, OUTSIDE = Verdict.WITHIN, Verdict.NEAR, Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("screw", "found"), [(35.0, WITHIN), (35.1, NEAR), (39.9, NEAR), (40.0, OUTSIDE)]
)
def test_screws_end_5_mm_before_a_cable(screw, found):
    assert judged(job(leg(), surfaces=(wall(screw=screw),)), "screws L1").verdict is found


def test_a_plate_stops_a_screw_and_a_hole_near_the_face_does_not():
    long = (wall(screw=38.0),)
    hole = Hole(timber=Timber.STUD, at=300.0, size=20.0, deep=95.0, from_face=10.0)

    plated = job(leg(deep=20.0, cover=Cover.PLATE), surfaces=long)
    assert judged(plated, "screws L1").verdict is WITHIN
    bored = judged(job(leg(deep=60.0, holes=(hole,)), surfaces=long), "screws L1")
    assert bored.verdict is OUTSIDE
    assert "22.5 mm behind the face" in bored.why


def test_strips_are_50_mm_to_each_side_and_end_at_the_surface():
    (strip,) = keep_out(job(leg(along=20.0, to_along=3990.0)), wall())

    assert (strip.left, strip.right, strip.bottom, strip.top) == (0.0, 4000.0, 750.0, 850.0)
    assert "C1 Ring" in strip.why


def test_a_cable_entered_on_the_other_side_is_kept_clear_of_too():
    here, there = wall(), wall(id="W2", name="Store side", other_side="W1")
    record = job(leg(surface="W2"), surfaces=(here, there))
    (strip,) = keep_out(record, here)

    assert (strip.left, strip.right) == (1450.0, 3550.0)
    assert keep_out(job(leg(deep=0.0)), wall()) == ()


def trench(**changes):
    given = {"id": "B1", "length": 20.0, "deep": 0.45, "cover": GroundCover.SOIL, "tape": True}
    return Buried.model_validate(given | changes)


def ground(buried, record=None):
    return judged(job(buried=(buried,), record=record or sound_job()), "ground B1")


@pytest.mark.parametrize(
    ("changes", "found"),
    [
        ({}, WITHIN),
        ({"deep": 0.449}, NEAR),
        ({"cover": GroundCover.PAVING, "deep": 0.4}, WITHIN),
        ({"cover": GroundCover.PAVING, "deep": 0.399}, NEAR),
        ({"tape": False}, OUTSIDE),
        ({"tape": None}, Verdict.NOT_TAKEN),
        ({"deep": None}, Verdict.NOT_TAKEN),
    ],
)
def test_a_feed_in_the_ground(changes, found):
    assert ground(trench(**changes)).verdict is found


def test_no_depth_is_demanded_that_no_regulation_gives():
    line = ground(trench(deep=0.2))

    assert line.verdict is NEAR
    assert "common practice" in line.why
    assert "practice, no requirement" in str(line.source)


def test_flat_cable_in_the_ground_needs_a_duct():
    record = sound_job()
    flat = record.model_copy(
        update={"feed": record.feed.model_copy(update={"runs": record.circuits[1].runs})}
    )

    assert ground(trench(), flat).verdict is OUTSIDE
    assert ground(trench(cover=GroundCover.DUCT), flat).verdict is WITHIN


def drawn(length, *, placed):
    """The ring of the sound job, entered as 50 m, with one long leg of a length."""
    record = sound_job()
    box = Spot(surface="W1", along=500.0, up=800.0, box=Box.ONE_GANG)
    points = tuple(each.model_copy(update={"spot": box}) for each in record.circuit("C1").points)
    record = circuit(record, "C1", points=points if placed else (*points[1:], RING.points[0]))
    far = leg(to_along=500.0 + 1000 * length)
    return judged(job(far, surfaces=(wall(width=60000.0),), record=record), "drawn length 0")


@pytest.mark.parametrize(
    ("length", "found"), [(50.0, WITHIN), (50.01, NEAR), (41.0, WITHIN), (40.8, NEAR)]
)
def test_drawn_and_entered_lengths_differ_by_a_tenth_at_most(length, found):
    """45 to 55 m with 10 % for tails."""
    line = drawn(length, placed=True)

    assert line.verdict is found
    assert f"{length * 1.1:.1f} m" in line.why


@pytest.mark.parametrize(("length", "found"), [(20.0, WITHIN), (50.01, NEAR)])
def test_a_drawing_with_points_still_to_place_may_be_shorter(length, found):
    assert drawn(length, placed=False).verdict is found


def test_cable_in_insulation_that_it_is_not_rated_for_says_what_it_carries_then():
    """2.5 mm² by method 103 carries 13.5 A (BS 7671, Table 4D5): half of its 27 A clipped."""
    line = judged(job(leg(circuit="C2"), surfaces=(wall(lagging=Lagging.AROUND),)), "insulation 0")

    assert line.verdict is OUTSIDE
    assert "13.5" in line.why


def test_circuits_that_share_a_hole_are_grouped():
    hole = Hole(timber=Timber.STUD, at=300.0, size=20.0, deep=95.0, from_face=37.5)
    one, two = leg(holes=(hole,)), leg(id="L2", circuit="C2", holes=(hole,))
    apart = two.model_copy(update={"up": 900.0, "to_up": 900.0})

    names = [each for each in _keys(job(one, two)) if "shared holes" in each]
    assert names == ["circuit/C1/-/design/shared holes 0", "circuit/C2/-/design/shared holes 0"]
    assert not [each for each in _keys(job(one, apart)) if "shared holes" in each]


def _keys(record):
    from records.expected.plan import expected
    from records.judgement.review import review

    return [each.key for each in review(record, expected(record)).lines]


def test_a_drawn_length_can_be_taken_over_for_its_run():
    """22 m with 10 % for tails: 24.2 m instead of the 50 m entered; a feed's run as well."""
    far = leg(to_along=22500.0)
    record = job(far, far.model_copy(update={"id": "L2", "circuit": None}), surfaces=(wall(),))
    box = Spot(surface="W1", along=500.0, up=800.0, box=Box.ONE_GANG)
    points = tuple(each.model_copy(update={"spot": box}) for each in RING.points)
    bare = circuit(record, "C1", points=points)
    found = {each.circuit: each for each in lengths_apart(bare)}

    assert found["C1"].drawn == 24.2
    assert found[None].drawn == 24.2
    for each in found.values():
        changed = Record.model_validate(
            jsonpatch.apply_patch(bare.model_dump(mode="json"), with_drawn_length(bare, each))
        )
        runs = changed.feed.runs if each.circuit is None else changed.circuit(each.circuit).runs
        assert runs[0].length == 24.2
        assert each.circuit not in {one.circuit for one in lengths_apart(changed)}


def test_a_run_with_points_still_to_place_offers_no_shorter_length():
    record = circuit(job(leg()), "C1", points=RING.points)

    assert "C1" not in {each.circuit for each in lengths_apart(record)}


@pytest.mark.parametrize("rise", [0.0, 200.0, -200.0, 1000.0, 1500.0])
@pytest.mark.parametrize("turned", [False, True])
def test_no_place_within_45_mm_of_a_cable_is_outside_its_strip(rise, turned):
    """Held against shapely: a sloping strip is a little narrower square to it, never by 6 mm."""
    from shapely.geometry import LineString, Polygon

    ends = ((600.0, 1100.0), (2600.0, 1100.0 + rise))
    (x0, y0), (x1, y1) = reversed(ends) if turned else ends
    (strip,) = keep_out(job(leg(along=x0, up=y0, to_along=x1, to_up=y1)), wall())

    near = LineString(ends).buffer(44.7, cap_style="flat")
    assert Polygon(strip.corners).buffer(1e-6).contains(near)
    assert "sloping" in str(strip) if 0 < abs(rise) <= 1000 else "sloping" not in str(strip)
