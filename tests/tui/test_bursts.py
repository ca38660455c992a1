"""Keys in bursts, faster than screens come and go: the program goes on, and nothing is lost."""

from __future__ import annotations

import asyncio
import random
from pathlib import Path

import pytest

from records.demo import demo_record
from records.store.file import RecordFile
from tests.tui.driving import Driver
from tui.app import FarboardApp
from tui.dialogs.choose import Choose
from tui.local_state import Kept

pytestmark = pytest.mark.slow

KEYS = (
    "? enter enter escape escape f1 f2 f3 f4 f5 f6 f7 f8 f9 a b c y n q 1 7 down up tab ctrl+z "
    "ctrl+y ctrl+p ctrl+g ctrl+n space w t x m p l v d r . 0 . 3 5 pagedown pageup home end left "
    "right shift+tab backspace ctrl+q"
).split()
_BURSTS = 25


@pytest.mark.parametrize("seed", range(6))
async def test_no_burst_of_keys_ends_the_program(tmp_path: Path, seed: int) -> None:
    """Found so: a dialog closed before it had its widgets, twice, or with the program ending."""
    chance = random.Random(seed)
    path = tmp_path / "job.farboard"
    RecordFile.create(path, demo_record()).close()
    app = FarboardApp(path, kept=Kept(tmp_path / "state"))
    async with app.run_test(size=chance.choice([(80, 24), (120, 40)])) as pilot:
        driver = Driver(app, pilot)
        for _ in range(_BURSTS):
            if not app.is_running:
                break
            driver.burst(*chance.choices(KEYS, k=chance.choice((1, 2, 3, 5, 9))))
            for _ in range(chance.choice((0, 1, 5, 20, 60))):
                await asyncio.sleep(0)
        await driver.settled()

    assert app._exception is None
    assert not list((tmp_path / "state").glob("crashes/*"))
    with RecordFile.open(path) as file:
        assert file.record.circuits


async def test_a_second_enter_answers_a_question_no_second_time(tmp_path: Path) -> None:
    answers: list[int | None] = []
    app = FarboardApp(kept=Kept(tmp_path / "state"))
    async with app.run_test() as pilot:
        beneath = app.screen
        question = Choose("Which is it?", ["one", "two"])
        await app.push_screen(question, answers.append)
        question.dismiss(1)
        question.dismiss(0)
        await pilot.pause()

        assert answers == [1]
        assert app.screen is beneath
