"""Only who certifies decides what is tested live all the same, or counts as tested elsewhere."""

from __future__ import annotations

import pytest

from records.errors import BadText
from records.interlock.comes_off import ZE
from records.interlock.may_take import Interlock
from records.model.job import Duty, Person
from records.model.reading import Quantity, Slot
from records.model.record import Record
from records.taking import exceptions
from records.taking.exceptions import competent_person, exception
from records.terms import Stage, Verdict
from tests.taking.job import slot
from tests.taking.locks import FEED_R1_R2, LE, at_minute, job

EARTHING = slot(Quantity.EARTHING, Stage.DEAD)


def of(*people: Person) -> Record:
    record = job()
    return record.model_copy(update={"job": record.job.model_copy(update={"people": people})})


def interlock(record: Record, wrong: bool) -> Interlock:
    stood = {each.id: Verdict.WITHIN for each in record.readings}
    if wrong:
        stood[record.taken(LE)[-1].id] = Verdict.OUTSIDE
    return Interlock(record, stood, "A1", at_minute(120))


def test_an_exception_says_who_decided_why_and_in_spite_of_what() -> None:
    made = exception(interlock(job(), wrong=True), "C2", "ash reed", "heater can't come off")

    assert (made.circuit, made.by, made.reason) == ("C2", "A2", "heater can't come off")
    assert made.despite == ("insulation L-E outside",)


@pytest.mark.parametrize("id", ["C1", "C2", "C3"])
def test_a_circuit_whose_dead_tests_are_satisfactory_needs_none(id: str) -> None:
    with pytest.raises(BadText, match="needs no exception: its dead tests are satisfactory"):
        exception(interlock(job(), wrong=False), id, "A2", "heater can't come off")


def test_an_exception_without_a_reason_is_refused() -> None:
    with pytest.raises(BadText):
        exception(interlock(job(), wrong=True), "C2", "A2", " ")


@pytest.mark.parametrize("who", ["A2", "a2", "Ash Reed", " ash reed "])
def test_who_certifies_is_known_by_id_and_by_name(who: str) -> None:
    assert competent_person(job(), who).id == "A2"


@pytest.mark.parametrize("who", ["A1", "Wren Oakes", "", "Ash"])
def test_nobody_else_decides_and_it_is_said_who_does(who: str) -> None:
    with pytest.raises(BadText, match="Only who certifies decides this: type A2 Ash Reed"):
        competent_person(job(), who)
    with pytest.raises(BadText, match="Only who certifies"):
        exception(interlock(job(), wrong=True), "C2", who, "heater can't come off")


def test_without_a_named_certifier_one_has_to_be_entered_first() -> None:
    for people in (
        (Person(id="A1", name="Wren Oakes", duty=Duty.INSTALLS),),
        (Person(id="A2", name="", duty=Duty.CERTIFIES),),
    ):
        with pytest.raises(BadText, match="Enter who certifies first, with a name"):
            competent_person(of(*people), "A2")


def test_of_two_who_certify_either_decides() -> None:
    record = of(
        Person(id="A2", name="Ash Reed", duty=Duty.CERTIFIES),
        Person(id="A3", name="Ivy Marsh", duty=Duty.CERTIFIES),
    )

    assert competent_person(record, "ivy marsh").id == "A3"
    with pytest.raises(BadText, match="A2 Ash Reed or A3 Ivy Marsh"):
        competent_person(record, "A1")


def test_a_test_of_feed_board_and_earths_can_have_been_recorded_elsewhere() -> None:
    for where in (FEED_R1_R2, EARTHING):
        made = exceptions.tested_elsewhere(job(), where, "A2, their test sheet of 3 March")
        assert made.reason == "tested by Ash Reed"
        assert made.stands_in is not None
        assert (made.stands_in.by, made.stands_in.where) == ("A2", "their test sheet of 3 March")


@pytest.mark.parametrize("where", [LE, ZE, slot(Quantity.ZS, Stage.LIVE, "C2")])
def test_a_circuits_dead_tests_and_live_tests_are_done_here(where: Slot) -> None:
    with pytest.raises(BadText, match="Only dead tests of feed, board and earths"):
        exceptions.tested_elsewhere(job(), where, "A2, their test sheet of 3 March")


@pytest.mark.parametrize("text", ["A2", "A2,", "A1, their test sheet", ", their test sheet"])
def test_it_has_to_be_said_by_whom_and_where_it_is_recorded(text: str) -> None:
    with pytest.raises(BadText):
        exceptions.tested_elsewhere(job(), EARTHING, text)
