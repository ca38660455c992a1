"""The question whether a surface may be covered, with what can be answered."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from records.errors import BadQuantity
from records.judgement.fabric.cover import Open
from records.model.record import Record
from records.places.cover_question import (
    Act,
    CoverQuestion,
    cover_question,
    covered_words,
    read_covered,
)
from records.session import Session
from records.store.file import RecordFile
from tests.judgement.fabric.test_cover import IR_LE, placed, sound
from tests.judgement.jobs import without

TODAY = date(2026, 3, 5)


def asked(folder: Path, record: Record, *, covered: date | None = None) -> CoverQuestion:
    surface = record.fabric.surfaces[0].model_copy(update={"covered": covered})
    fabric = record.fabric.model_copy(update={"surfaces": (surface,)})
    record = record.model_copy(update={"fabric": fabric})
    session = Session(RecordFile.create(folder / "job.farboard", record))
    try:
        return cover_question(session, session.record.fabric.surfaces[0])
    finally:
        session.close()


def test_what_is_safe_can_be_covered_today_with_a_photograph_first(tmp_path: Path) -> None:
    found = asked(tmp_path, sound())

    assert found.title.endswith(": YES")
    assert "take one now" in found.text
    assert [found.chosen(at) for at in range(len(found.answers))] == [Act.TODAY, Act.ASK_DAY]


def test_what_is_not_safe_is_never_covered_today(tmp_path: Path) -> None:
    found = asked(tmp_path, sound(record=placed(without(IR_LE))))

    assert found.title.endswith(": NOT YET, 1 thing first")
    first, *others = [found.chosen(at) for at in range(len(found.answers))]
    assert isinstance(first, Open)
    assert first.slot == IR_LE
    assert others == [Act.ASK_DAY]
    assert found.answers[-1].startswith("It is covered already")
    assert "What is missing stays missing" in found.answers[-1]


def test_what_is_covered_says_since_when_and_what_is_missing_still(tmp_path: Path) -> None:
    found = asked(tmp_path, sound(record=placed(without(IR_LE))), covered=TODAY)

    assert "covered 5 Mar 2026" in found.title
    assert found.text.startswith("1 thing missing.")
    assert "from memory" in found.text
    assert found.chosen(len(found.answers) - 1) is Act.OPEN_AGAIN


@pytest.mark.parametrize(
    ("text", "day"), [("today", TODAY), ("4 Mar 2026", date(2026, 3, 4)), ("5/3/26", TODAY)]
)
def test_a_day_up_to_today_is_one_on_which_it_was_covered(text: str, day: date) -> None:
    assert read_covered(text, TODAY) == day


@pytest.mark.parametrize("text", ["6 Mar 2026", "soon", ""])
def test_a_day_to_come_is_none(text: str) -> None:
    with pytest.raises(BadQuantity):
        read_covered(text, TODAY)


def test_both_changes_are_said(tmp_path: Path) -> None:
    wall = sound().fabric.surfaces[0]

    assert covered_words(wall, TODAY).endswith(": covered 5 Mar 2026.")
    assert covered_words(wall, None).endswith(": open again.")
