"""A joint nobody reaches has to be maintenance-free: BS 7671, Regulation 526.3 (from memory)."""

from __future__ import annotations

import pytest

from records.model.fabric import Box, Buried, GroundCover
from records.places.line import understood
from records.terms import CableKind, Verdict
from tests.judgement.fabric.test_cover import answer, placed
from tests.judgement.fabric.walls import job, judged, leg, socket
from tests.judgement.jobs import circuit, sound_job
from tests.places.test_line import NORTH

WITHIN, NEAR = Verdict.WITHIN, Verdict.NEAR


def test_a_hidden_joint_keeps_the_wall_open_until_it_is_a_kind_that_may_stay():
    """Beside the route: neither makes a zone of its own."""
    for box, keeps in ((Box.JOINT, True), (Box.FREE_JOINT, False)):
        record = job(leg(), record=placed(), fixtures=(socket(box=box, along=3000.0, up=2000.0),))
        found = [each for each in answer(record).first if "maintenance-free" in each.what]
        assert bool(found) is keeps, box
        if keeps:
            assert judged(record, "joint W1 S9").verdict is NEAR


def test_neither_kind_makes_a_zone():
    for box in (Box.JOINT, Box.FREE_JOINT):
        assert judged(job(leg(), fixtures=(socket(box=box),)), "zone L1").verdict is Verdict.OUTSIDE


@pytest.mark.parametrize(("word", "box"), [("joint", Box.JOINT), ("mf", Box.FREE_JOINT)])
def test_both_are_typed(word, box):
    found = understood(job(surfaces=(NORTH,), fixtures=()), NORTH, f"{word} 1200 up 900 along")

    assert box.code in str(found.ops)


@pytest.mark.parametrize(("kind", "named"), [(CableKind.FLAT, True), (CableKind.SWA_XLPE, False)])
def test_flat_cable_outside_in_daylight_is_asked_about(kind, named):
    run = sound_job().circuit("C2").runs[0].model_copy(update={"cable": kind})
    wall = Buried(id="B1", circuit="C2", length=6.0, cover=GroundCover.WALL)
    record = job(buried=(wall,), record=circuit(sound_job(), "C2", runs=(run,)))
    if named:
        assert judged(record, "ground B1").verdict is NEAR
    else:
        with pytest.raises(AssertionError):
            judged(record, "ground B1")
