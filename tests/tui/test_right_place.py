"""Nothing that is typed goes into the wrong place."""

from __future__ import annotations

from pathlib import Path

from records.model.reading import NotTaken, Quantity
from records.taking.grid import grid
from records.terms import Stage, Step
from tests.taking.job import slot
from tests.tui.at_bench import at, bench, go, in_hand, past_cautions, to_slot, values

R1 = slot(Quantity.R1, Stage.DEAD, "C1")


async def test_a_figure_typed_over_a_caution_waits_for_it(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_slot(driver, Quantity.R1)
        assert bench(driver).must_read.caution is not None
        await driver.type("0.31\n")
        assert "0.31 waits in its field" in driver.words
        assert values(driver.record, R1) == []
        await past_cautions(driver)
        assert values(driver.record, R1) == []
        await driver.keys("enter")

        assert values(driver.record, R1) == ["0.31"]


async def test_after_undo_the_cursor_is_on_the_reading_taken_back(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("0.31\n")
        assert in_hand(driver) != R1
        await driver.keys("ctrl+z")

        assert in_hand(driver) == R1
        assert values(driver.record, R1) == []


async def test_escape_clears_what_was_refused(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("9x\n")
        assert "9x" in driver.screen
        await driver.keys("escape")
        assert "9x" not in driver.screen
        await driver.type("0.31\n")

        assert values(driver.record, R1) == ["0.31"]


async def test_every_row_of_the_grid_can_be_left_by_arrows(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await driver.keys("f9")
        await driver.settled()
        table = grid(bench(driver).queue)
        rows = [place for place, _ in table.rows]
        for entry in bench(driver).queue.entries:
            row = rows.index(entry.slot.place)
            assert row == len(rows) - 1 or table.beside(entry, 1, 0) is not None
            assert row == 0 or table.beside(entry, -1, 0) is not None


async def test_keys_typed_right_after_a_dialog_key_go_into_that_dialog(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        driver.send("clocked room\n")
        await driver.settled()
        await driver.settled()

        (reading,) = driver.record.readings
        assert reading.slot == R1
        assert reading.taken == NotTaken(reason="locked room")


async def test_notes_of_another_day_count_everywhere_until_ended(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("l")
        await driver.type("5 Mar 2026 11:00\n")
        await driver.settled()
        await driver.type("9.31\n")
        assert "NOTES OF 5 Mar 2026 11:00" in driver.words
        await go(driver, Step.REVIEW)
        assert "NOTES OF 5 Mar 2026 11:00" in driver.words
        await driver.type("l")
        await driver.settled()
        assert "NOTES OF" not in driver.words

        assert f"{driver.record.readings[0].at:%d %m %Y %H:%M}" == "05 03 2026 11:00"


async def test_a_figure_typed_after_one_that_waits_takes_its_place(tmp_path: Path) -> None:
    """0.16 that waits and 900 typed next are no 0.16900."""
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_slot(driver, Quantity.R1)
        assert bench(driver).must_read.caution is not None
        await driver.type("0.16\n")
        await past_cautions(driver)
        assert "0.16" in driver.screen
        await driver.type("0.31\n")

        assert values(driver.record, R1) == ["0.31"]
