"""What all dialogs share: a box over the step, closed by Esc with no answer."""

from __future__ import annotations

from typing import ClassVar, TypeVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.sizes import HORIZONTAL, TOO_SMALL, VERTICAL

T = TypeVar("T")
SCROLLS = "#dialog-scroll"


class Dialog(ModalScreen[T | None]):
    """A box with a title, a body and a line that names its keys."""

    TITLE_LINE: ClassVar[str] = ""
    KEYS_LINE: ClassVar[str] = "Esc closes"
    HORIZONTAL_BREAKPOINTS = HORIZONTAL
    VERTICAL_BREAKPOINTS = VERTICAL
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "close", "Close", show=False)]

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title_line = title

    def compose(self) -> ComposeResult:
        """Compose the box."""
        with Vertical(id="dialog"):
            yield Static(self._title_line, id="dialog-title", markup=False)
            yield from self.compose_inside()
            yield Static(self.KEYS_LINE, id="dialog-keys", markup=False)
        yield Static(TOO_SMALL, id="too-small", markup=False)

    def compose_inside(self) -> ComposeResult:
        """Compose what is between title and keys."""
        return iter(())

    def on_resize(self) -> None:
        """Share out the height that there is now."""
        for each in self.query(SCROLLS):
            each.styles.max_height = None
        self.call_after_refresh(self.give_way)

    def give_way(self) -> None:
        """Let what scrolls be lower where the box is too high: its keys stay in sight."""
        box = self.query_one("#dialog")
        over = box.virtual_size.height - box.size.height
        for each in self.query(SCROLLS):
            if over > 0:
                each.styles.max_height = max(each.size.height - over, 2)

    def action_close(self) -> None:
        """Close without an answer."""
        self.dismiss(None)
