"""What there is to know before a reading is taken, in the lines that there are for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.app import ComposeResult
from textual.containers import VerticalScroll

from tui.widgets.reading_lines import ReadingLines, Row


class BenchCard(VerticalScroll, can_focus=False):
    """Rows to read; its upper edge says if there are more of them than find room."""

    def __init__(self, shown_to_end: Callable[[], None], *, id: str | None = None) -> None:
        """Prepare an empty card.

        Args:
            shown_to_end: Called once the last row of what is shown was on the screen.
            id: For the style.
        """
        super().__init__(id=id)
        self._shown_to_end = shown_to_end
        self._painted = False
        self._lines = ReadingLines(id="bench-lines")
        self._more = ""

    def compose(self) -> ComposeResult:
        """Compose the rows."""
        yield self._lines

    def on_mount(self) -> None:
        """Look whether all finds room, whenever that can change."""
        self.watch(self, "virtual_size", self._say_more, init=False)
        self.watch(self, "scroll_y", self._say_more, init=False)

    def on_resize(self) -> None:
        """Look whether all finds room now."""
        self._say_more()

    def show(self, rows: Sequence[Row], more: str) -> None:
        """Show rows from the first on.

        Args:
            rows: What to show.
            more: Which key shows what finds no room.
        """
        self._more = more
        self._lines.show(rows)
        self.scroll_home(animate=False)
        self._say_more()
        self._wait_for_paint()

    def make_room(self, *, typing: bool, judged: bool | None) -> None:
        """Give way to what is typed, and to a verdict; None: that is as it was."""
        self.set_class(typing, "-typing")
        if judged is not None:
            self.set_class(judged, "-judged")
        self._say_more()

    def read_on(self, by: int) -> bool:
        """Scroll by a page, down (1) or up (-1); False if there is no more.

        A page that has not been painted yet is not left.
        """
        if by > 0 and not self._painted:
            return True
        there = self.max_scroll_y - self.scroll_y if by > 0 else self.scroll_y
        if there <= 0:
            return False
        self.scroll_relative(y=by * max(self.size.height - 1, 1), animate=False)
        self._wait_for_paint()
        return True

    def _wait_for_paint(self) -> None:
        self._painted = False
        self.call_after_refresh(self._paint)

    def _paint(self) -> None:
        self._painted = True
        if self.size.height and self.scroll_y >= self.max_scroll_y:
            self._shown_to_end()

    def _say_more(self) -> None:
        # While something is typed, letters are part of it.
        words = " more " if self.has_class("-typing") else f" more: {self._more} "
        self.border_title = words if self.max_scroll_y > self.scroll_y else ""
