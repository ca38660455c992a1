"""A small canvas for curves: dots in braille, words over them, plain characters where need be."""

from __future__ import annotations

import math
import os
import sys
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

ACROSS, DOWN = 2, 4
"""Dots of one cell."""
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""The bit of each dot in a braille character, by row and column (Unicode, block 2800)."""
_NO_BRAILLE = {"linux", "dumb", "vt100", "vt220"}
"""Terminals whose fonts are known to lack braille."""

Corner = tuple[float, float]
"""A place in cells from the top left; half a cell to the right and down is the middle of a cell."""


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line looks."""

    style: str
    plain: str
    """What it is drawn with where there are no dots."""
    every: int = 1
    """Draw one dot in so many: 1 is a solid line."""


class Canvas:
    """Cells with dots and words; what is drawn later lies on top, words over all dots."""

    def __init__(self, width: int, height: int, *, plain: bool = False) -> None:
        """Prepare an empty canvas.

        Args:
            width: In cells.
            height: In cells.
            plain: Whether to do without braille.
        """
        self.width, self.height, self.plain = width, height, plain
        self._dots = [[0] * width for _ in range(height)]
        self._pens: list[list[Pen | None]] = [[None] * width for _ in range(height)]
        self._words: list[list[tuple[str, str] | None]] = [[None] * width for _ in range(height)]

    def dot(self, x: float, y: float, pen: Pen) -> None:
        """Set the dot that a place lies in; outside the canvas nothing happens."""
        column, row = math.floor(x * ACROSS), math.floor(y * DOWN)
        if not (0 <= column < self.width * ACROSS and 0 <= row < self.height * DOWN):
            return
        cell, line = column // ACROSS, row // DOWN
        self._dots[line][cell] |= _BITS[row % DOWN][column % ACROSS]
        self._pens[line][cell] = pen

    def line(self, corners: Iterable[Corner], pen: Pen) -> None:
        """Draw straight from corner to corner."""
        for (x0, y0), (x1, y1) in pairwise(corners):
            steps = max(1, round(max(abs(x1 - x0) * ACROSS, abs(y1 - y0) * DOWN)))
            for at in range(0, steps + 1, pen.every):
                self.dot(x0 + (x1 - x0) * at / steps, y0 + (y1 - y0) * at / steps, pen)

    def shade(self, left: float, top: float, right: float, bottom: float, pen: Pen) -> None:
        """Fill a box with spread dots, one in `pen.every` each way, by its edges in cells."""
        for row in range(max(0, round(top * DOWN)), min(self.height * DOWN, round(bottom * DOWN))):
            first = max(0, round(left * ACROSS))
            for column in range(first, min(self.width * ACROSS, round(right * ACROSS))):
                if (column + 2 * row) % pen.every == 0:
                    self.dot(column / ACROSS, row / DOWN, pen)

    def write(self, column: int, row: int, text: str, style: str = "") -> None:
        """Put words at a cell; what would stand outside is left away."""
        if not 0 <= row < self.height:
            return
        at = column
        for character in plain_text(text) if self.plain else text:
            wide = cell_len(character)
            if wide and at >= 0 and at + wide <= self.width:
                self._words[row][at] = (character, style)
                for more in range(1, wide):
                    self._words[row][at + more] = ("", style)
            at += wide

    def free(self, column: int, row: int, width: int) -> bool:
        """Return whether words of that width would stand inside and on no other words."""
        if not (0 <= row < self.height and column >= 0 and column + width <= self.width):
            return False
        return all(each is None for each in self._words[row][column : column + width])

    def has_dots(self, column: int, row: int) -> bool:
        """Return whether something is drawn in a cell."""
        return bool(self._dots[row][column])

    def pen(self, column: int, row: int) -> Pen | None:
        """Return what a cell was drawn with last."""
        return self._pens[row][column]

    def place(self, column: int, row: int, text: str, style: str, *, edge: tuple[int, int]) -> bool:
        """Put words beside a cell where nothing is written, on few dots if possible.

        Args:
            column: Cell that the words belong to.
            row: The same.
            text: The words.
            style: Of the words.
            edge: First and last column that they may take.
        Returns:
            Whether there was room.
        """
        text = plain_text(text) if self.plain else text
        wide = cell_len(text)
        found: list[tuple[int, int, int, int]] = []
        for order, (down, right) in enumerate(_BESIDE):
            first = column + 2 if right else column - 1 - wide
            if first < edge[0] or first + wide > edge[1] + 1:
                continue
            # A blank each side, so that no two labels read as one.
            if self.free(max(first - 1, 0), row + down, min(wide + 2, self.width - first + 1)):
                crossed = sum(self.has_dots(first + at, row + down) for at in range(wide))
                found.append((crossed + 2 * abs(down), order, first, row + down))
        if not found:
            return False
        _, _, first, line = min(found)
        self.write(first, line, text, style)
        return True

    def rows(self) -> list[list[tuple[str, str]]]:
        """Return each line as stretches of one style: the fewer, the faster it is painted."""
        lines = []
        for row in range(self.height):
            line: list[tuple[str, str]] = []
            for column in range(self.width):
                text, style = self._cell(column, row)
                if line and (line[-1][1] == style or text == " "):
                    line[-1] = (line[-1][0] + text, line[-1][1])
                else:
                    line.append((text, style))
            lines.append(line)
        return lines

    def content(self) -> Content:
        """Return what is on the canvas."""
        return Content("\n").join(Content.assemble(*line) for line in self.rows())

    @property
    def text(self) -> str:
        """What is on the canvas, without styles."""
        return "\n".join("".join(text for text, _ in line).rstrip() for line in self.rows())

    def _cell(self, column: int, row: int) -> tuple[str, str]:
        word = self._words[row][column]
        if word is not None:
            return word
        dots, pen = self._dots[row][column], self._pens[row][column]
        if not dots or pen is None:
            return " ", ""
        return (pen.plain if self.plain else chr(0x2800 + dots)), pen.style


_BESIDE = tuple((down, right) for down in (0, -1, 1, -2, 2, -3, 3) for right in (True, False))
"""Where words may stand beside their cell, the best first: lines down, and to which side."""

Painter = Callable[[int, int, bool], Content]
"""Paints a picture of a width and a height in cells; without braille if the last says so."""


class Drawn(Widget):
    """A picture that fills the room there is, painted again when that changes."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._painter: Painter | None = None
        self.plain = plain_wanted()

    def show(self, painter: Painter) -> None:
        """Show what the painter paints."""
        self._painter = painter
        self.refresh()

    def render(self) -> Content:
        """Paint."""
        width, height = self.size
        if self._painter is None or width < 1 or height < 1:
            return Content("")
        return self._painter(width, height, self.plain)


_PLAIN = str.maketrans(
    {"Ω": "ohm", "·": ";", "’": "'", "–": "-", "Δ": "d", "↑": "^", "←": "<", "→": ">", "↓": "v"}
)


def plain_text(text: str) -> str:
    """Return our own words without the signs that poor fonts lack; names keep theirs."""
    return text.translate(_PLAIN)


def plain_wanted() -> bool:
    """Return whether this terminal is one that shows no braille."""
    encoding = (getattr(sys.__stdout__, "encoding", "") or "").lower().replace("-", "")
    return os.environ.get("TERM", "") in _NO_BRAILLE or encoding not in ("utf8", "")
