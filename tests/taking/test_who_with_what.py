"""Who takes the readings with which instrument: what can be chosen, and what is chosen now."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.model.job import Duty, Instrument, InstrumentKind, Job, Person
from records.model.record import Record
from records.taking.prompt import Ask
from records.terms import Stage
from tests.taking.job import small_job
from tests.taking.locks import job
from tests.taking.seat import R1, go, seated

pytestmark = pytest.mark.usefixtures("clock")
LOW = Instrument(id="M1", kind=InstrumentKind.LOW_OHM)
INSULATING = Instrument(id="M2", kind=InstrumentKind.INSULATION, serial="77")
PEOPLE = (
    Person(id="A1", name="Wren Oakes", duty=Duty.INSTALLS),
    Person(id="A2", name="", duty=None),
)


def with_job(**update: object) -> Record:
    record = small_job()
    return record.model_copy(update={"job": record.job.model_copy(update=update)})


def test_what_can_be_chosen_says_which_meter_does_not_do_here(tmp_path: Path) -> None:
    with seated(tmp_path, record=with_job(instruments=(LOW, INSULATING), people=PEOPLE)) as bench:
        go(bench, R1)
        conditions = bench.conditions
        low, other = conditions.meters

        assert conditions.people == (("A1", "A1 Wren Oakes"), ("A2", "A2"))
        assert conditions.person_now == "A1"
        assert low[0] == "M1"
        assert not low[1].endswith("(not for the reading in hand)")
        assert other[0] == "M2"
        assert other[1].endswith("(not for the reading in hand)")
        assert conditions.lacking == ""


def test_what_was_chosen_last_is_what_is_marked(tmp_path: Path) -> None:
    with seated(tmp_path, record=with_job(instruments=(LOW, INSULATING), people=PEOPLE)) as bench:
        conditions = bench.conditions
        assert conditions.meter_now is None
        conditions.meter("M1")
        conditions.meter("77")
        conditions.person("A2")

        assert conditions.meter_now == "M2"
        assert conditions.person_now == "A2"


@pytest.mark.parametrize(
    ("update", "lacking"),
    [
        ({"people": (), "instruments": ()}, "No people are entered"),
        ({"people": PEOPLE, "instruments": ()}, "No instruments are entered"),
        ({"people": (), "instruments": (LOW,)}, "No people are entered"),
    ],
)
def test_what_is_not_entered_keeps_nobody_from_reading(
    tmp_path: Path, update: dict[str, object], lacking: str
) -> None:
    with seated(tmp_path, record=with_job(**update)) as bench:
        assert bench.conditions.lacking.startswith(lacking)
        assert bench.conditions.lacking.endswith("Readings can be taken.")


def test_a_locked_stage_is_one_to_look_at(tmp_path: Path) -> None:
    with seated(tmp_path, Stage.LIVE, job()) as bench:
        assert bench.prompt.kind is Ask.LOCKED
        assert bench.prompt.only_looks
        bench.must_read.ask_live()
        assert bench.prompt.only_looks
        bench.must_read.shown_to_end()
        bench.must_read.answer_live(yes=True)
        assert not bench.prompt.only_looks


def test_a_job_without_anybody_takes_readings_too(tmp_path: Path) -> None:
    with seated(tmp_path, record=small_job().model_copy(update={"job": Job()})) as bench:
        go(bench, R1)
        bench.type("0.28")

        assert bench.session.record.readings[0].by is None
