"""One-line entry of places: what a line means, in any order, and what is asked or refused."""

from __future__ import annotations

import itertools

import jsonpatch
import pytest

from records.errors import BadPlace
from records.model.fabric import Box, Cover, Fabric, GroundCover, Mark, SurfaceKind, Timber
from records.model.record import Record
from records.places.line import understood
from tests.judgement.fabric.walls import WALL, job
from tests.judgement.jobs import sound_job

NORTH = WALL.model_copy(update={"name": "North wall, inside"})
CEILING = WALL.model_copy(
    update={"id": "W5", "name": "Ceiling", "kind": SurfaceKind.CEILING, "height": 3000.0}
)


def after(line, record=None, surface=NORTH):
    """The record as it is once a line was taken."""
    record = record or job(surfaces=(NORTH, CEILING), fixtures=())
    return Record.model_validate(
        jsonpatch.apply_patch(
            record.model_dump(mode="json"), list(understood(record, surface, line).ops)
        )
    )


def spot(line, name="S1", surface=NORTH):
    points = [each for c in after(line, surface=surface).circuits for each in c.points]
    return next(each.spot for each in points if each.name == name)


def test_a_box_as_the_trade_says_it():
    found = spot("S1 450 up 620 along 2g")

    assert (found.along, found.up, found.box, found.to) == (620, 450, Box.TWO_GANG, Mark.UNDERSIDE)


def test_the_order_of_the_parts_makes_no_difference():
    wanted = spot("S1 450 up 620 along 2g")
    for parts in itertools.permutations(("450 up", "620 along", "2g", "45 deep")):
        found = spot(f"S1 {', '.join(parts)}")
        assert found == wanted.model_copy(update={"deep": 45.0})


@pytest.mark.parametrize(
    ("line", "along", "up"),
    [
        ("S1 up 450 along 620", 620, 450),
        ("S1 0.45m up 62cm along", 620, 450),
        ("S1 450 up 200 from right", 3800, 450),
        ("S1 450 up, 200 in from the left", 200, 450),
        ("S1 450 up 200 in from east", 3800, 450),
        ("S1 300 down 620 along", 620, 2100),
        ("S1 300 from ceiling, 620 along", 620, 2100),
    ],
)
def test_distances_from_either_corner_the_floor_and_the_top(line, along, up):
    found = spot(line)

    assert (found.along, found.up) == (along, up)


def test_a_row_at_equal_spacing_in_one_entry():
    made = after("C3 D1-D8 600 in from west, every 300, from 450 lamp", surface=CEILING)
    lamps = [each for each in made.circuit("C3").points if each.name.startswith("D")]

    assert [each.name for each in lamps] == [f"D{n}" for n in range(1, 9)]
    assert [each.spot.up for each in lamps] == [450 + 300 * n for n in range(8)]
    assert {each.spot.along for each in lamps} == {600}
    assert lamps[0].spot.to is Mark.CENTRE


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("S1 450 up 620", "can be read in two ways"),
        ("S1 450 up", "How far along"),
        ("S1 620 along", "How far up"),
        ("S77 450 up 620 along", "Type its circuit before it (C1, C2, C3, C4)"),
        ("S1 450 up 620 along 3g", "not understood"),
        ("S1 450 up 620 along wibble", "“wibble”"),
        ("S1 -5 up 620 along", "below zero"),
        ("S1 450 up 1.2 along", "1.2 m, or 1.2 mm"),
        ("S1 1,250 up 620 along", "could be 1.250 or 1250"),
        ("S1 450 up 300 up 620 along", "is there twice"),
        ("S1 450 up 620 along 700 from right", "Two figures say the same distance"),
        ("D1-D8 600 in from west", "every"),
        ("D8-D1 600 along every 900 from 450", "from a lower to a higher"),
        ("C9 cable from S1 up 2000", "no circuit"),
        ("", "Type where something is"),
        ("S1 " + "1 up " * 50, "too much"),
        ("S1 450 up 620 along " + "x" * 300, "characters long"),
        ("door 3400", "from where to where"),
        ("door 4200 to 3400, 2000 high", "from left to right"),
        ("hole 20", ""),
    ],
)
def test_what_is_not_clear_is_said_and_never_guessed(line, says):
    with pytest.raises(BadPlace) as told:
        understood(job(surfaces=(NORTH, CEILING), fixtures=()), NORTH, line)

    assert says in str(told.value)


def test_no_surface_yet_asks_for_the_building():
    with pytest.raises(BadPlace, match="building 5000 x 3000"):
        understood(sound_job(), None, "S1 450 up 620 along")


def test_a_building_makes_four_walls_and_a_ceiling_at_once():
    """Falling 300 over 3000 to the south: the ceiling is 3015 along its slope (Pythagoras)."""
    made = after("building 5000x3000x2400, fall 300 to south, timber", sound_job(), None)
    north, east, south, west, ceiling = made.fabric.surfaces

    assert (north.width, north.height, north.height_far) == (5000, 2400, None)
    assert (south.width, south.height, south.height_far) == (5000, 2100, None)
    assert (east.width, east.height, east.height_far) == (3000, 2400, 2100)
    assert (west.width, west.height, west.height_far) == (3000, 2100, 2400)
    assert (ceiling.width, ceiling.height) == (5000, 3015.0)
    assert ceiling.kind is SurfaceKind.CEILING


@pytest.mark.parametrize("line", ["building 5000 x 3000", "building 5000 x 3000 x 2400, fall 2400"])
def test_a_building_that_can_not_be_is_refused(line):
    with pytest.raises(BadPlace):
        understood(sound_job(), None, line)


def test_a_route_goes_on_from_where_it_ended():
    first = after("S1 450 up 620 along 1g")
    run = after("C1 cable from S1 up 2280 along 2400 down 1950, deep 40", first)
    more = after("C1 cable along 3000", run)
    legs = more.fabric.legs

    assert [(each.along, each.up, each.to_along, each.to_up) for each in legs] == [
        (620, 487.5, 620, 2280),
        (620, 2280, 2400, 2280),
        (2400, 2280, 2400, 1950),
        (2400, 1950, 3000, 1950),
    ]
    assert {each.deep for each in legs} == {40}
    assert [each.id for each in legs] == ["L1", "L2", "L3", "L4"]


def test_a_route_ends_at_a_point_only_in_line_with_it():
    record = after("S2 450 up 2000 along", after("S1 450 up 620 along"))
    level = after("C1 cable from S1 to S2, plate", record)

    assert level.fabric.legs[0].to_along == 2000
    assert level.fabric.legs[0].cover is Cover.PLATE
    with pytest.raises(BadPlace, match="neither level"):
        understood(record, NORTH, "C1 cable from S1 up 2280 to S2")
    with pytest.raises(BadPlace, match="doesn't go down"):
        understood(record, NORTH, "C1 cable from S1 down 2280")


def test_holes_and_trenches():
    record = after("C1 cable from 620 450 along 2000", after("S1 450 up 620 along"))
    bored = after("L1 hole 20 at 300, stud 95, face 37", record)
    (hole,) = bored.fabric.legs[0].holes
    dug = after("feed ground 18 m, deep 450, paving, tape")

    assert (hole.timber, hole.size, hole.at, hole.deep, hole.from_face) == (
        Timber.STUD,
        20,
        300,
        95,
        37,
    )
    (trench,) = dug.fabric.buried
    assert (trench.length, trench.deep, trench.cover, trench.tape) == (
        18,
        0.45,
        GroundCover.PAVING,
        True,
    )
    with pytest.raises(BadPlace, match="no leg L9"):
        understood(record, NORTH, "L9 hole 20 at 300, stud 95, face 37")


def test_a_door_and_the_build_up_of_a_wall():
    made = after("door 3100 to 3900, 2000 high")
    (door,) = made.fabric.fixtures
    changed = after("this thick 90, screws 38, metal, lagged, foil")
    wall = changed.fabric.surfaces[0]

    assert door.is_opening
    assert (door.spot.along, door.spot.width, door.spot.height) == (3500, 800, 2000)
    assert (wall.thick, wall.screw, wall.foil) == (90, 38, True)
    assert str(wall.frame) == "metal studs"


def test_every_line_says_how_it_was_understood():
    record = job(surfaces=(NORTH, CEILING), fixtures=())

    assert understood(record, NORTH, "S1 450 up 620 along 2g").echo == (
        "C1 S1: 620 along, 450 up to its underside, two-gang"
    )
    assert "(added)" in understood(record, NORTH, "C1 S77 450 up 620 along").echo


def test_an_empty_drawing_is_what_older_records_have():
    assert Record.model_validate({"format": 2}).fabric == Fabric.blank()


def routes(made):
    return [
        (each.circuit, each.along, each.up, each.to_along, each.to_up) for each in made.fabric.legs
    ]


def test_a_line_that_says_only_where_to_go_is_about_the_last_cable():
    made = after("C2 cable from 600 500 up 900, deep 40")
    made = after("along 1500", made)

    assert routes(made)[1] == ("C2", 600, 900, 1500, 900)
    assert made.fabric.legs[1].deep == 40
    fed = after("feed cable from 100 100 up 900", made)
    assert routes(after("along 300", fed))[-1][0] is None
    with pytest.raises(BadPlace, match="of which cable"):
        understood(job(surfaces=(NORTH,), fixtures=()), NORTH, "up 900")


def test_from_the_zone_at_the_top_it_goes_along_and_straight_down_to_a_box():
    """2400 high: the middle of the zone is at 2325; a slope takes the cable with it."""
    made = after("S1 450 up 900 along 2g")
    made = after("S2 450 up 2000 along 2g", made)
    level = after("C1 cable from S1 up top to S2", made)
    assert routes(level) == [
        ("C1", 900, 487.5, 900, 2325),
        ("C1", 900, 2325, 2000, 2325),
        ("C1", 2000, 2325, 2000, 487.5),
    ]
    slope = NORTH.model_copy(update={"height_far": 2000.0})
    steep = after("C1 cable from S1 up top to S2", made, slope)
    assert routes(steep)[1] == ("C1", 900, 2235, 2000, 2125)
    followed = after("C1 cable from S1 up top along top 3000", made, slope)
    assert routes(followed)[1] == ("C1", 900, 2235, 3000, 2025)


def test_on_a_ceiling_there_is_no_zone_at_the_top_to_go_along():
    made = after("C3 D1 600 in from west, 600 from south, lamp", surface=CEILING)
    with pytest.raises(BadPlace, match="neither level"):
        understood(made, CEILING, "C3 cable from 100 2925 to D1")
