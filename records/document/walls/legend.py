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
_SAMPLE = 13.0
"""From a sample to its words [mm]."""
_LETTER = 1.4
"""Room for a letter [mm]; most are narrower."""
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
    down = _ROWS if paper.titled else _ROWS - 1
    across = paper.width - paper.legend[0]
    keys = list(_keys(strips=strips, zones=zones))
    circuits = list(_circuits(record, pens))
    if len(circuits) + len(keys) > down * int(across // paper.column):
        circuits = [(Words((5, 0), "C…", 2.5, "middle"), "each cable bears its number")]
    columns = -(-(len(circuits) + len(keys)) // down)
    wide = max(across / columns, paper.column)
    for number, (part, words) in enumerate([*circuits, *keys]):
        column, row = divmod(number, down)
        x, y = paper.legend[0] + column * wide, paper.legend[1] + row * _ROW
        yield _moved(part, x, y)
        fits = len(words) <= (wide - _SAMPLE) / _LETTER or number >= len(circuits)
        # A name is not cut short: the number stands for it, and the schedule names it in full.
        yield Words((x + _SAMPLE, y), words if fits else words.split()[0], 2.5)
    if paper.titled:
        yield Words((32, 204), _FOOT, 2.4)


def _circuits(record: Record, pens: Mapping[str | None, Pen]) -> Iterator[tuple[Part, str]]:
    names = {each.id: f"{each.id} {each.name}".strip() for each in record.circuits}
    for circuit, pen in pens.items():
        line = Line((0, 0), (10, 0), "sample", circuit or "feed", pen.thick, pen.dash, pen.ink)
        yield line, "Feed" if circuit is None else names.get(circuit, circuit)


def _keys(*, strips: bool, zones: bool) -> Iterator[tuple[Part, str]]:
    if strips:
        area: Part = Shape(rectangle(0, -1.5, 10, 1.5), "key", ink=GREY, dash=(1, 0.6), fill=PALE)
        yield area, "no screw: 50 mm beside a cable"
    elif zones:
        area = Shape(rectangle(0, -1.5, 10, 1.5), "key", ink=None, fill="#e6f0e6")
        yield area, "safe zone, 522.6.202"
        yield Words((5, 0), "×", 4.5, "middle"), "cable outside every zone"
    yield Ring((5, 0), 0.8, "key", fill="#ffffff"), "hole through timber"
    dashed = Shape(rectangle(2, -1.3, 8, 1.3), "key", ink=GREY, dash=(0.6, 0.6))
    yield dashed, "box on the other side"


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
