"""Text to read: help, or a message that needs more than one line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from records.glossary import OURS, TRADE
from records.notices import NEVER_CERTIFIES
from tui.dialogs.dialog import Dialog
from tui.keys import Keys
from tui.widgets.reading_lines import ReadingLines

_LONGEST = 16
"""Cells for a key or a word beside what it means; a longer one comes before it, in its line."""


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
    """Return the help of a screen: the field in focus, the screen, its keys, the glossary."""
    blocks: list[Content | Keys] = []
    if field:
        name, _, said = field.partition(": ")
        blocks.append(Content.assemble((f"{name}: ", "bold $primary"), said))
    blocks += [Content(each) for each in screen.split("\n\n") if each]
    note = (
        "Settings: Ctrl+P, then Look, Dates, Comma or Keys. "
        "Mouse: click a field, an answer, a step. To mark text with the mouse, hold Shift. "
        f"{NEVER_CERTIFIES} Local rules and a competent person come first."
    )
    return [
        *blocks,
        keys,
        Content.styled(note, "$quiet"),
        Content.styled("Symbols and words of the trade", "bold"),
        tuple(TRADE),
        Content.styled("Farboard's own words", "bold"),
        tuple(OURS),
    ]


def dialog_help(words: str, keys: Keys) -> list[Content | Keys]:
    """Return the help of a dialog: what it is for, and its keys."""
    beside = Content.styled("A click or tap beside the box does the same as Esc.", "$quiet")
    return [*(Content(each) for each in words.split("\n\n") if each), keys, beside]


def _keys(keys: Keys) -> ReadingLines:
    wide = max(len(key) for key, _ in keys if len(key) <= _LONGEST) + 2
    bold = "bold $primary"
    rows = [
        (key, said) if len(key) <= _LONGEST else ("", Content.assemble((f"{key}: ", bold), said))
        for key, said in keys
    ]
    return ReadingLines(rows, label_width=wide, label_style=bold, classes="block")
