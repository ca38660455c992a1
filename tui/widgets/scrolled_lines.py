"""Lines of one row each, of which a window is shown, with a bar beside it where there are more."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.content import Content
from textual.geometry import Size

from tui.widgets.content_lines import FittedLines

_NOTCH = 3
"""Lines that a turn of the mouse's wheel goes on."""


class ScrolledLines(FittedLines):
    """Rows with a current one, which is in sight whenever the room or the current one changes.

    It draws its bar too, and scrolls within its own lines: Textual's list and table are a widget
    more each, and go through all their styles for every row.
    """

    HEAD: ClassVar[int] = 0
    """Lines over the rows, which don't scroll."""
    CENTRED: ClassVar[bool] = False
    """Whether the current row is kept in the middle, so that one sees what comes."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._top = 0
        self._current: int | None = None

    def count(self) -> int:
        """Return how many rows there are."""
        raise NotImplementedError

    def row(self, at: int, width: int) -> Content:
        """Return a row, as wide as it is given."""
        raise NotImplementedError

    def head(self, width: int) -> Sequence[Content]:
        """Return the lines over the rows, as wide as they are given."""
        return ()

    def clicked(self, at: int, x: int) -> None:
        """Act on a click on a row."""

    @property
    def current(self) -> int | None:
        """The row that is current; None if there is none."""
        return self._current

    @property
    def window(self) -> range:
        """The rows in sight."""
        return range(self._top, min(self._top + self._high(self._room), self.count()))

    def go_to(self, at: int | None) -> None:
        """Make a row current and show it, in this same paint."""
        self._current = at
        self._keep_in_sight()
        self.renew()

    def in_another_room(self) -> None:
        """Keep the current row in sight."""
        self._keep_in_sight()

    def laid_out(self, room: Size) -> list[Content]:
        """Return the head, and the rows of the window beside their bar."""
        high, count = self._high(room), self.count()
        width = room.width - (count > high)
        rows = [self.row(at, width) for at in range(self._top, min(self._top + high, count))]
        if count > high:
            thumb = self._thumb(high, count)
            rows = [Content.assemble(row, _BAR[at in thumb]) for at, row in enumerate(rows)]
        lines = [*self.head(width), *rows]
        return [*lines, *[Content("")] * (room.height - len(lines))][: room.height]

    def _high(self, room: Size) -> int:
        return max(room.height - self.HEAD, 0)

    def _keep_in_sight(self) -> None:
        high, at = self._high(self._room), self._current
        if at is not None:
            if self.CENTRED:
                self._top = at - (high - 1) // 2  # of two, the other is what comes next
            else:
                self._top = min(max(self._top, at - high + 1), at)
        self._top = max(min(self._top, self.count() - high), 0)

    def _thumb(self, high: int, count: int) -> range:
        size = max(high * high // count, 1)
        start = round(self._top * (high - size) / (count - high))
        return range(start, start + size)

    def _scroll(self, top: int) -> None:
        self._top = max(min(top, self.count() - self._high(self._room)), 0)
        self.renew()

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """Look on."""
        event.stop()
        self._scroll(self._top + _NOTCH)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """Look back."""
        event.stop()
        self._scroll(self._top - _NOTCH)

    def on_click(self, event: events.Click) -> None:
        """Act on the row that was clicked, or look where the bar was."""
        event.stop()
        where, high = event.get_content_offset(self), self._high(self._room)
        if where is None or where.y < self.HEAD or not high:
            return
        y = where.y - self.HEAD
        if self.count() > high and where.x == self._room.width - 1:
            self._scroll(y * self.count() // high - high // 2)
        elif self._top + y in self.window:
            self.clicked(self._top + y, where.x)


_BAR = ((" ", "on $scrollbar-background"), ("█", "$scrollbar on $scrollbar-background"))
"""Beside a row: the ground of the bar, and the bar."""
