"""A table of what would do: put in order by any column, with the working behind each cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.coordinate import Coordinate
from textual.widgets import DataTable, Static

from records.options.rows import sort_key
from tui.dialogs.dialog import Dialog

if TYPE_CHECKING:
    from records.options.cell import Cell


@dataclass(frozen=True, slots=True)
class Line:
    """One option in the table."""

    mark: str
    """`S` the smallest, `R` the first with room, else the sign of its verdict."""
    texts: tuple[str, ...]
    """As the head names them."""
    behind: Sequence[Cell | None]
    """The check behind each text."""
    cells: Sequence[Cell]
    """All its checks."""
    near: bool
    """Whether it is worth reading; the others show when all are asked for."""


class OptionsTable(Dialog[int]):
    """Shows options; Enter gives back the number of the one that is taken over."""

    KEYS_LINE = "Enter takes it over · F2 working · s order · a all, or the nearest · Esc"
    HELP = (
        "Each line is something you could buy, and each cell a check of it. ✗ fails. S is the "
        "smallest that passes, R the first with room for 25 % more load.\n\n"
        "s puts the table in the order of the column you are on; once more turns it round. n "
        "shows what was taken for granted. Enter puts the option into the record; Ctrl+Z takes it "
        "back. Buy nothing on this alone: the designer and the certifier confirm it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f2", "working", show=False),
        Binding("s", "order", show=False),
        Binding("a", "all", show=False),
        Binding("n", "notes", show=False),
        Binding("enter", "take", show=False, priority=True),
        Binding("q", "close", show=False),
    ]

    def __init__(
        self,
        title: str,
        head: Sequence[str],
        lines: Sequence[Line],
        cautions: Sequence[str],
        notes: Sequence[str],
    ) -> None:
        """Prepare the table.

        Args:
            title: What is chosen.
            head: Names of the columns.
            lines: The options.
            cautions: They stay in view.
            notes: Remarks, and what was taken for granted; as many as find room.
        """
        super().__init__(title)
        self._head, self._lines = head, lines
        self._cautions, self._notes = cautions, notes
        self._all = not any(each.near for each in lines)
        self._by: int | None = None
        self._down = False
        self._shown: list[int] = []

    def compose_inside(self) -> ComposeResult:
        """Compose table, reason and notes."""
        yield DataTable[Text](id="options", cursor_type="cell", cell_padding=0)
        yield Static("", id="options-why", markup=False)
        yield Static("\n".join(self._cautions), id="options-cautions", markup=False)
        notes = f"{len(self._notes)} notes (n): {' '.join(self._notes)}"
        yield Static(notes if self._notes else "", id="options-notes", markup=False)

    def on_mount(self) -> None:
        """Begin on the smallest that will do."""
        self._show(self._first())
        self.set_focus(self._table)

    @property
    def _table(self) -> DataTable[Text]:
        return self.query_one("#options", DataTable)

    def _first(self) -> int:
        marked = [at for at, each in enumerate(self._lines) if each.mark == "S"]
        return marked[0] if marked else 0

    def _show(self, on: int, column: int = 0) -> None:
        """Fill the table, with the bar on an option."""
        shown = [at for at, each in enumerate(self._lines) if self._all or each.near]
        if self._by is not None:
            by = self._by
            shown.sort(key=lambda at: sort_key(self._lines[at].texts[by]), reverse=self._down)
        self._shown = shown
        table = self._table
        table.clear(columns=True)
        sign = "▼" if self._down else "▲"
        for at, name in enumerate(self._head):
            widest = max([len(self._lines[each].texts[at]) for each in shown] or [0])
            ordered = f"{name}{sign}" if at == self._by else name
            first = 2 if at == 0 else 0
            table.add_column(ordered, width=max(widest + first, len(ordered)) + 1)
        for each in shown:
            line = self._lines[each]
            bold = "bold" if line.mark in ("S", "R") else ""
            texts = (f"{line.mark} {line.texts[0]}", *line.texts[1:])
            table.add_row(*(Text(text, bold) for text in texts))
        row = shown.index(on) if on in shown else 0
        table.cursor_coordinate = Coordinate(row, column)
        self._why()

    @property
    def _at(self) -> int | None:
        row = self._table.cursor_row
        return self._shown[row] if 0 <= row < len(self._shown) else None

    @on(DataTable.CellHighlighted)
    def _moved(self) -> None:
        self._why()

    def _why(self) -> None:
        at = self._at
        if at is None:
            return
        line, column = self._lines[at], self._table.cursor_column
        cell = line.behind[column] or line.behind[-1]
        said = "" if cell is None else f"{cell.check.words}{_at_circuit(cell)}: {cell.why}"
        self.query_one("#options-why", Static).update(said)

    def action_order(self) -> None:
        """Put the table in order by the column of the cursor; once more: the other way round."""
        at, column = self._at, self._table.cursor_column
        self._down = not self._down if self._by == column else False
        self._by = column
        self._show(at or 0, column)

    def action_all(self) -> None:
        """Show all options, or only the nearest."""
        at = self._at
        self._all = not self._all
        self._show(at or 0, self._table.cursor_column)

    def action_notes(self) -> None:
        """Show cautions, remarks and all that was taken for granted."""
        from textual.content import Content

        from tui.dialogs.reader import Reader

        blocks = [Content(each) for each in (*self._cautions, *self._notes)]
        self.app.push_screen(Reader("Cautions, and what was taken for granted", blocks))

    def action_working(self) -> None:
        """Show the working of the cell, and of the other checks of its option."""
        from tui.dialogs.working import Working

        at = self._at
        if at is None:
            return
        line = self._lines[at]
        cell = line.behind[self._table.cursor_column] or line.behind[-1]
        figures = [each for each in line.cells if each.result is not None]
        named = [
            (f"{each.check.words}{_at_circuit(each)}", each.result)
            for each in figures if each.result is not None
        ]  # fmt: skip
        if named:
            begin = figures.index(cell) if cell in figures else 0
            self.app.push_screen(Working(named, begin))

    def action_take(self) -> None:
        """Close with the option of the bar."""
        self.dismiss(self._at)


def _at_circuit(cell: Cell) -> str:
    return f", {cell.place.circuit}" if cell.place.circuit else ""
