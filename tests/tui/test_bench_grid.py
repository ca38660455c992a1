"""The grid, and pasted columns."""

from __future__ import annotations

from pathlib import Path

from rich.cells import cell_len
from textual import events

from records.model.reading import Quantity
from records.taking.grid import heading
from records.terms import Stage, Step
from tests.taking.job import slot, small_job
from tests.tui.at_bench import at, in_hand, past_cautions, said, screen, to_slot, values
from tests.tui.driving import NARROW, WIDE, Driver
from tui.widgets.reading_grid import ReadingGrid

R1 = slot(Quantity.R1, Stage.DEAD, "C1")
RN = slot(Quantity.RN, Stage.DEAD, "C1")
R2 = slot(Quantity.R2, Stage.DEAD, "C1")


async def paste(driver: Driver, text: str) -> None:
    driver.app.post_message(events.Paste(text))
    await driver.settled()


async def test_what_is_typed_goes_into_the_cell_that_the_arrows_lead_to(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.keys("f9")
        await driver.type("028")
        await driver.keys("left", "left")
        await driver.type(".\n")
        assert values(driver.record, R1) == ["0.28"], "left and right stay in a text"

        assert in_hand(driver) == RN
        for size in (WIDE, NARROW):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            for words in ("C1 Bench sockets · rn", "expect", "limit"):
                assert words in driver.words, size
        await driver.type("0.29\n")
        assert values(driver.record, RN) == ["0.29"]
        for size in (WIDE, NARROW):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "0.29" in driver.words, size

        await driver.keys("f9")
        await driver.settled()
        assert "0.29 Ω" in driver.words, "the list has it too"


async def test_the_arrows_skip_what_is_not_needed_and_columns_come_whole_on_pages(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await driver.keys("f9")
        await driver.settled()
        table = driver.app.screen.query_one(ReadingGrid)
        for size in (NARROW, WIDE):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            await driver.keys(*["up"] * 12, *["left"] * 8)
            assert "1 of" in driver.words, size
            seen = set()
            for _ in range(12):
                seen |= {names(table)[at].replace("\n", " ") for at in table.shown}
                assert is_whole(table), size
                await driver.keys("right", "down")
                await past_cautions(driver)
                await driver.settled()
            assert {"R1+R2", "earthing conductor", "insulation N-E", "polarity"} <= seen, size

        await driver.keys(*["up"] * 12, *["left"] * 8)
        assert in_hand(driver).quantity is Quantity.R1_R2, "the arrows stop at the edge"
        await driver.keys("right")
        assert in_hand(driver).quantity is Quantity.IR_LN
        await driver.keys("down")
        assert in_hand(driver) == slot(Quantity.IR_LN, Stage.DEAD, "C1")


async def test_twenty_four_circuits_have_every_cell_and_no_number_is_cut_off(
    tmp_path: Path,
) -> None:
    ring, light, heater = small_job().circuits
    many = [
        (ring, light, heater)[at % 3].model_copy(update={"id": f"C{at + 1}"}) for at in range(24)
    ]
    job = small_job().model_copy(update={"circuits": tuple(many)})
    async with at(tmp_path, Step.DEAD_TESTS, job) as driver:
        await past_cautions(driver)
        await driver.keys("f9")
        await to_last_row(driver)
        assert in_hand(driver).place.circuit == "C24"
        await past_cautions(driver)
        await driver.type(">999\n")
        await driver.settled()
        table = driver.app.screen.query_one(ReadingGrid)

        assert table.count() == 2 + 24 + 8 * 3
        assert "✓ > 999" in driver.words
        assert is_whole(table)


def names(table: ReadingGrid) -> list[str]:
    """Return what stands over each column, on the page in sight or not."""
    return [heading(each) for each in table.table.columns]


def is_whole(table: ReadingGrid) -> bool:
    """Whether no row is wider than the grid, and all in sight is in it, headings too."""
    head, *_ = lines = [each.plain for each in table.laid_out(table.size)]
    over = all(names(table)[at].partition("\n")[0] in head for at in table.shown)
    texts = {table.cell(row, at) for row in table.window for at in table.shown}
    return (
        over
        and all(cell_len(each) <= table.size.width for each in lines)
        and all(any(text in line for line in lines) for text in texts)
    )


async def to_last_row(driver: Driver) -> None:
    await driver.keys("right")
    for _ in range(60):
        before = in_hand(driver)
        await driver.keys("down")
        if in_hand(driver) == before:
            return
    raise AssertionError("The grid has no end.")


async def test_a_pasted_column_is_offered_to_the_next_fields_and_one_line_to_this_one(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await paste(driver, "0.28 ohm\n")
        assert screen(driver).field.text == "0.28 ohm", "one line stands in the field"
        await driver.keys("ctrl+u")
        await paste(driver, "\x1b[31m0.28")
        assert screen(driver).field.text == ""
        assert "control character" in said(driver), "escape codes are refused"
        await paste(driver, "0.28\nabc")
        assert "Line 2" in said(driver), "what does not fit is refused aloud"
        assert "Nothing was taken" in said(driver)
        await paste(driver, "0.28\n0.29")
        await driver.keys("n")
        await driver.settled()
        assert "Nothing was taken" in said(driver)
        assert not driver.record.readings

        await paste(driver, "0.28\n0,29\r\n.47\n")
        assert "Fill the next 3 fields" in driver.words
        assert "0.29 Ω → C1 Bench sockets, rn" in driver.words
        assert not driver.record.readings
        await driver.keys("y")
        await driver.settled()
        assert [values(driver.record, each) for each in (R1, RN, R2)] == [
            ["0.28"],
            ["0.29"],
            ["0.47"],
        ]
        assert in_hand(driver).quantity is Quantity.CROSS_LN
        await driver.keys("ctrl+z")
        await driver.settled()
        assert not driver.record.readings, "one undo takes all of it back"
