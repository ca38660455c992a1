"""The one message line at the foot: what was just done, or why it could not be."""

from __future__ import annotations

from textual.content import Content

from records.text import printable_lines
from tui.look import MARKS, Tone, style
from tui.widgets.cut import Cut


class Said(Cut):
    """A sentence with a mark; long ones take up to three lines."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.text = ""
        """The sentence shown."""

    def say(self, text: str, tone: Tone = "plain", mark: str | None = None) -> None:
        """Show a sentence, with the mark of its tone if no other is given; "" clears the line."""
        self.text = text = printable_lines(text)
        sign = MARKS[tone] if mark is None else mark
        self.update(Content.styled(f"{sign} {text}" if text and sign else text, style(tone)))
