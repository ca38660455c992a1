"""A record that is open for looking: nothing is taken, on any kind of step."""

from __future__ import annotations

from pathlib import Path

from records.store.file import RecordFile
from records.terms import Step
from tests.tui.at_bench import at, go, said
from tests.tui.test_review import faulty


async def test_a_record_open_for_looking_takes_nothing_and_says_so(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    RecordFile.create(path, faulty()).close()
    before = path.read_bytes()
    async with at(tmp_path, Step.JOB, read_only=True) as driver:
        assert "READ ONLY" in driver.screen
        await driver.fill("J-1")
        assert "open for reading only" in driver.words, "a field"
        await driver.row("+ add a person")
        await driver.keys("escape", "enter")
        assert "open for reading only" in driver.words, "an entry of a list"

        await go(driver, Step.DEAD_TESTS)
        await driver.type("0.28c\n")
        assert "for reading only" in said(driver), "a reading"

        await go(driver, Step.REVIEW)
        await driver.type("r")
        await driver.settled()
        assert "for reading only" in said(driver), "a remedy"
        assert driver.record == faulty()
    assert path.read_bytes() == before
