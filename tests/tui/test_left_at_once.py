"""A step that is left, or typed into, before it has been painted: nothing is done blindly."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.demo import demo_record
from records.store.file import RecordFile
from records.terms import Step
from tests.tui.driving import blank, wizard
from tui.steps.bench_view import BenchView


async def test_a_step_left_before_it_is_painted_does_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        for first in (Step.JOB, Step.DEAD_TESTS, Step.REVIEW, Step.HAND_OVER):
            for step in (first, Step.CIRCUITS):
                driver.app.go(step)  # the first gets no frame
            await driver.settled()
            assert "Bench sockets" in driver.screen, first
            driver.app.go(Step.ORIGIN)
            await driver.settled()


async def test_who_leaves_and_says_how_the_job_is_left_is_let_go_in_peace(tmp_path: Path) -> None:
    """The record is closed before what the step still had to paint."""
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        await driver.keys("ctrl+q")
        await driver.settled()
        assert "off and locked off" in driver.screen
        await driver.keys("y")
        await driver.settled()
        await driver.type("The fitter\n")
        await driver.settled()
        assert not driver.app.return_code
    with RecordFile.open(path) as file:
        assert file.record.left


async def test_what_is_typed_before_the_bench_shows_a_reading_does_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It ended the program once; a caution that is not there yet can't be read either."""
    shows = BenchView.begin
    waiting: list[BenchView] = []

    def begin_later(step: BenchView) -> None:
        waiting.append(step)

    monkeypatch.setattr(BenchView, "begin", begin_later)
    async with blank(tmp_path, step=7) as driver:
        await driver.keys("enter", "enter", "down", "f9", "f9", "c")
        await driver.type("0.35\n")
        (step,) = waiting
        shows(step)
        await driver.settled()
        assert "Before the first dead test" in driver.screen
        assert step.field.text == ""
        assert not driver.record.readings
        assert not driver.record.cautions_read
