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
from tests.tui.driving import Driver, wizard
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
from tui.dialogs.typed_in import TypedIn
from tui.dialogs.working import Working
from tui.dialogs.yes_no import YesNo
from tui.steps.step import Step
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


async def test_f1_says_what_each_dialog_is_for_and_leaves_it_as_it_was(tmp_path: Path) -> None:
    async with demo(tmp_path, (80, 24)) as driver:
        for kind in sorted(MADE, key=lambda each: each.__name__):
            answers: list[object] = []
            dialog = await _open(driver, kind, answers)
            await driver.keys("f1")
            await driver.settled()
            if kind is Reader:  # it is the help itself: F1 puts it away
                assert answers == [None]
                continue
            assert isinstance(driver.app.screen, Reader), kind
            assert "Esc, Enter or F1 closes" in driver.screen
            assert kind is Surfaces or kind.HELP[:25] in driver.words, kind
            await driver.keys("f1")
            await driver.settled()
            assert driver.app.screen is dialog
            await driver.keys("escape")
            await driver.settled()
            assert answers == [None], kind


@pytest.mark.parametrize("size", [(80, 24), (48, 40)])
async def test_each_dialog_is_closed_by_a_tap_on_its_key_or_beside_it(
    tmp_path: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    if size[0] == 48:
        monkeypatch.setenv("FARBOARD_TOUCH", "1")
    async with demo(tmp_path, size) as driver:
        for kind in sorted(MADE, key=lambda each: each.__name__):
            answers: list[object] = []
            await _open(driver, kind, answers)
            keys = driver.app.screen.query_one("#dialog-keys")
            assert driver.app.screen.region.contains_region(keys.region), kind
            assert keys.size.height % 3 == 0 or size[0] == 80, kind
            await driver.pilot.click("#dialog-keys", offset=_where(driver, "Esc"))
            await driver.settled()
            assert answers == [None], kind

            dialog = await _open(driver, kind, answers)
            box = dialog.query_one("#dialog").region
            if box.width < size[0] and box.height < size[1]:
                await driver.pilot.click(offset=Offset(0, 0))
                await driver.settled()
            else:
                await driver.keys("escape")
            assert answers == [None, None], kind


def _where(driver: Driver, word: str) -> tuple[int, int]:
    region = driver.app.screen.query_one("#dialog-keys").region
    lines = driver.screen.splitlines()
    for y in range(region.y, region.bottom):
        x = lines[y].find(word, region.x)
        if x >= 0:
            return x - region.x, y - region.y
    raise AssertionError(f"No {word} among the keys:\n{driver.screen}")


async def test_a_question_is_answered_by_a_tap_on_its_answer_alone(tmp_path: Path) -> None:
    async with demo(tmp_path, (80, 24)) as driver:
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


@pytest.mark.parametrize("step", [WalkStep.JOB, WalkStep.DEAD_TESTS, WalkStep.REVIEW])
async def test_what_is_typed_right_after_the_key_of_a_dialog_goes_into_it(
    tmp_path: Path, step: WalkStep
) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path, begin=step) as driver:
        for keys, came in (
            (("f6", "4"), "Board"),
            (("ctrl+p", *"job", "enter"), "Job"),
            (("f6", "home", "down", "enter"), "Origin"),
            (("f1", "escape", "f6", "3"), "Feed"),
            (("f2", "escape", "f6", "1"), "Job"),
        ):
            before = driver.record
            driver.burst(*keys)
            for _ in range(60):
                await driver.pilot.pause(0.02)
                shown = driver.app.screen
                if isinstance(shown, Step) and came == shown.STEP_TITLE:
                    break
            assert getattr(driver.app.screen, "STEP_TITLE", "") == came, driver.screen
            assert driver.record == before
            driver.app.go(step)
            await driver.settled()


async def test_text_typed_before_the_key_of_a_dialog_stays_in_its_field(tmp_path: Path) -> None:
    async with demo(tmp_path, (80, 24)) as driver:
        driver.burst(*"J-7", "f6", "escape")
        await driver.pilot.pause(0.6)
        await driver.settled()
        assert driver.app.screen.query_one(Entry).value == "J-7"


def test_the_parts_of_a_line_of_keys() -> None:
    assert hints("↑ ↓ move · Enter or its number takes it · + - 0 zoom · Esc") == [
        ([("↑", "up"), ("↓", "down")], "move"),
        ([("Enter", "enter"), ("or", "")], "its number takes it"),
        ([("+", "plus"), ("-", "minus"), ("0", "0")], "zoom"),
        ([("Esc", "escape")], ""),
    ]
    assert hints("y: yes, go on") == [([("y:", "y")], "yes, go on")]
    assert hints("F2 working · a all") == [([("F2", "f2")], "working"), ([("a", "a")], "all")]
