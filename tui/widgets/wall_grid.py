"""Cells of a surface: cables as masks of the four ways, words over them, an owner to each cell."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

N, E, S, W = 1, 2, 4, 8
_WAYS = (N | S, E | W, S | E, S | W, N | E, N | W, N | S | E, N | S | W, E | W | S, E | W | N, 15)
_LIGHT = dict(zip(_WAYS, "│─┌┐└┘├┤┬┴┼", strict=True)) | {N: "│", S: "│", E: "─", W: "─"}
_DOUBLE = dict(zip(_WAYS, "║═╔╗╚╝╠╣╦╩╬", strict=True)) | {N: "║", S: "║", E: "═", W: "═"}
PLAIN = str.maketrans(
    dict.fromkeys("│┊", "|")
    | dict.fromkeys("─╌", "-")
    | dict.fromkeys("┌┐└┘├┤┬┴┼╔╗╚╝╠╣╦╩╬", "+")
    | {
        "═": "=",
        "║": "H",
        "░": ".",
        "◦": "o",
        "×": "x",
        "□": "#",
        "■": "H",
        "○": "O",
        "▓": "@",
        "·": ".",
        "↑": "^",
        "ø": "d",
        "–": "-",
    }
)

Cell = tuple[int, int]
"""Column and row."""


@dataclass(slots=True)
class Grid:
    """A surface in cells."""

    width: int
    height: int
    plain: bool = False
    """Whether to do with ASCII alone."""
    masks: dict[Cell, dict[str, int]] = field(default_factory=dict)
    """Which ways the cables of each circuit leave a cell."""
    _words: dict[Cell, tuple[str, str]] = field(default_factory=dict)
    _area: dict[Cell, str] = field(default_factory=dict)

    def holds(self, cell: Cell) -> bool:
        """Whether a cell is on the grid."""
        return 0 <= cell[0] < self.width and 0 <= cell[1] < self.height

    def shade(self, cell: Cell, sign: str) -> None:
        """Put a sign where nothing else will stand."""
        if self.holds(cell):
            self._area[cell] = sign

    def cable(self, circuit: str, one: Cell, other: Cell) -> None:
        """Draw cable from cell to cell: level first, then up or down, a step at a time."""
        x, y = one
        across, down = abs(other[0] - x), abs(other[1] - y)
        error = across - down
        while (x, y) != other:
            sideways = x != other[0] and (y == other[1] or error >= 0)
            if sideways:
                step, (out, back) = (1 if other[0] > x else -1), (E, W)
                out, back = (out, back) if step > 0 else (back, out)
                there = (x + step, y)
                error -= down
            else:
                step = 1 if other[1] > y else -1
                out, back = (S, N) if step > 0 else (N, S)
                there = (x, y + step)
                error += across
            self._join((x, y), circuit, out)
            self._join(there, circuit, back)
            x, y = there

    def _join(self, cell: Cell, circuit: str, way: int) -> None:
        if self.holds(cell):
            ways = self.masks.setdefault(cell, {})
            ways[circuit] = ways.get(circuit, 0) | way

    def write(self, cell: Cell, text: str, style: str = "") -> None:
        """Put words at a cell and to the right of it; what would stand outside is left away."""
        column, row = cell
        for at, character in enumerate(text):
            if self.holds((column + at, row)):
                self._words[column + at, row] = (character, style)

    def is_free(self, cell: Cell, long: int, *, over: str | None = None) -> bool:
        """Whether words of a length would stand on no other words, nor on cable.

        Args:
            cell: Where they begin.
            long: How many cells they take.
            over: A circuit whose own cable they may stand on, if no other's is there.
        """
        column, row = cell
        cells = [(column + at, row) for at in range(long)]
        return all(
            self.holds(each)
            and each not in self._words
            and set(self.masks.get(each, {})) <= ({over} if over is not None else set())
            for each in cells
        )

    def label(self, cell: Cell, text: str, style: str = "", *, wide: int = 1) -> bool:
        """Put a name beside a thing: right, left, above, below; say whether there was room."""
        column, row = cell
        long = len(text)
        places = (
            (column + wide, row),
            (column - long, row),
            (column, row - 1),
            (column, row + 1),
            (column + wide, row - 1),
            (column + wide, row + 1),
            (column - long, row - 1),
            (column - long, row + 1),
        )
        for at in places:
            around = (at[0] - 1, at[1])
            if self.is_free(at, long) and not self._is_word(around, beside=cell):
                self.write(at, text, style)
                return True
        return False

    def _is_word(self, cell: Cell, *, beside: Cell) -> bool:
        return cell != beside and cell in self._words and self._words[cell][0].isalnum()

    def rows(self) -> Iterator[list[tuple[str, str]]]:
        """Yield each row as stretches of one style."""
        for row in range(self.height):
            line: list[tuple[str, str]] = []
            for column in range(self.width):
                text, style = self._cell((column, row))
                if line and line[-1][1] == style:
                    line[-1] = (line[-1][0] + text, style)
                else:
                    line.append((text, style))
            yield line

    def _cell(self, cell: Cell) -> tuple[str, str]:
        found = self._words.get(cell)
        if found is None:
            masks = self.masks.get(cell)
            found = (_glyph(masks), "") if masks else (self._area.get(cell, " "), "$quiet")
        text, style = found
        return (text.translate(PLAIN), style) if self.plain else (text, style)


def _glyph(masks: dict[str, int]) -> str:
    union, shared = 0, 15 if len(masks) > 1 else 0
    for mask in masks.values():
        union |= mask
        shared &= mask
    return (_DOUBLE if shared else _LIGHT)[union]
