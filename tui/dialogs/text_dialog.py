"""A dialog that a person types into: every character is taken, and what is wrong is said below."""

from __future__ import annotations

from typing import ClassVar, TypeVar

from textual.content import Content
from textual.widgets import Static

from tui.dialogs.dialog import Dialog
from tui.look import Tone, style

T = TypeVar("T")


class TypedIn(Dialog[T]):
    """Answers an `Entry` for the dialogs that have one; they bring a line `#dialog-why`."""

    WRONG: ClassVar[tuple[str, Tone]] = ("✗ ", "bad")
    """What stands before the words that something is wrong, and their tone."""

    def offer(self, character: str) -> bool:
        """Take every character."""
        return True

    def refuse_paste(self, why: str) -> None:
        """Say why a paste was not taken."""
        self._say(why)

    def _say(self, why: str) -> None:
        mark, tone = self.WRONG
        text = f"{mark}{why}" if why else ""
        self.query_one("#dialog-why", Static).update(Content.styled(text, style(tone)))
