"""A wall seen from its other face: measured back from the SVG, a wall thickness from its corner."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.boxes import hole
from records.judgement.fabric.from_behind import seen_from_back
from tests.document.test_walls import ends, long, of, parsed
from tests.document.walls_job import NORTH, walls
from tests.judgement.fabric.walls import job, leg, socket, wall


@pytest.fixture(scope="module")
def root():
    return parsed(from_behind=True)


@pytest.fixture(scope="module")
def mm(root):
    (bar,) = of(root, "line", "scale-bar")
    return float(bar.get("data-name")) / long(bar)


def test_every_leg_is_the_other_way_round_and_a_wall_thickness_further(root, mm):
    """4800 wide inside, 140 thick: 5080 outside. 900 from the inner left is 4040 from outside."""
    outline = of(root, "polygon", "outline")[0]
    xs = [float(each.split(",")[0]) for each in outline.get("points").split()]
    left = min(xs)
    assert (max(xs) - left) * mm == pytest.approx(5080, abs=1)
    drawn = {each.get("data-name"): ends(each) for each in of(root, "line", "cable")}
    legs = [each for each in walls().fabric.legs if each.surface == "W1"]
    assert set(drawn) == {each.id for each in legs}
    for each in legs:
        x0, _, x1, _ = drawn[each.id]
        assert (x0 - left) * mm == pytest.approx(4940 - each.along, abs=1)
        assert (x1 - left) * mm == pytest.approx(4940 - each.to_along, abs=1)


def test_it_shows_no_zones_but_where_no_screw_belongs(root):
    assert of(root, "polygon", "zone") == []
    assert of(root, "polygon", "strip")
    assert of(root, "line", "outside") == []


@settings(max_examples=60, deadline=None)
@given(
    along=st.floats(100, 3900),
    thick=st.floats(60, 400),
    sloped=st.booleans(),
)
def test_seen_twice_from_behind_it_is_as_it_was(along, thick, sloped):
    """Turned round and back, with both corners a thickness apart each time."""
    here = wall(thick=thick, height_far=2100.0 if sloped else None)
    record = job(leg(along=along), surfaces=(here,), fixtures=(socket(along=along),))
    once, there = seen_from_back(record, here)
    twice, again = seen_from_back(once, there)

    assert there.width == pytest.approx(here.width + 2 * thick)
    assert (again.height, again.height_far) == (here.height, here.height_far)
    assert twice.fabric.legs[0].along == pytest.approx(along + 2 * thick)
    assert hole(twice.fabric.fixtures[0].spot).centre[0] == pytest.approx(along + 2 * thick)


def test_what_is_entered_on_both_faces_is_on_it_once():
    there = wall(id="W2", name="Store side", other_side="W1", width=4280.0)
    record = job(
        leg(),
        leg(id="L2", surface="W2", along=100.0, to_along=900.0),
        leg(id="L3", surface="W9"),
        surfaces=(wall(), there),
    )
    made, face = seen_from_back(record, wall())

    assert face.width == 4280.0
    assert [(each.id, each.along) for each in made.fabric.legs] == [("L1", 3640.0), ("L2", 100.0)]
    assert [each.spot.along for each in made.fabric.fixtures] == [2140.0]
    assert made.fabric.legs[0].deep == 90.0  # 140 less 40 and the cable


def test_a_face_without_a_thickness_keeps_its_width_and_says_no_depth():
    bare = wall(thick=None)
    made, face = seen_from_back(job(leg(), surfaces=(bare,)), bare)

    assert face.width == bare.width
    assert made.fabric.legs[0].deep is None
    assert NORTH.thick
