"""A record holds together: ids are its own, readings belong somewhere and never go."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from records.demo import demo_record
from records.errors import BadRecord
from records.model.circuit import Circuit, Point
from records.model.job import Duty, Job, Person
from records.model.outbuilding import Board, Bond
from records.model.reading import Figure, NotTaken, Place, Quantity, Reading, Slot, Tick
from records.model.record import MOST_CIRCUITS, Record, next_id
from records.terms import Part, Sign, Stage

AT = datetime(2026, 3, 5, 9, 0, tzinfo=UTC)
C1 = Place(part=Part.CIRCUIT, circuit="C1")
ZS = Slot(quantity=Quantity.ZS, place=C1, stage=Stage.LIVE)


def _reading(id: str, slot: Slot = ZS, value: float = 0.5) -> Reading:
    return Reading(id=id, slot=slot, taken=Figure(value=value, typed=f"{value}"), at=AT)


def test_an_empty_record_is_a_record():
    empty = Record()

    assert empty.job.edition == "BS 7671:2018+A2:2022"
    assert Record.model_validate_json(empty.model_dump_json()) == empty


def test_nothing_of_a_new_record_is_filled_in_for_anybody():
    """A blank is never a pass, and no signer is named for them."""
    empty = Record()

    assert empty.job.people == ()
    assert empty.job.reference == empty.job.place == ""
    assert empty.origin.earthing is None
    assert empty.board.earth is None
    assert empty.readings == ()


def test_a_whole_job_goes_through_json_unchanged():
    demo = demo_record()

    assert Record.model_validate_json(demo.model_dump_json()) == demo


@pytest.mark.parametrize(
    ("pieces", "says"),
    [
        ({"job": Job(people=(Person(id="P1"), Person(id="P1")))}, "person id"),
        ({"board": Board(bonds=(Bond(id="B1"), Bond(id="B1")))}, "bond id"),
        ({"circuits": (Circuit(id="C1"), Circuit(id="C1"))}, "circuit id"),
        (
            {"circuits": (Circuit(id="C1", points=(Point(id="P1"), Point(id="P1"))),)},
            "point of circuit C1 id",
        ),
        (
            {"circuits": (Circuit(id="C1"),), "readings": (_reading("R1"), _reading("R1"))},
            "reading id",
        ),
    ],
)
def test_two_entries_with_one_id_are_refused(pieces, says):
    with pytest.raises(ValidationError, match=says):
        Record(**pieces)


@pytest.mark.parametrize(
    "place",
    [
        Place(part=Part.CIRCUIT, circuit="C2"),
        Place(part=Part.CIRCUIT),
        Place(part=Part.CIRCUIT, circuit="C1", point="P9"),
        Place(part=Part.BOARD, point="B1"),
        Place(part=Part.ORIGIN, circuit="C1"),
    ],
)
def test_a_reading_of_nothing_in_the_record_is_refused(place):
    slot = Slot(quantity=Quantity.ZS, place=place, stage=Stage.LIVE)

    with pytest.raises(ValidationError, match="not in this record"):
        Record(circuits=(Circuit(id="C1"),), readings=(_reading("R1", slot),))


def test_a_circuit_with_readings_cannot_be_taken_out():
    record = Record(circuits=(Circuit(id="C1"),), readings=(_reading("R1"),))

    with pytest.raises(ValidationError, match="a reading is never deleted"):
        Record.model_validate({**record.model_dump(), "circuits": ()})


def test_a_re_test_is_another_reading_and_the_first_stays():
    record = Record(
        circuits=(Circuit(id="C1"),),
        readings=(_reading("R1", value=1.9), _reading("R2", value=0.5)),
    )

    assert [each.taken.value for each in record.taken(ZS)] == [1.9, 0.5]


def test_asking_for_a_circuit_that_is_not_there_says_so():
    with pytest.raises(BadRecord, match="no circuit C7"):
        Record().circuit("C7")


def test_no_more_circuits_than_a_board_can_have():
    circuits = [{"id": f"C{i}"} for i in range(MOST_CIRCUITS + 1)]

    assert len(Record.model_validate({"circuits": circuits[:-1]}).circuits) == MOST_CIRCUITS
    with pytest.raises(ValidationError):
        Record.model_validate({"circuits": circuits})


@pytest.mark.parametrize(
    "given",
    [
        {"origin": {"ze": "0.35"}},
        {"origin": {"ze": -1}},
        {"origin": {"earthing": "IT"}},
        {"origin": {"zee": 0.35}},
        {"surprise": 1},
        {"format": 4},
        {"job": {"reference": "a\x07"}},
        {"job": {"started": "yesterday"}},
        {"job": {"ambient": 41}},
        {"circuits": [{"name": "no id"}]},
        {"feed": {"runs": [{"length": 0}]}},
        {"readings": [{"id": "R1"}]},
    ],
)
def test_what_is_no_record_is_refused(given):
    with pytest.raises(ValidationError):
        Record.model_validate(given)


def test_the_time_of_a_reading_needs_its_zone():
    """Two laptops in two zones must agree which reading came first."""
    with pytest.raises(ValidationError):
        Reading(id="R1", slot=ZS, taken=Tick(good=True), at=datetime(2026, 3, 5, 9, 0))


@pytest.mark.parametrize("reason", ["", "  ", "no"])
def test_what_could_not_be_taken_needs_a_reason(reason):
    with pytest.raises(ValidationError):
        NotTaken(reason=reason)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), True, "0.35", 1e10, -11.0])
def test_a_figure_is_a_finite_number(value):
    with pytest.raises(ValidationError):
        Figure(value=value)


def test_a_meters_zero_may_be_slightly_negative():
    assert Figure(value=-0.01, typed="-0.01").value == -0.01


@settings(deadline=None)
@given(
    value=st.floats(-10, 1e9, allow_nan=False),
    sign=st.sampled_from(Sign),
    typed=st.text(max_size=20),
)
def test_a_figure_survives_json_with_its_sign_and_as_typed(value, sign, typed):
    try:
        figure = Figure(value=value, sign=sign, typed=typed)
    except ValidationError:
        return  # the text can't be shown: that is refused
    again = TypeAdapter(Figure).validate_json(figure.model_dump_json())

    assert again == figure


def test_the_kind_of_answer_is_told_apart_by_its_name():
    for taken in (Figure(value=1.0), Tick(good=False), NotTaken(reason="no access")):
        reading = Reading(id="R1", slot=ZS, taken=taken, at=AT)

        assert type(Reading.model_validate_json(reading.model_dump_json()).taken) is type(taken)


def test_the_next_id_is_one_that_nobody_carries():
    people = (Person(id="P2", duty=Duty.CERTIFIES), Person(id="P9"))

    assert next_id("P", people) == "P10"
    assert next_id("C", ()) == "C1"
