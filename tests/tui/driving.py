"""The wizard driven by its keys, and asked for what a person would read."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from textual.events import Key
from textual.geometry import Region
from textual.keys import _character_to_key
from textual.pilot import Pilot

from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Step as WalkStep
from tui.app import FarboardApp
from tui.local_state import Kept
from tui.steps.step import Step

NARROW, WIDE = (80, 24), (120, 40)
_BARS = dict.fromkeys(map(ord, "▁▂▃▄▅▆▇█▔"), " ")
"""What scroll bars are drawn with."""
NAMED = {" ": "space", "\n": "enter", "?": "question_mark"}


class Driver:
    """Hands on the keyboard, eyes on the screen."""

    def __init__(self, app: FarboardApp, pilot: Pilot[None]) -> None:
        self.app, self.pilot = app, pilot

    async def keys(self, *keys: str) -> None:
        """Press keys by their names."""
        for key in keys:
            await self.pilot.press(key)
        await self.pilot.pause()

    async def type(self, text: str) -> None:
        """Type characters; a line break is Enter."""
        for part in re.split(r"(\n)", text):
            if len(part) > 1:  # the first letter alone: it may open what the rest is typed into
                await self.keys(NAMED.get(part[0], part[0]))
                self._send(part[1:-1])
            if part:
                await self.keys(NAMED.get(part[-1], part[-1]))

    def send(self, text: str) -> None:
        """Type in one burst, without waiting for anything between two keys."""
        driver = self.app._driver
        assert driver is not None
        for each in text:
            name = NAMED.get(each) or (each if each.isalnum() else _character_to_key(each))
            event = Key(name, None if each == "\n" else each)
            event.set_sender(self.app)
            driver.send_message(event)

    def _send(self, text: str) -> None:
        # Letters within a word go out together: a pause after each is most of a test's time.
        driver = self.app._driver
        assert driver is not None
        for each in text:
            event = Key(_character_to_key(each) if not each.isalnum() else each, each)
            event.set_sender(self.app)
            driver.send_message(event)

    async def fill(self, *texts: str) -> None:
        """Type each text and accept it."""
        for text in texts:
            await self.type(f"{text}\n")

    async def row(self, label: str) -> None:
        """Walk to a row by its label with the arrow keys: up to the top, then down."""
        form = self.app.screen.query_one("#form")
        for key in ("up", "down"):
            seen = None
            while form.row is not None and form.row is not seen:
                if form.row.label == label:
                    return
                seen = form.row
                await self.pilot.press(key)
        raise AssertionError(f"No row “{label}” in:\n{self.screen}")

    async def settled(self) -> None:
        """Wait until the screen shows all that follows."""
        for _ in range(6):
            await self.pilot.pause()

    @property
    def screen(self) -> str:
        """The screen as lines of text."""
        strips = self.app.screen._compositor.render_strips()
        return "\n".join("".join(part.text for part in strip).rstrip() for strip in strips)

    @property
    def words(self) -> str:
        """The screen without its rail, every run of blanks and line breaks as one blank."""
        rail = self.app.screen.query("#rail")
        edge = rail.first().region if rail else Region()
        lines = self.screen.splitlines()
        read = [line[edge.right :] if edge.contains(0, y) else line for y, line in enumerate(lines)]
        return " ".join(" ".join(read).translate(_BARS).split())

    @property
    def record(self) -> Record:
        """The record that the wizard holds."""
        return self.app.session.record


@asynccontextmanager
async def wizard(
    path: Path | None,
    folder: Path,
    *,
    size: tuple[int, int] = NARROW,
    read_only: bool = False,
    begin: WalkStep = WalkStep.JOB,
) -> AsyncIterator[Driver]:
    """Run the wizard on a record, or on its start screen; what it remembers goes to `folder`."""
    app = FarboardApp(path, read_only=read_only, kept=Kept(folder / "kept"), begin=lambda _: begin)
    async with app.run_test(size=size) as pilot:
        driver = Driver(app, pilot)
        await driver.settled()
        yield driver


@asynccontextmanager
async def blank(
    folder: Path, *, size: tuple[int, int] = NARROW, step: int = 1
) -> AsyncIterator[Driver]:
    """Run the wizard on a blank record, on one of its steps."""
    path = folder / "job.farboard"
    if not path.exists():
        RecordFile.create(path).close()
    begin = tuple(WalkStep)[step - 1]
    async with wizard(path, folder, size=size, begin=begin) as driver:
        assert isinstance(driver.app.screen, Step)
        yield driver
