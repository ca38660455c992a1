"""What all dialogs share: a box over the step, closed by Esc or a tap beside it, with no answer."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, TypeVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.keys import Keys
from tui.left_screens import LeftAnyTime
from tui.sizes import HORIZONTAL, TOO_SMALL, VERTICAL
from tui.widgets.key_hints import KeyHints, hints

T = TypeVar("T")
SCROLLS = "#dialog-scroll"
_SETTLED = 0.1
"""Seconds after which all that a dialog shows has its size."""
_LEAST = 2
"""Lines that what scrolls keeps."""


@dataclass
class HelpWanted(Message):
    """A person wants to know about a dialog; the app shows it."""

    title: str
    words: str
    """Paragraphs."""
    keys: Keys


class Dialog(LeftAnyTime[T | None], ModalScreen[T | None]):
    """A box with a title, a body and a line that names its keys."""

    KEYS_LINE: ClassVar[str] = "Esc closes"
    HELP: ClassVar[str] = ""
    """What the dialog is for, in paragraphs; the keys are those of its line."""
    HORIZONTAL_BREAKPOINTS = HORIZONTAL
    VERTICAL_BREAKPOINTS = VERTICAL
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "close", "Close", show=False),
        Binding("f1,question_mark", "help", "Help", show=False, id="help"),
    ]

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title_line = title

    def compose(self) -> ComposeResult:
        """Compose the box."""
        with Vertical(id="dialog"):
            yield Static(self._title_line, id="dialog-title", markup=False)
            yield from self.compose_inside()
            more = "" if "F1" in self.KEYS_LINE or "?" in self.KEYS_LINE.split() else " · F1 help"
            yield KeyHints(f"{self.KEYS_LINE}{more}", id="dialog-keys")
        yield Static(TOO_SMALL, id="too-small", markup=False)

    def compose_inside(self) -> ComposeResult:
        """Compose what is between title and keys."""
        return iter(())

    def on_resize(self) -> None:
        """Share out the height that there is now."""
        for each in self.query(SCROLLS):
            each.styles.max_height = None
        self.call_after_refresh(self.give_way)
        self.set_timer(_SETTLED, self.give_way)  # what is below may have grown meanwhile

    def give_way(self) -> None:
        """Let what scrolls be lower where the box is too high: its keys stay in sight."""
        box = self.query_one("#dialog")
        over = box.virtual_size.height - box.size.height
        for each in self.query(SCROLLS):
            if over > 0 and each.size.height > _LEAST:
                each.styles.max_height = max(each.size.height - over, _LEAST)

    def on_click(self, event: events.Click) -> None:
        """Take a tap beside the box for Esc."""
        if not self.query_one("#dialog").region.contains(*event.screen_offset):
            event.stop()
            key = events.Key("escape", None)
            key.set_sender(self.app)  # one from here would not come up again as far as here
            self.app.post_message(key)

    def action_close(self) -> None:
        """Close without an answer."""
        self.dismiss(None)

    def action_help(self) -> None:
        """Have it said what the dialog is for, and its keys."""
        keys = tuple(
            (" ".join(written for written, _ in names).rstrip(",:"), words or "closes")
            for names, words in hints(self.KEYS_LINE)
            if names
        )
        title = self._title_line.partition("\n")[0]
        self.post_message(HelpWanted(title, self.HELP, keys))
