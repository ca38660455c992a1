"""Who says no stage goes on where the work stands."""

from __future__ import annotations

from records.model.slots import slots
from records.taking.stage_begun import stage_begun
from records.terms import Stage
from tests.taking.job import put_back, ready_job, small_job, with_figure
from tests.taking.seat import R1


def test_the_first_stage_of_a_blank_record() -> None:
    assert stage_begun(small_job()) is Stage.BEFORE_COVERING


def test_the_stage_that_was_begun_last() -> None:
    assert stage_begun(with_figure(small_job(), R1, 0.3)) is Stage.DEAD


def test_the_next_one_once_nothing_is_open() -> None:
    record = put_back(ready_job())
    dead = slots(record, Stage.DEAD)
    assert all(map(record.taken, dead))
    assert stage_begun(record) is Stage.LIVE
    fewer = record.model_copy(
        update={"readings": tuple(r for r in record.readings if r.slot != dead[-1])}
    )
    assert stage_begun(fewer) is Stage.DEAD
