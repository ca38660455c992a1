"""The keys at the foot: what they say, and that each can be clicked."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.tui.driving import NARROW, WIDE, blank, wizard
from tui.widgets.key_line import KeyLine


@pytest.mark.parametrize(
    ("key", "follows"),
    [
        ("F1 Help", "Help: Job"),
        ("F4 Next", "Origin"),
        ("F6 Steps", "Go to a step"),
        ("^P Commands", "Close this record"),
    ],
)
@pytest.mark.parametrize("end", [0, -1])
async def test_a_click_on_a_key_does_what_the_key_does(
    tmp_path: Path, key: str, follows: str, end: int
) -> None:
    async with blank(tmp_path, size=WIDE) as driver:
        line = driver.screen.splitlines()[-1]
        at = line.index(key) + (len(key) - 1 if end else 0)
        await driver.pilot.click(KeyLine, offset=(at, 0))
        await driver.settled()

        assert follows in driver.words


async def test_between_two_keys_and_after_the_last_a_click_does_nothing(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        before = driver.screen
        line = before.splitlines()[-1]
        for at in (line.index(" F4"), len(line) + 2):
            await driver.pilot.click(KeyLine, offset=(at, 0))
            await driver.settled()

            assert driver.screen == before


async def test_the_start_screen_names_its_own_keys(tmp_path: Path) -> None:
    async with wizard(None, tmp_path, size=NARROW) as driver:
        assert driver.screen.splitlines()[-1].split() == [
            *("F1", "Help", "^Q", "Leave", "^P", "Commands")
        ]
