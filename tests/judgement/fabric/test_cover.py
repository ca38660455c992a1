"""Safe to cover? Yes only once readings, places and everything that boards would hide are right."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from records.expected.plan import expected
from records.judgement.fabric.cover import safe_to_cover
from records.judgement.fabric.cutouts import cut_outs
from records.judgement.review import review
from records.model.fabric import Box, Hole, Spot, Timber
from records.model.reading import NotNeeded, NotTaken, Quantity
from records.terms import Stage
from tests.judgement.fabric.walls import WALL, job, leg, socket, wall
from tests.judgement.jobs import at, circuit, sound_job, spoilt, without

IR_LE = at(Quantity.IR_LE, "C1", Stage.BEFORE_COVERING)


def placed(record=None):
    """The sound job with every point of the ring on the wall."""
    record = record or sound_job()
    points = tuple(
        each.model_copy(
            update={
                "spot": Spot(surface="W1", along=700.0 + 440 * count, up=757.0, box=Box.ONE_GANG)
            }
        )
        for count, each in enumerate(record.circuit("C1").points)
    )
    return circuit(record, "C1", points=points)


def answer(record, surface=WALL):
    return safe_to_cover(record, review(record, expected(record)), surface)


def sound(*legs, **parts):
    parts.setdefault("record", placed())
    return job(*(legs or (leg(),)), fixtures=(), **parts)


def test_all_read_and_placed_is_safe_to_cover():
    found = answer(sound())

    assert found.first == ()
    assert found.safe
    assert any("C1 Ring" in each for each in found.done)


def test_what_is_done_is_told_of_what_lies_behind_this_surface_only():
    """A tick of another circuit would be read as a tick for this wall."""
    assert {"C2", "C3"} <= {each.slot.place.circuit for each in sound().readings}
    done = answer(sound()).done
    assert done
    assert all("C1 Ring" in each for each in done)


def test_a_missing_reading_is_named_and_can_be_gone_to():
    found = answer(sound(record=placed(without(IR_LE))))

    assert not found.safe
    assert [each.slot for each in found.first] == [IR_LE]
    assert "before the board goes on" in found.first[0].what


def test_a_reading_outside_or_set_aside_or_not_possible_keeps_it_open():
    for taken in (0.4, NotNeeded(reason="new cable"), NotTaken(reason="no meter")):
        found = answer(sound(record=placed(spoilt((IR_LE, taken)))))
        assert IR_LE in [each.slot for each in found.first], taken


def test_readings_of_a_circuit_that_is_elsewhere_are_not_asked_for():
    other = at(Quantity.IR_LE, "C3", Stage.BEFORE_COVERING)

    assert answer(sound(record=placed(without(other)))).safe


def test_what_boards_would_hide_keeps_it_open():
    bad = Hole(timber=Timber.STUD, at=300.0, size=20.0, deep=95.0, from_face=5.0)
    for record, says in (
        (sound(leg(up=400.0, to_up=400.0)), "Outside every safe zone"),
        (sound(leg(holes=(bad,))), "near face of the stud"),
        (sound(surfaces=(wall(screw=42.0),)), "They reach it"),
        (sound(leg(deep=None)), "how deep leg L1 lies"),
        (sound(leg(), leg(id="L2", circuit="C9")), "not in this record"),
    ):
        found = answer(record)
        assert any(says in each.what for each in found.first), says


def test_a_point_without_a_place_is_asked_for():
    record = sound()
    points = record.circuit("C1").points
    bare = (points[0].model_copy(update={"spot": None}), *points[1:])
    found = answer(circuit(record, "C1", points=bare))

    assert "where S1 of C1 Ring" in found.first[0].what


def test_an_empty_surface_is_not_safe_by_having_nothing_entered():
    found = answer(job(fixtures=()))

    assert not found.safe
    assert "no leg of cable and no box" in found.first[0].what


@pytest.mark.parametrize(("deep", "asked"), [(40.0, True), (0.0, False)])
def test_the_frame_and_the_screws_are_asked_for_where_something_is_hidden(deep, asked):
    """On a cable that stays in sight nobody screws a board."""
    record = sound(leg(deep=deep), surfaces=(wall(frame=None, screw=None),))
    said = " ".join(each.what for each in answer(record, record.fabric.surfaces[0]).first)

    assert ("what the frame is" in said) is asked
    assert ("how long the screws are" in said) is asked


def test_the_cut_out_sheet_gives_edges_from_either_corner_and_cables_behind():
    """A one-gang hole of 75 mm (common practice), underside at 757: as one marks it."""
    record = sound()
    first, *_ = cut_outs(record, WALL)
    back = cut_outs(record, WALL, from_far=True)[-1]

    assert first.name == "S1"
    assert (first.edges.left, first.edges.right) == (662.5, 737.5)
    assert (first.edges.bottom, first.edges.top) == (757.0, 832.0)
    assert (back.edges.left, back.edges.right) == (4000 - 737.5, 4000 - 662.5)
    (behind,) = first.behind
    assert (behind.circuit, behind.deep) == ("C1", 40.0)
    assert set(behind.sides) == {"left", "right"}
    assert set(back.behind[0].sides) == set(behind.sides)


def test_a_box_that_no_cable_comes_to_is_asked_for():
    """A wall with boxes on it and no cable entered is not safe by what isn't there."""
    bare = answer(job(record=placed(), fixtures=()))
    short = answer(sound(leg(to_along=1500.0)))

    assert not bare.safe
    assert len([each for each in bare.first if "no leg ends there" in each.what]) == 5
    assert ["S5" in each.what for each in short.first] == [False, True]


def test_a_door_is_no_hole_to_cut():
    door = socket(box=None, width=900.0, height=1900.0).model_copy(update={"is_opening": True})

    assert cut_outs(job(fixtures=(door,)), WALL) == ()


def test_what_is_wrong_with_a_place_belongs_to_the_step_before_covering():
    from records.judgement.todo.progress import step_of
    from records.terms import Step
    from tests.judgement.fabric.walls import judged

    record = sound(leg(up=400.0, to_up=400.0))

    assert step_of(judged(record, "zone L1")) is Step.BEFORE_COVERING
    assert step_of(judged(record, "drawn length 0")) is Step.BEFORE_COVERING


@pytest.mark.parametrize(
    ("changes", "holes"),
    [
        ({"box": Box.ONE_GANG}, 1),
        ({"box": Box.BOARD}, 0),  # it stands on the face of the wall
        ({"box": Box.BOARD, "deep": 80.0}, 1),  # let into it
        ({"box": Box.JOINT}, 0),
        ({"box": Box.FREE_JOINT}, 0),
        ({"box": None}, 0),
        ({"box": None, "width": 60.0, "height": 60.0}, 1),
    ],
)
def test_only_what_is_let_into_a_wall_has_a_hole(changes, holes):
    """Whoever has the saw cuts what the sheet says: no hole for a board on the face, or a joint."""
    assert len(cut_outs(job(leg(), fixtures=(socket(**changes),)), WALL)) == holes


@pytest.mark.parametrize(
    ("entered", "said"), [(None, False), (date(2026, 3, 16), False), (date(2026, 3, 18), True)]
)
def test_cable_entered_after_its_reading_may_be_newer_than_it(entered, said):
    """The sound job was read on 16 March: what was pulled after that day nobody has read."""
    record = sound(leg(entered=entered))
    found = answer(record)

    assert found.safe
    assert bool(found.older) is said
    if said:
        assert "C1 Ring: read 16 Mar 2026, cable entered 18 Mar 2026" in found.older[0]


def test_a_review_that_says_nothing_of_a_needed_reading_is_no_yes():
    record = sound()
    silent = replace(review(record, expected(record)), lines=())

    assert not safe_to_cover(record, silent, WALL).safe


def test_a_surface_of_no_kind_is_asked_about_before_it_is_covered():
    """A record from elsewhere: a wall that isn't called one would have no zones to keep."""
    bare = WALL.model_copy(update={"kind": None})
    found = answer(sound(leg(up=400.0, to_up=400.0), surfaces=(bare,)), bare)

    assert any("What it is isn't entered" in each.what for each in found.first)
