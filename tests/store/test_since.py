"""Under which design each reading was entered, as the history of a record file tells."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.expected.plan import expected
from records.judgement.design_changed_since import judged_again
from records.model.reading import Figure, Quantity, Reading
from records.model.wiring import Run
from records.store.design_history import designs
from records.store.edits import append, put
from records.store.file import RecordFile
from records.terms import Stage
from tests.taking.job import AT, slot, small_job

LENGTH = "/circuits/1/runs/0/length"


def reading(id: str, value: float = 0.4) -> Reading:
    return Reading(
        id=id, slot=slot(Quantity.R1_R2, Stage.DEAD, "C2"), taken=Figure(value=value), at=AT
    )


@pytest.fixture
def file(tmp_path: Path):
    with RecordFile.create(tmp_path / "job.farboard", small_job()) as opened:
        yield opened


def ids(file: RecordFile) -> list[set[str]]:
    return [set(each.readings) for each in designs(file.history())]


def test_without_a_change_after_a_reading_there_is_no_other_design(file: RecordFile):
    file.change(put(LENGTH, 30.0))
    file.change(append("/readings", reading("R1")))

    assert ids(file) == []


def test_each_reading_is_with_the_design_that_it_was_entered_under(file: RecordFile):
    file.change(append("/readings", reading("R1")))
    file.change(put(LENGTH, 30.0))
    file.change(put(LENGTH, 31.0))
    file.change(append("/readings", reading("R2")))
    file.change(put(LENGTH, 32.0))
    found = designs(file.history())

    assert [set(each.readings) for each in found] == [{"R1"}, {"R2"}]
    lengths = [each.record.circuits[1].runs[0].length for each in found]
    assert lengths == [small_job().circuits[1].runs[0].length, 31.0]
    assert all(each.record.readings == () for each in found)


def test_a_change_that_was_taken_back_leaves_nothing_to_say(file: RecordFile):
    file.change(append("/readings", reading("R1")))
    file.change(put(LENGTH, 30.0))
    file.undo()

    assert judged_again(designs(file.history()), file.record, expected(file.record)) == {}


def test_a_reading_that_was_taken_back_gives_its_id_to_the_next(file: RecordFile):
    file.change(append("/readings", reading("R1")))
    file.undo()
    file.change(put(LENGTH, 30.0))
    file.change(append("/readings", reading("R1", 0.5)))

    assert ids(file) == []


def test_a_record_made_from_another_one_brings_its_readings(tmp_path: Path):
    job = small_job().model_copy(update={"readings": (reading("R1"),)})
    with RecordFile.create(tmp_path / "other.farboard", job) as opened:
        opened.change(put(LENGTH, 30.0))
        assert ids(opened) == [{"R1"}]


def test_from_the_file_to_the_sentence(file: RecordFile):
    file.change(append("/readings", reading("R1")))
    run: Run = file.record.circuits[1].runs[0]
    file.change(put(LENGTH, 90.0))
    found = judged_again(designs(file.history()), file.record, expected(file.record))

    said = found["circuit/C2/-/dead/R1+R2"]
    assert f"Circuit C2, run 1, Length: {run.length:g} m → 90 m" in said
