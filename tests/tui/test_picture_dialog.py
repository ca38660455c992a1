"""The dialog with the pictures: opened from each kind of step, walked through by its keys."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.demo import demo_record
from records.model.reading import Quantity
from records.model.record import Record
from records.terms import Part, Step
from tests.tui.at_bench import at, go, to_slot
from tests.tui.driving import NARROW, WIDE, Driver
from tui.dialogs.picture import Picture
from tui.look import PLAIN
from tui.widgets.canvas import Drawn


def dialog(driver: Driver) -> Picture:
    assert isinstance(driver.app.screen, Picture)
    return driver.app.screen


async def test_a_key_opens_the_pictures_of_the_circuit_in_hand_in_every_window(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.CIRCUITS, demo_record()) as driver:
        await driver.keys("enter")
        for size in (NARROW, WIDE, (50, 14)):
            await driver.pilot.resize_terminal(*size)
            await driver.keys("ctrl+g")
            await driver.settled()
            assert dialog(driver).place.circuit == "C1"
            assert "‹curve›" in driver.screen
            for words in ("design 296 A", "readings 250 A", "off within 0.4 s", "1000 s", "10 kA"):
                assert words in driver.screen, size
            await driver.keys("right")
            await driver.settled()
            assert "‹loop›" in driver.screen, size
            assert "53% of" in driver.screen, size
            await driver.keys("right")
            await driver.settled()
            assert "S5 dye shelf" in driver.screen, size
            await driver.keys("escape")
            assert not isinstance(driver.app.screen, Picture)


async def test_without_colour_the_arrows_walk_round_and_each_step_opens_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    record = demo_record()
    async with at(tmp_path, Step.FEED, record) as driver:
        assert driver.app.theme == PLAIN
        await driver.keys("ctrl+g")
        await driver.settled()
        for words in ("◇ design 453 A", "◆ readings 477 A", "off within 5 s"):
            assert words in driver.screen
        assert any(0x2800 < ord(each) < 0x2900 for each in driver.screen)
        await driver.keys("a")
        await driver.settled()
        assert not any(0x2800 < ord(each) < 0x2900 for each in driver.screen), "plain characters"
        assert "@ readings 477 A" in driver.screen

        seen = []
        for _ in range(len(record.circuits) + 1):
            seen.append(dialog(driver).place.circuit)
            await driver.keys("down")
        assert seen == [None, *(each.id for each in record.circuits)]
        assert dialog(driver).place.part is Part.FEED
        await driver.keys("up", "left")
        assert dialog(driver).place.circuit == record.circuits[-1].id
        assert dialog(driver).sort == "loop"
        await driver.keys("escape")

        await go(driver, Step.DEAD_TESTS)
        await to_slot(driver, Quantity.CROSS_LE)
        await driver.keys("ctrl+g")
        await driver.settled()
        assert dialog(driver).sort == "ring", "from a reading of a ring"
        assert "44 m" in driver.screen
        await driver.keys("escape")

        await go(driver, Step.REVIEW)
        first = driver.app.session.review.findings[0]
        await driver.keys("ctrl+g")
        assert dialog(driver).place.circuit == first.place.circuit, "of the finding in hand"


async def test_a_picture_grows_with_the_window_and_a_blank_record_says_why(tmp_path: Path) -> None:
    async with at(tmp_path, Step.FEED, Record()) as driver:
        await driver.keys("ctrl+g")
        await driver.settled()
        assert "not entered yet (Feed)" in driver.words or "is missing" in driver.words
        small = driver.app.screen.query_one(Drawn).size
        await driver.pilot.resize_terminal(*WIDE)
        await driver.settled()
        assert driver.app.screen.query_one(Drawn).size.area > small.area
