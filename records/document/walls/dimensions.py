"""Running dimensions from a surface's corner and finished floor, and the scale bar."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from records.document.walls.scale import View
from records.document.walls.shapes import GREY, Line, Part, Spot, Words, wide
from records.expected.boxes import hole, placed
from records.model.fabric import Mark, Surface
from records.model.record import Record

_SIZE = 2.3
_ROWS = 4
"""Rows, or columns, in which figures may stand that would lie on each other in one."""


def dimensions(record: Record, surface: Surface, seen: View) -> Iterator[Part]:
    """Return dimension lines to each box: along to its middle, up to its underside or middle."""
    alongs: dict[float, str] = {}
    ups: dict[float, str] = {}
    for each in placed(record, surface):
        cut = hole(each.spot)
        if each.is_opening:
            for x in (cut.left, cut.right):
                alongs.setdefault(round(x, 1), each.name)
            ups.setdefault(round(cut.top, 1), each.name)
            continue
        alongs.setdefault(round(each.spot.along, 1), each.name)
        high = cut.bottom if each.spot.to is Mark.UNDERSIDE else each.spot.up
        ups.setdefault(round(high, 1), each.name)
    for leg in record.fabric.legs:
        if leg.surface == surface.id and leg.up == leg.to_up:
            ups.setdefault(round(leg.up, 1), leg.id)
    alongs.setdefault(seen.width, "end")
    ups.setdefault(seen.left, "top")
    yield from _across(alongs, seen)
    yield from _upward(ups, seen)


def _across(alongs: dict[float, str], seen: View) -> Iterator[Part]:
    base = seen.at(0, 0)[1] + 5
    yield Line((seen.at(0, 0)[0], base), (seen.at(seen.width, 0)[0], base), "dimension-line")
    marks = [(seen.at(x, 0)[0], x) for x in sorted({0.0, *alongs})]
    for row, (x, value) in _rows(marks, lambda text: wide(text, _SIZE) + 1.2):
        y = base + 3 + row * 3.4
        name = alongs.get(value, "corner")
        yield Line((x, seen.at(0, 0)[1]), (x, y - 1.4), "dimension-along", name, 0.1, ink=GREY)
        yield _tick((x, base))
        yield Words((x, y), f"{value:g}", _SIZE, "middle", ground=True)


def _upward(ups: dict[float, str], seen: View) -> Iterator[Part]:
    base = seen.at(0, 0)[0] - 5
    yield Line((base, seen.at(0, 0)[1]), (base, seen.at(0, seen.left)[1]), "dimension-line")
    marks = [(seen.at(0, y)[1], y) for y in sorted({0.0, *ups})]
    for column, (y, value) in _rows(marks, lambda _: _SIZE + 0.6):
        x = base - 2 - column * 6.0
        name = ups.get(value, "floor")
        yield Line((seen.at(0, 0)[0], y), (x + 0.5, y), "dimension-up", name, 0.1, ink=GREY)
        yield _tick((base, y))
        yield Words((x, y), f"{value:g}", _SIZE, "end", ground=True)


def _rows(
    marks: Iterable[tuple[float, float]], room: Callable[[str], float]
) -> Iterator[tuple[int, tuple[float, float]]]:
    """Yield each mark with the first row in which its figure lies on no other."""
    taken: list[list[tuple[float, float]]] = [[] for _ in range(_ROWS)]
    for at, value in marks:
        half = room(f"{value:g}") / 2
        row = next(
            (
                number
                for number, spans in enumerate(taken)
                if all(at + half <= low or at - half >= high for low, high in spans)
            ),
            _ROWS - 1,
        )
        taken[row].append((at - half, at + half))
        yield row, (at, value)


def _tick(at: Spot) -> Line:
    x, y = at
    return Line((x - 0.8, y + 0.8), (x + 0.8, y - 0.8), "tick", thick=0.3)


def scale_bar(seen: View, at: Spot) -> Iterator[Part]:
    """Return a bar of a whole number of metres, or of 100 mm on a large drawing."""
    long = 1000.0 if seen.scale >= 20 else 100.0
    x, y = at
    paper = long / seen.scale
    yield Line((x, y), (x + paper, y), "scale-bar", f"{long:g}", 0.6)
    for count in range(6):
        left = x + paper * count / 5
        yield Line((left, y - 1), (left, y), "scale-tick", thick=0.2)
    yield Words((x + paper + 2, y - 0.5), f"{long:g} mm", 2.5)
