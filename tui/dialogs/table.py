"""A table to read: put in order by any column, with the reason and the working of each cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, TypeVar

from rich.text import Text
from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.coordinate import Coordinate
from textual.widgets import DataTable, Static

from records.options.rows import sort_key
from tui.dialogs.dialog import Dialog

if TYPE_CHECKING:
    from records.expected.results import Result

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Told:
    """What stands behind a cell."""

    title: str
    why: str
    result: Result | None = None
    """The figure, whose working can be shown."""


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a table."""

    texts: tuple[str, ...]
    """As the head names them."""
    behind: Sequence[Told | None]
    """What stands behind each text."""
    figures: Sequence[Told] = ()
    """All that a working can be shown of; empty: what stands behind its cells."""
    mark: str = ""
    """Before the first text: `S` the smallest, `R` the first with room, else a verdict's sign."""
    near: bool = True
    """Whether it is worth reading; others show when all are asked for."""
    bold: bool = False


class Table(Dialog[T]):
    """Shows rows; what the cursor is on is explained under them."""

    KEYS_LINE = "← → ↑ ↓ move · F2 working · s order · n notes · Esc closes"
    HELP = (
        "A table. Under it: why the cell under the cursor is as it is. s puts the rows in "
        "order by the column of the cursor, once more the other way round. F2 shows how a figure "
        "was calculated. Nothing is changed by looking."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f2", "working", show=False),
        Binding("s", "order", show=False),
        Binding("n", "notes", show=False),
        Binding("q", "close", show=False),
    ]
    NOTES: ClassVar[str] = "Cautions and notes"

    def __init__(
        self,
        title: str,
        head: Sequence[str],
        lines: Sequence[Line],
        cautions: Sequence[str] = (),
        notes: Sequence[str] = (),
        widths: Sequence[int] = (),
    ) -> None:
        """Prepare the table.

        Args:
            title: What it is about.
            head: Names of the columns.
            lines: The rows.
            cautions: They stay in view.
            notes: Remarks, and what was taken for granted; as many as find room.
            widths: Of the columns, where long texts are to wrap; empty: as wide as their texts.
        """
        super().__init__(title)
        self.lines = list(lines)
        self._head, self._widths = head, widths
        self._cautions, self._notes = cautions, notes
        self._by: int | None = None
        self._down = False
        self._shown: list[int] = []
        self.chosen: frozenset[int] = frozenset()
        """Rows that are marked, by their numbers."""

    def compose_inside(self) -> ComposeResult:
        """Compose table, reason and notes."""
        padding = 1 if self._widths else 0
        yield DataTable[Text](id="options", cursor_type="cell", cell_padding=padding)
        yield Static("", id="options-why", markup=False)
        yield Static("\n".join(self._cautions), id="options-cautions", markup=False)
        count = len(self._notes)
        notes = f"{count} note{'' if count == 1 else 's'} (n): {' '.join(self._notes)}"
        yield Static(notes if self._notes else "", id="options-notes", markup=False)

    def on_mount(self) -> None:
        """Begin on the row that matters."""
        self.fill(self.first())
        self.set_focus(self.table)

    @property
    def table(self) -> DataTable[Text]:
        """The table itself."""
        return self.query_one("#options", DataTable)

    def first(self) -> int:
        """Return which row to begin on."""
        return 0

    def wanted(self, line: Line) -> bool:
        """Return whether a row is shown."""
        return True

    def fill(self, on: int, column: int = 0) -> None:
        """Fill the table, with the cursor on a row and a column."""
        shown = [at for at, each in enumerate(self.lines) if self.wanted(each)]
        if self._by is not None:
            by = self._by
            shown.sort(key=lambda at: sort_key(self.lines[at].texts[by]), reverse=self._down)
        self._shown = shown
        table = self.table
        table.clear(columns=True)
        sign = "▼" if self._down else "▲"
        for at, name in enumerate(self._head):
            widest = max([len(self.lines[each].texts[at]) for each in shown] or [0])
            ordered = f"{name}{sign}" if at == self._by else name
            first = 2 if at == 0 and any(each.mark for each in self.lines) else 0
            width = self._widths[at] if self._widths else max(widest + first, len(ordered)) + 1
            table.add_column(Text(ordered), width=width)
        for each in shown:
            table.add_row(*self._cells(each), height=None if self._widths else 1)
        row = shown.index(on) if on in shown else 0
        table.cursor_coordinate = Coordinate(row, column)
        self._say_why()

    def _cells(self, number: int) -> list[Text]:
        line = self.lines[number]
        style = "reverse" if number in self.chosen else "bold" if line.bold else ""
        marked = any(each.mark for each in self.lines)
        texts = (
            f"{line.mark or ' '} {line.texts[0]}" if marked else line.texts[0],
            *line.texts[1:],
        )
        return [Text(text, style) for text in texts]

    @property
    def at(self) -> int | None:
        """The number of the row that the cursor is on."""
        row = self.table.cursor_row
        return self._shown[row] if 0 <= row < len(self._shown) else None

    @property
    def told(self) -> Told | None:
        """What stands behind the cell that the cursor is on."""
        at = self.at
        if at is None:
            return None
        behind = self.lines[at].behind
        column = self.table.cursor_column
        return behind[column] or behind[-1] if column < len(behind) else None

    @on(DataTable.CellHighlighted)
    def _moved(self) -> None:
        self._say_why()

    def _say_why(self) -> None:
        told = self.told
        said = "" if told is None else f"{told.title}: {told.why}" if told.title else told.why
        self.query_one("#options-why", Static).update(said)

    def say(self, words: str) -> None:
        """Say something under the table, until the cursor moves."""
        self.query_one("#options-why", Static).update(words)

    def action_order(self) -> None:
        """Put the table in order by the column of the cursor; once more: the other way round."""
        at, column = self.at, self.table.cursor_column
        self._down = not self._down if self._by == column else False
        self._by = column
        self.fill(at or 0, column)

    def action_notes(self) -> None:
        """Show cautions, remarks and all that was taken for granted."""
        from textual.content import Content

        from tui.dialogs.reader import Reader

        blocks = [Content(each) for each in (*self._cautions, *self._notes)]
        if blocks:
            self.app.push_screen(Reader(self.NOTES, blocks))

    def action_working(self) -> None:
        """Show the working of the cell, and of the other figures of its row."""
        from tui.dialogs.working import Working

        at, told = self.at, self.told
        if at is None:
            return
        line = self.lines[at]
        behind = dict.fromkeys(each for each in line.behind if each is not None)
        figures = [each for each in line.figures or behind if each.result is not None]
        named = [(each.title, each.result) for each in figures if each.result is not None]
        if named:
            begin = figures.index(told) if told in figures else 0
            self.app.push_screen(Working(named, begin))
        else:
            self.say("There is no figure here: move to a check.")
