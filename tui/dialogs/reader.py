"""Text to read: help, or a message that needs more than one line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from tui.dialogs.dialog import Dialog
from tui.keys import Keys
from tui.widgets.reading_lines import ReadingLines


class Reader(Dialog[None]):
    """Shows text; it scrolls by the arrows."""

    KEYS_LINE = "↑ ↓ scroll · Esc, Enter or F1 closes"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,f1,question_mark,f2,q", "close", show=False)
    ]

    def __init__(self, title: str, blocks: Sequence[Content | Keys]) -> None:
        """Prepare the text.

        Args:
            title: Over the text.
            blocks: Paragraphs, and keys with what they do.
        """
        super().__init__(title)
        self._blocks = blocks

    def compose_inside(self) -> ComposeResult:
        """Compose the text."""
        with VerticalScroll(id="dialog-scroll"):
            for block in self._blocks:
                yield _keys(block) if isinstance(block, tuple) else Static(block, classes="block")

    def on_mount(self) -> None:
        """Let the arrows scroll."""
        self.set_focus(self.query_one("#dialog-scroll"))


def help_text(screen: str, field: str, keys: Keys) -> list[Content | Keys]:
    """Return the help of a screen: the field in focus, the screen, its keys."""
    blocks: list[Content | Keys] = []
    if field:
        name, _, said = field.partition(": ")
        blocks.append(Content.assemble((f"{name}: ", "bold $primary"), said))
    blocks += [Content(each) for each in screen.split("\n\n") if each]
    note = (
        "Mouse: click a field, an answer, a step. To mark text with the mouse, hold Shift. "
        "Farboard records and checks; it certifies nothing. Local rules and a competent person "
        "come first."
    )
    return [*blocks, keys, Content.styled(note, "$quiet")]


def _keys(keys: Keys) -> ReadingLines:
    wide = max(len(key) for key, _ in keys) + 2
    return ReadingLines(keys, label_width=wide, label_style="bold $primary", classes="block")
