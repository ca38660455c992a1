"""What is left, in the order one walks: house, sub-board, then the rooms as the circuits meet them.

Where one stands for a test is as IET Guidance Note 3 describes it (from memory): ends of a ring and
insulation at the board, R1+R2 and Zs at the far point, the crossed ring at each point, Ze at the
origin. Walking a building once, room by room, is common practice.
"""

from __future__ import annotations

import pytest

from records.judgement.todo.progress import progress
from records.judgement.todo.walking import (
    BOARD,
    HOUSE,
    NO_ROOM,
    far_point,
    left,
    rooms,
    stand_of,
    stop_words,
)
from records.model.circuit import Circuit, Point
from records.model.measurement import Stand
from records.model.measurements import MEASUREMENTS
from records.model.outbuilding import Bond
from records.model.reading import Quantity, Slot
from records.model.record import Record
from records.model.slots import slots
from records.model.wiring import Run
from records.terms import Form, Part, Stage, Step
from tests.judgement.jobs import SOUND, at, circuit, reviewed, sound_job, without


def with_rooms(record: Record = SOUND) -> Record:
    """Return the job with rooms: the ring goes store, hall, store; the lights end outside."""
    ring, radial, lights, heater = record.circuits
    named = ("store", "hall", "Hall ", "", "STORE")
    points = tuple(
        point.model_copy(update={"room": room})
        for point, room in zip(ring.points, named, strict=True)
    )
    circuits = (
        ring.model_copy(update={"points": points}),
        radial.model_copy(update={"points": (Point(id="P1", at=18.0, room="loft"),)}),
        lights.model_copy(
            update={
                "points": (
                    Point(id="P1", at=3.0, room="hall"),
                    Point(id="P2", at=25.0, room="outside, west"),
                )
            }
        ),
        heater,
    )
    return record.model_copy(update={"circuits": circuits})


def names(record: Record, stage: Stage) -> list[str]:
    return [stop.heading for stop in left(record, stage)]


def test_the_house_comes_first_then_the_board_then_the_rooms_as_the_circuits_meet_them() -> None:
    job = with_rooms()

    assert rooms(job) == ("store", "hall", "loft", "outside, west")
    places = ["hall", "loft", "outside, west", NO_ROOM]
    assert names(job, Stage.LIVE) == [
        HOUSE,
        BOARD,
        *places,
        f"{BOARD}, again",  # the RCDs wait for Zs
        "outside, west, again",
        f"{NO_ROOM}, again",  # what operates, for the RCDs
    ]
    assert names(job, Stage.DEAD) == [
        BOARD,
        "store",
        *places,
        f"{BOARD}, again",  # insulation waits for R1+R2
        "store, again",
        "hall, again",
        f"{NO_ROOM}, again",  # the links of the ring are changed
        f"{BOARD}, again",
    ]


@pytest.mark.parametrize("stage", list(Stage))
@pytest.mark.parametrize("job", [SOUND, with_rooms()])
def test_each_slot_that_is_open_stands_in_exactly_one_place_in_its_own_order(
    job: Record, stage: Stage
) -> None:
    wanted = slots(job, stage)
    found = [slot for stop in left(job, stage) for slot in stop.slots]

    assert sorted(found, key=wanted.index) == list(wanted)
    for stop in left(job, stage):
        assert list(stop.slots) == sorted(stop.slots, key=wanted.index)
        assert {stand_of(job, slot) for slot in stop.slots} == {stop.name}
    first = [stop.name for stop in left(job, stage) if not stop.again]
    assert len(first) == len(set(first))


def test_what_has_something_entered_is_not_left_and_a_place_without_anything_goes() -> None:
    full = sound_job()
    zs = at(Quantity.ZS, "C2", Stage.LIVE)

    assert [left(full, stage) for stage in Stage] == [(), (), ()]
    (stop,) = left(without(zs), Stage.LIVE)
    assert (stop.name, stop.slots) == (NO_ROOM, (zs,))


@pytest.mark.parametrize(
    ("slot", "stands"),
    [
        (at(Quantity.R1, "C1"), BOARD),
        (at(Quantity.IR_LE, "C2"), BOARD),
        (at(Quantity.R1_R2, part=Part.FEED), BOARD),
        (at(Quantity.CROSS_LN, "C1", point="P1"), "store"),
        (at(Quantity.CROSS_LE, "C1", point="P3"), "hall"),
        (at(Quantity.CROSS_LE, "C1", point="P4"), NO_ROOM),
        (at(Quantity.ZS, "C1", Stage.LIVE), "hall"),
        (at(Quantity.R1_R2, "C2"), "loft"),
        (at(Quantity.POLARITY, "C3"), "outside, west"),
        (at(Quantity.R1_R2, "C4"), NO_ROOM),
        (at(Quantity.ZE, stage=Stage.LIVE, part=Part.ORIGIN), HOUSE),
        (at(Quantity.RCD_TIME, stage=Stage.LIVE, part=Part.FEED), HOUSE),
        (at(Quantity.RCD_TIME, "C2", Stage.LIVE), BOARD),
        (at(Quantity.GLAND, part=Part.FEED), HOUSE),
        (at(Quantity.GLAND), BOARD),
    ],
)
def test_where_one_stands_for_a_reading(slot: Slot, stands: str) -> None:
    assert stand_of(with_rooms(), slot) == stands


def test_the_catalogue_says_for_each_entry_where_one_stands() -> None:
    """All at the origin is at the house, points are stood at, and no board test is elsewhere."""
    for each in MEASUREMENTS:
        if each.part is Part.ORIGIN:
            assert each.stand is Stand.HOUSE, each.title
        if each.part is Part.BOARD:
            assert each.stand is Stand.BOARD, each.title
        if each.part is Part.CIRCUIT:
            assert (each.stand is Stand.POINT) == each.per_point, each.title
        if "furthest point" in f"{each.title} {each.between}":
            assert each.stand is Stand.FAR, each.title


def test_the_far_point_has_the_most_cable_before_it() -> None:
    def point(number: int, at: float | None, spur: float | None = None) -> Point:
        return Point(id=f"P{number}", at=at, spur=spur)

    def of(form: Form, *points: Point, length: float | None = 40.0) -> str | None:
        runs = (Run(length=length),)
        found = far_point(Circuit(id="C1", form=form, runs=runs, points=points))
        return found.id if found else None

    radial, ring = Form.RADIAL, Form.RING
    assert of(radial, point(1, 4.0), point(2, 18.0), point(3, 9.0)) == "P2"
    assert of(radial, point(1, 4.0), point(2, 18.0), point(3, 15.0, 6.0)) == "P3"
    assert of(radial, point(1, 4.0), point(2, None), point(3, 1.0)) == "P3"  # as entered
    # Both legs of 40 m lead to 19 m: 10 m of cable each way in parallel; to 38 m: 1.9 m.
    assert of(ring, point(1, 5.0), point(2, 19.0), point(3, 38.0)) == "P2"
    assert of(ring, point(1, 5.0), point(2, 19.0), point(3, 38.0, 9.0)) == "P3"
    assert of(ring, point(1, 5.0), point(2, None), point(3, 38.0)) == "P2"
    assert of(ring, point(1, 5.0), point(2, 19.0), point(3, 30.0), length=None) == "P2"
    assert of(radial) is of(ring) is None


def test_what_is_left_is_told_by_circuit_with_its_points() -> None:
    job = with_rooms()
    stops = {stop.heading: stop_words(job, stop) for stop in left(job, Stage.DEAD)}

    # The links at the board are changed over between the two.
    assert stops["store"] == ("C1 Ring: cross-connected L-N at S1 and S5",)
    assert stops["store, again"] == ("C1 Ring: cross-connected L-cpc at S1 and S5",)
    assert stops["loft"] == ("C2 Radial: R1+R2 and polarity",)
    assert stops[BOARD][0] == "Feed: R1+R2, insulation L-N, insulation L-E and insulation N-E"
    bonds = (Bond(id="B1", what="Water"), Bond(id="B2", what="Frame"))
    bonded = SOUND.model_copy(update={"board": SOUND.board.model_copy(update={"bonds": bonds})})
    rounds = [(stop.heading, stop_words(bonded, stop)) for stop in left(bonded, Stage.DEAD)]
    at_board, in_rooms = (
        next(words for heading, words in rounds if heading == where) for where in (BOARD, NO_ROOM)
    )
    assert "Board: earthing conductor and bonding conductor at Water and Frame" in at_board
    assert any(each.startswith("C1 Ring: cross-connected L-N at every point") for each in in_rooms)
    # What came off is shown back at the very end, on the way back to the board.
    assert rounds[-1][0] == f"{BOARD}, again"
    assert rounds[-1][1][-1] == "Board: put back before it goes live"


def test_the_steps_list_what_they_lack_in_this_order() -> None:
    job = with_rooms()
    needs = progress(job, reviewed(job))[Step.DEAD_TESTS].needs
    firsts = [need.split(" · ")[0] for need in needs]

    assert list(dict.fromkeys(firsts)) == [
        BOARD,
        "store",
        "hall",
        "loft",
        "outside, west",
        "C1 Ring: cross-connected L-N at S4 still to test.",
        "C4 Heater: R1+R2 and polarity still to test.",
        f"{BOARD}, again",
        "store, again",
        "hall, again",
        "C1 Ring: cross-connected L-cpc at S4 still to test.",
    ]
    assert "loft · C2 Radial: R1+R2 and polarity still to test." in needs


def test_a_room_changes_no_expectation_and_no_verdict() -> None:
    plain, named = sound_job(), with_rooms(sound_job())
    plain = circuit(plain, "C3", points=named.circuits[2].points)
    bare = tuple(point.model_copy(update={"room": ""}) for point in plain.circuits[2].points)
    plain = circuit(plain, "C3", points=bare)

    assert [(each.key, each.verdict, each.why) for each in reviewed(plain).lines] == [
        (each.key, each.verdict, each.why) for each in reviewed(named).lines
    ]
