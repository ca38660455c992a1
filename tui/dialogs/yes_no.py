"""A question with two answers, each a key of its own; Enter alone answers nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from tui.dialogs.dialog import Dialog
from tui.look import style
from tui.widgets.key_hints import KeyHints


class YesNo(Dialog[bool]):
    """y is True, n is False, Esc leaves it unanswered (None)."""

    KEYS_LINE = "↑ ↓ scroll · Esc back"
    HELP = (
        "Read it, then press y or n. Enter is no answer: it could be a slip. Esc goes back, "
        "and the question comes again when it matters."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y,Y", "answer(True)", "Yes", show=False),
        Binding("n,N", "answer(False)", "No", show=False),
        Binding("enter", "which", "Which", show=False),
    ]

    def __init__(
        self, title: str, blocks: Sequence[str | Content], *, yes: str = "yes", no: str = "no"
    ) -> None:
        """Prepare a question.

        Args:
            title: The question.
            blocks: Paragraphs to weigh before answering.
            yes: What y does; empty: there is nothing to say yes to.
            no: What n does.
        """
        super().__init__(title)
        self._blocks = blocks
        self._can_be_yes = bool(yes)
        self._choices = f"y: {yes} · n: {no}" if yes else f"n: {no}"

    def compose_inside(self) -> ComposeResult:
        """Compose what is to be weighed."""
        with VerticalScroll(id="dialog-scroll"):
            for each in self._blocks:
                block = each if isinstance(each, Content) else Content(each)
                yield Static(block, classes="block")
        yield KeyHints(self._choices, id="dialog-choices")
        yield Static("", id="dialog-why", markup=False)

    def on_mount(self) -> None:
        """Let the arrows scroll."""
        self.set_focus(self.query_one("#dialog-scroll"))

    def action_answer(self, yes: bool) -> None:
        """Close with the answer, if it is one."""
        if yes and not self._can_be_yes:
            self.action_which()
            return
        self.dismiss(yes)

    def action_which(self) -> None:
        """Ask for one of the two keys: Enter could be a slip."""
        self.query_one("#dialog-why", Static).update(
            Content.styled(
                f"Press {'one of the two: ' if self._can_be_yes else ''}{self._choices}.",
                style("warn"),
            )
        )
        self.call_after_refresh(self.give_way)
