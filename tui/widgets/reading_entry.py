"""The input that a reading is typed into."""

from __future__ import annotations

from typing import Protocol

from textual import events

from tui.widgets.entry import Entry, Keys


class ReadingKeys(Keys, Protocol):
    """What the entry asks of the field round it, beside what any entry asks."""

    def paste(self, text: str) -> None:
        """Take a paste of several lines, or refuse it aloud."""


class ReadingEntry(Entry):
    """An entry that hands on a pasted column instead of refusing it."""

    ACTED_ON = Entry.ACTED_ON | {"left", "right"}

    def __init__(self, keys: ReadingKeys) -> None:
        super().__init__(keys)
        self._field = keys

    def on_paste(self, event: events.Paste) -> None:
        """Hand on what has several lines; one line goes the way of every entry."""
        if len(event.text.strip().splitlines()) > 1:
            event.stop()
            event.prevent_default()
            self._field.paste(event.text)
