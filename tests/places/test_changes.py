"""Legs and surfaces that are there already are changed by a line as they were made by one."""

from __future__ import annotations

from datetime import date

import pytest

from records.errors import BadPlace
from records.model.fabric import Cover
from records.places.line import understood
from tests.judgement.fabric.walls import job, leg
from tests.places.test_line import CEILING, NORTH, after


def record(*legs, **wall):
    return job(*(legs or (leg(),)), surfaces=(NORTH.model_copy(update=wall), CEILING), fixtures=())


def test_a_leg_gets_the_depth_that_was_missing_and_keeps_the_rest():
    made = after("L1 deep 47, plate, clips 300", record(leg(deep=None, bend=40.0)))
    (route,) = made.fabric.legs

    assert (route.deep, route.cover, route.clips, route.bend) == (47, Cover.PLATE, 300, 40)
    assert (route.along, route.to_along) == (500, 2500)
    bare = after("L1 bare", made).fabric.legs[0]
    assert (bare.cover, bare.deep) == (Cover.NONE, 47)
    assert after("L1 in sight", made).fabric.legs[0].deep == 0
    assert after("L1 run 2", made).fabric.legs[0].run == 1


def test_a_leg_is_taken_out_by_its_name():
    made = after("L1 off", record(leg(), leg(id="L2", circuit="C2")))

    assert [each.id for each in made.fabric.legs] == ["L2"]
    assert "removed" in understood(record(), NORTH, "L1 off").echo


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("L1 deep 200", "the wall is 140 mm thick"),
        ("L1 off now", "no more"),
        ("L1 deep 47 wobble", "“wobble”"),
        ("L1 deep", "not understood"),
        ("L9 deep 47", "There is no leg L9"),
        ("L1 run 0", "counted from 1"),
    ],
)
def test_what_a_leg_can_not_be_changed_to_is_said(line, says):
    with pytest.raises(BadPlace, match=says):
        understood(record(), NORTH, line)


def test_a_lamp_called_like_a_leg_is_still_placed():
    made = after("C3 L1 1900 up 900 along, lamp", record())
    (lamp,) = [each for c in made.circuits for each in c.points if each.name == "L1"]
    assert lamp.spot.up == 1900
    again = after("L1 deep 60 2000 up 900 along", made)
    (lamp,) = [each for c in again.circuits for each in c.points if each.name == "L1"]

    assert (lamp.spot.up, lamp.spot.deep) == (2000, 60)
    assert again.fabric.legs == made.fabric.legs


def test_what_goes_on_from_cable_in_sight_is_not_taken_for_in_sight():
    """A depth of 0 is judged by nothing: the next leg may go into the wall."""
    seen = after("C1 cable from 600 500 up 900, in sight", record(leg(id="L7", circuit="C2")))
    assert seen.fabric.legs[-1].deep == 0
    assert "in sight" in understood(record(), NORTH, "C1 cable from 600 500 up 900, in sight").echo

    assert after("along 1500", seen).fabric.legs[-1].deep is None


def test_what_goes_on_is_of_the_same_run():
    made = after("C1 cable from 600 500 up 900, deep 47, run 2", record(leg(id="L7", circuit="C2")))

    assert after("along 1500", made).fabric.legs[-1].run == 1
    assert after("C1 cable along 1500, run 1", made).fabric.legs[-1].run == 0


def test_a_leg_changed_behind_a_board_is_from_memory():
    shut = NORTH.model_copy(update={"covered": date(2026, 3, 9)})
    made = after("L1 deep 47", record(covered=date(2026, 3, 9)), shut)

    assert made.fabric.legs[0].memory


def test_the_outside_of_a_wall_is_its_back_and_can_be_named():
    made = after("outside north 4280 x 2500, thick 140", record())
    assert made.fabric.surfaces[-1].other_side == "W1"
    assert (
        "the back of North wall, inside"
        in understood(record(), NORTH, "outside north 4280 x 2500").echo
    )
    named = after('wall store 4000 x 2400, back "North wall, inside"', record())
    assert named.fabric.surfaces[-1].other_side == "W1"
    joined = after("this back W5, corner “the door frame”, called “Tool wall”", record())
    wall = joined.fabric.surfaces[0]

    assert (wall.other_side, wall.corner, wall.name) == ("W5", "the door frame", "Tool wall")


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("this back W1", "its own back"),
        ("this back nowhere", "No surface is called nowhere"),
        ("this corner", "which"),
        ("outside north 4280 x 2500, back zzz", "There are: North wall, inside; Ceiling"),
    ],
)
def test_a_back_that_is_not_there_is_refused_with_what_is(line, says):
    with pytest.raises(BadPlace, match=says):
        understood(record(), NORTH, line)


def test_a_trench_says_from_what_it_is_measured_and_what_it_crosses():
    line = (
        "feed ground 18 m, deep 450, paving, tape, run 2, from “1.2 m off the house wall”, "
        "crosses “water pipe, 300 below”"
    )
    (stretch,) = after(line, record()).fabric.buried

    assert (stretch.length, stretch.deep, stretch.tape, stretch.run) == (18, 0.45, True, 1)
    assert stretch.from_what == "1.2 m off the house wall"
    assert stretch.crosses == "water pipe, 300 below"
    assert "crosses water pipe" in understood(record(), NORTH, line).echo


def test_a_trench_is_changed_and_removed_by_its_name():
    made = after("feed ground 18 m, paving", record())
    deeper = after("B1 deep 600, tape", made)
    (stretch,) = deeper.fabric.buried

    assert (stretch.length, stretch.deep, stretch.tape, str(stretch.cover)) == (
        18,
        0.6,
        True,
        "paving",
    )
    assert after("B1 20 m, no tape", deeper).fabric.buried[0].length == 20
    assert after("B1 off", deeper).fabric.buried == ()


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("feed ground deep 450", "How long is it"),
        ("feed ground 18 m from the wall", "in quotes"),
        ("feed ground 18 m 20 m", "say what it is"),
        ("feed ground 18 m wobble", "“wobble”"),
        ("feed ground 18 m, run 0", "counted from 1"),
        ("feed ground 0 m", "greater than 0"),
        ("this off", "Remove what is on it first: leg L1"),
    ],
)
def test_what_a_trench_can_not_be_is_said(line, says):
    with pytest.raises(BadPlace, match=says):
        understood(record(), NORTH, line)


def test_an_empty_surface_that_is_no_back_can_be_removed():
    made = after("wall store 4000 x 2400", record())
    store = made.fabric.surfaces[-1]
    assert [each.id for each in after("this off", made, store).fabric.surfaces] == ["W1", "W5"]

    joined = after("this back store", made)
    with pytest.raises(BadPlace, match="It is the back of North wall"):
        understood(joined, joined.fabric.surfaces[-1], "this off")


def test_what_a_surface_is_can_be_said_afterwards():
    assert str(after("this outside", record(kind=None)).fabric.surfaces[0].kind) == "outside face"
