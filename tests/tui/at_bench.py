"""The wizard at the bench: a small job opened at a stage, and readings typed into it."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

from records.expected.results import What, Worked
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Reading, Slot, Tick
from records.model.record import Record
from records.store.file import RecordFile
from records.taking.bench import Bench
from records.terms import Part, Step
from records.units import Unit
from tests.taking.job import small_job
from tests.tui.driving import NARROW, Driver, wizard
from tui.dialogs.yes_no import YesNo
from tui.steps.bench_step import BenchStep


class Clock:
    """A clock that goes on each time it is asked, from a day after the job's."""

    def __init__(self) -> None:
        self.at = datetime(2026, 11, 17, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.at += timedelta(seconds=1)
        return self.at


@asynccontextmanager
async def at(
    folder: Path,
    step: Step,
    record: Record | None = None,
    *,
    size: tuple[int, int] = NARROW,
    read_only: bool = False,
) -> AsyncIterator[Driver]:
    """Run the wizard on a job, on one of its steps; the live tests' question is left standing."""
    path = folder / "job.farboard"
    if not path.exists():
        RecordFile.create(path, small_job() if record is None else record).close()
    async with wizard(path, folder, size=size, read_only=read_only, begin=step) as driver:
        yield driver


async def go(driver: Driver, step: Step) -> None:
    """Go to a step as the list of steps does."""
    driver.app.go(step)
    await driver.settled()


def screen(driver: Driver) -> BenchStep:
    """Return the screen of the bench."""
    assert isinstance(driver.app.screen, BenchStep), driver.screen
    return driver.app.screen


def bench(driver: Driver) -> Bench:
    """Return the bench that is on screen."""
    return screen(driver).bench


def in_hand(driver: Driver) -> Slot:
    """Return the slot that the bench stands at."""
    entry = bench(driver).entry
    assert entry is not None
    return entry.slot


async def to_slot(driver: Driver, quantity: Quantity, circuit: str | None = None) -> None:
    """Walk to the first reading of a quantity with the arrow keys, reading no caution."""
    line, now = bench(driver).queue, bench(driver).position.at
    there = [
        at
        for at, each in enumerate(line.entries)
        if each.slot.quantity is quantity and circuit in (None, each.slot.place.circuit)
    ]
    way = there[0] - now
    await driver.keys(*["down" if way > 0 else "up"] * abs(way))
    assert in_hand(driver).quantity is quantity


async def past_cautions(driver: Driver) -> None:
    """Say that the cautions in the way were read."""
    while bench(driver).must_read.caution is not None:
        await driver.keys("enter")


async def again(driver: Driver) -> int:
    """Test the finding in hand again from the review; return how many cautions came first."""
    await driver.type("a")
    await driver.settled()
    read = 0
    while isinstance(driver.app.screen, YesNo):
        await driver.keys("end", "y")
        await driver.settled()
        read += 1
    return read


def believable(driver: Driver, slot: Slot, known: Known) -> str:
    """Return what a meter might show on a sound job, as a tester would type it."""
    entry = bench(driver).entry
    assert entry is not None
    test = entry.measurement
    if test.is_check:
        return "y"
    if test.unit is Unit.MEGOHM:
        return ">999"
    typed = known.get((slot.place.part, slot.quantity))
    if typed is not None:
        return typed
    expected = driver.app.session.expected
    measured = expected.measured.get((slot.place, What.ZS)) if test.symbol == "Zs" else None
    due = measured or expected.meter[slot]
    assert isinstance(due, Worked)
    return f"{due.value:.{test.digits}f}"


Known = dict[tuple[Part, Quantity], str]
SOUND: Known = {
    # A supply better than declared, and what follows from it behind 0.08 Ω of feed.
    (Part.ORIGIN, Quantity.ZE): "0,35",
    (Part.ORIGIN, Quantity.FAULT_LN): "2.2",
    (Part.ORIGIN, Quantity.FAULT_LE): "660A",
    (Part.BOARD, Quantity.VOLTAGE): "236",
    (Part.BOARD, Quantity.ZDB): ".43",
    (Part.BOARD, Quantity.FAULT_LN): "1.24",
    (Part.BOARD, Quantity.FAULT_LE): "0.53 kA",
    (Part.BOARD, Quantity.EARTHING): ".01",
    (Part.CIRCUIT, Quantity.RCD_TIME): "24",
}


async def take_all(driver: Driver, known: Known = SOUND) -> None:
    """Enter a whole stage by keys: read the cautions, type each value, Enter.

    What `known` does not say is typed as expected. What is locked off is left.
    """
    for _ in range(80):
        await past_cautions(driver)
        slot = in_hand(driver)
        entry = bench(driver).entry
        if entry is not None and (not entry.is_open or bench(driver).prompt.stop is not None):
            return  # all is entered, or what is left is locked off
        await driver.type(believable(driver, slot, known) + "\n")
    taken = [(each.slot.quantity.code, each.taken) for each in driver.record.readings[-9:]]
    raise AssertionError(f"The stage does not come to an end:\n{driver.screen}\n{taken}")


def said(driver: Driver) -> str:
    """Return the message at the foot of the screen."""
    found = driver.app.screen.query_one("#said")
    return str(getattr(found, "text", ""))


def values(record: Record, slot: Slot) -> list[object]:
    """Return all that was entered in a slot, oldest first, in short."""
    return [_short(each) for each in record.taken(slot)]


def _short(reading: Reading) -> object:
    taken = reading.taken
    if isinstance(taken, Figure):
        return f"{taken.sign.value.removeprefix('=')}{taken.value:g}"
    if isinstance(taken, Tick):
        return taken.good
    assert isinstance(taken, NotTaken | NotNeeded)
    return taken.reason
