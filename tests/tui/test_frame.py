"""The frame round every step: head, rail, keys, size of the window, look."""

import sqlite3
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
from tests.tui.driving import NARROW, WIDE, Driver, blank, wizard
from tests.tui.legible import contrast
from tui.app import FarboardApp
from tui.dialogs.yes_no import YesNo
from tui.local_state import Kept
from tui.look import DARK, PAPER, PLAIN, THEMES
from tui.screens import screen_of
from tui.steps.step import Step

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


async def test_f3_and_f4_walk_through_all_ten_steps_and_back(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        for step in list(WalkStep)[1:]:
            await driver.keys("f4")
            await driver.settled()
            await _answered(driver)
            assert isinstance(driver.app.screen, Step)
            assert driver.app.screen.step is step
            assert NOTICE in driver.screen
        await driver.keys("f4")
        assert "Hand over is the last step" in driver.screen
        for step in reversed(list(WalkStep)[:-1]):
            await driver.keys("f3")
            await _answered(driver)
            assert driver.app.screen.step is step


async def _answered(driver: Driver) -> None:
    """Answer what is asked on the way in and out of the live tests: may one go live, is all off."""
    while not isinstance(driver.app.screen, Step):
        if isinstance(driver.app.screen, YesNo):
            await driver.keys("end", "y")
        else:
            await driver.type("Wren Oakes\n")  # who has the key
        await driver.settled()


async def test_the_rail_says_how_every_step_stands_in_words_and_counts(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        for step in WalkStep:
            assert step.value in driver.screen
        assert "0/7     empty" in driver.screen
        await driver.fill("J-1")
        await driver.settled()
        assert "1/7     begun" in driver.screen


async def test_f6_lists_the_steps_and_goes_to_one(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.keys("f6")
        assert "Go to a step" in driver.screen
        await driver.keys("down", "down", "enter")
        await driver.settled()
        assert driver.app.screen.step is WalkStep.FEED

        await driver.keys("f6", "2")
        await driver.settled()
        assert driver.app.screen.step is WalkStep.ORIGIN


async def test_a_click_on_the_rail_goes_to_the_step(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.pilot.click("#rail", offset=(4, 6))
        await driver.settled()
        assert driver.app.screen.step is WalkStep.BOARD


async def test_a_click_on_a_field_goes_there_and_accepts_what_was_typed(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.type("J-3")
        await driver.pilot.click("#form", offset=(5, 2))
        await driver.type("Workshop\n")
        assert driver.record.job.reference == "J-3"
        assert driver.record.job.description == "Workshop"


@pytest.mark.parametrize("key", ["f1", "question_mark"])
async def test_help_explains_the_field_the_screen_and_the_keys(tmp_path: Path, key: str) -> None:
    async with blank(tmp_path, step=2, size=WIDE) as driver:
        await driver.keys(key)
        await driver.settled()
        assert "Earthing of the supply: Ask the network operator" in driver.screen
        assert "The supply as it is at the house board" in driver.screen
        assert "Ctrl+Z Ctrl+Y" in driver.screen
        await driver.keys("escape")
        assert "Ctrl+Z Ctrl+Y" not in driver.screen


async def test_a_question_mark_in_a_text_is_a_question_mark(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.fill("which shed?")
        assert driver.record.job.reference == "which shed?"


async def test_f2_shows_formula_values_and_source(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path, size=WIDE) as driver:
        await driver.keys("f2")
        assert "no working to show" in driver.screen
        await driver.keys("f4", "f4", "f2")
        await driver.settled()
        assert "How it was calculated" in driver.screen
        for word in ("formula", "values", "source", "BS 7671"):
            assert word in driver.screen


async def test_the_palette_has_our_own_commands(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.keys("ctrl+p")
        await driver.type("go to boa")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()
        assert driver.app.screen.step is WalkStep.BOARD


@pytest.mark.parametrize("size", [(47, 24), (80, 13), (20, 5)])
async def test_a_window_too_small_says_so(tmp_path: Path, size: tuple[int, int]) -> None:
    async with blank(tmp_path, size=size) as driver:
        assert "too small" in " ".join(driver.screen.split())


@pytest.mark.parametrize("size", [(50, 14), (69, 24)])
async def test_a_narrow_window_leaves_the_rail_out_and_shows_the_field(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with blank(tmp_path, size=size) as driver:
        assert "Before covering" not in driver.screen
        assert "▸ Reference" in driver.screen
        assert NOTICE in driver.screen


async def test_resizing_never_loses_what_is_typed(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.type("half a na")
        for size in ((120, 40), (40, 10), (60, 20), (80, 24)):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
        await driver.type("me")
        assert "half a name" in driver.screen
        await driver.keys("enter")
        assert driver.record.job.reference == "half a name"


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


async def test_the_look_is_remembered_and_an_unknown_one_falls_back(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        assert driver.app.theme == DARK
        await driver.keys("ctrl+p", *"look", "enter", "down", "enter")
        await driver.settled()
        assert driver.app.theme == PAPER
        assert "The look is now farboard-paper" in driver.words
    assert FarboardApp(kept=Kept(tmp_path / "kept")).theme == PAPER

    (tmp_path / "kept" / "settings.toml").write_text('look = "gone-by-now"')
    async with wizard(None, tmp_path) as driver:
        assert driver.app.theme == DARK
        assert "There is no look “gone-by-now”" in driver.words


async def test_without_colour_all_is_ink_on_ground(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with blank(tmp_path) as driver:
        assert driver.app.theme == PLAIN
        assert "· Origin" in driver.screen


async def test_a_damaged_file_is_a_message_and_no_traceback(tmp_path: Path) -> None:
    path = tmp_path / "bad.farboard"
    path.write_bytes(b"this is no record\n" * 50)
    async with wizard(path, tmp_path) as driver:
        assert "This record can't be opened" in driver.screen
        assert "look only" not in driver.screen
        await driver.keys("enter")
        assert "+ a new record" in driver.screen


async def test_another_programs_database_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "other.farboard"
    with sqlite3.connect(path) as other:
        other.execute("create table t (x)")
    async with wizard(path, tmp_path) as driver:
        assert "This record can't be opened" in driver.screen


async def test_a_record_open_elsewhere_can_be_looked_at(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    with RecordFile.create(path):
        async with wizard(path, tmp_path) as driver:
            assert "This record can't be opened" in driver.screen
            await driver.keys("1")
            await driver.settled()
            assert "READ ONLY" in driver.screen


async def test_leaving_asks_about_what_is_half_typed_and_gives_it_back(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.type("0.3")
        await driver.keys("ctrl+q")
        assert "Typed and not accepted: “0.3”" in driver.words
        await driver.keys("escape")
        assert driver.app.is_running
        await driver.keys("f10", "2")

    with RecordFile.open(tmp_path / "job.farboard") as file:
        assert file.record.origin.ze is None
    async with blank(tmp_path, step=2) as driver:
        assert "! “0.3” is not kept yet" in driver.screen
        await driver.row("Ze")
        await driver.type("5")
        await driver.keys("enter")
        assert driver.record.origin.ze == 0.35


async def test_leaving_with_nothing_half_typed_asks_nothing(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.fill("J-2")
        await driver.keys("ctrl+q")
        assert not driver.app.is_running


async def test_work_goes_on_where_nothing_can_be_remembered(tmp_path: Path) -> None:
    (tmp_path / "kept").write_text("a file where the folder would be")
    async with blank(tmp_path) as driver:
        await driver.keys("ctrl+p", *"look", "enter", "down", "enter")
        await driver.settled()
        assert driver.app.theme == PAPER
        assert "It holds until you leave" in driver.words
        await driver.fill("J-2")
        assert driver.record.job.reference == "J-2"
    (tmp_path / "kept").unlink()
    (tmp_path / "kept").mkdir()
    for name in ("recent.json", "settings.toml"):
        (tmp_path / "kept" / name).write_bytes(b"\xff[{not json")
    async with wizard(None, tmp_path) as driver:
        assert "+ a new record" in driver.screen


async def test_recent_records_are_offered_the_last_one_first(tmp_path: Path) -> None:
    for name in ("apple", "pear [x]"):
        path = tmp_path / f"{name}.farboard"
        RecordFile.create(path).close()
        async with wizard(path, tmp_path, size=NARROW):
            pass
    async with wizard(None, tmp_path) as driver:
        assert "▸ pear [x]" in driver.screen
        assert "apple" in driver.screen
        await driver.keys("enter")
        await driver.settled()
        assert driver.app.session.file.path.stem == "pear [x]"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("", "Type a name"),
        ("there", "is there already"),
        ("no/such/place", "There is no folder"),
        ("n" * 300, "type a plainer one"),
    ],
)
async def test_a_new_record_needs_a_name_that_can_be_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, typed: str, said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "there.farboard").touch()
    async with wizard(None, tmp_path) as driver:
        await driver.fill("")
        await driver.type(typed)
        await driver.keys("enter")
        assert said in driver.words
        await driver.keys("escape")
        assert "+ a new record" in driver.screen


async def test_the_demo_opens_as_a_copy(tmp_path: Path) -> None:
    async with wizard(None, tmp_path) as driver:
        await driver.row("the demo: a weaver's loom shed behind an orchard")
        await driver.keys("enter")
        await driver.settled()
        assert driver.record == demo_record()
        await driver.fill("mine now")
        assert driver.record.job.reference == "mine now"


async def test_what_the_rail_counts_as_open_is_named_on_the_step_itself(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    counted = set()
    async with wizard(path, tmp_path) as driver:
        for step in WalkStep:
            if step in (WalkStep.REVIEW, WalkStep.HAND_OVER):
                continue
            driver.app.go(step)
            await driver.settled()
            if isinstance(driver.app.screen, YesNo):  # the question before the live tests
                await driver.keys("escape")
                await driver.settled()
            count = driver.app.session.progress[step].open
            found = open_in(driver.app.session.review, step)
            assert len(found) == count
            if count:
                counted.add(step)
                name = short_name(driver.record, found[0]).partition(" · ")[0]
                assert f"{count} open: {found[0].verdict.mark} {name}" in driver.words, step
            else:
                assert " open: " not in driver.words
    assert counted == {
        WalkStep.CIRCUITS,
        WalkStep.BEFORE_COVERING,
        WalkStep.DEAD_TESTS,
        WalkStep.LIVE_TESTS,
    }
