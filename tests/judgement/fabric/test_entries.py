"""Entries about places that can't be so: each says what would be right, and nothing is lost."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.judgement.review import review
from records.model.fabric import Fixture, Hole, Mark, Spot, Timber
from records.terms import Verdict
from tests.judgement.fabric.walls import SOCKET, WALL, job, judged, leg, socket, wall


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"along": 3932.5}, ""),
        ({"along": 3933.0}, "4000 mm wide; this reaches to 4000.5"),
        ({"along": 67.5}, ""),
        ({"along": 67.0}, "0.5 mm beyond the corner"),
        ({"up": 2362.5}, ""),
        ({"up": 2363.0}, "2400 mm high there"),
        ({"up": 37.5}, ""),
        ({"up": 37.0}, "below the floor"),
        ({"deep": 141.0}, "the wall is 140 mm thick"),
        ({"width": 555.0}, ""),
        ({"width": 556.0}, "between studs there are 555 mm"),
        ({"surface": "W9"}, "not in this record"),
    ],
)
def test_a_box_that_does_not_fit_its_surface(changes, says):
    """A two-gang hole is 135 by 75 mm; studs at 600 mm centres are 45 mm wide."""
    record = job(leg(), fixtures=(socket(**changes),))
    if not says:
        with pytest.raises(AssertionError):
            judged(record, "spot S9")
        return
    line = judged(record, "spot S9")
    assert line.verdict is Verdict.UNLIKELY
    assert says in line.why
    assert "correct the entry" in line.next_check


def test_under_a_slope_the_lower_corner_counts():
    """2400 falls to 2000: at 2067.5 along it is 2193 high."""
    sloping = wall(height_far=2000.0)
    high = socket(up=2170.0)

    assert "2193 mm high" in judged(job(fixtures=(high,), surfaces=(sloping,)), "spot S9").why


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"to_along": 4001.0}, "4000 mm wide; the cable goes to 4001"),
        ({"to_up": 2402.0}, "2400 mm high there"),
        ({"deep": 141.0}, "140 mm thick"),
        ({"to_along": 500.0}, "It ends where it begins"),
        ({"surface": "W7"}, "surface that is not in this record"),
        ({"circuit": "C9"}, "run of cable that is not in this record"),
        ({"run": 3}, "run of cable that is not in this record"),
        (
            {"holes": (Hole(timber=Timber.STUD, at=2002.0, size=20.0, deep=95.0, from_face=37.5),)},
            "2000 mm long",
        ),
        ({"along": 200.0, "to_along": 1000.0, "up": 1500.0, "to_up": 1500.0}, "ends nowhere"),
    ],
)
def test_a_leg_that_can_not_be_there(changes, says):
    line = judged(job(leg(**changes)), "leg L1")

    assert line.verdict is Verdict.UNLIKELY
    assert says in line.why


@pytest.mark.parametrize(("end", "found"), [(1782.0, True), (1783.0, False)])
def test_a_leg_begins_or_ends_within_150_mm_of_a_box(end, found):
    """A two-gang hole of 135 mm round 2000 mm begins at 1932.5 mm; 150 mm are common practice."""
    record = job(leg(along=1000.0, to_along=end))
    lines = review(record, expected(record)).lines

    said = [each.why for each in lines if each.key.endswith("/design/leg L1")]
    assert any("nowhere" in each for each in said) is found


@pytest.mark.parametrize(("gap", "found"), [(0.0, False), (150.0, False), (151.0, True)])
def test_a_leg_may_go_on_as_another_leg_of_its_circuit(gap, found):
    first = leg(along=800.0, to_along=1400.0)
    record = job(first, leg(id="L2", along=1400.0 + gap, to_along=1850.0))
    lines = review(record, expected(record)).lines

    said = [each.why for each in lines if each.key.endswith("/design/leg L1")]
    assert any("nowhere" in each for each in said) is found
    record = job(first, leg(id="L2", circuit="C2", along=1400.0, to_along=1850.0))
    lines = review(record, expected(record)).lines
    assert any("nowhere" in each.why for each in lines if each.key.endswith("/design/leg L1"))


def test_a_leg_through_a_door_is_named_and_one_along_its_edge_is_not():
    door = Fixture(
        id="X2",
        name="Door",
        is_opening=True,
        spot=Spot(surface="W1", along=1000.0, up=0.0, width=900.0, height=1000.0),
    )
    record = job(leg(), fixtures=(socket(), door))
    above = job(leg(up=1000.0, to_up=1000.0), fixtures=(socket(), door))

    assert "Door" in judged(record, "leg L1 opening").why
    with pytest.raises(AssertionError):
        judged(above, "leg L1 opening")


def test_two_boxes_in_one_place_are_named():
    other = Fixture(id="X2", name="S10", spot=SOCKET.model_copy(update={"along": 2100.0}))
    record = job(fixtures=(socket(), other))

    assert "S9 and S10 overlap by 35 × 75 mm" in judged(record, "surface W1 overlap 1").why


@pytest.mark.parametrize(
    ("surfaces", "name", "says"),
    [
        ((WALL, wall(id="W2")), "surface W2 name", "Two surfaces are called North wall"),
        ((wall(width=0.0),), "surface W1 wide", "0 mm wide"),
        ((wall(other_side="W1"),), "surface W1 back", "no other surface"),
        ((wall(other_side="W5"),), "surface W1 back", "no other surface"),
        ((wall(thick=100.0),), "surface W1 thick", "107.5 mm"),
    ],
)
def test_surfaces_that_contradict_each_other(surfaces, name, says):
    assert says in judged(job(surfaces=surfaces), name).why


@pytest.mark.parametrize(
    ("thick", "board", "found"),
    [(95.0, None, False), (94.9, None, True), (107.5, 12.5, False), (107.4, 12.5, True)],
)
def test_board_and_studs_may_be_as_thick_as_the_wall_and_no_thicker(thick, board, found):
    record = job(surfaces=(wall(thick=thick, board=board),))
    lines = review(record, expected(record)).lines

    assert any(each.key.endswith("/design/surface W1 thick") for each in lines) is found


@pytest.mark.parametrize("field", ["along", "up", "deep"])
def test_a_distance_below_zero_is_no_entry(field):
    from pydantic import ValidationError

    given = {"surface": "W1", "along": 5.0, "up": 5.0, field: -1.0}
    with pytest.raises(ValidationError):
        Spot.model_validate(given)


def test_the_height_to_the_centre_and_to_the_underside_are_told_apart():
    from records.expected.boxes import hole, plate

    by_centre, by_edge = SOCKET, SOCKET.model_copy(update={"to": Mark.UNDERSIDE})

    assert (hole(by_centre).bottom, hole(by_centre).top) == (762.5, 837.5)
    assert (hole(by_edge).bottom, hole(by_edge).top) == (800.0, 875.0)
    assert plate(by_centre).top - plate(by_centre).bottom == 86
