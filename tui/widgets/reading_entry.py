"""The input that a reading is typed into."""

from __future__ import annotations

from typing import Protocol

from textual import events
from textual.widgets import Input

from tui.widgets.entry import Entry, Keys


class ReadingKeys(Keys, Protocol):
    """What the entry asks of the field round it, beside what any entry asks."""

    def paste(self, text: str) -> None:
        """Take a paste of several lines, or refuse it aloud."""

    def typed(self) -> None:
        """Follow what is typed."""


class ReadingEntry(Entry):
    """An entry that hands on a pasted column instead of refusing it."""

    ACTED_ON = Entry.ACTED_ON | {"left", "right"}

    def __init__(self, keys: ReadingKeys) -> None:
        super().__init__(keys)
        self._field = keys
        self._stands = False

    def stand(self, text: str) -> None:
        """Stand with a text that nobody typed just now, the cursor behind it."""
        self._stands = True
        self.value = text
        self._stands = False
        self.cursor_position = len(text)

    def watch_value(self) -> None:
        """Have the field follow what is typed: of a message it would hear after the paint."""
        if not self._stands:
            self._field.typed()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Keep from the screen what the field knows already."""
        event.stop()

    def on_paste(self, event: events.Paste) -> None:
        """Hand on what has several lines; one line goes the way of every entry."""
        if len(event.text.strip().splitlines()) > 1:
            event.stop()
            event.prevent_default()
            self._field.paste(event.text)
