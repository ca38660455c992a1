"""The views before anything is bought: room left, both earths, another record, the list."""

from __future__ import annotations

from pathlib import Path

from records.demo import demo_record
from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Step
from tests.tui.choosing import (
    CABLE,
    DESIGN,
    EARTHS,
    LIST,
    OTHER,
    ROOM,
    ask,
    column,
    finished,
    fits,
    opened,
    to_buying,
)
from tui.dialogs.compare_table import CompareTable
from tui.dialogs.options_table import OptionsTable
from tui.dialogs.table import Table
from tui.dialogs.working import Working
from tui.steps.step import Step as StepScreen


def thinner(record: Record) -> Record:
    """Return the record with a feed of 2.5 mm²."""
    thin = record.feed.runs[0].model_copy(update={"csa": 2.5})
    return record.model_copy(update={"feed": record.feed.model_copy(update={"runs": (thin,)})})


async def test_room_comes_row_by_row_and_a_later_load_changes_nothing(tmp_path: Path) -> None:
    async with opened(tmp_path, DESIGN) as driver:
        await to_buying(driver)
        await driver.row(ROOM)
        await driver.keys("enter")
        await finished(driver, "Room left │")

        rows = [column(driver, at) for at in range(3)]
        assert rows[0][0] == "At the board"
        assert rows[1][0] == "3.5 A"
        assert rows[2][0] == "C2: voltage drop"
        assert len(rows[0]) == 10
        assert fits(driver)
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
        assert driver.record == DESIGN


async def test_another_record_is_compared_and_taken_over_and_what_is_none_is_refused(
    tmp_path: Path,
) -> None:
    RecordFile.create(tmp_path / "thin.farboard", thinner(DESIGN)).close()
    (tmp_path / "none.json").write_text("{", encoding="utf-8")
    async with opened(tmp_path, DESIGN) as driver:
        await to_buying(driver)
        await driver.row(OTHER)
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


async def test_both_earths_and_the_list_are_shown_and_the_list_is_written_over_nothing(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, demo_record(), Step.BOARD) as driver:
        await ask(driver, EARTHS)
        assert "exported by the feed: now" in driver.screen, "from the board"
        await driver.keys("escape")

        await to_buying(driver)
        await ask(driver, EARTHS)
        assert "exported by the feed: now" in driver.screen, "and before buying"
        assert "electrode (TT)" in driver.screen
        assert "never both" in driver.words, "the caution is in view"
        assert fits(driver)
        await driver.keys("n")
        assert "notifiable" in driver.words
        while not isinstance(driver.app.screen, StepScreen):
            await driver.keys("escape")

        await driver.row("Cable allowance")
        await driver.fill("0")
        await ask(driver, LIST)
        assert "cable with 0 % over" in driver.words
        assert "41 m" in column(driver, 0)
        await driver.keys("w")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()
        assert (tmp_path / "job-to-buy.csv").exists()
        await ask(driver, LIST, "w", "enter")
        assert "is there already" in driver.words
        await driver.keys("ctrl+u")
        await driver.type("list.txt\n")
        assert ".csv for a spreadsheet" in driver.words
        await driver.keys("ctrl+u")
        await driver.type("list.html\n")
        await driver.settled()
        assert "<!DOCTYPE html>" in (tmp_path / "list.html").read_text(encoding="utf-8")


async def test_no_name_of_a_file_or_a_circuit_is_taken_for_markup(tmp_path: Path) -> None:
    odd = {"name": "[red]x[/] [/"}
    named = DESIGN.model_copy(
        update={"circuits": tuple(each.model_copy(update=odd) for each in DESIGN.circuits)}
    )
    RecordFile.create(tmp_path / "[red]x[b] [.farboard", thinner(named)).close()
    async with opened(tmp_path, named) as driver:
        await to_buying(driver)
        for row in (ROOM, EARTHS, LIST):
            await ask(driver, row, "down", "right", "f2", "escape")
            while not isinstance(driver.app.screen, StepScreen):
                await driver.keys("escape")
        await driver.row(OTHER)
        await driver.keys("enter")
        await driver.type("[red]x[b] [.farboard\n")
        await driver.settled()
        assert isinstance(driver.app.screen, CompareTable)
        assert "[red]x[b] [" in driver.screen


async def test_every_view_of_a_blank_record_says_what_is_missing_and_takes_every_key(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, Record()) as driver:
        await ask(driver, CABLE)
        assert not isinstance(driver.app.screen, OptionsTable), "instead of an empty table"
        assert "add a run of cable" in " ".join(driver.screen.split())

        await to_buying(driver)
        for row, said in (
            (ROOM, "entered yet"),
            (EARTHS, "Enter the cable of the feed"),
            (LIST, "no run of cable is entered yet"),
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
