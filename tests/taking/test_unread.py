"""What must be read before a reading, the same at the bench, line by line and in the review."""

from __future__ import annotations

from pathlib import Path

from records.interlock.comes_off import EARTH_BACK, ZE
from records.model.reading import Quantity
from records.session import Session
from records.store.file import RecordFile
from records.taking.desk import Desk
from records.terms import Stage
from tests.taking.job import slot, small_job, with_figure


def _desk(folder: Path, *, earth_off: bool, stage: Stage) -> Desk:
    path = folder / "job.farboard"
    job = with_figure(small_job(), ZE, 0.35) if earth_off else small_job()
    RecordFile.create(path, job).close()
    return Desk(Session(RecordFile.open(path), "Wren Oakes"), stage)


def test_each_caution_comes_until_it_was_read_in_this_sitting(tmp_path: Path) -> None:
    """Safe isolation before any dead test: HSE HSG85 (from memory)."""
    desk = _desk(tmp_path, earth_off=False, stage=Stage.DEAD)
    test = slot(Quantity.IR_LE, Stage.DEAD, "C1")
    titles = []
    while (caution := desk.unread(test)) is not None:
        titles.append(caution.title)
        desk.has_read(caution, test)

    assert titles == ["Before the first dead test", "Before the insulation tests"]


def test_nothing_stands_before_the_question_for_an_earth_that_is_off(tmp_path: Path) -> None:
    """Common practice: it goes back first, before anything else is read or done."""
    desk = _desk(tmp_path, earth_off=True, stage=Stage.LIVE)

    assert desk.unread(EARTH_BACK) is None
    assert desk.unread(ZE) is not None
