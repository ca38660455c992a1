"""All readings of a stage at once; the arrows move, and what is typed goes into the cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import set_cell_size
from textual.content import Content
from textual.geometry import Size
from textual.message import Message

from records.model.reading import Place
from records.taking.grid import Grid, cell_words, grid, heading, pages, width
from records.taking.outcome import tone_of
from records.taking.queue import Entry, Queue
from tui.widgets.scrolled_lines import ScrolledLines

_NAME = 18
"""Columns for a place: the figures need the rest."""
_PAD = 1
"""Blanks at either side of a cell."""


class ReadingGrid(ScrolledLines):
    """A table to look at; the keys stay with the field, a click goes to a cell."""

    HEAD = 2

    @dataclass
    class Clicked(Message):
        """A cell was clicked."""

        index: int
        """Where its reading stands in the queue."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._queue = Queue(())
        self._grid = Grid((), (), {})
        self._column = 0
        self._pages: list[range] = []
        self._widths: dict[int, int] = {}
        self._drawn: dict[tuple[int, int], list[Content]] = {}
        """Cells of rows that were drawn, by row and first column."""

    def show(self, queue: Queue, at: int) -> None:
        """Show a queue with the cursor on one of its entries."""
        if queue.entries is not self._queue.entries:
            self._grid = grid(queue)
            self._drawn, self._pages = {}, []
        self._queue = queue
        if at >= len(queue.entries):
            return
        row, self._column = self._grid.where(queue.entries[at])
        self.go_to(row)

    def in_another_room(self) -> None:
        """Share the columns out again."""
        super().in_another_room()
        self._pages = []

    def laid_out(self, room: Size) -> list[Content]:
        """Return the page of columns that the cursor is on, as many rows of it as there is room."""
        if not self._pages:
            table, self._drawn = self._grid, {}
            self._widths = {at: width(table, at) for at in range(len(table.columns))}
            self._pages = pages(table, room.width - _NAME - 2 * _PAD - 1, 2 * _PAD)
        return super().laid_out(room)

    @property
    def table(self) -> Grid:
        """All rows and columns, in sight or not."""
        return self._grid

    @property
    def shown(self) -> range:
        """The columns in sight."""
        return next((each for each in self._pages if self._column in each), range(0))

    def count(self) -> int:
        """Return how many places there are."""
        return len(self._grid.rows)

    def head(self, width: int) -> Sequence[Content]:
        """Return what stands over the columns, and which page of them this is."""
        page = self._pages.index(self.shown) + 1 if self.shown else 0
        which = f"{page} of {len(self._pages)} ← →" if len(self._pages) > 1 else ""
        names = [("place", which)]
        for at in self.shown:
            first, _, second = heading(self._grid.columns[at]).partition("\n")
            names.append((first, second))
        wide = [_NAME, *(self._widths[at] for at in self.shown)]
        lines = [
            "".join(_cell(name[line], size) for name, size in zip(names, wide, strict=True))
            for line in range(self.HEAD)
        ]
        return [Content.styled(_sized(each, width), "bold on $panel") for each in lines]

    def row(self, at: int, width: int) -> Content:
        """Return a place with its cells, the one that the cursor is on marked."""
        key = at, self.shown.start
        if key not in self._drawn:
            place, name = self._grid.rows[at]
            cells = [self._entry_cell(at, column) for column in self.shown]
            self._drawn[key] = [Content.styled(_cell(_short(place, name), _NAME), "bold"), *cells]
        cells = self._drawn[key]
        if at == self.current:
            here = 1 + self._column - self.shown.start
            marked = Content.styled(cells[here].plain, "bold $ink on $primary")
            cells = [*cells[:here], marked, *cells[here + 1 :]]
        line = Content("").join(cells)
        return line.pad_right(max(width - line.cell_length, 0))

    def clicked(self, at: int, x: int) -> None:
        """Say which reading was clicked."""
        end = _NAME + 2 * _PAD
        for column in self.shown:
            start, end = end, end + self._widths[column] + 2 * _PAD
            entry = self._grid.entry(at, column) if start <= x < end else None
            found = self._queue.index(entry.slot) if entry is not None else None
            if found is not None:
                self.post_message(self.Clicked(found))

    def cell(self, row: int, column: int) -> str:
        """Return what stands in a cell, without the blanks beside it."""
        return cell_words(self._grid.entry(row, column))

    def _entry_cell(self, row: int, column: int) -> Content:
        entry = self._grid.entry(row, column)
        return Content.styled(_cell(cell_words(entry), self._widths[column]), _look(entry))


def _look(entry: Entry | None) -> str:
    if entry is None:
        return ""
    colours = {"bad": "$error", "warn": "$warning", "good": "$success"}
    weight = "bold " if entry.is_bad else ""
    return f"{weight}{colours.get(tone_of(entry.verdict), '')}".strip()


def _cell(text: str, size: int) -> str:
    return f"{' ' * _PAD}{_sized(text, size)}{' ' * _PAD}"


def _sized(text: str, size: int) -> str:
    # By cells, not by characters: a name may hold characters that are two cells wide.
    return set_cell_size(text, size)


def _short(place: Place, name: str) -> str:
    words = f"  {name}" if place.point is not None else name
    return words if len(words) <= _NAME else f"{words[: _NAME - 1]}…"
