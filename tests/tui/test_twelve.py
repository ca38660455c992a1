"""A stage of twelve circuits typed into the grid by a quick hand."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import takewhile
from pathlib import Path

import pytest

from records.interlock.comes_off import ZE
from records.model.reading import Slot
from records.model.slots import slots
from records.taking import desk
from records.terms import Stage, Step
from tests.taking.twelve import Typed, sound, twelve
from tests.tui.at_bench import Clock, at, bench, in_hand, past_cautions
from tests.tui.driving import NARROW, Driver
from tui.widgets.reading_grid import ReadingGrid

HANDFUL = 8
"""Readings that a quick hand types before it looks up: each has to land where it belongs."""


async def test_a_stage_of_twelve_circuits_is_entered_in_the_grid_and_taken_back_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    async with at(tmp_path, Step.BEFORE_COVERING, twelve(), size=NARROW) as driver:
        await driver.keys("f9")
        typed = await take_all(driver, {})
        wanted = len(slots(driver.record, Stage.BEFORE_COVERING))
        assert f"{wanted} of {wanted} taken · none open" in driver.words

        last = driver.record.readings[-1].slot
        await driver.keys("ctrl+z")
        await driver.settled()
        assert not driver.record.taken(last)
        assert f"{wanted - 1} of {wanted} taken" in driver.words
        typed |= await take_all(driver, {})

        assert wanted > 50
        for where, was in typed.items():
            assert was.is_in(driver.record, where)
            assert len(driver.record.taken(where)) == 1
        assert await _shown(driver) == wanted


async def _shown(driver: Driver) -> int:
    """Return how many cells have a figure, over all pages; none of them may be cut."""
    table = driver.app.screen.query_one(ReadingGrid)
    seen: set[tuple[int, int]] = set()
    await driver.keys(*["left"] * 12)
    for _ in range(12):
        for row in range(table.count()):
            line = table.row(row, table.size.width)
            assert line.cell_length <= table.size.width
            for column in table.shown:
                text = table.cell(row, column)
                assert text in line.plain
                if text.startswith("✓"):
                    seen.add((row, column))
        await driver.keys("right")
    return len(seen)


async def take_all(driver: Driver, bad: Mapping[Slot, Typed]) -> dict[Slot, Typed]:
    """Enter what is left of a stage, cautions read; return what was typed where."""
    typed: dict[Slot, Typed] = {}
    while True:
        await past_cautions(driver)
        if driver.record.taken(in_hand(driver)):
            return typed
        expected = driver.app.session.expected
        lines = []
        for where in _ahead(driver):
            typed[where] = bad.get(where) or sound(where, expected, len(typed))
            lines.append(typed[where].text)
        await _enter(driver, lines)


def _ahead(driver: Driver) -> list[Slot]:
    """Return the readings to type in one go: the next ones of a family, a handful at most."""
    here = bench(driver)
    entries = here.queue.entries[here.position.at :]
    alike = takewhile(lambda each: each.is_open and each.family is entries[0].family, entries)
    slots = [each.slot for each in alike][:HANDFUL]
    return slots[:1] if ZE in slots else slots


async def _enter(driver: Driver, lines: list[str]) -> None:
    """Type lines in one go, and wait until they were taken."""
    before = len(driver.record.readings)
    with driver.app.batch_update():  # nobody looks up: painting is most of the time
        driver.send("".join(f"{line}\n" for line in lines))
        await driver.quiet()
        if len(driver.record.readings) - before == len(lines):
            return
    raise AssertionError(f"{lines} were not taken:\n{driver.screen}")
