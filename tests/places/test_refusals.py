"""Lines that can't be so are refused at the field with what would be right; any line at all is
understood or refused in words, leaves a record that can be kept, and can be taken back."""

from __future__ import annotations

import re

import jsonpatch
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from records.errors import BadPlace
from records.expected.plan import expected
from records.judgement.review import review
from records.model.fabric import Fixture, Spot
from records.model.record import Record
from records.places.line import understood
from tests.judgement.fabric.walls import WALL, job, leg
from tests.places.test_line import CEILING, NORTH, after

DOOR = Fixture(
    id="X2",
    name="Door",
    is_opening=True,
    spot=Spot(surface="W1", along=3000.0, up=0.0, width=900.0, height=2000.0),
)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("S1 450 up 5000 along 2g", "is 4000 mm wide; this reaches to 5067.5 mm"),
        ("S1 450 up 20 along 2g", "beyond the corner"),
        ("S1 2380 up 620 along 2g", "is 2400 mm high there"),
        ("S1 450 up 620 along 2g 200 deep", "the wall is 140 mm thick"),
        ("S1 450 up 620 along ø600", "between studs there are 555 mm"),
        ("S1-S4 450 up, every 100, from 450, 2g", "S2 would overlap C1 S1 by 35 × 75 mm"),
        ("S1 1000 up 3000 along 1g", "would overlap Door"),
        ("C1 cable from 600 2000 along 4200", "the cable goes to 4200 mm"),
        ("C1 cable from 600 2000 up 2500", "the cable goes to 2500 mm"),
        ("C1 cable from 600 1000 along 3500", "run through Door. Go round it"),
        ("C1 cable from 600 1000 along 900, deep 200", "the wall is 140 mm thick"),
        ("L1 hole 20 at 9000, stud 95, face 37", "Leg L1 is 2000 mm long"),
        ("L1 hole 20 at 300, stud 95, face 80", "the timber is 95 mm deep"),
        ("L1 hole 0 at 300, stud 95, face 37", "of 0 mm is none"),
        ("L1 hole 20 at 300, joist 200, face 90, span 3000, support 3300", "outside the span"),
        ("wall north 0 x 2400", "0 mm wide or high"),
        ('wall "North wall, inside" 4000 x 2400', "is entered already"),
        ("building 5000 x 3000 x 2400", "North wall, inside is entered already"),
        ("S1 450 up 620 along 2g wobble", "“wobble”: not understood"),
        ("S1 -450 up 620 along 2g", "below zero"),
    ],
)
def test_what_can_not_be_so_is_refused_with_what_would_be_right(line, says):
    record = job(leg(), surfaces=(NORTH, CEILING), fixtures=(DOOR,))

    with pytest.raises(BadPlace, match=re.escape(says)):
        understood(record, NORTH, line)


def test_a_box_that_is_measured_again_keeps_its_kind_and_loses_its_tick():
    record = job(surfaces=(NORTH, CEILING), fixtures=())
    first = after("S1 450 up 620 along 2g 47 deep", record)
    again = after("S1 460 up 640 along", first)
    found = next(each.spot for c in again.circuits for each in c.points if each.name == "S1")

    assert (found.along, found.up, str(found.box), found.deep) == (640, 460, "two-gang", 47)
    assert found.cut is None
    hidden = understood(record, NORTH, "S1 450 up 620 along 2g hidden")
    assert "it makes no zone" in hidden.echo


_TYPED = """
    S1 S2 D1-D8 C1 C2 C9 feed cable leg from to up down along along, then top in of the left right
    west
    east north south floor ceiling centre underside 1g 2g round lamp joint board hidden door window
    high hole notch stud joist rafter at face span support ground paving soil duct tape no m deep
    run
    sight plate conduit every x building wall outside soffit fall this timber metal brick thick
    screws centres first studs far foil insulated lagged uninsulated photo , ; ø68 " “ ” - 0 1 12.5
    20 95 300 450 620 900 1.2m 45cm 2400 4000 99999 1e9 .5 -3 nan inf ☃ \x1b[2J ½ ٣
"""
_WORDS = _TYPED.split()


@settings(max_examples=400, deadline=None)
@given(
    st.one_of(
        st.lists(st.sampled_from(_WORDS), max_size=14).map(" ".join),
        st.text(max_size=80),
        st.tuples(
            st.sampled_from(
                ("S1", "C1 cable from S9", "L1 hole", "wall w", "feed ground", "D1-D3")
            ),
            st.lists(st.sampled_from(_WORDS), max_size=8).map(" ".join),
        ).map(" ".join),
    )
)
@example("S1 450 up 620 along 2g")
@example("L1 hole 20 at 300, stud 95, face 37")
def test_any_line_is_understood_or_refused_in_words_and_can_be_taken_back(line):
    record = job(leg(), surfaces=(NORTH, CEILING))
    try:
        found = understood(record, NORTH, line)
    except BadPlace:
        return
    assert found.echo
    before = record.model_dump(mode="json")
    there = jsonpatch.apply_patch(before, list(found.ops))
    changed = Record.model_validate(there)
    assert jsonpatch.apply_patch(there, jsonpatch.make_patch(there, before)) == before
    wrong = [
        each.why
        for each in review(changed, expected(changed)).lines
        if each.verdict.code == "unlikely" and each.key.rpartition("/")[2].startswith("spot")
    ]
    assert not wrong, wrong


def test_every_refusal_names_the_wall_that_it_is_about():
    record = job(leg(), surfaces=(WALL,))
    with pytest.raises(BadPlace, match="North wall is 4000 mm wide"):
        understood(record, WALL, "C1 cable from S9 along 4100")
