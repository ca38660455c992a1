"""What is still to test, place by place."""

from __future__ import annotations

from collections.abc import Sequence

from textual import on
from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from records.taking.still_to_test import Stop
from tui.dialogs.dialog import Dialog
from tui.widgets.choices import Choices


class Missing(Dialog[int]):
    """Arrows move, Enter goes there: the answer is where in the queue; None after Esc."""

    KEYS_LINE = "↑ ↓ move · Enter goes there · Esc back"
    HELP = (
        "All that is still to test in this stage, place by place, so that you walk each way once. "
        "Enter goes to the reading. The order of the bench is the safe one."
    )

    def __init__(self, stops: Sequence[Stop], now: int) -> None:
        """Prepare the list.

        Args:
            stops: What is left, in walking order; not empty.
            now: Where in the queue the person is.
        """
        count = sum(len(stop.entries) for stop in stops)
        super().__init__(f"Still to test: {count}")
        self._stops, self._now = stops, now

    def compose_inside(self) -> ComposeResult:
        """Compose the list under its headings."""
        yield Static("The safe order of the tests is that of the bench.", markup=False)
        options: list[Option] = []
        for stop in self._stops:
            options.append(Option(Content.styled(stop.name, "bold $primary"), disabled=True))
            options += (
                Option(Content(f"  {entry.brief}"), id=str(at)) for at, entry in stop.entries
            )
        yield Choices(*options, id="dialog-scroll")

    def on_mount(self) -> None:
        """Stand on the reading in hand, if it is among them."""
        listed = self.query_one(OptionList)
        ids = [each.id for each in listed.options]
        listed.highlighted = ids.index(str(self._now)) if str(self._now) in ids else 1
        self.set_focus(listed)

    @on(OptionList.OptionSelected)
    def _chosen(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.dismiss(int(event.option.id or 0))
