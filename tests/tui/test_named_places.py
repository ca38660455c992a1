"""What was taken back and what was typed and left are named with where they belong."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.drafts import draft_key, draft_words, where
from records.model.reading import Quantity
from records.model.record import Record
from records.store.difference_words import difference
from records.store.file import RecordFile
from records.terms import Stage
from tests.taking.job import slot, small_job, with_figure
from tests.tui.driving import WIDE, wizard
from tui.local_state import Kept

BLANK = small_job()
R1 = slot(Quantity.R1, Stage.BEFORE_COVERING, "C1")
ZE = slot(Quantity.ZE, Stage.LIVE)
ONE = with_figure(BLANK, R1, 0.31)
TWO = with_figure(ONE, ZE, 0.4)


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        (ONE, BLANK, "Before covering, C1 Bench sockets, r1: 0.31 Ω"),
        (BLANK, ONE, "Before covering, C1 Bench sockets, r1: now 0.31 Ω"),
        (TWO, ONE, "Live tests, Origin, Ze: 0.40 Ω"),
        (TWO, BLANK, "Before covering, C1 Bench sockets, r1: 0.31 Ω and 1 more"),
        (BLANK, BLANK.model_copy(update={"circuits": BLANK.circuits[:2]}), "Circuit C3: now gone"),
        (BLANK.model_copy(update={"circuits": ()}), BLANK, "Circuit C1: there again and 2 more"),
    ],
)
def test_an_entry_that_came_or_went_is_named(before: Record, after: Record, words: str) -> None:
    assert difference(before, after) == words


def test_a_draft_says_where_it_belongs() -> None:
    assert where(draft_key(R1), BLANK) == "Before covering, C1 Bench sockets, r1"
    assert where(draft_key(ZE), BLANK) == "Live tests, Origin, Ze"
    assert where("/origin/ze", BLANK) == "Origin, Ze"
    assert where("/circuits/1/runs/0/length", BLANK) == "Circuit C2, run 1, Length"
    assert where("Board, Zdb: Reason", BLANK) == "Board, Zdb, Reason"
    two = {"/origin/ze": "9x", draft_key(R1): "123.4"}
    assert draft_words(two, BLANK) == (
        "“9x” (Origin, Ze), “123.4” (Before covering, C1 Bench sockets, r1)"
    )


async def test_a_draft_is_located_when_the_record_is_opened_again_and_undo_names_its_place(
    tmp_path: Path,
) -> None:
    path = tmp_path / "job.farboard"
    with RecordFile.create(path, BLANK) as file:
        file.change(
            [{"op": "add", "path": "/readings/-", "value": ONE.readings[0].model_dump(mode="json")}]
        )
    Kept(tmp_path / "kept").keep_drafts(path, {draft_key(R1): "123.4"})
    async with wizard(path, tmp_path, size=WIDE) as driver:
        assert "“123.4” (Before covering, C1 Bench sockets, r1)." in driver.words
        await driver.keys("ctrl+z")
        assert "Taken back: Before covering, C1 Bench sockets, r1: 0.31 Ω." in driver.words
        await driver.keys("ctrl+y")
        assert "Made again: Before covering, C1 Bench sockets, r1: now 0.31 Ω." in driver.words
        await driver.keys("ctrl+q")
        assert "“123.4” (Before covering, C1 Bench sockets, r1)." in driver.words
