"""A surface in box-drawing characters: figures are the truth, the picture says where to look."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from records.expected.boxes import Placed, hole, placed, plate
from records.expected.formulas.zones import Zone, top_at
from records.judgement.fabric.from_behind import seen_from_back
from records.judgement.fabric.legs import point_on, run_of, surface_name
from records.judgement.fabric.memory import MARK, from_memory, leg_from_memory
from records.judgement.fabric.zones import WALLS, zone_gaps, zones
from records.model.fabric import Box, Surface
from records.model.record import Record
from tui.widgets.wall_grid import PLAIN, Cell, Grid

SCALES = (5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 400, 600)
"""mm of wall in one column; a row is twice as many."""
_LEFT, _TOP, _FOOT = 5, 1, 3
_MOST_ROWS = 2
LEAST = (40, 14)
"""Cells below which a picture says nothing."""
_GLYPHS = {
    Box.ONE_GANG: "□",
    Box.TWO_GANG: "■",
    Box.ROUND: "○",
    Box.LAMP: "○",
    Box.BOARD: "▓",
    Box.JOINT: "□",
    Box.FREE_JOINT: "□",
    None: "□",
}


@dataclass(slots=True)
class Seen:
    """How a surface is looked at."""

    scale: int = 0
    """mm a column; 0: as much as fits."""
    column: int = 0
    """First column of the surface that is shown."""
    row: int = 0
    """First row, from the top."""
    at: int = 0
    """Which of the placed things the cursor is on."""
    circuit: str | None = None
    """The one circuit that is shown alone; None: all."""
    zones: bool = False
    """Whether the zones are filled."""
    behind: bool = False
    """Whether it is seen from its other face."""
    far: bool = False
    """Whether it is measured from the other corner."""


def size_of(surface: Surface) -> tuple[float, float] | None:
    """Return width and greatest height [mm]; None while they aren't entered."""
    if surface.width is None or surface.height is None or not surface.width:
        return None
    return surface.width, max(surface.height, surface.height_far or 0.0)


def fitting(surface: Surface, width: int, height: int) -> int:
    """Return the smallest scale at which a whole surface fits into so many cells."""
    size = size_of(surface) or (1000.0, 1000.0)
    inner = width - _LEFT - 1, height - _TOP - _FOOT
    return next(
        (s for s in SCALES if size[0] / s <= inner[0] and size[1] / (2 * s) <= inner[1]), SCALES[-1]
    )


def things(record: Record, surface: Surface) -> list[Placed]:
    """Return what the cursor can stand on, from left to right."""
    return sorted(placed(record, surface), key=lambda each: (each.spot.along, each.spot.up))


def picture(
    record: Record, surface: Surface, seen: Seen, width: int, height: int, *, plain: bool
) -> list[list[tuple[str, str]]]:
    """Return the rows of a picture, each as stretches of one style.

    Args:
        record: The job.
        surface: One of its surfaces, with width and height.
        seen: How it is looked at; its first column and row are brought onto the surface.
        width: In cells.
        height: In cells.
        plain: Whether to do with ASCII alone.
    """
    turned, view = seen.behind, seen
    if turned:
        record, surface, view = _from_behind(record, surface, seen)
    size = size_of(surface)
    if size is None or width < LEAST[0] or height < LEAST[1]:
        words = "Enter width and height first." if size is None else "Too small for a picture."
        return [[(words[:width], "")]]
    painter = _Painter(record, surface, view, (width, height), size, plain, turned)
    seen.column, seen.row = view.column, view.row
    return list(painter.rows())


def _from_behind(record: Record, surface: Surface, seen: Seen) -> tuple[Record, Surface, Seen]:
    """Return what is seen from the other face; the cursor stays on its thing."""
    here = things(record, surface)
    record, surface = seen_from_back(record, surface)
    names = [each.name for each in things(record, surface)]
    name = here[seen.at].name if seen.at < len(here) else ""
    at = names.index(name) if name in names else 0
    return record, surface, replace(seen, at=at, behind=False)


class _Painter:
    """One picture."""

    def __init__(
        self,
        record: Record,
        surface: Surface,
        seen: Seen,
        room: Cell,
        size: tuple[float, float],
        plain: bool,
        turned: bool,
    ) -> None:
        self.record, self.surface, self.seen = record, surface, seen
        self.wide, self.high = size
        self.scale = seen.scale or fitting(surface, *room)
        columns, rows = -(-self.wide // self.scale), -(-self.high // (2 * self.scale))
        self.columns = int(min(columns, room[0] - _LEFT - 1))
        self.lines = int(min(rows, room[1] - _TOP - _FOOT))
        seen.column = max(0, min(seen.column, int(columns) - self.columns))
        seen.row = max(0, min(seen.row, int(rows) - self.lines))
        self.grid = Grid(self.columns, self.lines, plain)
        self.plain = plain
        self.things = things(record, surface)
        self.legs = [
            each
            for each in record.fabric.legs
            if each.surface == surface.id
            and run_of(record, each) is not None
            and seen.circuit in (None, each.circuit or "feed")
        ]
        # Nobody sees this face's points from behind: they make no zones there.
        has_zones = surface.kind in WALLS and not turned
        self.zones = tuple(zones(record, surface)) if has_zones else ()

    def cell(self, along: float, up: float) -> Cell:
        """Return the cell of a place; a place on the far edge is in the last one."""
        column = min(int(along // self.scale), int(-(-self.wide // self.scale)) - 1)
        row = int((self.high - up) // (2 * self.scale))
        last = int(-(-self.high // (2 * self.scale))) - 1
        return column - self.seen.column, max(0, min(row, last)) - self.seen.row

    def rows(self) -> Iterator[list[tuple[str, str]]]:
        """Paint, and yield the rows with frame and figures."""
        self._slope()
        if self.seen.zones:
            self._zones()
        for each in self.things:
            if each.is_opening:
                self._opening(each)
        for leg in self.legs:
            end = self.cell(leg.to_along, leg.to_up)
            self.grid.cable(leg.circuit or "feed", self.cell(leg.along, leg.up), end)
        self._signs()
        named = self._boxes()
        self._numbers()
        yield from self._framed(named)

    def _slope(self) -> None:
        far = self.surface.height_far
        if far is None or self.surface.height is None:
            return
        for column in range(self.columns):
            along = (column + self.seen.column + 0.5) * self.scale
            top = top_at(along, self.wide, self.surface.height, far)
            row = self.cell(along, top)[1]
            self.grid.shade((column, row), "·")

    def _zones(self) -> None:
        """Fill what a zone touches: whole rows and columns, then the top."""
        rows, columns = self._rows_held(), self._columns_held()
        top = [each for each in self.zones if each.why.startswith("150 mm below")]
        for column in range(self.columns):
            for row in range(self.lines):
                if column in columns or row in rows or self._is_in(top, column, row):
                    self.grid.shade((column, row), "░")

    def _is_in(self, zones: list[Zone], column: int, row: int) -> bool:
        x, y = self._middle(column, row)
        return any(_holds(each, x, y) for each in zones)

    def _middle(self, column: int, row: int) -> tuple[float, float]:
        x = (column + self.seen.column + 0.5) * self.scale
        return x, self.high - (row + self.seen.row + 0.5) * 2 * self.scale

    def _opening(self, each: Placed) -> None:
        cut = hole(each.spot)
        left, top = self.cell(cut.left, cut.top)
        right, bottom = self.cell(cut.right - 1, cut.bottom + 1)
        for row in range(top, bottom + 1):
            inner = "─" if row == top else " "
            for column in range(left, right + 1):
                edge = column in (left, right)
                corner = "┌" if column == left else "┐"
                self.grid.write(
                    (column, row),
                    corner if edge and row == top else "│" if edge else inner,
                    "$quiet",
                )
        middle = ((left + right - len(each.name)) // 2 + 1, (top + bottom) // 2)
        self.grid.write(middle, each.name[: max(right - left - 1, 0)], "$quiet")

    def _signs(self) -> None:
        """Holes in timber, and crosses on what lies outside every zone."""
        gaps = _gaps_of(self.record, self.surface, self.zones) if self.zones else {}
        for leg in self.legs:
            for each in leg.holes:
                self.grid.write(self.cell(*point_on(leg, each.at)), "◦")
            for low, high in gaps.get(leg.id, ()):
                for at in _spaced(low, high, 4 * self.scale):
                    self.grid.write(self.cell(*point_on(leg, at)), "×", "bold $error")

    def _boxes(self) -> set[str]:
        """Draw what is placed; return the names that found room."""
        named: set[str] = set()
        order = sorted(range(len(self.things)), key=lambda at: at != self.seen.at)
        for at in order:
            each = self.things[at]
            if not each.is_opening:
                self._box(each, here=at == self.seen.at)
        for at in order:
            each, style = self.things[at], "reverse" if at == self.seen.at else "bold"
            wide = max(1, int((plate(each.spot).right - plate(each.spot).left) // self.scale))
            name = each.name.partition(" ")[0] if each.circuit else each.name
            name = f"{name}?" if from_memory(self.surface, each.spot) else name
            if each.is_opening or self.grid.label(self._corner(each), name, style, wide=wide):
                named.add(each.name)
        return named

    def _corner(self, each: Placed) -> Cell:
        seen, middle = plate(each.spot), hole(each.spot).centre
        wide = int((seen.right - seen.left) // self.scale)
        left = seen.left if wide > 1 else middle[0]
        return self.cell(left, middle[1])

    def _box(self, each: Placed, *, here: bool) -> None:
        seen = plate(each.spot)
        wide = max(1, int((seen.right - seen.left) // self.scale))
        glyph = _GLYPHS[each.spot.box]
        text = glyph if wide == 1 else f"[{'#' * (wide - 2)}]" if wide > 2 else "[]"
        self.grid.write(self._corner(each), text, "reverse" if here else "bold")

    def _numbers(self) -> None:
        for leg in self.legs:
            name = leg.circuit or "feed"
            text = name[1:] if leg.circuit else "F"
            text = f"{text}?" if leg_from_memory(self.surface, leg) else text
            (x0, y0), (x1, y1) = (
                self.cell(leg.along, leg.up),
                self.cell(leg.to_along, leg.to_up),
            )
            steps = max(abs(x1 - x0), abs(y1 - y0))
            if steps < 3:
                continue
            for away in range(steps // 2):
                for at in {steps // 2 - away, steps // 2 + away}:
                    cell = x0 + (x1 - x0) * at // steps, y0 + (y1 - y0) * at // steps
                    if self.grid.is_free(cell, len(text), over=name):
                        self.grid.write(cell, text)
                        break
                else:
                    continue
                break

    # The frame with its figures.

    def _framed(self, named: set[str]) -> Iterator[list[tuple[str, str]]]:
        goes_on = self.columns * self.scale < self.wide or self.lines * 2 * self.scale < self.high
        title = f" {surface_name(self.surface)} "[: max(self.columns - 18, 8)]
        scale = f" 1 column {self.scale} mm "
        across = "╌" if goes_on else "─"
        top = (f"{across}{title}").ljust(max(self.columns - len(scale), 0), across) + scale
        yield [(self._p(f"{' ' * (_LEFT - 1)}┌{top[: self.columns]}┐"), "")]
        ups, rows_held, columns_held = self._up_figures(), self._rows_held(), self._columns_held()
        for row, line in enumerate(self.grid.rows()):
            figure, style = ups.get(row, ("", ""))
            edge = "┤" if figure else "│"
            yield [
                (figure.rjust(_LEFT - 1), style),
                (self._p(edge), ""),
                *line,
                (self._p("║" if row in rows_held else "│"), ""),
            ]
        floor = "".join("═" if column in columns_held else "─" for column in range(self.columns))
        yield [(self._p(f"{' ' * (_LEFT - 1)}└{floor}┘"), "")]
        yield from self._along_figures()

    def _p(self, text: str) -> str:
        return text.translate(PLAIN) if self.plain else text

    def _rows_held(self) -> set[int]:
        """Return the rows that a zone holds all along: those level with a point."""
        step = 2 * self.scale
        held: set[int] = set()
        for zone in self.zones:
            if zone.why.startswith("level with"):
                low, high = -zone.sides[2][2], zone.sides[3][2]
                first, last = (int((self.high - each) // step) for each in (high, low))
                held.update(range(first - self.seen.row, last + 1 - self.seen.row))
        return held

    def _columns_held(self) -> set[int]:
        """Return the columns that a zone holds from floor to top: points above, and corners."""
        held: set[int] = set()
        for zone in self.zones:
            if not zone.why.startswith(("level with", "150 mm below")):
                low, high = -zone.sides[0][2], zone.sides[1][2]
                first, last = int(low // self.scale), int(high // self.scale)
                held.update(range(first - self.seen.column, last + 1 - self.seen.column))
        return held

    def _up_figures(self) -> dict[int, tuple[str, str]]:
        found: dict[int, tuple[str, str]] = {}
        order = sorted(range(len(self.things)), key=lambda at: at != self.seen.at)
        for at in order:
            each = self.things[at]
            row = self.cell(each.spot.along, hole(each.spot).centre[1])[1]
            here = at == self.seen.at
            if 0 <= row < self.lines and row not in found and not each.is_opening:
                found[row] = (f"{each.spot.up:g}"[: _LEFT - 1], "reverse" if here else "")
        return found

    def _along(self, each: Placed) -> float:
        """Return how far along a thing is, from the corner that is measured from."""
        return self.wide - each.spot.along if self.seen.far else each.spot.along

    def _along_figures(self) -> Iterator[list[tuple[str, str]]]:
        grids = [Grid(self.columns + _LEFT + 1, 1, self.plain) for _ in range(_MOST_ROWS)]
        order = sorted(range(len(self.things)), key=lambda at: at != self.seen.at)
        for at in order:
            each = self.things[at]
            column = self.cell(each.spot.along, 0)[0]
            text = f"{self._along(each):g}"
            begin = max(0, column + _LEFT - len(text) // 2)
            if not 0 <= column < self.columns:
                continue
            for grid in grids:
                before = max(begin - 1, 0)
                if grid.is_free((before, 0), min(len(text) + 2, grid.width - before)):
                    grid.write((begin, 0), text, "reverse" if at == self.seen.at else "")
                    break
        for grid in grids:
            yield from grid.rows()


_Gaps = dict[str, tuple[tuple[float, float], ...]]
_latest: tuple[Record | None, str, _Gaps] = (None, "", {})


def _gaps_of(record: Record, surface: Surface, zones: tuple[Zone, ...]) -> _Gaps:
    """Return what of each leg lies outside every zone: for one record and surface at a time.

    Kept until the record changes: worked out at each key, it would take most of the time.
    """
    global _latest
    if _latest[0] is not record or _latest[1] != surface.id:
        found = zone_gaps(record, surface, zones)
        _latest = (record, surface.id, found)
    return _latest[2]


def _holds(zone: Zone, x: float, y: float) -> bool:
    return all(a * x + b * y <= c for a, b, c in zone.sides)


def _spaced(low: float, high: float, step: float) -> Iterable[float]:
    count = max(1, int((high - low) // step))
    return (low + (high - low) * (each + 0.5) / count for each in range(count))


def words(record: Record, surface: Surface, seen: Seen) -> str:
    """Return what the cursor is on, in words: name, kind, both figures, its depth."""
    if not things(record, surface):
        return "Nothing is placed here yet."
    if seen.behind:
        record, surface, seen = _from_behind(record, surface, seen)
    found = things(record, surface)
    each = found[min(seen.at, len(found) - 1)]
    far = seen.far and surface.width is not None
    along = (surface.width or 0.0) - each.spot.along if far else each.spot.along
    corner = " from the other corner" if far else ""
    kind = "" if each.spot.box is None else f" {each.spot.box}"
    deep = "" if each.spot.deep is None else f" · box {each.spot.deep:g} deep"
    circuit = "" if each.circuit is None else f" · {each.circuit.id}"
    late = f" · {MARK} (?)" if from_memory(surface, each.spot) else ""
    return (
        f"{each.name}{kind} · {along:g} along{corner} · {each.spot.up:g} up "
        f"{each.spot.to}{circuit}{deep}{late}"
    )
