"""The table of what would do, by keyboard: from a blank record, sorted, explained, taken over."""

from __future__ import annotations

from pathlib import Path

from records.demo import demo_record
from records.model.record import Record
from records.terms import Cpc, Form, Step
from tests.options.jobs import job
from tests.tui.choosing import CABLE, CIRCUIT, ask, column, fits, opened, table, why
from tui.dialogs.compare_table import CompareTable
from tui.dialogs.options_table import OptionsTable
from tui.dialogs.working import Working


async def test_a_distance_and_a_load_typed_into_a_blank_record_are_enough(tmp_path: Path) -> None:
    async with opened(tmp_path, Record()) as driver:
        await driver.row("Ib of the feed")
        await driver.fill("26")
        await driver.row("+ add a run")
        await driver.keys("enter")
        await driver.row("Length")
        await driver.fill("46")
        await ask(driver, "? what cable would do here")

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

        # Armour of 10 mm² XLPE behind a breaker needs a fault current: it is no choice to buy by.
        await ask(driver, "? what cable would do here")
        while not column(driver, 0)[table(driver).cursor_row].startswith("· 2c 10 XLPE"):
            await driver.keys("up")
        await driver.keys("enter")
        await driver.settled()
        assert "Not judged yet: cpc size" in driver.words, "taken with a warning"
        assert driver.record.feed.runs[0].csa == 10.0


async def test_the_table_is_whole_in_80_columns_sorted_and_explained(tmp_path: Path) -> None:
    async with opened(tmp_path, demo_record()) as driver:
        await ask(driver, CABLE)
        assert fits(driver)
        assert "notifiable" in driver.words, "the caution stays in view"
        assert "decides" in driver.screen
        assert "Enter takes it" in driver.screen

        near = table(driver).row_count
        await driver.keys("a")
        assert table(driver).row_count > 3 * near, "a shows all that was tried"
        await driver.keys("a")
        assert table(driver).row_count == near

        await driver.keys("right", "right")
        assert "In ≤ Iz" in why(driver), "the reason stands under the cell"
        await driver.keys("f2")
        await driver.settled()
        assert isinstance(driver.app.screen, Working)
        assert "Iz = It" in driver.screen
        await driver.keys("escape")
        assert isinstance(driver.app.screen, OptionsTable)

        await driver.keys("right", "right", "s")
        loops = [float(each.rstrip("✗!")) for each in column(driver, 4)]
        assert loops == sorted(loops), "each column puts the table in order"
        assert len(set(loops)) > 3
        await driver.keys("s")
        again = [float(each.rstrip("✗!")) for each in column(driver, 4)]
        assert again == sorted(loops, reverse=True), "both ways"


async def test_marked_options_stand_beside_the_design_and_one_is_taken_in_one_act(
    tmp_path: Path,
) -> None:
    async with opened(tmp_path, demo_record()) as driver:
        before = driver.record
        await ask(driver, CABLE, "space", "down", "space", "c")

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


async def test_one_that_fails_is_not_taken_over_and_esc_changes_nothing(tmp_path: Path) -> None:
    async with opened(tmp_path, job()) as driver:
        before = driver.record
        await ask(driver, CABLE, "escape")
        assert driver.record == before
        assert not isinstance(driver.app.screen, OptionsTable)

        await ask(driver, CABLE, "a", "ctrl+home", "enter")
        assert driver.record == before
        assert "Not taken over" in driver.screen

        while isinstance(driver.app.screen, OptionsTable):
            await driver.keys("escape")
        await ask(driver, CABLE, "a", "ctrl+home", "c", "right", "right", "enter")
        assert driver.record == before, "nor by way of the comparison"
        assert "Not taken over" in driver.words


async def test_a_circuit_is_chosen_the_same_way_and_the_way_of_a_radial_is_asked_for(
    tmp_path: Path,
) -> None:
    record = demo_record().model_copy(update={"readings": (), "remedies": ()})
    async with opened(tmp_path, record, Step.CIRCUITS) as driver:
        await driver.keys("enter")
        await ask(driver, CIRCUIT)
        assert {"ring", "radial"} <= {each[2:].strip() for each in column(driver, 0)}
        await driver.keys("down", "enter")
        await driver.settled()

        run = driver.record.circuits[0].runs[0]
        assert run.csa == 4.0
        assert run.cpc is Cpc.CORE
        await driver.keys("ctrl+z")
        await driver.settled()
        assert driver.record.circuits[0] == record.circuits[0]

        await ask(driver, CIRCUIT, "r")
        await driver.type("x\n")
        assert "not one figure" in driver.words
        await driver.keys("backspace")
        await driver.type("12.5\n")
        await driver.settled()
        await driver.keys("ctrl+end", "enter")
        await driver.settled()
        assert driver.record.circuits[0].form is Form.RADIAL
        assert driver.record.circuits[0].runs[0].length == 12.5
