"""A wall is drilled from both its faces: plates, screws, frame and thickness count from each.

BS 7671, Regulations 522.6.202 to 204 (read summaries): 50 mm from *every* surface of the wall,
30 mA at any depth in a wall with metal parts, a cover that stops nails and screws.
"""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from records.expected.plan import expected
from records.judgement.fabric.cover import safe_to_cover
from records.judgement.fabric.hidden import circuits_behind
from records.judgement.review import review
from records.model.fabric import Cover, Frame, Hole, Timber
from records.model.reading import Remedy
from records.terms import CableKind, Verdict
from tests.judgement.fabric.test_cover import placed, sound
from tests.judgement.fabric.test_zones import NO_RCBO
from tests.judgement.fabric.walls import WALL, job, judged, leg, socket, wall
from tests.judgement.jobs import circuit, sound_job

WITHIN, NEAR, OUTSIDE, OPEN = Verdict.WITHIN, Verdict.NEAR, Verdict.OUTSIDE, Verdict.NOT_TAKEN
OFF_ZONE = {"up": 500.0, "to_up": 500.0}


def back(**changes):
    return wall(id="W2", name="Store side", other_side="W1", **changes)


def zone(*legs, **parts):
    return judged(job(*legs, **parts), "zone L1")


@pytest.mark.parametrize(("thick", "found"), [(90.0, WITHIN), (89.5, OUTSIDE), (None, OPEN)])
def test_a_plate_stops_screws_from_its_own_face_only(thick, found):
    """30 deep and 10 for the cable: in 90 mm it is 50 from the other face, which has no plate."""
    plated = leg(deep=30.0, cover=Cover.PLATE, **OFF_ZONE)
    line = zone(plated, surfaces=(wall(thick=thick, frame_depth=None),))

    assert line.verdict is found
    conduit = leg(deep=30.0, cover=Cover.CONDUIT, **OFF_ZONE)
    assert zone(conduit, surfaces=(wall(thick=thick, frame_depth=None),)).verdict is WITHIN


def test_a_plate_too_near_the_other_face_is_within_in_a_zone_behind_30_ma():
    thin = (wall(thick=75.0, frame_depth=None),)

    assert zone(leg(deep=30.0, cover=Cover.PLATE), surfaces=thin).verdict is WITHIN
    bare = circuit(sound_job(), "C1", **NO_RCBO)
    assert zone(leg(deep=30.0, cover=Cover.PLATE), surfaces=thin, record=bare).verdict is OUTSIDE


def test_the_thickness_that_only_the_other_face_has_counts():
    here, there = wall(thick=None), back(thick=100.0)

    assert zone(leg(deep=50.0, **OFF_ZONE), surfaces=(here, there)).verdict is OUTSIDE
    assert zone(leg(deep=50.0, **OFF_ZONE), surfaces=(here, back(thick=110.0))).verdict is WITHIN


def test_a_metal_frame_entered_on_the_other_face_asks_for_30_ma_too():
    record = circuit(sound_job(), "C1", **NO_RCBO)
    deep = leg(deep=60.0, **OFF_ZONE)
    for frame, other, found in (
        (Frame.TIMBER, Frame.TIMBER, WITHIN),
        (None, Frame.METAL, OUTSIDE),
        (Frame.TIMBER, Frame.METAL, OUTSIDE),
        (None, None, OPEN),
    ):
        both = (wall(frame=frame), back(frame=other))
        assert zone(deep, surfaces=both, record=record).verdict is found, (frame, other)
        assert zone(deep, surfaces=both).verdict is WITHIN


def test_foil_in_a_deep_wall_without_30_ma_is_for_the_certifier():
    record = circuit(sound_job(), "C1", **NO_RCBO)
    found = zone(leg(deep=60.0, **OFF_ZONE), surfaces=(wall(foil=True),), record=record)

    assert found.verdict is NEAR
    assert "certifier" in found.next_check


def test_conduit_with_single_cores_takes_more_of_a_wall_than_flat_cable():
    run = sound_job().circuit("C1").runs[0]
    singles = circuit(
        sound_job(), "C1", runs=(run.model_copy(update={"cable": CableKind.SINGLES}),)
    )
    deep = leg(deep=70.0, **OFF_ZONE)

    assert zone(deep).verdict is WITHIN
    assert zone(deep, record=singles).verdict is OUTSIDE  # 140 - 70 - 25 mm


def test_what_nobody_sees_makes_no_zone():
    """A socket behind a fixed cupboard; a blank plate in sight makes one like any other."""
    assert zone(leg(), fixtures=(socket(hidden=True),)).verdict is OUTSIDE
    assert zone(leg(), fixtures=(socket(hidden=False),)).verdict is WITHIN


@pytest.mark.parametrize(("screw", "found"), [(85.0, WITHIN), (85.5, NEAR), (90.0, OUTSIDE)])
def test_screws_from_the_other_face_are_held_against_the_cable(screw, found):
    """140 thick, 40 deep, 10 for the cable: 90 from the other face, 5 to spare."""
    line = judged(job(leg(), surfaces=(WALL, back(screw=screw))), "screws L1-back")

    assert line.verdict is found
    plated = job(leg(cover=Cover.PLATE), surfaces=(WALL, back(screw=screw)))
    assert judged(plated, "screws L1-back").verdict is found
    piped = job(leg(cover=Cover.CONDUIT), surfaces=(WALL, back(screw=screw)))
    assert judged(piped, "screws L1-back").verdict is WITHIN


def test_a_plate_doesnt_guard_a_hole_from_the_far_face_of_its_joist():
    ceiling = wall(kind="ceiling")
    hole = Hole(
        timber=Timber.JOIST,
        at=300.0,
        size=20.0,
        deep=150.0,
        from_face=85.0,
        span=3000.0,
        from_support=1000.0,
    )
    line = judged(job(leg(holes=(hole,), cover=Cover.PLATE), surfaces=(ceiling,)), "timber L1-1")

    assert line.verdict is OUTSIDE
    assert "45 mm from the far face" in line.why


def test_a_support_further_off_than_the_span_is_an_entry_to_correct():
    """1.2 of the span is no place in it, though 0.2 would be right for a notch."""
    ceiling = wall(kind="ceiling")
    notch = Hole(
        timber=Timber.JOIST,
        at=300.0,
        size=20.0,
        deep=200.0,
        from_face=0.0,
        is_notch=True,
        span=3000.0,
        from_support=3600.0,
    )
    line = judged(job(leg(holes=(notch,), cover=Cover.PLATE), surfaces=(ceiling,)), "timber L1-1")

    assert line.verdict is OPEN
    assert "the span is 3000 mm" in line.why


@pytest.mark.parametrize("apart", [0.0, 2.0, 20.0])
def test_two_circuits_in_one_hole_are_grouped_wherever_the_hole_is(apart):
    """Cables that lie beside each other in one hole are drawn a little apart."""
    hole = Hole(timber=Timber.STUD, at=300.0, size=20.0, deep=95.0, from_face=37.5)
    for up in (789.0, 790.0, 800.0):
        one = leg(up=up, to_up=up, holes=(hole,))
        other = leg(id="L2", circuit="C2", up=up + apart, to_up=up + apart, holes=(hole,))
        assert "2 circuits" in judged(job(one, other), "shared holes 0", place="C2").why


def answer(record, surface=WALL):
    return safe_to_cover(record, review(record, expected(record)), surface)


def test_screws_and_frame_that_are_not_entered_keep_a_wall_open():
    assert answer(sound()).safe
    for changes, says in (({"screw": None}, "how long the screws"), ({"frame": None}, "frame is")):
        found = answer(sound(surfaces=(wall(**changes),)), wall(**changes))
        assert any(says in each.what for each in found.first), says
    brick = {"screw": None, "frame": Frame.MASONRY}
    assert answer(sound(surfaces=(wall(**brick),)), wall(**brick)).safe


def test_a_place_outside_its_wall_keeps_that_wall_open():
    high = socket(up=2390.0)
    found = answer(job(leg(), record=placed(), fixtures=(high,)))

    assert any("this reaches to" in each.what for each in found.first)


def test_the_last_open_side_of_a_wall_answers_for_all_that_it_hides():
    """The inside was boarded without asking: the outside face is where the cable is seen last."""
    route = leg(surface="W2", **OFF_ZONE)
    open_ = job(route, surfaces=(WALL, back()), record=placed())
    shut = job(route, surfaces=(WALL, back(covered=date(2026, 3, 9))), record=placed())

    assert circuits_behind(open_, WALL) == ()
    assert [each.circuit for each in circuits_behind(shut, WALL)] == ["C1"]
    assert any("Outside every safe zone" in each.what for each in answer(shut).first)


def test_what_the_designer_agreed_to_is_not_asked_again():
    hole = Hole(timber=Timber.STUD, at=300.0, size=24.0, deep=95.0, from_face=35.5)
    record = sound(leg(holes=(hole,)))
    asked = [each for each in answer(record).first if "Ask the designer" in each.what]
    assert len(asked) == 1
    done = Remedy(
        id="R1",
        finding=asked[0].key,
        done="Designer agreed: stud doubled",
        at=datetime(2026, 3, 8, 12, tzinfo=UTC),
    )
    agreed = record.model_copy(update={"remedies": (*record.remedies, done)})
    passed = done.model_copy(update={"to_decide": True})

    assert answer(agreed).safe
    assert not answer(record.model_copy(update={"remedies": (passed,)})).safe


@pytest.mark.parametrize(("there", "found"), [(100.0, WITHIN), (101.0, OUTSIDE), (None, WITHIN)])
def test_where_both_faces_say_how_thick_the_wall_is_the_thicker_counts_for_its_other_side(
    there, found
):
    """Up to 100 mm a point on the other side makes a zone here: no face may say that it is more."""
    box = socket(surface="W2", along=1000.0, up=1500.0)
    route = leg(along=3000.0, to_along=3000.0, up=200.0, to_up=2200.0)
    both = (wall(thick=100.0), back(thick=there))

    assert zone(route, surfaces=both, fixtures=(box,)).verdict is found
