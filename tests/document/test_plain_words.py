"""Whoever lives with it reads where cables hide, in words, without a drawing."""

from __future__ import annotations

from datetime import date

from records.document.household import hidden
from records.document.walls.plain_words import hiding_places
from records.model.fabric import Buried, GroundCover
from tests.judgement.fabric.walls import job, leg, wall


def test_a_wall_in_one_sentence():
    up = leg(id="L2", along=900.0, to_along=900.0, to_up=2325.0)
    (said,) = hiding_places(job(leg(), up))

    assert said == (
        "North wall: cables level, 800 mm above the floor; straight up and down, 900 mm from its "
        "left corner. Keep screws and nails 50 mm away; its drawing is in part 7."
    )
    assert said in hidden(job(leg(), up))


def test_a_ceiling_a_slope_and_the_ground():
    ceiling = wall(kind="ceiling", name="Ceiling")
    (said,) = hiding_places(job(leg(), surfaces=(ceiling,)))
    assert "800 mm from its lower edge" in said
    (said,) = hiding_places(job(leg(to_up=900.0)))
    assert "sloping below its top edge" in said
    trench = Buried(
        id="B1", length=18.0, deep=0.45, cover=GroundCover.PAVING, from_what="0.6 m off the wall."
    )
    (said,) = hiding_places(job(buried=(trench,)))
    assert said.endswith("18 m of cable, 450 mm deep, paving. 0.6 m off the wall.")


def test_what_is_in_sight_or_known_only_from_memory():
    assert hiding_places(job(leg(deep=0.0))) == []
    shut = wall(covered=date(2026, 3, 9))
    (said,) = hiding_places(job(leg(memory=True), surfaces=(shut,)))
    assert "cable locator" in said


def test_many_places_are_cut_with_a_word_that_there_are_more():
    legs = [leg(id=f"L{at}", up=100.0 * at, to_up=100.0 * at) for at in range(1, 9)]
    (said,) = hiding_places(job(*legs))

    assert "100, 200, 300, 400, 500, 600 and at more places mm" in said
