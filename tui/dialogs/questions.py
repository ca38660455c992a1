"""One or a few lines of text that are asked for together."""

from __future__ import annotations

from collections.abc import Callable, MutableMapping, Sequence
from dataclasses import dataclass

from textual import on
from textual.app import ComposeResult
from textual.widgets import Input, Static

from records.errors import FarboardError
from records.text import checked_text
from tui.dialogs.text_dialog import TypedIn
from tui.widgets.entry import Entry

Answers = tuple[str, ...]
LONGEST = 400
"""Characters that an answer may have: a few lines of the schedule."""


@dataclass(frozen=True, slots=True)
class Question:
    """One line to fill."""

    label: str
    text: str = ""
    """What stands there already."""


class Questions(TypedIn[Answers]):
    """Enter goes to the next line and accepts on the last; Esc leaves, and keeps what was typed."""

    KEYS_LINE = "Enter takes it · Esc leaves all as it is"
    HELP = (
        "Fill the lines; Enter goes to the next, and on the last one takes them all. ↑ ↓ and Tab "
        "move between lines.\n\n"
        "Esc leaves all as it is. What you typed is here the next time you come."
    )

    def __init__(
        self,
        title: str,
        questions: Sequence[Question],
        *,
        words: str = "",
        check: Callable[[Answers], object] = lambda _: None,
        drafts: MutableMapping[str, str] | None = None,
    ) -> None:
        """Prepare the lines.

        Args:
            title: What is asked.
            questions: The lines to fill.
            words: Said over them.
            check: Raises a FarboardError if the answers won't do; its message is shown.
            drafts: Where what was typed is kept if the person leaves with Esc.
        """
        super().__init__(title)
        self._questions, self._words, self._check = tuple(questions), words, check
        self._drafts = drafts if drafts is not None else {}
        self._at = 0
        self._lines = [Entry(self) for _ in self._questions]

    def compose_inside(self) -> ComposeResult:
        """Compose the lines, each under its label."""
        if self._words:
            yield Static(self._words, classes="block", markup=False)
        for each, line in zip(self._questions, self._lines, strict=True):
            yield Static(each.label, classes="question", markup=False)
            yield line
        yield Static("", id="dialog-why", markup=False)

    def on_mount(self) -> None:
        """Put in what was there, or what was typed before and not taken."""
        for each, line in zip(self._questions, self._lines, strict=True):
            line.fill(self._drafts.get(self._key(each), each.text))
            line.cursor_position = len(line.value)
        self._go(0)

    def key(self, key: str) -> bool:
        """Go from line to line; take the answers on the last."""
        last = len(self._lines) - 1
        if key == "escape":
            self.action_close()
        elif key in ("up", "shift+tab"):
            self._go(max(self._at - 1, 0))
        elif key in ("down", "tab") or (key == "enter" and self._at < last):
            self._go(min(self._at + 1, last))
        elif key == "enter":
            self._take()
        else:
            return False
        return True

    def action_close(self) -> None:
        """Leave without an answer; what was typed is there again the next time."""
        for each, line in zip(self._questions, self._lines, strict=True):
            if line.value not in ("", each.text):
                self._drafts[self._key(each)] = line.value
            else:
                self._drafts.pop(self._key(each), None)
        self.dismiss(None)

    def _take(self) -> None:
        try:
            answers = tuple(checked_text(line.value, LONGEST) for line in self._lines)
            self._check(answers)
        except FarboardError as error:
            self._say(str(error))
            return
        for each in self._questions:
            self._drafts.pop(self._key(each), None)
        self.dismiss(answers)

    def _go(self, at: int) -> None:
        self._at = at
        self.set_focus(self._lines[at])

    def on_descendant_focus(self) -> None:
        """Know which line the person is on, also after a click."""
        if self.focused in self._lines:
            self._at = self._lines.index(self.focused)

    @on(Input.Changed)
    def _typed(self) -> None:
        self._say("")

    def _key(self, question: Question) -> str:
        return f"{self._title_line}: {question.label}"
