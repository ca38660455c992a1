"""What to do about a bad reading stands first at the bench: a small window has three lines."""

from __future__ import annotations

from pathlib import Path

from records.model.reading import Quantity
from records.terms import Step
from tests.tui.at_bench import at, past_cautions, to_slot


async def test_in_a_small_window_what_to_do_about_a_bad_reading_is_in_sight(tmp_path: Path) -> None:
    """Whoever reads one line only reads that: an open earth stays locked off."""
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1_R2)
        await past_cautions(driver)
        await driver.type(">99.9\n")
        await driver.settled()
        await driver.keys("up")
        await driver.settled()

        said = " ".join(driver.screen.split())
        assert "Do next: It stays locked off" in said
        assert "✗ outside" in said
