"""Entries that are added and removed: nobody and nothing gets what was said of another."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.entering.list_entries import (
    check_circuit_goes,
    check_named_nowhere,
    free_circuit_id,
    new_bond,
    new_circuit,
    new_instrument,
    new_person,
)
from records.errors import BadRecord
from records.interlock.may_take import Interlock
from records.model.circuit import Circuit
from records.model.fabric import Fabric, Leg
from records.model.job import Duty, Job, Person
from records.model.noticed import Noticed
from records.model.reading import (
    CautionRead,
    Left,
    LiveException,
    LiveGate,
    NotTaken,
    Remedy,
    StandIn,
)
from records.model.record import MOST_CIRCUITS, Record
from records.terms import Stage
from tests.taking.job import AT, slot, small_job, with_figure
from tests.taking.locks import NOW, job, took
from tests.taking.seat import R1

CERTIFIER = Person(id="P2", name="Ash Reed", duty=Duty.CERTIFIES)
EXCEPTED = LiveGate(
    at=AT,
    by="A1",
    isolation_understood=True,
    exceptions=(LiveException(circuit="C3", by="P2", reason="heater in place"),),
)


LEG = Leg(id="L1", circuit="C3", surface="W1", along=0, up=300, to_along=900, to_up=300)
DONE = Remedy(id="D1", finding="x", done="cut back", at=AT)


def grown(**update: object) -> Record:
    return small_job().model_copy(update=update)


def test_the_first_two_people_are_who_installs_and_who_certifies() -> None:
    record = Record()
    duties = []
    for _ in range(3):
        person = new_person(record)
        duties.append((person.id, person.duty))
        people = (*record.job.people, person)
        record = record.model_copy(update={"job": Job(people=people)})

    assert duties == [("P1", Duty.INSTALLS), ("P2", Duty.CERTIFIES), ("P3", None)]
    assert new_instrument(record).id == "M1"
    assert new_bond(record).id == "B1"


def test_a_copy_has_the_design_and_neither_name_nor_readings() -> None:
    record = with_figure(small_job(), R1, 0.3)
    copy = new_circuit(record, record.circuits[0])

    assert copy.id == "C4"
    assert copy.name == ""
    assert (
        copy.model_copy(update={"id": "C1", "name": record.circuits[0].name})
        == (record.circuits[0])
    )


def test_a_record_takes_so_many_circuits_and_no_more() -> None:
    def full(count: int) -> Record:
        return Record(circuits=tuple(Circuit(id=f"C{at + 1}") for at in range(count)))

    assert new_circuit(full(MOST_CIRCUITS - 1)).id == f"C{MOST_CIRCUITS}"
    with pytest.raises(BadRecord, match=f"{MOST_CIRCUITS} circuits are the most"):
        new_circuit(full(MOST_CIRCUITS))


def test_a_circuit_with_readings_stays_whoever_took_them() -> None:
    record = small_job()
    check_circuit_goes(record, record.circuits[0])
    read = with_figure(record, R1, 0.3)
    for taken in (
        read,
        read.model_copy(update={"readings": (), "certifier_readings": read.readings}),
    ):
        with pytest.raises(BadRecord, match="a reading never goes"):
            check_circuit_goes(taken, taken.circuits[0])
        check_circuit_goes(taken, taken.circuits[1])


@pytest.mark.parametrize(
    "update",
    [
        {"live_gate": (EXCEPTED,)},
        {"noticed": (Noticed(id="N1", circuit="C3"),)},
        {"fabric": Fabric(legs=(LEG,))},
        {"remedies": (DONE.model_copy(update={"about": (slot(R1.quantity, R1.stage, "C3"),)}),)},
    ],
)
def test_a_new_circuit_gets_nothing_that_was_said_of_one_that_is_gone(
    update: dict[str, object],
) -> None:
    record = grown(**update)
    without = record.model_copy(update={"circuits": record.circuits[:2]})

    assert free_circuit_id(grown(circuits=record.circuits[:2])) == "C3"  # nothing was said of it
    assert free_circuit_id(without) == "C4"


def test_an_exception_does_not_go_over_to_the_circuit_that_comes_next() -> None:
    """Else a circuit without one dead test could be tested live the same afternoon."""
    record = job()
    people = (*record.job.people, CERTIFIER)
    record = record.model_copy(
        update={
            "job": record.job.model_copy(update={"people": people}),
            "live_gate": (EXCEPTED.model_copy(update={"at": NOW}),),
            "circuits": record.circuits[:2],
            "readings": tuple(r for r in record.readings if r.slot.place.circuit != "C3"),
        }
    )
    new = new_circuit(record)
    found = Interlock(
        record.model_copy(update={"circuits": (*record.circuits, new)}),
        {},
        "A1",
        NOW + timedelta(minutes=1),
    )

    assert found.exception("C3") is not None  # on record, of a circuit that is gone
    assert found.exception(new.id) is None
    assert not found.may_go_live(new.id)


CAUTION = CautionRead(key="dead", before=R1, at=AT, by="P2")


@pytest.mark.parametrize(
    ("update", "where"),
    [
        ({"live_gate": (EXCEPTED,)}, "the answer before the live tests"),
        (
            {"live_gate": (LiveGate(at=AT, by="P2", isolation_understood=True),)},
            "the answer before the live tests",
        ),
        ({"cautions_read": (CAUTION,)}, "a caution that was read"),
        ({"left": (Left(at=AT, by="P2", off=True, words=""),)}, "how it was left"),
        ({"remedies": (Remedy(id="D1", finding="x", done="cut back", at=AT, by="P2"),)}, "D1"),
    ],
)
def test_who_is_named_on_record_stays_for_the_next_person_would_get_their_words(
    update: dict[str, object], where: str
) -> None:
    with pytest.raises(BadRecord, match=f"Ash Reed stands in {where}: who did what"):
        check_named_nowhere(grown(**update), "P2", "Ash Reed")
    check_named_nowhere(grown(**update), "P3", "Nobody")


def test_who_took_a_reading_with_what_and_who_stands_in_for_one_stay() -> None:
    elsewhere = NotTaken(reason="tested", stands_in=StandIn(by="P2", where="their sheet"))
    record = took(slot(R1.quantity, Stage.DEAD, "C1"), elsewhere, 5)(job())
    last = record.readings[-1].id
    for id in ("A1", "M1"):
        with pytest.raises(BadRecord, match="stands in R1 and"):
            check_named_nowhere(record, id, id)
    with pytest.raises(BadRecord, match=f"Ash Reed stands in {last}: "):
        check_named_nowhere(record, "P2", "Ash Reed")


def test_it_says_how_much_more_there_is() -> None:
    caution = CautionRead(key="live", before=R1, at=AT, by="P2")
    with pytest.raises(BadRecord, match=r"how it was left: who"):
        check_named_nowhere(grown(left=(Left(at=AT, by="P2", off=True, words=""),)), "P2", "Ash")
    many = grown(cautions_read=(CAUTION, caution), live_gate=(EXCEPTED,))
    with pytest.raises(BadRecord, match="the answer before the live tests and 1 more: who"):
        check_named_nowhere(many, "P2", "Ash Reed")
