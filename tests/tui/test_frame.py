"""The frame round every step: head, rail, keys, size of the window, look."""

import subprocess
import sys
from pathlib import Path

import pytest
from textual.color import Color

from records.demo import demo_record
from records.judgement.todo.progress import open_in
from records.store.file import RecordFile
from records.taking.finding_text import short_name
from records.terms import Step as WalkStep
from tests.tui.driving import WIDE, Driver, blank, wizard
from tests.tui.legible import contrast
from tui.dialogs.yes_no import YesNo
from tui.look import PLAIN, THEMES
from tui.screens import screen_of
from tui.steps.step import Step
from tui.widgets.key_line import KeyLine

NOTICE = "installer's test record · not a certificate"
HEAVY = "pydantic", "pint", "docx", "docxtpl", "jinja2", "lxml", "numpy"


def test_the_wizard_loads_without_what_opening_a_record_needs() -> None:
    code = (
        "import tui.app, tui.steps.start, sys;"
        f"print([each for each in {HEAVY} if each in sys.modules])"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert out.stdout.strip() == "[]"


@pytest.mark.parametrize("step", WalkStep)
def test_every_step_of_the_walk_has_a_screen_with_help(step: WalkStep) -> None:
    screen = screen_of(step)

    assert screen.step is step
    assert len(screen.HELP) > 100


async def test_f3_and_f4_walk_through_all_ten_steps_which_name_what_the_rail_counts(
    tmp_path: Path,
) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    counted = set()
    async with wizard(path, tmp_path) as driver:
        for step in WalkStep:
            if step is not WalkStep.JOB:
                await driver.keys("f4")
                await driver.settled()
            await _answered(driver)
            assert isinstance(driver.app.screen, Step)
            assert driver.app.screen.step is step
            assert NOTICE in driver.screen
            if step not in (WalkStep.REVIEW, WalkStep.HAND_OVER) and _names_open(driver, step):
                counted.add(step)
        assert counted == {
            WalkStep.CIRCUITS,
            WalkStep.BEFORE_COVERING,
            WalkStep.DEAD_TESTS,
            WalkStep.LIVE_TESTS,
        }
        await driver.keys("f4")
        assert "Hand over is the last step" in driver.screen
        for step in reversed(list(WalkStep)[:-1]):
            await driver.keys("f3")
            await _answered(driver)
            assert driver.app.screen.step is step


def _names_open(driver: Driver, step: WalkStep) -> bool:
    """Return whether the rail counts something as open; the step itself has to name it."""
    count = driver.app.session.progress[step].open
    found = open_in(driver.app.session.review, step)
    assert len(found) == count
    if not count:
        assert " open: " not in driver.words
        return False
    name = short_name(driver.record, found[0]).partition(" · ")[0]
    assert f"{count} open: {found[0].verdict.mark} {name}" in driver.words, step
    return True


async def _answered(driver: Driver) -> None:
    """Answer what is asked on the way in and out of the live tests: may one go live, is all off."""
    while not isinstance(driver.app.screen, Step):
        if isinstance(driver.app.screen, YesNo):
            await driver.keys("end", "y")
        else:
            await driver.type("Wren Oakes\n")  # who has the key
        await driver.settled()


async def test_the_rail_says_how_every_step_stands_and_keys_and_clicks_go_there(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path) as driver:
        for step in WalkStep:
            assert step.value in driver.screen
        assert "0/7     empty" in driver.screen
        await driver.fill("J-1")
        await driver.settled()
        assert "1/7     begun" in driver.screen

        await driver.keys("f6")
        assert "Go to a step" in driver.screen
        await driver.keys("down", "down", "enter")
        await driver.settled()
        assert driver.app.screen.step is WalkStep.FEED, "F6 and arrows"
        await driver.keys("f6", "2")
        await driver.settled()
        assert driver.app.screen.step is WalkStep.ORIGIN, "F6 and a number"
        await driver.pilot.click("#rail", offset=(4, 6))
        await driver.settled()
        assert driver.app.screen.step is WalkStep.BOARD, "a click on the rail"
        await driver.keys("ctrl+p")
        await driver.type("go to feed")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()
        assert driver.app.screen.step is WalkStep.FEED, "the list of commands"


async def test_text_lands_where_it_was_meant_after_a_click_another_size_and_a_question_mark(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path) as driver:
        await driver.type("J-3")
        await driver.pilot.click("#form", offset=(5, 2))
        await driver.type("Workshop\n")
        assert driver.record.job.reference == "J-3", "a click accepts what was typed"
        assert driver.record.job.description == "Workshop", "and goes to its field"

        await driver.row("Reference")
        await driver.keys("ctrl+u")
        await driver.fill("which shed?")
        assert driver.record.job.reference == "which shed?", "a question mark in a text is one"

        await driver.row("Reference")
        await driver.keys("ctrl+u")
        await driver.type("half a na")
        for size in ((120, 40), (40, 10), (60, 20), (80, 24)):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
        await driver.type("me")
        assert "half a name" in driver.screen, "another size of window loses nothing"
        await driver.keys("enter")
        assert driver.record.job.reference == "half a name"

        await driver.keys("ctrl+q")
        assert not driver.app.is_running, "with nothing half typed leaving asks nothing"


async def test_help_explains_the_field_the_screen_and_the_keys(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2, size=WIDE) as driver:
        for key in ("f1", "question_mark"):
            await driver.keys(key)
            await driver.settled()
            assert "Earthing of the supply: Ask the network operator" in driver.screen, key
            assert "The supply as it is at the house board" in driver.screen, key
            assert "Ctrl+Z Ctrl+Y" in driver.screen, key
            await driver.keys("escape")
            assert "Ctrl+Z Ctrl+Y" not in driver.screen


async def test_f2_shows_formula_values_and_source(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path, size=WIDE, begin=WalkStep.FEED) as driver:
        await driver.keys("f2")
        await driver.settled()
        assert "How it was calculated" in driver.screen
        for word in ("formula", "values", "source", "BS 7671"):
            assert word in driver.screen


async def test_a_small_window_leaves_the_rail_out_and_one_too_small_says_so(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, size=(20, 5)) as driver:
        for size in ((20, 5), (47, 24), (80, 13)):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "too small" in " ".join(driver.screen.split()), size
        for size in ((50, 14), (69, 24)):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "too small" not in " ".join(driver.screen.split()), size
            assert "Before covering" not in driver.screen, size
            assert "▸ Reference" in driver.screen, size
            assert NOTICE in driver.screen, size


async def test_a_click_on_a_key_at_the_foot_does_what_the_key_does(tmp_path: Path) -> None:
    async with blank(tmp_path, size=WIDE) as driver:
        before = driver.screen
        line = before.splitlines()[-1]
        for key, follows, back in (
            ("F1 Help", "Help: Job", "escape"),
            ("F4 Next", "Origin", "f3"),
            ("F6 Steps", "Go to a step", "escape"),
            ("^P Commands", "Close this record", "escape"),
        ):
            for at in (line.index(key), line.index(key) + len(key) - 1):
                await driver.pilot.click(KeyLine, offset=(at, 0))
                await driver.settled()
                assert follows in driver.words, (key, at)
                assert driver.screen != before
                await driver.keys(back)
                await driver.settled()
        before = driver.screen
        for at in (line.index(" F4"), len(line) + 2):
            await driver.pilot.click(KeyLine, offset=(at, 0))
            await driver.settled()
            assert driver.screen == before, "between two keys and after the last: nothing"


@pytest.mark.parametrize("theme", [each for each in THEMES if each.name != PLAIN])
def test_every_tone_is_legible_on_every_ground(theme) -> None:  # type: ignore[no-untyped-def]
    """WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text."""
    grounds = [Color.parse(each) for each in (theme.background, theme.surface, theme.panel)]
    inks = [theme.foreground, theme.primary, theme.secondary, theme.success, theme.warning]
    inks += [theme.error, theme.variables["quiet"]]
    for ink in map(Color.parse, inks):
        for ground in grounds:
            assert contrast(ink.rgb, ground.rgb) >= 4.5, (ink.hex, ground.hex)
    ink, ground = Color.parse(theme.variables["ink"]), Color.parse(theme.primary)
    assert contrast(ink.rgb, ground.rgb) >= 4.5
