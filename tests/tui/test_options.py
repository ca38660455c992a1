"""The table of what would do, by keyboard: from a blank record, sorted, explained, taken over."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from textual.widgets import DataTable, Static

from records.demo import demo_record
from records.model.record import Record
from records.model.wiring import Run
from records.store.file import RecordFile
from records.terms import Cpc, Form, Step
from tests.judgement.jobs import SOUND
from tests.options.jobs import job
from tests.tui.driving import NARROW, Driver, wizard
from tui.dialogs.compare_table import CompareTable
from tui.dialogs.options_table import OptionsTable
from tui.dialogs.table import Table
from tui.dialogs.working import Working
from tui.steps.step import Step as StepScreen


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
        assert "9 notes (n)" in driver.words
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
        assert "Enter takes it" in driver.screen


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


# The views before anything is bought.


async def to_buying(driver: Driver) -> None:
    await to_feed(driver)
    await driver.row("Before buying")
    await driver.keys("enter")


async def finished(driver: Driver, words: str) -> None:
    """Wait for what is worked out away from the keys."""
    for _ in range(200):
        if words in driver.words:
            return
        await driver.pilot.pause(0.05)
    raise AssertionError(driver.screen)


async def test_room_comes_row_by_row_and_a_later_load_changes_nothing(tmp_path: Path) -> None:
    record = SOUND.model_copy(update={"readings": ()})
    async with opened(tmp_path, record, NARROW) as driver:
        await to_buying(driver)
        await driver.row("? how much room is left")
        await driver.keys("enter")
        await finished(driver, "Room left │")

        rows = [column(driver, at) for at in range(3)]
        assert rows[0][0] == "At the board"
        assert rows[1][0] == "3.5 A"
        assert rows[2][0] == "C2: voltage drop"
        assert len(rows[0]) == 10
        assert table(driver).virtual_size.width <= table(driver).size.width
        await driver.keys("f2")
        assert "formula" in driver.words
        await driver.keys("escape", "right", "s")
        assert column(driver, 1) == sorted(
            column(driver, 1), key=lambda each: float(each.split()[0])
        )
        await driver.keys("k")
        await driver.type("x\n")
        assert "not one figure" in driver.words
        await driver.keys("backspace")
        await driver.type("9kW\n")
        await driver.settled()
        assert "9 kW more on its own circuit would not do" in driver.words
        assert driver.record == record


async def test_both_earths_stand_side_by_side_with_the_caution_in_view(tmp_path: Path) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_buying(driver)
        await driver.row("? both earths side by side")
        await driver.keys("enter")
        await driver.settled()

        assert "exported by the feed: now" in driver.screen
        assert "electrode (TT)" in driver.screen
        assert "never both" in driver.words
        assert table(driver).virtual_size.width <= table(driver).size.width
        await driver.keys("n")
        assert "notifiable" in driver.words


async def test_the_board_offers_both_earths_too(tmp_path: Path) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        driver.app.go(Step.BOARD)
        await driver.settled()
        await driver.row("? both earths side by side")
        await driver.keys("enter")
        await driver.settled()

        assert "exported by the feed: now" in driver.screen


async def test_the_list_is_shown_and_written_beside_the_record_and_over_nothing(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_buying(driver)
        await driver.row("Cable allowance")
        await driver.fill("0")
        await driver.row("? what to buy")
        await driver.keys("enter")
        assert "cable with 0 % over" in driver.words
        assert "41 m" in column(driver, 0)
        await driver.keys("w")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()
        assert (tmp_path / "job-to-buy.csv").exists()
        await driver.row("? what to buy")
        await driver.keys("enter", "w", "enter")
        assert "is there already" in driver.words
        await driver.keys("ctrl+u")
        await driver.type("list.txt\n")
        assert ".csv for a spreadsheet" in driver.words
        await driver.keys("ctrl+u")
        await driver.type("list.html\n")
        await driver.settled()
        assert "<!DOCTYPE html>" in (tmp_path / "list.html").read_text(encoding="utf-8")


async def test_marked_options_stand_beside_the_design_and_one_is_taken_in_one_act(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, demo_record(), NARROW) as driver:
        await to_feed(driver)
        before = driver.record
        await driver.row("? what cable would do")
        await driver.keys("enter", "space", "down", "space", "c")
        await driver.settled()

        assert isinstance(driver.app.screen, CompareTable)
        heads = [str(each.label) for each in table(driver).columns.values()]
        assert heads[1:] == ["now", "2c 25 XLPE armour", "2c 25 PVC armour"]
        assert "16 mm²" in driver.words
        await driver.keys("right", "enter")
        assert driver.record == before, "the first design is the one of now"
        await driver.keys("right", "enter")
        await driver.settled()
        assert not isinstance(driver.app.screen, OptionsTable)
        assert driver.record.feed.runs[1].csa == 25.0
        assert "Taken over" in driver.words
        await driver.keys("ctrl+z")
        await driver.settled()
        assert driver.record == before


async def test_a_failing_option_is_not_taken_over_by_way_of_the_comparison(tmp_path: Path) -> None:
    async with opened(tmp_path, job(), NARROW) as driver:
        await to_feed(driver)
        before = driver.record
        await driver.row("? what cable would do")
        await driver.keys("enter", "a", "ctrl+home", "c", "right", "right", "enter")
        await driver.settled()

        assert driver.record == before
        assert "Not taken over" in driver.words


async def test_another_record_is_compared_and_taken_over_and_what_is_none_is_refused(
    tmp_path: Path,
) -> None:
    record = SOUND.model_copy(update={"readings": ()})
    thin = record.feed.runs[0].model_copy(update={"csa": 2.5})
    other = record.model_copy(update={"feed": record.feed.model_copy(update={"runs": (thin,)})})
    RecordFile.create(tmp_path / "thin.farboard", other).close()
    (tmp_path / "none.json").write_text("{", encoding="utf-8")
    async with opened(tmp_path, record, NARROW) as driver:
        await to_buying(driver)
        await driver.row("? compare with another record")
        await driver.keys("enter")
        for name, said in (
            ("gone.json", "There is no file"),
            ("none.json", "none.json"),
            ("", "Type"),
        ):
            await driver.keys("ctrl+u")
            await driver.type(f"{name}\n")
            assert said in driver.words
        await driver.keys("ctrl+u")
        await driver.type("thin.farboard\n")
        await driver.settled()
        assert "! ✗ 26.1 A" in driver.words
        await driver.keys("f2")
        assert "no figure here" in driver.words
        await driver.keys("down", "f2")
        assert "formula" in driver.words
        await driver.keys("escape", "right", "right", "enter")
        await driver.settled()
        assert driver.record.feed.runs[0].csa == 2.5
        assert "checks get worse" in driver.words


async def test_the_way_of_a_radial_is_asked_for(tmp_path: Path) -> None:
    record = demo_record().model_copy(update={"readings": (), "remedies": ()})
    async with opened(tmp_path, record, NARROW) as driver:
        driver.app.go(Step.CIRCUITS)
        await driver.settled()
        await driver.keys("enter")
        await driver.row("? what would do: ring, radial, size")
        await driver.keys("enter", "r")
        await driver.type("x\n")
        assert "not one figure" in driver.words
        await driver.keys("backspace")
        await driver.type("12.5\n")
        await driver.settled()
        await driver.keys("ctrl+end", "enter")
        await driver.settled()

        assert driver.record.circuits[0].form is Form.RADIAL
        assert driver.record.circuits[0].runs[0].length == 12.5


async def test_no_name_of_a_file_or_a_circuit_is_taken_for_markup(tmp_path: Path) -> None:
    record = SOUND.model_copy(update={"readings": ()})
    named = record.model_copy(
        update={
            "circuits": tuple(
                each.model_copy(update={"name": "[red]x[/] [/"}) for each in record.circuits
            )
        }
    )
    thin = named.feed.runs[0].model_copy(update={"csa": 2.5})
    other = named.model_copy(update={"feed": named.feed.model_copy(update={"runs": (thin,)})})
    RecordFile.create(tmp_path / "[red]x[b] [.farboard", other).close()
    async with opened(tmp_path, named, NARROW) as driver:
        await to_buying(driver)
        for row in ("? how much room is left", "? both earths side by side", "? what to buy"):
            await driver.row(row)
            await driver.keys("enter")
            await driver.settled()
            await driver.keys("down", "right", "f2", "escape")
            while not isinstance(driver.app.screen, StepScreen):
                await driver.keys("escape")
        await driver.row("? compare with another record")
        await driver.keys("enter")
        await driver.type("[red]x[b] [.farboard\n")
        await driver.settled()
        assert isinstance(driver.app.screen, CompareTable)
        assert "[red]x[b] [" in driver.screen


async def test_every_view_of_a_blank_record_says_what_is_missing_and_takes_every_key(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, Record(), NARROW) as driver:
        await to_buying(driver)
        for row, said in (
            ("? how much room is left", "entered yet"),
            ("? both earths side by side", "Enter the cable of the feed"),
            ("? what to buy", "no run of cable is entered yet"),
        ):
            await driver.row(row)
            await driver.keys("enter")
            await finished(driver, "Esc closes")
            await driver.keys("down", "right", "s", "s", "f2")
            if not isinstance(driver.app.screen, Working):
                await driver.keys("n")
            while not isinstance(driver.app.screen, Table):
                await driver.keys("escape")
            found = " ".join(
                [
                    *(text for line in driver.app.screen.lines for text in line.texts),
                    *(each.why for line in driver.app.screen.lines for each in line.behind if each),
                    *driver.app.screen._notes,
                ]
            )
            assert said in found
            await driver.keys("escape")
        assert driver.record == Record()


async def test_an_option_that_can_t_be_judged_yet_is_taken_with_a_warning(tmp_path: Path) -> None:
    """Armour of 10 mm² XLPE behind a breaker needs a fault current: it is no choice to buy by."""
    feed = Record().feed.model_copy(update={"runs": (Run(length=46.0),), "load": 26.0})
    async with opened(tmp_path, Record().model_copy(update={"feed": feed}), NARROW) as driver:
        await to_feed(driver)
        await driver.row("? what cable would do")
        await driver.keys("enter")
        while not column(driver, 0)[table(driver).cursor_row].startswith("· 2c 10 XLPE"):
            await driver.keys("up")
        await driver.keys("enter")
        await driver.settled()

        assert "Not judged yet: cpc size" in driver.words
        assert driver.record.feed.runs[0].csa == 10.0
