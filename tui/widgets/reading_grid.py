"""All readings of a stage at once; the arrows move, and what is typed goes into the cell."""

from __future__ import annotations

from dataclasses import dataclass

from rich.text import Text
from textual import on
from textual.coordinate import Coordinate
from textual.message import Message
from textual.theme import Theme
from textual.widgets import DataTable

from records.model.reading import Place
from records.taking.grid import Grid, cell_words, grid, heading, page, width
from records.taking.outcome import tone_of
from records.taking.queue import Entry, Queue

_NAME = 18
"""Columns for a place: the figures need the rest."""
_LEAST = 50
"""Columns to count on before the first layout."""


class ReadingGrid(DataTable[Text], can_focus=False):
    """A table to look at; the keys stay with the field, a click goes to a cell."""

    @dataclass
    class Clicked(Message):
        """A cell was clicked."""

        index: int
        """Where its reading stands in the queue."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id, cursor_type="cell", header_height=2)
        self._queue = Queue(())
        self._grid = Grid((), (), {})
        self._at = 0
        self._page = range(0)

    def on_mount(self) -> None:
        """Follow a change of the look: colours in cells are not set by the stylesheet."""
        self.app.theme_changed_signal.subscribe(self, self._recolour)

    def _recolour(self, _: Theme) -> None:
        self._page = range(0)
        if self._grid.rows:
            self.show(self._queue, self._at)

    def on_resize(self) -> None:
        """Show as many whole columns as there is room for."""
        self._recolour(self.app.current_theme)

    def show(self, queue: Queue, at: int) -> None:
        """Show a queue with the cursor on one of its entries."""
        before, self._queue, self._at, self._grid = self._grid, queue, at, grid(queue)
        if at >= len(queue.entries):
            return
        row, column = self._grid.where(queue.entries[at])
        room = (self.size.width or _LEAST) - _NAME - 2 * self.cell_padding - 1
        seen, number, pages = page(self._grid, column, room, 2 * self.cell_padding)
        if (before.rows, before.columns, self._page) != (self._grid.rows, self._grid.columns, seen):
            self._page = seen
            self._lay_out(f"{number} of {pages} ← →" if pages > 1 else "")
        else:
            for line, (place, _) in enumerate(self._grid.rows):
                for shown in seen:
                    entry = self._grid.entry(line, shown)
                    if before.cells.get((place, self._grid.columns[shown])) != entry:
                        where = Coordinate(line, shown - seen.start + 1)
                        self.update_cell_at(where, self._cell(entry))
        self.move_cursor(row=row, column=column - seen.start + 1, animate=False, scroll=True)

    def _lay_out(self, which: str) -> None:
        table = self._grid
        self.clear(columns=True)
        self.add_column(Text(f"place\n{which}"), key="place", width=_NAME)
        for column in self._page:
            self.add_column(
                Text(heading(table.columns[column])), key=str(column), width=width(table, column)
            )
        for at, (place, name) in enumerate(table.rows):
            cells = (self._cell(table.entry(at, column)) for column in self._page)
            self.add_row(Text(_short(place, name), style="bold"), *cells, key=str(at))

    def _cell(self, entry: Entry | None) -> Text:
        theme = self.app.current_theme
        colours = {"bad": theme.error, "warn": theme.warning, "good": theme.success}
        colour = colours.get(tone_of(entry.verdict)) if entry is not None else None
        weight = "bold " if entry is not None and entry.is_bad else ""
        return Text(cell_words(entry), style=f"{weight}{colour or ''}".strip())

    @on(DataTable.CellSelected)
    def _clicked(self, event: DataTable.CellSelected) -> None:
        event.stop()
        column = event.coordinate.column - 1 + self._page.start
        entry = self._grid.entry(event.coordinate.row, column)
        found = self._queue.index(entry.slot) if entry else None
        if found is not None:
            self.post_message(self.Clicked(found))


def _short(place: Place, name: str) -> str:
    words = f"  {name}" if place.point is not None else name
    return words if len(words) <= _NAME else f"{words[: _NAME - 1]}…"
