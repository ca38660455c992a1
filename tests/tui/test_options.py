"""The table of what would do, by keyboard: from a blank record, sorted, explained, taken over."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from textual.widgets import DataTable, Static

from records.demo import demo_record
from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Cpc, Step
from tests.judgement.jobs import SOUND
from tests.options.jobs import job
from tests.tui.driving import NARROW, Driver, wizard
from tui.dialogs.options_table import OptionsTable
from tui.dialogs.working import Working


@asynccontextmanager
async def opened(
    folder: Path, record: Record, size: tuple[int, int] = NARROW
) -> AsyncIterator[Driver]:
    path = folder / "job.farboard"
    RecordFile.create(path, record).close()
    async with wizard(path, folder, size=size) as driver:
        yield driver


def table(driver: Driver) -> DataTable:
    return driver.app.screen.query_one("#options", DataTable)


def column(driver: Driver, at: int) -> list[str]:
    shown = table(driver)
    return [str(shown.get_row_at(row)[at]) for row in range(shown.row_count)]


def why(driver: Driver) -> str:
    return str(driver.app.screen.query_one("#options-why", Static).content)


async def to_feed(driver: Driver) -> None:
    driver.app.go(Step.FEED)
    await driver.settled()


async def test_a_distance_and_a_load_typed_into_a_blank_record_are_enough(tmp_path: Path) -> None:
    async with opened(tmp_path, Record(), NARROW) as driver:
        await to_feed(driver)
        await driver.row("Ib of the feed")
        await driver.fill("26")
        await driver.row("+ add a run")
        await driver.keys("enter")
        await driver.row("Length")
        await driver.fill("46")
        await driver.row("? what cable would do here")
        await driver.keys("enter")
        await driver.settled()

        assert isinstance(driver.app.screen, OptionsTable)
        assert "8 notes (n)" in driver.words
        assert "Ask the certifier before PME earth is exported" in driver.words
        assert "Usually notifiable" in driver.words
        await driver.keys("n")
        assert "TN-S is assumed" in driver.words
        assert "rarely stocked" in driver.words
        await driver.keys("end")
        assert "method D" in driver.words
        await driver.keys("escape")
        marked = next(each for each in column(driver, 0) if each.startswith("S"))
        await driver.keys("enter")
        await driver.settled()
        run = driver.record.feed.runs[0]
        assert f" {run.csa:g} " in marked
        assert run.length == 46.0
        assert "Ctrl+Z takes it back" in " ".join(driver.screen.split())
        await driver.keys("ctrl+z")
        await driver.settled()
        assert driver.record.feed.runs[0].cable is None
        assert driver.record.feed.runs[0].length == 46.0


async def test_all_fits_80_columns_and_the_caution_stays_in_view(tmp_path: Path) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_feed(driver)
        await driver.row("? what cable would do")
        await driver.keys("enter")
        await driver.settled()

        shown = table(driver)
        assert shown.virtual_size.width <= shown.size.width
        assert "notifiable" in driver.words
        assert "decides" in driver.screen
        assert "Enter takes it over" in driver.screen


async def test_each_column_puts_the_table_in_order_both_ways(tmp_path: Path) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_feed(driver)
        await driver.row("? what cable would do")
        await driver.keys("enter", *["right"] * 4, "s")
        loops = [float(each.rstrip("✗!")) for each in column(driver, 4)]
        assert loops == sorted(loops)
        assert len(set(loops)) > 3
        await driver.keys("s")
        again = [float(each.rstrip("✗!")) for each in column(driver, 4)]
        assert again == sorted(loops, reverse=True)


async def test_f2_shows_the_working_of_the_cell_and_the_reason_stands_under_it(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_feed(driver)
        await driver.row("? what cable would do")
        await driver.keys("enter", "right", "right")
        assert "In ≤ Iz" in why(driver)
        await driver.keys("f2")
        await driver.settled()
        assert isinstance(driver.app.screen, Working)
        assert "Iz = It" in driver.screen
        await driver.keys("escape")
        assert isinstance(driver.app.screen, OptionsTable)


async def test_all_that_was_tried_shows_on_a(tmp_path: Path) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_feed(driver)
        await driver.row("? what cable would do")
        await driver.keys("enter")
        near = table(driver).row_count
        await driver.keys("a")
        assert table(driver).row_count > 3 * near
        await driver.keys("a")
        assert table(driver).row_count == near


async def test_one_that_fails_is_not_taken_over_and_it_says_why(tmp_path: Path) -> None:
    async with opened(tmp_path, job(), NARROW) as driver:
        await to_feed(driver)
        before = driver.record
        await driver.row("? what cable would do")
        await driver.keys("enter", "a", "ctrl+home", "enter")
        await driver.settled()

        assert driver.record == before
        assert "Not taken over" in driver.screen


async def test_esc_changes_nothing(tmp_path: Path) -> None:
    async with opened(tmp_path, job(), NARROW) as driver:
        await to_feed(driver)
        before = driver.record
        await driver.row("? what cable would do")
        await driver.keys("enter", "escape")
        await driver.settled()

        assert driver.record == before
        assert not isinstance(driver.app.screen, OptionsTable)


async def test_a_circuit_is_chosen_the_same_way(tmp_path: Path) -> None:
    record = demo_record().model_copy(update={"readings": (), "remedies": ()})
    async with opened(tmp_path, record, NARROW) as driver:
        driver.app.go(Step.CIRCUITS)
        await driver.settled()
        await driver.keys("enter")
        await driver.row("? what would do: ring, radial, size")
        await driver.keys("enter")
        await driver.settled()
        assert {"ring", "radial"} <= {each[2:].strip() for each in column(driver, 0)}
        await driver.keys("down", "enter")
        await driver.settled()

        run = driver.record.circuits[0].runs[0]
        assert run.csa == 4.0
        assert run.cpc is Cpc.CORE
        await driver.keys("ctrl+z")
        await driver.settled()
        assert driver.record.circuits[0] == record.circuits[0]


async def test_what_is_missing_is_said_instead_of_an_empty_table(tmp_path: Path) -> None:
    async with opened(tmp_path, Record(), NARROW) as driver:
        await to_feed(driver)
        await driver.row("? what cable would do")
        await driver.keys("enter")
        await driver.settled()

        assert not isinstance(driver.app.screen, OptionsTable)
        assert "add a run of cable" in " ".join(driver.screen.split())


async def test_f5_shows_what_a_size_would_do_before_enter_and_keeps_nothing(tmp_path: Path) -> None:
    record = SOUND.model_copy(update={"readings": ()})
    async with opened(tmp_path, record, NARROW) as driver:
        await to_feed(driver)
        before = driver.record
        await driver.row("1")
        await driver.keys("enter")
        await driver.row("Line conductor")
        await driver.type("2.5")
        await driver.keys("f5")
        await driver.settled()

        assert "worse: Feed: In ≤ Iz" in driver.words
        assert "Not kept yet" in driver.words
        await driver.keys("escape")
        assert driver.record == before
        await driver.keys("enter")
        await driver.settled()
        assert driver.record.feed.runs[0].csa == 2.5


async def test_f5_says_what_to_do_where_nothing_is_typed_and_why_a_text_is_no_value(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, SOUND.model_copy(update={"readings": ()}), NARROW) as driver:
        await to_feed(driver)
        await driver.row("Ib of the feed")
        await driver.keys("f5")
        assert "Type another value" in driver.words
        await driver.type("x")
        await driver.keys("f5")
        await driver.settled()
        assert "x" in driver.words
        assert driver.record.feed.load == 26.0


async def test_f5_takes_the_answer_that_the_list_is_on(tmp_path: Path) -> None:
    async with opened(tmp_path, SOUND.model_copy(update={"readings": ()}), NARROW) as driver:
        await to_feed(driver)
        await driver.row("Protective device")
        await driver.type("rcbo d")
        await driver.keys("f5")
        await driver.settled()

        assert "what it would do" in driver.words
        assert "→" in driver.words
