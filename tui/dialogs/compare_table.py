"""Designs side by side, what differs between them; one of them taken over in one act."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType

from records.options.confirm import CONFIRM
from tui.dialogs.table import Line, Table, Told

if TYPE_CHECKING:
    from records.options.compare import Row, Side

_WIDTHS = {2: (27, 21, 21), 3: (19, 15, 15, 15)}
_CONFIRM = (f"! before a check: worse than now. {CONFIRM}",)


class CompareTable(Table[int]):
    """Shows what differs; Enter gives back the number of the design of the cursor's column."""

    KEYS_LINE = "← → design · Enter takes it over · F2 working · Esc closes"
    HELP = (
        "Two or three designs side by side: first what is entered differently, then the checks "
        "with another result. Enter takes over the design of the column that the cursor is on; "
        "Ctrl+Z takes that back. The first column is the design as it is."
    )
    BINDINGS: ClassVar[list[BindingType]] = [Binding("enter", "take", show=False, priority=True)]

    def __init__(self, names: Sequence[str], rows: Sequence[Row]) -> None:
        """Prepare the table.

        Args:
            names: Of the designs, that of now first.
            rows: What differs.
        """
        lines = [_line(each, names) for each in rows] or [
            Line(("Nothing differs.", *[""] * len(names)), (Told("", "The designs are the same."),))
        ]
        super().__init__(
            "Designs side by side", ("", *names), lines, _CONFIRM, (), _WIDTHS[len(names)]
        )

    def action_take(self) -> None:
        """Close with the design of the column; in the first two columns nothing is taken."""
        column = self.table.cursor_column
        if column > 1:
            self.dismiss(column - 1)

    def action_order(self) -> None:
        """Leave the order: inputs first, then checks, those that get worse first."""


def _line(row: Row, names: Sequence[str]) -> Line:
    told = [_told(row, side, name) for side, name in zip(row.sides, names, strict=True)]
    texts = [f"{'! ' if side.worse else ''}{side.text}" for side in row.sides]
    return Line((row.what, *texts), (told[-1], *told))


def _told(row: Row, side: Side, name: str) -> Told:
    check = side.check
    if check is None:
        return Told(f"{row.what}, {name}", side.text)
    return Told(f"{row.what}, {name}", check.why, check.expected)
