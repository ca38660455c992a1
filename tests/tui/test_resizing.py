"""A window that changes its size, or is too small for a while, loses nothing that is half typed."""

from __future__ import annotations

from pathlib import Path

from textual.widgets import Input

from records.model.reading import Quantity
from records.terms import Stage, Step
from tests.taking.job import slot
from tests.tui.at_bench import again, at, bench, in_hand, past_cautions, to_slot, values
from tests.tui.driving import NARROW, WIDE, Driver, blank
from tests.tui.test_review import faulty
from tui.sizes import TOO_SMALL
from tui.steps.bench_step import BenchStep
from tui.steps.form_step import FormStep
from tui.steps.review import Review

SIZES = (WIDE, (40, 10), NARROW)
R1 = slot(Quantity.R1, Stage.DEAD, "C1")


async def through_all_sizes(driver: Driver, half: str) -> None:
    """Change the size again and again; the text, the caret and the place stay."""
    caret, place = _caret(driver), _place(driver)
    assert _entry(driver).value == half
    for size in SIZES:
        await driver.pilot.resize_terminal(*size)
        await driver.settled()
        small = size[0] < 50 or size[1] < 14
        assert (TOO_SMALL[:24] in driver.words) == small
        assert (_entry(driver).value, _caret(driver), _place(driver)) == (half, caret, place)
        if not small:
            assert half in driver.screen, size


def _entry(driver: Driver) -> Input:
    focused = driver.app.screen.focused
    assert isinstance(focused, Input)
    return focused


def _caret(driver: Driver) -> object:
    return _entry(driver).selection


def _place(driver: Driver) -> object:
    """Return where the person is: at which reading, on which row, at which verdict."""
    screen = driver.app.screen_stack[-1]
    while not isinstance(screen, BenchStep | FormStep | Review):
        screen = driver.app.screen_stack[driver.app.screen_stack.index(screen) - 1]
    if isinstance(screen, BenchStep):
        return screen.bench.entry and screen.bench.entry.slot
    if isinstance(screen, FormStep):
        return screen.trail, screen.form.row and screen.form.row.key
    return screen.listing.current and screen.listing.current.key


async def test_a_form_keeps_text_caret_and_row(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.type("035")
        await driver.keys("left", "left")
        await through_all_sizes(driver, "035")
        await driver.type(".")
        await driver.keys("enter")

        assert driver.record.origin.ze == 0.35


async def test_the_bench_keeps_text_caret_and_reading_and_takes_what_is_typed_unseen(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.keys("f9")
        await driver.type("08")
        await driver.keys("left")
        await through_all_sizes(driver, "08")
        assert bench(driver).desk.settings.grid
        assert in_hand(driver) == R1
        await driver.pilot.resize_terminal(30, 8)
        await driver.settled()
        await driver.type("2")
        await driver.keys("left")
        await driver.type(".")
        await driver.pilot.resize_terminal(*NARROW)
        await driver.settled()
        assert "Reading ▸ 0.28" in driver.words
        await driver.keys("enter")

        assert values(driver.record, R1) == ["0.28"]


async def test_dialogs_and_second_tests_keep_what_is_half_typed(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.keys("r", "enter")
        await driver.settled()
        await driver.type("Screw dran")
        await driver.keys("left")
        await through_all_sizes(driver, "Screw dran")
        await driver.type("w")
        await driver.keys("enter", "enter")
        await driver.settled()
        assert "On record" in driver.words
        assert driver.record.remedies[0].done == "Screw drawn"

        await again(driver)
        await driver.type(">99")
        await driver.keys("left")
        await through_all_sizes(driver, ">99")
        await driver.type("9")
        await driver.keys("enter")
        await driver.settled()
        assert "within" in driver.words
