"""What must be in sight at the bench before a key counts, and while a verdict takes its room."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.model.reading import Quantity
from records.taking.cautions import before
from records.taking.families import Family
from records.terms import Stage, Step
from tests.tui.at_bench import at, bench, past_cautions, to_slot


@pytest.mark.parametrize("size", [(48, 14), (60, 20)])
async def test_a_caution_counts_as_read_when_its_last_line_was_on_the_screen(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, size=size) as driver:
        last = before(Stage.DEAD, Family.EARTHS)[0].lines[-1].split()[-2:]
        seen = False
        for _ in range(14):
            if bench(driver).must_read.caution is None:
                break
            seen = " ".join(last) in driver.words
            assert seen or "more: " in driver.words
            await driver.keys("enter")
            await driver.settled()

        assert bench(driver).must_read.caution is None
        assert seen


async def test_keys_stay_in_sight_under_a_long_verdict(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LE, "C1")
        await past_cautions(driver)
        await driver.type("0.02\n")
        await driver.settled()
        await driver.keys("up")
        await driver.settled()

        assert "✗ outside" in driver.words
        for key in ("a test again", "t note", "w why"):
            assert key in driver.words
