"""One of a short list."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from tui.dialogs.dialog import Dialog
from tui.widgets.choices import Choices


class Pick(Dialog[str]):
    """Arrows and Enter choose; the answer is the key of the choice, None after Esc."""

    KEYS_LINE = "↑ ↓ move · Enter chooses · Esc leaves it as it is"
    HELP = "Move to a line and press Enter. Esc leaves it as it is."

    def __init__(
        self, title: str, choices: Sequence[tuple[str, str]], *, now: str | None = None
    ) -> None:
        """Prepare a list.

        Args:
            title: What is chosen.
            choices: Key and words of each choice.
            now: Key of the present choice.
        """
        super().__init__(title)
        self._choices, self._now = tuple(choices), now

    def compose_inside(self) -> ComposeResult:
        """Compose the list."""
        options = (Option(Content(words), id=key) for key, words in self._choices)
        yield Choices(*options, id="dialog-list")

    def on_mount(self) -> None:
        """Begin at the present choice."""
        listed = self.query_one("#dialog-list", OptionList)
        keys = [key for key, _ in self._choices]
        listed.highlighted = keys.index(self._now) if self._now in keys else 0
        self.set_focus(listed)

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(event.option.id)
