"""A question with two answers, each a key of its own; Enter alone answers nothing.

Yes counts once the end of the text was on the screen: it is no answer to what nobody saw.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
        self,
        title: str,
        blocks: Sequence[str | Content],
        *,
        yes: str = "yes",
        no: str = "no",
        shown_to_end: Callable[[], None] = lambda: None,
    ) -> None:
        """Prepare a question.

        Args:
            title: The question.
            blocks: Paragraphs to weigh before answering.
            yes: What y does; empty: there is nothing to say yes to.
            no: What n does.
            shown_to_end: Called once the end of the text was on the screen.
        """
        super().__init__(title)
        self._blocks = blocks
        self._can_be_yes = bool(yes)
        self._shown_to_end, self._seen = shown_to_end, False
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
        """Let the arrows scroll; know when the end of the text is reached."""
        scroll = self.query_one("#dialog-scroll", VerticalScroll)
        self.set_focus(scroll)
        self.watch(scroll, "scroll_y", self._scrolled, init=False)

    def give_way(self) -> None:
        """Share out the height, then look whether all of the text found room."""
        super().give_way()
        self.call_after_refresh(self._look)

    def _scrolled(self) -> None:
        self.call_after_refresh(self._look)

    def _look(self) -> None:
        scroll, box = self.query_one("#dialog-scroll", VerticalScroll), self.query_one("#dialog")
        # Before the text has given way to the keys, its end lies outside the box, not below it.
        fits = 0 < box.virtual_size.height <= box.size.height and scroll.size.height > 0
        if not self._seen and fits and scroll.scroll_y >= scroll.max_scroll_y:
            self._seen = True
            self._shown_to_end()
            self._say("")

    def action_answer(self, yes: bool) -> None:
        """Close with the answer, if it is one."""
        if yes and not self._can_be_yes:
            self.action_which()
        elif yes and not self._seen:
            self._say("Read it to the end first: ↓ or PageDown. Then y.")
        else:
            self.dismiss(yes)

    def action_which(self) -> None:
        """Ask for one of the two keys: Enter could be a slip."""
        one = "one of the two: " if self._can_be_yes else ""
        self._say(f"Press {one}{self._choices}.")

    def _say(self, words: str) -> None:
        text = Content.styled(words, style("warn")) if words else Content("")
        self.query_one("#dialog-why", Static).update(text)
        self.call_after_refresh(self.give_way)
