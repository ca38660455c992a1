"""A ring's ends can be read once its last leg is in; a wall that is covered before that needs a
reading of each cable behind it (common practice: Farboard's own rule)."""

from __future__ import annotations

from datetime import timedelta

from records.expected.plan import expected
from records.judgement.fabric.cover import safe_to_cover
from records.judgement.fabric.ring_cables import ring_cables
from records.judgement.review import review
from records.model.fabric import Box, Fixture, Spot
from records.model.reading import Quantity, Reading, Tick, place_of, slot_of
from records.terms import Part, Stage, Verdict
from tests.judgement.fabric.test_cover import placed, sound
from tests.judgement.fabric.walls import WALL, leg, wall
from tests.judgement.jobs import START, at, circuit, without

ENDS = [at(each, "C1", Stage.BEFORE_COVERING) for each in (Quantity.R1, Quantity.RN, Quantity.R2)]
RING = place_of(Part.CIRCUIT, "C1")


def cables(point):
    return slot_of(Quantity.RING_CABLES, RING.at_point(point), Stage.BEFORE_COVERING)


def half_in(here=("P1", "P2", "P3")):
    """Points S1 to S3 on the wall, the other two on another one that has no cable yet."""
    record = placed(without(*ENDS))
    points = tuple(
        each
        if each.id in here
        else each.model_copy(update={"spot": each.spot.model_copy(update={"surface": "W2"})})
        for each in record.circuit("C1").points
    )
    record = circuit(record, "C1", points=points)
    return sound(leg(to_along=1600.0), record=record, surfaces=(WALL, wall(id="W2", name="East")))


def taken(record, *given):
    readings = tuple(
        Reading(
            id=f"R{900 + count}",
            slot=cables(point),
            taken=Tick(good=good),
            at=START + timedelta(hours=4, minutes=count),
        )
        for count, (point, good) in enumerate(given, start=len(record.readings))
    )
    return record.model_copy(update={"readings": (*record.readings, *readings)})


def answer(record, surface=WALL):
    return safe_to_cover(record, review(record, expected(record)), surface)


def test_before_the_last_leg_is_in_each_cable_behind_the_wall_is_read_by_itself():
    found = answer(half_in())

    assert [each.slot for each in found.first] == [cables(each) for each in ("P1", "P2", "P3")]
    assert "Test each cable here alone" in found.first[0].what


def test_read_and_good_they_let_the_wall_be_covered():
    record = half_in()
    some = taken(record, ("P1", True), ("P2", True))
    every = taken(record, ("P1", True), ("P2", True), ("P3", True))

    assert [each.slot for each in answer(some).first] == [cables("P3")]
    assert answer(every).safe


def test_one_found_wrong_keeps_it_open_until_it_is_read_again():
    record = half_in()
    bad = taken(record, ("P1", True), ("P2", False), ("P3", True))
    found = answer(bad)

    assert [each.slot for each in found.first] == [cables("P2")]
    assert "Change the cable before the wall is covered" in found.first[0].what
    line = next(each for each in review(bad, expected(bad)).lines if each.slot == cables("P2"))
    assert line.verdict is Verdict.OUTSIDE
    assert answer(taken(bad, ("P2", True))).safe


def test_once_all_of_the_ring_is_in_its_ends_are_asked_for():
    """All points met by cable and as much drawn as entered: nothing stands in for the ends."""
    record = placed(without(*ENDS))
    whole = circuit(
        record, "C1", runs=(record.circuit("C1").runs[0].model_copy(update={"length": 2.2}),)
    )
    good = taken(sound(record=whole), *((f"P{each}", True) for each in range(1, 6)))

    assert ring_cables(good, WALL, RING) is None
    assert set(ENDS) <= {each.slot for each in answer(good).first}


def test_where_the_board_is_the_leg_home_counts():
    """S3 is the last point that cable comes to: what goes home from it passes behind the board."""
    record = half_in(here=("P1",))
    board = Fixture(
        id="X7", name="Board", spot=Spot(surface="W1", along=3000.0, up=1500.0, box=Box.BOARD)
    )
    with_board = record.model_copy(
        update={
            "fabric": record.fabric.model_copy(
                update={
                    "fixtures": (board,),
                    "legs": (
                        *record.fabric.legs,
                        leg(id="L2", surface="W2", along=1100.0, to_along=1700.0),
                    ),
                }
            )
        }
    )

    assert ring_cables(record, WALL, RING) == (cables("P1"),)
    assert ring_cables(with_board, WALL, RING) == (cables("P1"), cables("P3"))


def test_a_radial_is_read_as_ever():
    assert ring_cables(half_in(), WALL, place_of(Part.CIRCUIT, "C2")) is None


def test_a_ring_is_all_in_only_with_every_point_met_and_its_whole_length_drawn():
    """Every socket has cable, and the leg home is missing: 2.2 m are drawn of 50."""
    record = sound(record=placed(without(*ENDS)))
    assert ring_cables(record, WALL, RING) == tuple(cables(f"P{each}") for each in range(1, 6))

    run = record.circuit("C1").runs[0].model_copy(update={"length": 2.2})
    whole = circuit(half_in(), "C1", runs=(run,))  # the length is there, two sockets aren't met
    assert ring_cables(whole, WALL, RING) == tuple(cables(f"P{each}") for each in range(1, 4))
