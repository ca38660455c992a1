"""Choosing before anything is bought: a record opened on a step, a table called up and read."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from textual.widgets import DataTable, Static

from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Step
from tests.judgement.jobs import SOUND
from tests.tui.driving import Driver, wizard

DESIGN = SOUND.model_copy(update={"readings": ()})
"""A job that is sound, with nothing measured yet: its design may be changed."""
CABLE, CIRCUIT = "? what cable would do", "? what would do: ring, radial, size"
ROOM, EARTHS, LIST = "? how much room is left", "? both earths side by side", "? what to buy"
OTHER = "? compare with another record"


@asynccontextmanager
async def opened(folder: Path, record: Record, step: Step = Step.FEED) -> AsyncIterator[Driver]:
    """Run the wizard on a record, on one of its steps."""
    path = folder / "job.farboard"
    RecordFile.create(path, record).close()
    async with wizard(path, folder, begin=step) as driver:
        yield driver


async def ask(driver: Driver, row: str, *keys: str) -> None:
    """Call up what a row leads to, then press keys in it."""
    await driver.row(row)
    await driver.keys("enter", *keys)
    await driver.settled()


async def to_buying(driver: Driver) -> None:
    """Go to the page of what is settled and looked at before anything is bought."""
    driver.app.go(Step.FEED)
    await driver.settled()
    await ask(driver, "Before buying")


def table(driver: Driver) -> DataTable:
    """Return the table on the screen."""
    return driver.app.screen.query_one("#options", DataTable)


def fits(driver: Driver) -> bool:
    """Return whether no column of the table is cut off."""
    shown = table(driver)
    return shown.virtual_size.width <= shown.size.width


def column(driver: Driver, at: int) -> list[str]:
    """Return what a column says, from the top down."""
    shown = table(driver)
    return [str(shown.get_row_at(row)[at]) for row in range(shown.row_count)]


def why(driver: Driver) -> str:
    """Return what stands under the table on the cell in hand."""
    return str(driver.app.screen.query_one("#options-why", Static).content)


async def finished(driver: Driver, words: str) -> None:
    """Wait for what is worked out away from the keys."""
    for _ in range(200):
        await driver.settled()
        if words in driver.words:
            return
    raise AssertionError(driver.screen)
