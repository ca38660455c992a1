"""Screens of the demo job, reached by keys: nothing on them changes with the day or the machine."""

from __future__ import annotations

import difflib
import os
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import pytest
from textual.filter import Monochrome

from records.demo import demo_record
from records.store.file import RecordFile
from records.taking import desk
from records.terms import Step
from tests.tui.at_bench import past_cautions
from tests.tui.driving import Driver
from tests.tui.rest import at_rest
from tui.app import FarboardApp
from tui.local_state import Kept
from tui.look import PLAIN
from tui.widgets import canvas, reading_field

SNAPSHOTS = Path(__file__).parent / "snapshots"
WRITING = os.environ.get("FARBOARD_SNAPSHOTS") == "write"
NOW = datetime(2026, 3, 27, 9, 0, tzinfo=UTC)
"""A day after the demo job's last reading."""


READ = "read what comes first"
"""In place of a key: Enter until no caution stands before the reading, in however many pages."""


@dataclass(frozen=True, slots=True)
class Scene:
    """A screen and how it is reached from the one before."""

    name: str
    keys: tuple[str, ...] = ()
    step: Step | None = None
    """The step to go to first; None: the scene before it is the way to this one."""
    until: str = ""
    """Words that come last: what is worked out in the background."""
    back: tuple[str, ...] = ()
    """Keys that leave it."""


SCENES = (
    Scene("job", step=Step.JOB, until="complete"),
    Scene("origin", step=Step.ORIGIN, until="fault 1.35"),
    Scene("feed", step=Step.FEED, until="off within"),
    Scene("feed-run", (*["down"] * 6, "enter"), until="Feed › run 2"),
    Scene("working", ("f2",), until="formula", back=("escape", "escape")),
    Scene("options", ("down", "down", "down", "enter"), until="volt drop C4", back=("escape",)),
    Scene("buying", ("down", "enter"), until="What you settle"),
    Scene("room", ("down", "enter"), until="Room left │", back=("escape",)),
    Scene("earths", ("down", "enter"), until="never both", back=("escape",)),
    Scene("to-buy", ("down", "enter"), until="marker tape", back=("escape", "escape")),
    Scene("board", step=Step.BOARD, until="Zdb"),
    Scene("circuits", step=Step.CIRCUITS, until="F8 removes it"),
    Scene("circuit", ("down", "down", "down", "enter"), until="lighting"),
    Scene("picture", ("ctrl+g",), until="by the readings", back=("escape",)),
    Scene("steps", ("f6",), until="10 open", back=("escape",)),
    Scene("before_covering", step=Step.BEFORE_COVERING, until="Inside"),
    Scene("caution", step=Step.DEAD_TESTS, until="I have read this"),
    Scene("dead_tests", (READ,), until="expect"),
    Scene("note", ("t",), until="Note, for the next", back=("escape",)),
    Scene("typed", ("0", ".", "0", "2"), until="✗ outside"),
    Scene("grid", ("f9",), until="place", back=("ctrl+u", "f9")),
    Scene("question", step=Step.LIVE_TESTS, until="scroll · Esc back"),
    Scene("live_tests", ("end", "y"), until="locked off"),
    Scene("leaving", step=Step.REVIEW, until="scroll · Esc back", back=("escape",)),
    Scene("review", step=Step.REVIEW, until="Do next"),
    Scene("detail", ("enter",), until="Reading: 342 ms", back=("escape",)),
    Scene("hand_over", step=Step.HAND_OVER, until="Enter writes"),
    Scene("help", ("f1",), until="Help: ", back=("escape",)),
    Scene("start", ("ctrl+p", *"close this", "enter"), until="the demo"),
)


class Remembered(Kept):
    """What is remembered, with records that lie nowhere in particular."""

    def recent(self) -> list[Path]:
        """Return the same names on every machine."""
        return [Path("/jobs/loom-shed.farboard"), Path("/jobs/2025/apple store.farboard")]


@asynccontextmanager
async def demo(
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
    size: tuple[int, int],
    *,
    colour: bool = True,
) -> AsyncIterator[Driver]:
    """Run the wizard on a fresh copy of the demo."""
    if colour:
        monkeypatch.delenv("NO_COLOR", raising=False)
    else:
        monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setattr(desk, "present", lambda: NOW)
    monkeypatch.setattr(canvas, "plain_wanted", lambda: False)
    monkeypatch.setattr(reading_field, "PAUSE", 0.01)
    monkeypatch.setattr(reading_field, "LONGER", 0.01)
    path = folder / "loom-shed.farboard"
    RecordFile.create(path, demo_record()).close()
    app = FarboardApp(path, kept=Remembered(folder / "kept"))
    async with app.run_test(size=size) as pilot:
        yield Driver(app, at_rest(pilot))


async def walk(driver: Driver, scenes: Iterable[Scene]) -> AsyncIterator[tuple[Scene, str]]:
    """Show scene after scene, each until it stands still; yield each with its text."""
    await still(driver, "Reference")
    for scene in scenes:
        if scene.step is not None:
            driver.app.go(scene.step)
            await driver.settled()
        for key in scene.keys:
            if key == READ:
                await driver.settled()
                await past_cautions(driver)
            else:
                await driver.keys(key)
        yield scene, await still(driver, scene.until)
        for key in scene.back:
            await driver.keys(key)


def dress(app: FarboardApp, look: str) -> None:
    """Change the look as if the wizard had been started in it, `NO_COLOR` set for the plain one.

    To start again for each look takes three times as long; a test of its own sets `NO_COLOR`.
    """
    app._filters[:] = [each for each in app._filters if not isinstance(each, Monochrome)]
    if look == PLAIN:
        app._filters.append(Monochrome())
    app.theme = look


async def still(driver: Driver, words: str) -> str:
    """Return the text of the screen once it has these words and changes no more."""
    seen = ""
    for _ in range(100):
        await driver.settled()
        before, seen = seen, in_front(driver)
        if before == seen and words in " ".join(seen.split()):
            return seen
    raise AssertionError(f"“{words}” does not come, or the screen never stands still:\n{seen}")


def in_front(driver: Driver) -> str:
    """Return the text of the screen, of a dialog where it stands, without what is behind it.

    That has a scene of its own, and may still be on its way when the dialog comes over it.
    """
    boxes = driver.app.screen.query("#dialog")
    if not boxes:
        return driver.screen
    box = boxes.first().region
    lines = driver.screen.split("\n")
    shown = [" " * box.x + line[box.x : box.right] for line in lines[box.y : box.bottom]]
    return "\n" * box.y + "\n".join(line.rstrip() for line in shown)


def file_of(name: str, size: tuple[int, int]) -> Path:
    """Return where the text of a screen is kept."""
    return SNAPSHOTS / f"{size[0]}x{size[1]}" / f"{name}.txt"


def differs(name: str, size: tuple[int, int], text: str) -> str:
    """Return how a screen differs from what is kept; empty if it does not."""
    path = file_of(name, size)
    if WRITING:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"{text}\n", encoding="utf-8")
    if not path.is_file():
        return f"{path.name} is missing: run with FARBOARD_SNAPSHOTS=write, look, keep it."
    kept, now = path.read_text(encoding="utf-8"), f"{text}\n"
    both = kept.splitlines(), now.splitlines()
    return "\n".join(difflib.unified_diff(*both, str(path), "now", lineterm="", n=1))
