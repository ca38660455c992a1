"""The help names every key, and every key that it names does what it says."""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

import pytest
from textual.binding import Binding

import tui.dialogs
from records.demo import demo_record
from records.store.file import RecordFile
from records.terms import Step as WalkStep
from tests.tui.driving import Driver, wizard
from tui.app import FarboardApp
from tui.dialogs.commands import Commands
from tui.dialogs.dialog import Dialog
from tui.keys import EVERY_STEP, LEAVING, WALKING, Keys
from tui.screens import screen_of
from tui.steps.bench_step import BenchStep
from tui.steps.form_step import FormStep
from tui.steps.live_tests import LiveTests
from tui.steps.start import Start
from tui.steps.step import Step
from tui.widgets.entry import Entry

NAMES = {
    "↑": "up",
    "↓": "down",
    "←": "left",
    "→": "right",
    "Esc": "escape",
    "?": "question_mark",
    "PageUp": "pageup",
    "PageDown": "pagedown",
    "Enter": "enter",
    "Tab": "tab",
}
STEPS = [screen_of(each) for each in WalkStep]


def named(keys: Keys) -> list[str]:
    """Return the keys of a help, by the names that Textual has for them."""
    return [_id(word) for names, _ in keys for word in names.split() if word != "or"]


def _id(name: str) -> str:
    *held, key = name.split("+") if len(name) > 1 else [name]
    return "+".join([*map(str.lower, held), NAMES.get(key, key.lower())])


def _bindings(kind: type) -> Iterator[Binding]:
    for each in kind.__mro__:
        if each.__module__.startswith("tui."):
            yield from (one for one in vars(each).get("BINDINGS", ()) if isinstance(one, Binding))


def _bound(kind: type) -> set[str]:
    return {key for each in _bindings(kind) for key in each.key.split(",")}


def _help(kind: type[Step]) -> Keys:
    return (*kind.KEYS, *EVERY_STEP, *LEAVING)


@pytest.fixture
def _unlocked(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the live tests be open: locked, only a few keys act, and the screen shows which."""
    monkeypatch.setattr(LiveTests, "_locked", False)


@pytest.mark.usefixtures("_unlocked")
@pytest.mark.parametrize("kind", STEPS)
def test_every_key_that_is_bound_is_in_the_help(kind: type[Step]) -> None:
    keys = _help(kind)
    words = " ".join(f"{names} {said}" for names, said in keys)
    told = {*named(keys), *map(_id, re.findall(r"Ctrl\+\w+", words))}

    assert (_bound(kind) | _bound(FarboardApp)) - told == set()
    if issubclass(kind, BenchStep):
        letters = {key for key in kind().letters() if "insulation" not in kind().letters()[key][0]}
        assert letters - told <= {"v"}


@pytest.mark.usefixtures("_unlocked")
@pytest.mark.parametrize("kind", STEPS)
def test_every_key_in_the_help_is_bound_and_none_is_named_twice(kind: type[Step]) -> None:
    keys = named(_help(kind))
    assert len(set(keys)) == len(keys)

    acted_on = _bound(kind) | _bound(FarboardApp)
    if issubclass(kind, FormStep):
        acted_on |= Entry.ACTED_ON
    elif issubclass(kind, BenchStep):
        acted_on |= Entry.ACTED_ON | {"left", "right"} | set(kind().letters())
    else:  # a list, or a text that scrolls
        acted_on |= {"up", "down", "pageup", "pagedown", "enter"}
    assert set(keys) <= acted_on


def test_every_key_at_the_foot_is_in_the_help_by_its_name() -> None:
    for kind in (*STEPS, Start):
        keys = (*WALKING, *LEAVING) if kind is Start else _help(kind)
        shown = [each for each in (*_bindings(kind), *_bindings(FarboardApp)) if each.show]
        feet = {(each.key_display or each.key).replace("^", "Ctrl+") for each in shown}
        names = {word for names, _ in keys for word in names.split()}

        assert feet
        assert feet <= names, kind


Tries = tuple[tuple[str, str], ...]
"""Keys, each with words that are on the screen once it was pressed; "" where others look."""
PALETTE = "the palette"

ON_A_FORM: Tries = (
    ("down", "▸ C2"),
    ("up", "▸ C1"),
    ("tab", "▸ C2"),
    ("pagedown", "▸ + add a circuit"),
    ("pageup", "▸ C1"),
    ("f5", "Type another value"),
    ("question_mark", "Help: "),
    ("escape", ""),
    ("f7", "Circuits › C8"),
    ("f8", "is removed"),
    ("ctrl+z", "Taken back:"),
    ("ctrl+y", "Made again:"),
    ("pageup", "▸ C1"),
    ("enter", "Circuits › C1"),
    ("escape", "▸ C1"),
    ("f2", "no working to show"),
    ("ctrl+n", "Nothing can be put in here"),
    ("ctrl+up", "Nothing here can be moved up"),
    ("ctrl+down", "Nothing here can be moved down"),
)
OPEN, TAKEN = "▸· not taken C7 insulation N-E", "▸✓ within correct C1 polarity"
AT_THE_BENCH: Tries = (
    ("enter", "A tingle from metal"),
    ("enter", "Before the insulation tests"),
    ("enter", OPEN),
    ("down", TAKEN),
    ("up", OPEN),
    ("tab", TAKEN),
    ("pageup", "▸✓ within > 999 MΩ Feed insulation L-N"),
    ("pagedown", TAKEN),
    ("p", "Who takes the readings?"),
    ("escape", "Which instrument"),
    ("escape", ""),
    ("l", "Of when are the notes?"),
    ("escape", ""),
    ("o", "Which test?"),
    ("escape", ""),
    ("m", "Still to test"),
    ("escape", ""),
    ("f1", "Help: "),
    ("escape", ""),
    ("ctrl+g", "‹curve›"),
    ("escape", ""),
    ("f6", "Go to a step"),
    ("escape", ""),
    ("ctrl+p", PALETTE),
    ("escape", ""),
    ("f3", "33 of 34 taken"),
    ("f4", "57 of 58 taken"),
)
IN_THE_REVIEW: Tries = (
    ("down", "▸? unlikely† C6 Zs: 0.28 Ω"),
    ("up", "▸✗ outside C3 RCD time: 342 ms"),
    ("shift+down", "Likely cause 1."),
    ("shift+up", "Do next"),
    ("enter", "limit at most 300 ms"),
    ("escape", ""),
    ("d", "What must the certifier know?"),
    ("escape", ""),
)
HANDING_OVER: Tries = (
    ("pagedown", "What a reader has to know"),
    ("pageup", "16 of 16"),
    ("down", ""),
    ("up", ""),
    ("enter", "Is it off and locked off now?"),
    ("y", "Who has the key?"),
    ("k", ""),
    ("enter", "Write the schedule"),
    ("escape", ""),
)
ELSEWHERE = {
    WalkStep.CIRCUITS: set(),
    WalkStep.DEAD_TESTS: {*"cxatwv", "ctrl+o", "f9", "left", "right", "escape"},  # test_bench*.py
    WalkStep.REVIEW: {*"raglf", "escape"},  # test_review.py
    WalkStep.HAND_OVER: set(),
}
"""Keys that other tests press, in the files named."""


async def test_every_key_of_the_help_does_what_it_says(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        for step, tries in (
            (WalkStep.CIRCUITS, ON_A_FORM),
            (WalkStep.DEAD_TESTS, AT_THE_BENCH),
            (WalkStep.REVIEW, IN_THE_REVIEW),
            (WalkStep.HAND_OVER, HANDING_OVER),
        ):
            driver.app.go(step)
            await driver.settled()
            for key, words in tries:
                await _press(driver, key, words)
            tried = {key for key, _ in tries} | ELSEWHERE[step]
            assert set(named(screen_of(step).KEYS)) - tried == set()


async def _press(driver: Driver, key: str, words: str) -> None:
    await driver.keys(key)
    await driver.settled()
    is_palette = isinstance(driver.app.screen, Commands)
    leads = is_palette if words is PALETTE else not words or words in driver.words
    assert leads, f"{key} does not lead to “{words}”:\n{driver.screen}"


SAME_EVERYWHERE = re.compile(r"f\d+|ctrl\+\w+|shift\+\w+")
CLOSES = {"close", "close_field"}
"""A key that opens a dialog may close it: it is the same key, pressed once more."""


def _acts_of_keys() -> dict[str, dict[str, set[str]]]:
    """Return what each key that is no letter does, by action, with the screens that have it."""
    dialogs = [
        kind
        for each in iter_modules(tui.dialogs.__path__)
        for kind in vars(import_module(f"tui.dialogs.{each.name}")).values()
        if isinstance(kind, type) and issubclass(kind, Dialog)
    ]
    acts: dict[str, dict[str, set[str]]] = {}
    for kind in (FarboardApp, Start, *STEPS, *dialogs):
        for each in _bindings(kind):
            action = each.action.partition("(")[0]
            for key in each.key.split(","):
                if SAME_EVERYWHERE.fullmatch(key) and action not in CLOSES:
                    acts.setdefault(key, {}).setdefault(action, set()).add(kind.__name__)
    return acts


MOVES_THE_VIEW = {"pan", "scroll_detail", "turn", "walk"}
"""Shift and an arrow move what is looked at: the wall, the text, the picture."""


def test_a_key_that_is_no_letter_has_one_meaning_in_the_whole_program() -> None:
    several = {
        key: acts
        for key, acts in _acts_of_keys().items()
        if len(acts) > 1 and not acts.keys() <= MOVES_THE_VIEW
    }
    assert several == {}


def test_letters_mean_the_same_at_the_bench_in_the_review_and_line_by_line() -> None:
    words = {"c": "could not", "x": "not needed", "a": "test again", "w": "why", "l": "notes"}
    screens = [screen_of(step) for step in WalkStep]
    tables = [dict(kind.KEYS) for kind in screens if not issubclass(kind, FormStep)]
    for letter, meaning in words.items():
        told = [table[letter] for table in tables if letter in table]
        assert told, letter
        assert all(meaning in each for each in told), (letter, told)
    assert len({table["a"] for table in tables if "a" in table}) <= 2
