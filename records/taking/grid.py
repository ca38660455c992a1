"""All readings of a stage at once: a place a row, a measurement a column."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from records.judgement.wording import said
from records.model.measurements import MEASUREMENTS
from records.model.reading import Figure, Place, Quantity, Tick
from records.taking.queue import Entry, Queue


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows and columns of a stage, in the order of the work."""

    rows: tuple[tuple[Place, str], ...]
    """Places with what they are called."""
    columns: tuple[Quantity, ...]
    cells: dict[tuple[Place, Quantity], Entry]
    """A place that doesn't need a measurement has no cell for it."""

    def entry(self, row: int, column: int) -> Entry | None:
        """Return what stands in a cell; None outside, and where nothing is needed."""
        if not (0 <= row < len(self.rows) and 0 <= column < len(self.columns)):
            return None
        return self.cells.get((self.rows[row][0], self.columns[column]))

    def where(self, entry: Entry) -> tuple[int, int]:
        """Return row and column of an entry of this grid."""
        places = [place for place, _ in self.rows]
        return places.index(entry.slot.place), self.columns.index(entry.slot.quantity)

    def beside(self, entry: Entry, down: int, right: int) -> Entry | None:
        """Return the reading that an arrow leads to; None if there is none that way.

        Args:
            entry: Where the cursor stands.
            down: 1 down, -1 up, 0 neither.
            right: 1 right, -1 left, 0 neither.
        """
        row, column = self.where(entry)
        first = row + down
        while 0 <= row + down < len(self.rows) and 0 <= column + right < len(self.columns):
            row, column = row + down, column + right
            found = self.entry(row, column)
            if found is not None:
                return found
        if not down or not 0 <= first < len(self.rows):
            return None
        # Nothing more in this column that way: the nearest cell of the next row, so that no row
        # shuts anybody in.
        cells = (self.entry(first, each) for each in self._nearest(column))
        return next((each for each in cells if each is not None), None)

    def _nearest(self, column: int) -> list[int]:
        return sorted(range(len(self.columns)), key=lambda each: abs(each - column))


def grid(queue: Queue) -> Grid:
    """Return the entries of a queue as a grid; points come under their circuit or board."""
    cells = {(each.slot.place, each.slot.quantity): each for each in queue.entries}
    places: dict[Place, str] = {}
    for each in queue.entries:
        places.setdefault(each.slot.place, each.point or each.place)
    order = {place: at for at, place in enumerate(places)}
    tops = {place: order[place] for place in places if place.point is None}
    rows = sorted(
        places.items(),
        key=lambda item: (
            tops.get(item[0].whole, order[item[0]]),
            item[0].point is not None,
            order[item[0]],
        ),
    )
    # The order of the tests, also where the list goes circuit by circuit.
    turn: dict[Quantity, int] = {}
    for each in queue.entries:
        at = _TURN[each.slot.place.part, each.slot.quantity]
        turn[each.slot.quantity] = min(at, turn.get(each.slot.quantity, at))
    return Grid(tuple(rows), tuple(sorted(turn, key=lambda each: turn[each])), cells)


_TURN = {(each.part, each.quantity): at for at, each in enumerate(MEASUREMENTS)}
"""Where each measurement comes in the order of the tests."""
_Q = Quantity
_TOGETHER = (
    (_Q.R1, _Q.RN, _Q.R2),
    (_Q.CROSS_LN, _Q.CROSS_LE),
    (_Q.IR_LN, _Q.IR_LE, _Q.IR_NE),
    (_Q.FAULT_LN, _Q.FAULT_LE),
    (_Q.VOLTAGE, _Q.VOLTAGE_LE, _Q.VOLTAGE_NE),
    (_Q.RCD_TIME, _Q.RCD_BUTTON),
)
"""What is read one after the other at one place, and seen on one page."""


def cell_words(entry: Entry | None) -> str:
    """Return what a cell shows: the verdict's mark and the figure, without its unit."""
    if entry is None:
        return ""
    if entry.is_open:
        return entry.verdict.mark
    taken = entry.attempts[-1].taken
    match taken:
        case Figure():
            unit = entry.measurement.unit.value
            text = said(taken, entry.measurement).removesuffix(unit).strip()
        case Tick(good=True):
            text = "right"
        case Tick():
            text = "wrong"
        case _:
            text = "see why"
    return f"{entry.verdict.mark} {text}"


def heading(quantity: Quantity) -> str:
    """Return what stands over a column, on at most two lines."""
    return quantity.value.replace(" ", "\n", 1)


def width(table: Grid, column: int) -> int:
    """Return how many characters the widest text of a column has, its heading included."""
    name = table.columns[column]
    cells = (cell_words(table.cells.get((place, name))) for place, _ in table.rows)
    return max(map(len, (*heading(name).splitlines(), *cells)))


def pages(table: Grid, room: int, gap: int) -> list[range]:
    """Return the columns to show together: whole ones, so that none is cut off.

    Args:
        table: The grid.
        room: Characters that there are for all columns.
        gap: Characters that each needs beside its text.
    """
    found: list[range] = []
    used = 0
    for group in _groups(table.columns):
        wide = [width(table, at) + gap for at in group]
        for part in [group] if sum(wide) <= room else [range(at, at + 1) for at in group]:
            wide_part = sum(wide[at - group.start] for at in part)
            if not found or used + wide_part > room:
                found.append(part)
                used = wide_part
            else:
                found[-1] = range(found[-1].start, part.stop)
                used += wide_part
    return found


def _groups(columns: Sequence[Quantity]) -> Iterator[range]:
    """Yield which columns belong together, in order."""
    kin: dict[Quantity, tuple[Quantity, ...]] = {}
    for group in _TOGETHER:
        kin |= dict.fromkeys(group, group)
    numbered = groupby(range(len(columns)), key=lambda at: kin.get(columns[at], (columns[at],)))
    for _, found in numbered:
        ats = list(found)
        yield range(ats[0], ats[-1] + 1)
