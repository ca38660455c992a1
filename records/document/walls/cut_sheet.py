"""The sheet for the person with the saw: every hole of a surface, in words and as a page."""

from __future__ import annotations

from textwrap import wrap

from records.document.walls.drawing import drawing
from records.document.walls.scale import CUT
from records.document.walls.shapes import GREY, Line, Page, Shape, Words, rectangle
from records.judgement.fabric.cutouts import Behind, CutOut, cut_outs
from records.judgement.fabric.fixings import keep_out
from records.judgement.fabric.legs import surface_name
from records.judgement.fabric.memory import MARK
from records.model.fabric import Surface
from records.model.record import Record

_SIGN = {"left": "←", "right": "→", "above": "↑", "below": "↓"}
_HEAD = ("hole", "size", "along", "up", "edges along", "edges up", "cable behind")


def cut_rows(cut: CutOut, *, arrows: bool = True) -> tuple[str, ...]:
    """Return the cells of a hole: name, size, centre, edges, what is behind.

    Args:
        cut: The hole.
        arrows: Whether the sides of a cable are arrows, or words for a font that has none.
    """
    edges = cut.edges
    wide, high = edges.right - edges.left, edges.top - edges.bottom
    size = f"ø{wide:g}" if cut.is_round else f"{wide:g} × {high:g}"
    x, y = edges.centre
    return (
        f"{cut.name} ({MARK})" if cut.memory else cut.name,
        size,
        f"{x:g}",
        f"{y:g}",
        f"{edges.left:g} – {edges.right:g}",
        f"{edges.bottom:g} – {edges.top:g}",
        "; ".join(_behind(each, arrows=arrows) for each in cut.behind) or "none entered",
    )


def _behind(behind: Behind, *, arrows: bool) -> str:
    deep = "depth not entered" if behind.deep is None else f"{behind.deep:g} deep"
    signs = "".join(_SIGN[each] for each in behind.sides)
    sides = signs if arrows else ", ".join(behind.sides)
    return " ".join(each for each in (behind.circuit, sides or "in the hole", deep) if each)


def plunge_words(surface: Surface) -> str:
    """Return how deep the blade may go, with its ground."""
    if surface.board is None:
        return "Board thickness not entered: set the blade to the board and no deeper."
    return f"Plunge no deeper than the board: {surface.board:g} mm (common practice)."


def cut_text(record: Record, surface: Surface, *, from_far: bool = False) -> str:
    """Return the cut-out sheet of a surface in words, then where no screw belongs.

    Args:
        record: The job.
        surface: One of its surfaces.
        from_far: Whether to measure from the other corner.
    """
    far = from_far and surface.width is not None
    corner = "the other corner" if far else surface.corner
    rows = [_HEAD, *(cut_rows(each) for each in cut_outs(record, surface, from_far=from_far))]
    wide = [max(len(row[at]) for row in rows) for at in range(len(_HEAD))]
    size = (
        ""
        if surface.width is None or surface.height is None
        else (f" · {surface.width:g} × {surface.height:g}")
    )
    lines = [
        f"CUT-OUT SHEET · {surface_name(surface)}{size}",
        f"Along from {corner}, up from finished floor, in mm; along and up to the middle.",
        "",
    ]
    for number, row in enumerate(rows):
        cells = "  ".join(cell.ljust(room) for cell, room in zip(row, wide, strict=True))
        lines.append(f"{'[ ]' if number else '   '} {cells}".rstrip())
    if len(rows) == 1:
        lines.append("    No hole is entered for this surface.")
    lines += ["", plunge_words(surface), ARROWS, "", *keep_out_lines(record, surface)]
    return "\n".join(lines)


PROVE = "Prove cables dead before you cut."
ARROWS = f"Arrows: on which side of the hole the cable lies. {PROVE}"


def keep_out_lines(record: Record, surface: Surface) -> list[str]:
    """Return in words where no screw belongs."""
    strips = keep_out(record, surface)
    if not strips:
        return ["Fixings: no cable is entered behind this surface."]
    return ["FIXINGS: no screw or nail here", *(f"  {each}" for each in dict.fromkeys(strips))]


_ACROSS = (12.0, 46.0, 70.0, 88.0, 106.0, 142.0, 178.0)
_TOP, _STEP = 146.0, 4.6
"""Where the first hole is on the first page, under the drawing, and how far the next one is."""
_WIDE = 74
"""Characters of what is behind a hole in one line."""
_FIRST = 9
"""Holes that find room under the drawing."""
_FITS = 34
"""Holes that find room on a further page."""


def cut_pages(record: Record, surface: Surface, *, from_far: bool = False) -> list[Page]:
    """Return the cut-out sheet: the strips to keep out of with the holes to tick off below them.

    It is one page, unless there are more holes than find room.
    """
    cuts = cut_outs(record, surface, from_far=from_far)
    first = drawing(record, surface, strips=True, paper=CUT)
    first.title = f"{surface_name(surface)}: cut-out sheet"
    _table(first, surface, cuts[:_FIRST], _TOP, from_far=from_far)
    pages = [first]
    for begin in range(_FIRST, len(cuts), _FITS):
        page = Page(title=f"{surface_name(surface)}: cut-out sheet, continued")
        page.add(Words((12, 10), f"{surface_name(surface)} · Cut-out sheet", 4.2, bold=True))
        _table(page, surface, cuts[begin : begin + _FITS], 30.0, from_far=from_far)
        pages.append(page)
    return pages


def _table(
    page: Page, surface: Surface, cuts: tuple[CutOut, ...], top: float, *, from_far: bool
) -> None:
    far = from_far and surface.width is not None
    corner = "the other corner" if far else surface.corner
    # In the line of the plunge depth, for the table measures from the corner that is asked for and
    # the drawing from the surface's own.
    words = f"Holes: along from {corner}, up from finished floor, in mm. {plunge_words(surface)}"
    page.add(Words((12, top - 9), words, 2.8))
    for x, word in zip(_ACROSS, _HEAD, strict=True):
        page.add(Words((x + 6, top - 4.2), word, 2.5, bold=True))
    y = top
    for cut in cuts:
        page.add(Shape(rectangle(12, y - 1.6, 15.2, y + 1.6), "tick-box", cut.name))
        *cells, behind = cut_rows(cut, arrows=False)
        page.add(*(Words((x + 6, y), cell, 2.5) for x, cell in zip(_ACROSS, cells, strict=False)))
        for number, line in enumerate(wrap(behind, _WIDE)):
            y += 3.4 if number else 0.0
            page.add(Words((_ACROSS[-1] + 6, y), line, 2.5))
        page.add(Line((12, y + 2.3), (285, y + 2.3), "rule", thick=0.1, ink=GREY))
        y += _STEP
    if not cuts:
        page.add(Words((18, top), "No hole is entered for this surface.", 2.5))
    if top != _TOP:
        page.add(Words((12, y + 3), PROVE, 2.8))
