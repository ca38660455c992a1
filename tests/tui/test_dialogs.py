"""Every dialog: F1 says what it is for, Esc and a tap close it, and it never answers by a slip."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from typing import Any

import pytest
from textual.content import Content
from textual.geometry import Offset

import tui.dialogs
from records.demo import demo_record
from records.options.buy import buy_list
from records.options.compare import compared
from records.options.earth import earth_choice
from records.session import Session
from records.store.file import RecordFile
from records.taking.queue import Order, queue
from records.taking.still_to_test import Stop, missing
from records.terms import Stage
from records.terms import Step as WalkStep
from tests.tui.driving import NARROW, Driver, blank, wizard
from tui.dialogs.ask import Ask
from tui.dialogs.buy_table import BuyTable
from tui.dialogs.choose import Choose
from tui.dialogs.commands import Command, Commands
from tui.dialogs.compare_table import CompareTable
from tui.dialogs.cut_outs import CutOuts
from tui.dialogs.dialog import Dialog
from tui.dialogs.earth_table import EarthTable
from tui.dialogs.missing import Missing
from tui.dialogs.open_file import OpenFile
from tui.dialogs.options_table import CircuitTable, OptionsTable
from tui.dialogs.pick import Pick
from tui.dialogs.picture import Picture
from tui.dialogs.questions import Question, Questions
from tui.dialogs.reader import Reader
from tui.dialogs.room_table import RoomTable
from tui.dialogs.surfaces import Surfaces
from tui.dialogs.table import Line, Table
from tui.dialogs.text_dialog import TypedIn
from tui.dialogs.working import Working
from tui.dialogs.yes_no import YesNo
from tui.widgets.entry import Entry
from tui.widgets.key_hints import hints

_LINE = Line(("2c 16",), (None,), mark="S")
TEXT = "It takes what you type."
MADE: dict[type[Dialog[Any]], Callable[[Session], Dialog[Any]]] = {
    Ask: lambda _: Ask("Which?", lambda text: "" if text else "Type something."),
    Choose: lambda _: Choose("Which?", ["one", "two"], text=TEXT),
    Commands: lambda _: Commands([Command("Undo", "Take it back", lambda: None)]),
    CircuitTable: lambda _: CircuitTable("?", ["cable"], [_LINE], ["Ask."], [TEXT], lambda _: None),
    CutOuts: lambda job: CutOuts(job, job.record.fabric.surfaces[0], lambda _: ""),
    OpenFile: lambda _: OpenFile(lambda name: "", ".farboard"),
    Missing: lambda job: Missing(_still(job), 0),
    OptionsTable: lambda _: OptionsTable("?", ["cable"], [_LINE], ["Ask."], [TEXT], lambda _: None),
    Picture: lambda job: Picture(job, None, None),
    Pick: lambda _: Pick("Which?", [("a", "one"), ("b", "two")]),
    Questions: lambda _: Questions("Which?", [Question("First"), Question("Second")], words=TEXT),
    Reader: lambda _: Reader("Read", [Content(TEXT)]),
    Surfaces: Surfaces,
    Working: lambda job: Working([("Zs", next(iter(job.expected.design.values())))], 0),
    BuyTable: lambda job: BuyTable(buy_list(job.record)),
    CompareTable: lambda _: CompareTable(
        ["now", "other"], compared([demo_record(), demo_record()])
    ),
    EarthTable: lambda job: EarthTable(earth_choice(job.record)),
    RoomTable: lambda job: RoomTable(job.record),
    YesNo: lambda _: YesNo("Sure?", [TEXT]),
}


def _still(job: Session) -> tuple[Stop, ...]:
    entries = queue(job.record, job.review, Stage.LIVE, Order.BY_TEST, ())
    return missing(job.record, Stage.LIVE, entries)


def _kinds() -> set[type[Dialog[Any]]]:
    found = set()
    for each in iter_modules(tui.dialogs.__path__):
        module = import_module(f"tui.dialogs.{each.name}")
        for kind in vars(module).values():
            is_one = isinstance(kind, type) and issubclass(kind, Dialog) and kind is not Dialog
            if is_one and kind.__module__ == module.__name__:
                found.add(kind)
    return found


def test_no_dialog_is_left_out() -> None:
    assert _kinds() - {Table, TypedIn} == set(MADE)


@asynccontextmanager
async def demo(folder: Path, size: tuple[int, int]) -> AsyncIterator[Driver]:
    path = folder / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, folder, size=size) as driver:
        yield driver


async def _open(driver: Driver, kind: type[Dialog[Any]], answers: list[object]) -> Dialog[Any]:
    dialog = MADE[kind](driver.app.session)
    driver.app.push_screen(dialog, answers.append)
    await driver.settled()
    assert driver.app.screen is dialog
    return dialog


async def test_f1_says_what_each_dialog_is_for_and_a_tap_or_esc_closes_it(tmp_path: Path) -> None:
    async with demo(tmp_path, NARROW) as driver:
        for kind in sorted(MADE, key=lambda each: each.__name__):
            answers: list[object] = []
            dialog = await _open(driver, kind, answers)
            if kind is not Reader:
                await _f1_and_back(driver, dialog)
            assert await _closes_by_its_key(driver, answers), f"a tap on Esc: {kind}"

            dialog = await _open(driver, kind, answers)
            if not await _closes_by_a_tap_beside_it(driver, dialog):
                await driver.keys("f1" if kind is Reader else "escape")
            assert answers == [None, None], f"a tap beside it, or Esc: {kind}"


async def test_with_fingers_each_dialog_is_closed_by_a_tap(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FARBOARD_TOUCH", "1")
    async with demo(tmp_path, (48, 40)) as driver:
        for kind in sorted(MADE, key=lambda each: each.__name__):
            answers: list[object] = []
            dialog = await _open(driver, kind, answers)
            height = dialog.query_one("#dialog-keys").size.height
            assert height % 3 == 0, f"rows of three lines, for a finger: {kind}"
            if await _closes_by_a_tap_beside_it(driver, dialog):
                assert answers.pop() is None, kind
                await _open(driver, kind, answers)
            assert await _closes_by_its_key(driver, answers), kind


async def _f1_and_back(driver: Driver, dialog: Dialog[Any]) -> None:
    kind = type(dialog)
    await driver.keys("f1")
    await driver.settled()
    assert isinstance(driver.app.screen, Reader), kind
    assert "Esc, Enter or F1 closes" in driver.screen
    assert kind is Surfaces or kind.HELP[:25] in driver.words, kind
    await driver.keys("f1")
    await driver.settled()
    assert driver.app.screen is dialog, f"F1 leaves it as it was: {kind}"


async def _closes_by_its_key(driver: Driver, answers: list[object]) -> bool:
    """Tap on Esc among the keys, all of which are on the screen; return whether it closes."""
    keys = driver.app.screen.query_one("#dialog-keys")
    assert driver.app.screen.region.contains_region(keys.region), driver.screen
    await driver.pilot.click("#dialog-keys", offset=_where(driver, "Esc"))
    await driver.settled()
    return answers == [None]


async def _closes_by_a_tap_beside_it(driver: Driver, dialog: Dialog[Any]) -> bool:
    """Tap in the corner of the window; False if the dialog leaves no room beside it."""
    box = dialog.query_one("#dialog").region
    window = dialog.region
    if box.width >= window.width or box.height >= window.height:
        return False
    await driver.pilot.click(offset=Offset(0, 0))
    await driver.settled()
    assert driver.app.screen is not dialog, f"a tap beside it: {type(dialog)}"
    return True


def _where(driver: Driver, word: str) -> tuple[int, int]:
    region = driver.app.screen.query_one("#dialog-keys").region
    lines = driver.screen.splitlines()
    for y in range(region.y, region.bottom):
        x = lines[y].find(word, region.x)
        if x >= 0:
            return x - region.x, y - region.y
    raise AssertionError(f"No {word} among the keys:\n{driver.screen}")


async def test_a_question_is_answered_by_a_tap_on_its_answer_alone(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        answers: list[bool | None] = []
        for word in ("n: no", "y: go on"):
            driver.app.push_screen(YesNo("Sure?", [TEXT], yes="go on", no="no"), answers.append)
            await driver.settled()
            await driver.pilot.click("#dialog-title")
            await driver.pilot.click("#dialog-scroll")
            assert isinstance(driver.app.screen, YesNo)
            line = next(each for each in driver.screen.splitlines() if word in each)
            y = driver.screen.splitlines().index(line)
            await driver.pilot.click(offset=Offset(line.index(word), y))
            await driver.settled()
        assert answers == [False, True]


async def test_what_is_typed_right_after_the_key_of_a_dialog_goes_into_it_and_nothing_before(
    tmp_path: Path,
) -> None:
    async with demo(tmp_path, NARROW) as driver:
        driver.burst(*"J-7", "f6", "escape")
        await driver.settled()
        assert driver.app.screen.query_one(Entry).value == "J-7", "typed before the key"
        await driver.keys("escape")
        for step in (WalkStep.JOB, WalkStep.DEAD_TESTS, WalkStep.REVIEW):
            for keys, came in (
                (("f6", "4"), "Board"),
                (("ctrl+p", *"job", "enter"), "Job"),
                (("f6", "home", "down", "enter"), "Origin"),
                (("f1", "escape", "f6", "3"), "Feed"),
                (("f2", "escape", "f6", "1"), "Job"),
            ):
                driver.app.go(step)
                await driver.settled()
                before = driver.record
                driver.burst(*keys)
                await driver.settled()
                assert getattr(driver.app.screen, "STEP_TITLE", "") == came, (step, driver.screen)
                assert driver.record == before


def test_the_parts_of_a_line_of_keys() -> None:
    assert hints("↑ ↓ move · Enter or its number takes it · + - 0 zoom · Esc") == [
        ([("↑", "up"), ("↓", "down")], "move"),
        ([("Enter", "enter"), ("or", "")], "its number takes it"),
        ([("+", "plus"), ("-", "minus"), ("0", "0")], "zoom"),
        ([("Esc", "escape")], ""),
    ]
    assert hints("y: yes, go on") == [([("y:", "y")], "yes, go on")]
    assert hints("F2 working · a all") == [([("F2", "f2")], "working"), ([("a", "a")], "all")]
