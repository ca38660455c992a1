"""A ring's cross-connected readings over the way round, against what they should be."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rich.cells import cell_len
from textual.content import Content

from records.expected.pictures.ring import RingLine, RingPicture, RingPoint
from tui.look import style
from tui.widgets.canvas import Canvas, Pen, plain_text

LEAST = (40, 8)
"""Cells across and down below which the picture says nothing any more."""
_LEFT = 7
_NAME = 22
_GRID = Pen("$rule", ".", every=4)
_PENS = {"L-N": Pen("$secondary", "-"), "L-cpc": Pen("$primary", "~", every=2)}
_MARKS = {"L-N": ("○", "n"), "L-cpc": ("□", "c")}
_SPUR = ("▵", "s")
_DOUBTED = ("✗", "X")


@dataclass(frozen=True, slots=True)
class _Scales:
    width: int
    height: int
    most: float

    def x(self, share: float) -> float:
        return _LEFT + share * (self.width - _LEFT - 1) + 0.5

    def y(self, ohms: float) -> float:
        share = min(max(ohms / self.most, 0.0), 1.0)
        return (1 - share) * (self.height - 2) + 0.5

    def cell(self, x: float, ohms: float) -> tuple[int, int]:
        return math.floor(self.x(x)), math.floor(self.y(ohms))


def draw_ring(picture: RingPicture, width: int, height: int, *, plain: bool = False) -> Canvas:
    """Return the picture, at least `LEAST` cells in size."""
    canvas = Canvas(max(width, LEAST[0]), max(height, LEAST[1]), plain=plain)
    to = _Scales(canvas.width, canvas.height, picture.most)
    _axes(canvas, to, picture)
    for line in picture.lines:
        canvas.line([(to.x(x), to.y(ohms)) for x, ohms in line.line], _PENS[line.name])
    labels = [
        (*to.cell(point.x, _height(point, to)), line, point)
        for line in picture.lines
        for point in line.read
    ]
    for doubted in (False, True):  # what is to be looked at lies on top
        for column, row, line, point in labels:
            if point.doubted is doubted:
                look = style("bad") if doubted else "bold"
                canvas.write(column, row, _mark(line, point)[plain], look)
    for line in picture.lines:
        _name_line(canvas, to, line)
    edge = (_LEFT + 1, canvas.width - 1)
    for column, row, line, point in labels:
        if point.doubted:
            # Where the whole is too long, the name alone; the words under it say the rest.
            for label in (f"{_short(point)} {line.name}", _short(point), point.name, point.id):
                if canvas.place(column, row, label, style("bad"), edge=edge):
                    break
    return canvas


def ring_words(picture: RingPicture, *, plain: bool = False) -> list[Content]:
    """Return what the picture says, in words."""
    at = int(plain)
    signs = "  ".join(
        [*(f"{sign[at]} {name}" for name, sign in _MARKS.items()), f"{_SPUR[at]} on a spur"]
    )
    lines = [f"{signs}  {_DOUBTED[at]} to look at. Lines: expected {picture.ground}."]
    expected = "; ".join(filter(None, map(_expected, picture.lines)))
    lines.append(f"Expected {expected}." if expected else "Nothing can be expected yet.")
    if picture.around is None:
        lines.append("Not every distance is entered: the points are spaced evenly, in their order.")
    taken = sum(len(each.read) for each in picture.lines)
    wanted = sum(len(each.points) for each in picture.lines)
    if taken < wanted:
        lines.append(f"{taken} of {wanted} readings are taken.")
    texts = [Content(plain_text(each) if plain else each) for each in lines]
    if picture.doubted:
        each = [f"{point.name}, {name}: {_value(point)}" for name, point in picture.doubted]
        said = f"{_DOUBTED[at]} {'; '.join(each)}"
        texts.append(Content.styled(plain_text(said) if plain else said, style("bad")))
    return texts


def _axes(canvas: Canvas, to: _Scales, picture: RingPicture) -> None:
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        x = to.x(share)
        canvas.line([(x, 0.5), (x, to.y(0.0))], _GRID)
        if share in (0.25, 0.75):
            continue
        name = {0.0: "leg 1", 1.0: "leg 2"}.get(share, "half way")
        if picture.around is not None:
            name = f"{share * picture.around:.3g} m"
        first = min(math.floor(x) - cell_len(name) // 2, canvas.width - cell_len(name))
        canvas.write(first, canvas.height - 1, name, "$quiet")
    for value in picture.ticks():
        y = to.y(value)
        canvas.line([(float(_LEFT), y), (to.x(1.0), y)], _GRID)
        unit = "" if canvas.plain else " Ω"
        canvas.write(0, math.floor(y), f"{f'{value:.2f}{unit}':>{_LEFT - 1}}", "$quiet")


def _height(point: RingPoint, to: _Scales) -> float:
    return to.most if point.value is None else point.value


def _mark(line: RingLine, point: RingPoint) -> tuple[str, str]:
    if point.doubted:
        return _DOUBTED
    return _SPUR if point.spur else _MARKS[line.name]


def _name_line(canvas: Canvas, to: _Scales, line: RingLine) -> None:
    if not line.line:
        return
    pen = _PENS[line.name]
    for share in (0.97, 0.03, 0.45, 0.6):
        column, row = to.cell(share, line.line[round(share * (len(line.line) - 1))][1])
        for down in (-1, 1) if line.name == "L-cpc" else (1, -1):
            first = min(column, canvas.width - len(line.name))
            if canvas.free(first, row + down, len(line.name)):
                canvas.write(first, row + down, line.name, pen.style)
                return


def _short(point: RingPoint) -> str:
    name = point.name if len(point.name) <= _NAME else f"{point.name[: _NAME - 1].rstrip()}…"
    return f"{name} {_value(point)}"


def _value(point: RingPoint) -> str:
    return "open" if point.value is None else f"{point.value:.2f} Ω"


def _expected(line: RingLine) -> str:
    values = [ohms for _, ohms in line.line]
    if not values:
        return ""
    low, high = f"{min(values):.2f}", f"{max(values):.2f}"
    return f"{line.name} {low if low == high else f'{low} to {high}'} Ω"
