"""What the row in focus wants, and which keys act on it."""

from __future__ import annotations

from textual.content import Content
from textual.widget import Widget

from records.entering.field import Field, Kind
from records.habits import HABITS, DayOrder
from tui.widgets.cut import cut
from tui.widgets.rows import Stop

_KEYS = {
    Kind.CHOICE: "Enter opens the list; or type a word of it.",
    Kind.YES_NO: "Type y or n, then Enter.",
    Kind.COUNT: "A whole number.",
}
_DATES = {
    DayOrder.DAY_FIRST: "Day first: 5/3/26, 5 Mar, today.",
    DayOrder.MONTH_FIRST: "Month first: 3/5/26, 5 Mar, today.",
}
_MORE = " … F1"
"""Stands where a hint is cut: the help has all of it."""


class Hint(Widget):
    """A few lines at the foot of a form; its style says how many."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._row: Stop | None = None

    def show(self, row: Stop | None) -> None:
        """Show the hint of a row."""
        self._row = row
        self.refresh()

    def render(self) -> Content:
        """Return what fits in the room there is."""
        row, size = self._row, self.content_size
        keys = _KEYS.get(row.kind, "") if isinstance(row, Field) else ""
        if isinstance(row, Field) and row.kind is Kind.DATE:
            keys = _DATES[HABITS.dates]
        hint = row.hint if row is not None else ""
        return fitted(hint, keys, size.width, size.height)


def fitted(hint: str, keys: str, width: int, height: int) -> Content:
    """Return a hint with the keys for its row, as far as there is room for them.

    Args:
        hint: What the row wants.
        keys: The keys; they are left out first, being the same for all rows of a kind.
        width: Cells in a line.
        height: Lines.
    """
    gap = " " if hint and keys else ""
    for text in (Content.assemble(hint, (f"{gap}{keys}", "$quiet")), Content(hint)):
        if len(text.wrap(max(width, 1))) <= height:
            return text
    return cut(Content(hint), width, height, _MORE)
