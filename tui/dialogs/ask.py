"""One line of text, asked for and checked."""

from __future__ import annotations

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, Static

from tui.dialogs.text_dialog import TypedIn
from tui.widgets.entry import Entry


class Ask(TypedIn[str]):
    """Asks for one line; stays open, with the reason, until the answer is right."""

    KEYS_LINE = "Enter takes it · Esc closes"
    HELP = (
        "Type one line, then Enter. If it can't be taken, the reason is shown and the line "
        "stays as you typed it. Esc closes without an answer: nothing changes."
    )

    def __init__(self, title: str, wrong: Callable[[str], str], *, start: str = "") -> None:
        """Prepare the question.

        Args:
            title: The question.
            wrong: Says what is wrong with an answer and what would be right; "" if nothing.
            start: What stands in the line at first.
        """
        super().__init__(title)
        self._wrong, self._start = wrong, start

    def compose_inside(self) -> ComposeResult:
        """Compose the line and the place for the reason."""
        yield Entry(self)
        yield Static("", id="dialog-why", markup=False)

    def on_mount(self) -> None:
        """Put the start text in, all selected."""
        entry = self.query_one(Entry)
        entry.fill(self._start)
        self.set_focus(entry)

    def key(self, key: str) -> bool:
        """Act on the keys that close the dialog."""
        if key == "escape":
            self.dismiss(None)
        elif key == "enter":
            text = self.query_one(Entry).value.strip()
            why = self._wrong(text)
            if not why:
                self.dismiss(text)
            self._say(why)
        return key in ("escape", "enter")

    @on(Input.Changed)
    def _typed(self) -> None:
        self._say("")
