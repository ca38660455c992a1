"""Which record to open: the records and folders of a folder, and the rest of what is typed."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from records.text import printable
from tui.dialogs.text_dialog import TypedIn
from tui.widgets.choices import Choices
from tui.widgets.entry import Entry

_MOST = 200
"""Names of a folder that are listed."""


class OpenFile(TypedIn[str]):
    """Arrows or typing choose a record; Tab completes its name; a folder is gone into."""

    WRONG = ("", "warn")
    KEYS_LINE = "↑ ↓ move · Tab completes · Enter opens · Esc closes"
    HELP = (
        "The list has the records and the folders here. Move to one, or type part of its name: "
        "Tab writes the rest. Enter opens a record, or shows what is in a folder.\n\n"
        "A name may begin with a folder: ../jobs/, ~/, /."
    )

    def __init__(self, wrong: Callable[[str], str], suffix: str) -> None:
        """Prepare the question.

        Args:
            wrong: Says what is wrong with a name; "" if nothing.
            suffix: What the names of records end in.
        """
        super().__init__(f"Open a record. Here: {printable(str(Path.cwd()))}")
        self._wrong, self._suffix = wrong, suffix
        self._names: tuple[str, ...] = ()
        self._sought: str | None = None
        self._moved = False

    def compose_inside(self) -> ComposeResult:
        """Compose the line, the list, and the place for a reason."""
        yield Entry(self)
        yield Choices(id="dialog-scroll")
        yield Static("", id="dialog-why", markup=False)

    def on_mount(self) -> None:
        """List what is here."""
        self.query_one(Choices).can_focus = False
        self._find("")
        self.set_focus(self.query_one(Entry))

    def key(self, key: str) -> bool:
        """Move in the list, complete, take a name, or close."""
        listed, entry = self.query_one(Choices), self.query_one(Entry)
        self._find(entry.value)
        if key == "escape":
            self.dismiss(None)
        elif key == "enter":
            self._take(self._pointed if self._moved or not entry.value else entry.value)
        elif key == "tab":
            if self._pointed:
                self._write(self._pointed)
        elif key in ("down", "up"):
            self._moved = True
            (listed.action_cursor_down if key == "down" else listed.action_cursor_up)()
        else:
            return False
        return True

    @property
    def _pointed(self) -> str:
        at = self.query_one(Choices).highlighted
        return self._names[at] if at is not None and at < len(self._names) else ""

    def _take(self, name: str) -> None:
        if name.endswith(("/", os.sep)):
            inside = self._names if name == self._sought else ()
            if len(inside) == 1:
                self._take_only(inside[0])
            elif inside:
                self._say("Choose one with ↓, then Enter.")
            else:
                self._write(name)
            return
        why = self._wrong(name)
        if why and len(self._names) == 1 and not self._moved:
            self._take_only(self._names[0])
        elif why:
            self._say(why)
        else:
            self.dismiss(name)

    def _take_only(self, name: str) -> None:
        """Take the one record that begins as typed, or go into the one folder."""
        if name.endswith("/"):
            self._write(name)
        else:
            self.dismiss(name)

    def _write(self, name: str) -> None:
        entry = self.query_one(Entry)
        entry.fill(name, select=False)
        self._find(name)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        self._find(event.value)

    def _find(self, typed: str) -> None:
        """List what begins as typed."""
        if typed == self._sought:
            return
        self._sought, self._moved = typed, False
        self._names = beginning(typed, self._suffix)
        self.query_one(Choices).offer([Option(Content(printable(each))) for each in self._names])
        none = "" if self._names else "No record and no folder here begins so."
        self._say(none if typed else none and "There is no record in this folder yet.")

    @on(OptionList.OptionSelected)
    def _tapped(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self._moved = True
        self._take(self._names[event.option_index])


def beginning(typed: str, suffix: str) -> tuple[str, ...]:
    """Return the records, then the folders, that begin as typed; folders end in a slash.

    Args:
        typed: A name, or the beginning of one, perhaps after a folder.
        suffix: What the names of records end in.
    """
    head, slash, start = typed.replace(os.sep, "/").rpartition("/")
    folder = f"{head}{slash}"
    try:
        found = sorted(os.scandir(Path(folder or ".").expanduser()), key=lambda each: each.name)
    except (OSError, ValueError, RuntimeError):
        return ()
    fit = [each for each in found if each.name.casefold().startswith(start.casefold())]
    records = [f"{folder}{each.name}" for each in fit if each.name.endswith(suffix)]
    return (*records, *_folders(folder, fit, start))[:_MOST]


def _folders(folder: str, found: Sequence[os.DirEntry[str]], start: str) -> list[str]:
    shown = [each for each in found if start.startswith(".") or not each.name.startswith(".")]
    return [f"{folder}{each.name}/" for each in shown if _is_folder(each)]


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False
