"""The legend of a drawing, and how cables of different circuits are told apart without colour."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from records.document.walls.scale import Paper
from records.document.walls.shapes import GREY, PALE, Line, Part, Ring, Shape, Words, rectangle
from records.model.record import Record


@dataclass(frozen=True, slots=True)
class Pen:
    """How the cables of a circuit are drawn."""

    thick: float
    dash: tuple[float, ...]
    ink: str


PENS = (
    Pen(0.5, (), "#000000"),
    Pen(0.9, (), "#1f5f8b"),
    Pen(0.6, (4, 1.2), "#5b2a86"),
    Pen(0.6, (1.2, 1.2), "#7a4b00"),
    Pen(0.6, (6, 1.2, 1.2, 1.2), "#00695c"),
    Pen(1.1, (2, 1), "#444444"),
)
"""No verdict's colour among them; line kinds and numbers say the same."""

_FOOT = (
    "Figures count; measure nothing off this page. Prove cables dead before you cut or drill. "
    "Signs are Farboard's, none of IEC 60617. A record, no certificate."
)
_ROW = 4.4
_ROWS = 4


def legend(
    record: Record, pens: Mapping[str | None, Pen], paper: Paper, *, strips: bool, zones: bool
) -> Iterator[Part]:
    """Return the legend at the foot of a page.

    Args:
        record: The job.
        pens: How each circuit is drawn; None is the feed.
        paper: How the page is laid out.
        strips: Whether the drawing shows strips to keep out of, rather than zones.
        zones: Whether the surface is one that has zones.
    """
    names = {each.id: f"{each.id} {each.name}".strip() for each in record.circuits}
    rows: list[tuple[Part, str]] = []
    for circuit, pen in pens.items():
        line = Line((0, 0), (10, 0), "sample", circuit or "feed", pen.thick, pen.dash, pen.ink)
        rows.append((line, "Feed" if circuit is None else names.get(circuit, circuit)))
    if strips:
        area: Part = Shape(rectangle(0, -1.5, 10, 1.5), "key", ink=GREY, dash=(1, 0.6), fill=PALE)
        rows.append((area, "no screw: 50 mm beside a cable"))
    elif zones:
        area = Shape(rectangle(0, -1.5, 10, 1.5), "key", ink=None, fill="#e6f0e6")
        rows.append((area, "safe zone, 522.6.202"))
        rows.append((Words((5, 0), "×", 4.5, "middle"), "cable outside every zone"))
    rows.append((Ring((5, 0), 0.8, "key", fill="#ffffff"), "hole through timber"))
    dashed = Shape(rectangle(2, -1.3, 8, 1.3), "key", ink=GREY, dash=(0.6, 0.6))
    rows.append((dashed, "box on the other side"))
    for number, (part, words) in enumerate(rows):
        column, row = divmod(number, _ROWS if paper.titled else 3)
        x, y = paper.legend[0] + column * paper.column, paper.legend[1] + row * _ROW
        yield _moved(part, x, y)
        yield Words((x + 13, y), words[: 40 if paper.titled else 24], 2.5)
    if paper.titled:
        yield Words((32, 204), _FOOT, 2.4)


def _moved(part: Part, x: float, y: float) -> Part:
    match part:
        case Line():
            (x0, y0), (x1, y1) = part.start, part.end
            return Line(
                (x0 + x, y0 + y),
                (x1 + x, y1 + y),
                part.kind,
                part.name,
                part.thick,
                part.dash,
                part.ink,
            )
        case Shape():
            corners = tuple((a + x, b + y) for a, b in part.corners)
            return Shape(corners, part.kind, part.name, part.thick, part.dash, part.ink, part.fill)
        case Ring():
            centre = (part.centre[0] + x, part.centre[1] + y)
            return Ring(centre, part.radius, part.kind, part.name, part.thick, part.fill)
        case Words():
            return Words((part.at[0] + x, part.at[1] + y), part.text, part.size, part.anchor)
