"""The time/current picture of a protective device, on logarithmic axes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rich.cells import cell_len
from textual.content import Content

from records.expected.pictures.curve import TIMES, FaultPoint, Line, TimeCurrent
from records.expected.pictures.figure_text import amperes, seconds
from tui.look import style
from tui.widgets.canvas import Canvas, Pen, plain_text

LEAST = (40, 10)
"""Cells across and down below which the picture says nothing any more."""
_LEFT = 7
"""Cells for the names of the times."""
_CURVE = Pen("bold $primary", "*")
_EARLIEST = Pen("$primary", "+", every=3)
_HELD = Pen("bold $primary", "*", every=3)
_BAND = Pen("$primary", "/", every=5)
_LIMIT = Pen("bold $warning", "=", every=2)
_RESIDUAL = Pen("$secondary", ":", every=4)
_GRID = Pen("$rule", ".", every=4)
_DROP = Pen("$quiet", "|", every=3)
_SEEN = 1.05
"""How far apart two currents must be to be told apart on the picture."""
_MARKS = {"design": ("◇", "o"), "readings": ("◆", "@")}
_BOTH = ("◈", "&")
"""Where one of them would hide the other."""


@dataclass(frozen=True, slots=True)
class Scales:
    """Where a current and a time stand on a canvas, in cells."""

    width: int
    height: int
    currents: tuple[int, int]
    """Powers of ten at the left and at the right edge."""

    def x(self, current: float) -> float:
        """Return the place of a current [A], at its edge where it lies outside."""
        low, high = self.currents
        share = (math.log10(current) - low) / (high - low)
        return _LEFT + min(max(share, 0.0), 1.0) * (self.width - _LEFT - 1) + 0.5

    def y(self, time: float) -> float:
        """Return the place of a time [s]; what lies above the top stands above the canvas."""
        low, high = TIMES
        share = (high - math.log10(time)) / (high - low)
        return min(share, 1.0) * (self.height - 2) + 0.5

    def cell(self, current: float, time: float) -> tuple[int, int]:
        """Return the cell of a current and a time, on the canvas."""
        return math.floor(self.x(current)), max(math.floor(self.y(time)), 0)

    def corners(self, line: Line) -> list[tuple[float, float]]:
        """Return the corners of a line, cut off above the top."""
        return [(self.x(at), max(self.y(time), -1.0)) for at, time in line]


def scales(picture: TimeCurrent, width: int, height: int) -> Scales:
    """Return the scales of a picture on a canvas of that size."""
    return Scales(width, height, picture.range())


def draw_curve(picture: TimeCurrent, width: int, height: int, *, plain: bool = False) -> Canvas:
    """Return the picture, at least `LEAST` cells in size."""
    canvas = Canvas(max(width, LEAST[0]), max(height, LEAST[1]), plain=plain)
    to = scales(picture, canvas.width, canvas.height)
    _grid(canvas, to)
    _residual(canvas, to, picture)
    if picture.required is not None:
        level = to.y(picture.required)
        canvas.line([(float(_LEFT), level), (to.x(10 ** to.currents[1]), level)], _LIMIT)
    # On top of the limit: where both run along one another the curve must be seen.
    _device(canvas, to, picture)
    drops = [(each, _cell(to, each)) for each in picture.points]
    for _, (column, _) in drops:
        canvas.line([(column + 0.5, 0.0), (column + 0.5, to.y(10 ** TIMES[0]))], _DROP)
    if picture.required is not None:
        _name_limit(canvas, to, picture.required, {row for _, (_, row) in drops})
    for each, (column, row) in drops:
        hidden = sum(cell == (column, row) for _, cell in drops) > 1
        mark = _BOTH[plain] if hidden else _MARKS[each.name][plain]
        canvas.write(column, row, mark, "bold reverse")
    for each, (column, row) in drops:
        label = f"{_MARKS[each.name][plain]} {each.name} {amperes(each.current)}"
        canvas.place(column, row, label, "bold", edge=(_LEFT + 1, canvas.width - 1))
    return canvas


def curve_words(picture: TimeCurrent, *, plain: bool = False) -> list[Content]:
    """Return what the picture says, in words."""
    required = f"must be off within {seconds(picture.required)}" if picture.required else ""
    first = " · ".join(filter(None, (picture.device, required, _shape(picture))))
    lines = [Content(plain_text(first) if plain else first)]
    for each in picture.points:
        said = [each.words, f"RCD {each.rcd_words}" if each.rcd_words else ""]
        lines.append(
            Content.assemble(
                (f"{_MARKS[each.name][plain]} by the {each.name}: ", "bold"),
                f"{amperes(each.current)} at least: {'; '.join(filter(None, said))}",
            )
        )
    if not picture.points:
        lines.append(Content.styled("No fault current is calculated yet.", style("dim")))
    return lines


def _shape(picture: TimeCurrent) -> str:
    curve = picture.curve
    if curve.band is not None:
        lower, upper = curve.band
        return f"between {amperes(lower)} and {amperes(upper)} it may trip at once, or not"
    widest = max(
        (late / early for (late, _), (early, _) in zip(curve.latest, curve.earliest, strict=False)),
        default=1.0,
    )
    spread = "; dotted: the earliest" if widest > _SEEN else ""
    return f"less than {seconds(curve.held)} is not claimed{spread}"


def _cell(to: Scales, point: FaultPoint) -> tuple[int, int]:
    """Return where a point stands: on its device's curve, else on the RCD's, else at the top."""
    time = point.time if point.time is not None else point.by_rcd
    if time is None:
        return math.floor(to.x(point.current)), 0
    return to.cell(point.current, time)


def _grid(canvas: Canvas, to: Scales) -> None:
    bottom, right = to.y(10 ** TIMES[0]), to.x(10 ** to.currents[1])
    for power in range(TIMES[0], TIMES[1] + 1):
        y = to.y(10**power)
        canvas.line([(float(_LEFT), y), (right, y)], _GRID)
        canvas.write(0, math.floor(y), f"{seconds(10.0**power):>{_LEFT - 1}}", "$quiet")
    for power in range(to.currents[0], to.currents[1] + 1):
        x = to.x(10**power)
        canvas.line([(x, 0.5), (x, bottom)], _GRID)
        name = amperes(10.0**power)
        first = math.floor(x) - cell_len(name) // 2
        canvas.write(min(first, canvas.width - cell_len(name)), canvas.height - 1, name, "$quiet")


def _device(canvas: Canvas, to: Scales, picture: TimeCurrent) -> None:
    curve = picture.curve
    end = to.x(10 ** to.currents[1])
    if curve.band is not None:
        left, right = (to.x(each) for each in curve.band)
        canvas.shade(left, to.y(curve.latest[-2][1]), right, to.y(10 ** TIMES[0]), _BAND)
    if curve.earliest:
        canvas.line(to.corners(curve.earliest), _EARLIEST)
    level = to.y(curve.held)
    canvas.line([(to.x(curve.held_from), level), (end, level)], _HELD)
    canvas.line(to.corners(curve.latest), _CURVE)
    if len(curve.latest) == 1:
        canvas.dot(to.x(curve.held_from), level, _CURVE)


def _residual(canvas: Canvas, to: Scales, picture: TimeCurrent) -> None:
    if picture.rcd is None:
        return
    steps = [each for each in picture.rcd.steps if each[0] < 10 ** to.currents[1]]
    rights = [*(to.x(each[0]) for each in steps[1:]), to.x(10 ** to.currents[1])]
    floor = 10.0 ** TIMES[0]
    for (at, shortest, longest), right in zip(steps, rights, strict=True):
        if right <= to.x(at):
            continue
        bottom = to.y(max(shortest, floor))
        canvas.shade(to.x(at), to.y(longest), right, max(bottom, to.y(longest) + 0.5), _RESIDUAL)
    row = math.floor((to.y(steps[-1][2]) + to.y(max(steps[-1][1], floor))) / 2)
    name = f"{picture.rcd.name}: {_between(*steps[-1][1:])}"
    canvas.write(canvas.width - cell_len(name) - 1, row, name, "$secondary")


def _between(shortest: float, longest: float) -> str:
    if shortest:
        return f"{shortest * 1000:.0f} to {longest * 1000:.0f} ms"
    return f"within {longest * 1000:.0f} ms"


def _name_limit(canvas: Canvas, to: Scales, required: float, rows: set[int]) -> None:
    name, row = f"off within {seconds(required)}", math.floor(to.y(required))
    right = canvas.width - cell_len(name) - 1
    # A point on the line has its label there as well: the words give way to the left.
    columns = (_LEFT + 1, right) if row in rows else (right, _LEFT + 1)
    for column in columns:
        if canvas.free(column, row, cell_len(name)):
            canvas.write(column, row, name, "bold $warning")
            return
