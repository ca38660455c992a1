"""What the row in focus wants, and which keys act on it."""

from __future__ import annotations

from textual.content import Content
from textual.widgets import Static

from tui.widgets.rows import Field, Kind, Stop

_KEYS = {
    Kind.CHOICE: "Enter opens the list; or type a word of it.",
    Kind.YES_NO: "Type y or n, then Enter.",
    Kind.DATE: "Year, month, day.",
    Kind.COUNT: "A whole number.",
}


class Hint(Static):
    """Two lines at the foot of a form."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__("", markup=False, id=id)

    def show(self, row: Stop | None) -> None:
        """Show the hint of a row."""
        keys = _KEYS.get(row.kind, "") if isinstance(row, Field) else ""
        hint = row.hint if row is not None else ""
        gap = " " if hint and keys else ""
        self.update(Content.assemble(hint, (f"{gap}{keys}", "$quiet")))
