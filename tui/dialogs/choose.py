"""One answer out of a few, with what there is to know before answering."""

from __future__ import annotations

from collections.abc import Sequence

from textual import events, on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from records.text import printable_lines
from tui.dialogs.dialog import Dialog
from tui.widgets.choices import Choices


class Choose(Dialog[int]):
    """Asks a question and gives the number of the answer, from 0."""

    KEYS_LINE = "↑ ↓ move · Enter or its number takes it · Esc closes"
    HELP = "Move to an answer and press Enter, or press its number. Esc closes: nothing changes."

    def __init__(
        self, title: str, answers: Sequence[Content | str], *, text: str = "", at: int = 0
    ) -> None:
        """Prepare the question.

        Args:
            title: The question.
            answers: What can be answered; strings are shown as they are.
            text: What there is to know before answering.
            at: The answer to stand on.
        """
        super().__init__(title)
        self._answers = [Content(each) if isinstance(each, str) else each for each in answers]
        self._text, self._at = text, at

    def compose_inside(self) -> ComposeResult:
        """Compose text and answers."""
        if self._text:
            yield Static(printable_lines(self._text), id="dialog-text", markup=False)
        yield Choices(*(Option(each) for each in self._answers))

    def on_mount(self) -> None:
        """Stand on the answer that is likely."""
        answers = self.query_one(OptionList)
        answers.highlighted = self._at
        self.set_focus(answers)

    def on_key(self, event: events.Key) -> None:
        """Take an answer by its number, 0 for the tenth."""
        if event.character is not None and event.character in "0123456789":
            at = (int(event.character) - 1) % 10
            if at < len(self._answers):
                event.stop()
                self.dismiss(at)

    @on(OptionList.OptionSelected)
    def _taken(self, event: OptionList.OptionSelected) -> None:
        self.dismiss(event.option_index)
