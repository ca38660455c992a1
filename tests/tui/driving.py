"""The wizard driven by its keys, and asked for what a person would read."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress
from pathlib import Path

from textual.events import Key
from textual.geometry import Region
from textual.keys import REPLACED_KEYS, _character_to_key, _get_unicode_name_from_key
from textual.pilot import Pilot

from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Step as WalkStep
from tests.tui.rest import at_rest, rest
from tui.app import FarboardApp
from tui.local_state import Kept
from tui.steps.step import Step

NARROW, WIDE = (80, 24), (120, 40)
_BARS = dict.fromkeys(map(ord, "▁▂▃▄▅▆▇█▔"), " ")
"""What scroll bars are drawn with."""
_MOST = 5_000
"""Keys after which a test goes round in circles: the whole of a job takes fewer."""
NAMED = {" ": "space", "\n": "enter", "?": "question_mark"}


def _character(key: str) -> str | None:
    if len(key) == 1:
        return key
    with suppress(KeyError):
        return unicodedata.lookup(_get_unicode_name_from_key(REPLACED_KEYS.get(key, key)))
    return None


class Driver:
    """Hands on the keyboard, eyes on the screen."""

    def __init__(self, app: FarboardApp, pilot: Pilot[None]) -> None:
        self.app, self.pilot = app, pilot
        self._pressed = 0

    async def keys(self, *keys: str) -> None:
        """Press keys by their names."""
        for key in keys:
            self._press(key)
            await self.quiet()

    async def type(self, text: str) -> None:
        """Type characters; a line break is Enter."""
        for part in re.split(r"(\n)", text):
            if len(part) > 1:  # the first letter alone: it may open what the rest is typed into
                await self.keys(NAMED.get(part[0], part[0]))
                self.send(part[1:-1])
            if part:
                await self.keys(NAMED.get(part[-1], part[-1]))

    def send(self, text: str) -> None:
        """Type in one burst, without waiting for anything between two keys."""
        for each in text:
            self._press(NAMED.get(each, each))

    def burst(self, *keys: str) -> None:
        """Press keys by their names, one letter as itself, without waiting between two."""
        for each in keys:
            self._press(each)

    def _press(self, key: str) -> None:
        """Send a key as the terminal does, by its name or its character."""
        driver = self.app._driver
        assert driver is not None
        self._pressed += 1
        assert self._pressed < _MOST, self.screen
        name = _character_to_key(key) if len(key) == 1 and not key.isalnum() else key
        event = Key(name, _character(key))
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
                await self.keys(key)
        raise AssertionError(f"No row “{label}” in:\n{self.screen}")

    async def quiet(self) -> None:
        """Wait until all that was sent is taken and painted."""
        await rest(self.app)

    async def settled(self) -> None:
        """Wait until the screen shows all that follows, also a short while after a key."""
        await rest(self.app, timers=True)

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
        driver = Driver(app, at_rest(pilot))
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
