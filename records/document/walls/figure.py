"""A surface as a figure of the schedule: the same drawing, as shapes of a word processor."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from records.document.shapes import Box, Sheet
from records.document.walls.cut_sheet import keep_out_lines
from records.document.walls.drawing import drawing, measured
from records.document.walls.scale import FIGURE, view
from records.document.walls.shapes import Line, Part, Ring, Shape, Spot, Words
from records.expected.boxes import placed
from records.judgement.fabric.legs import leg_name, run_of, surface_name
from records.judgement.fabric.memory import MARK, from_memory, leg_from_memory
from records.model.fabric import Surface
from records.model.record import Record

_POINTS = 2.835
"""In a millimetre."""
_ANCHOR = {"start": "left", "middle": "middle", "end": "right"}


def surface_figures(record: Record) -> list[dict[str, Any]]:
    """Return each surface with a size as a figure: its title, its words, its drawing."""
    return [_figure(record, each) for each in record.fabric.surfaces if each.width and each.height]


def _figure(record: Record, surface: Surface) -> dict[str, Any]:
    name = surface_name(surface)
    words = list(surface_words(record, surface))
    sheet = Sheet(FIGURE.width, FIGURE.height)
    for part in drawing(record, surface, paper=FIGURE).parts:
        _draw(sheet, part)
    said = f"{name}. {' '.join(words)}"
    return {
        "title": f"{name}: where the cables are",
        "words": words,
        "image": {"shapes": sheet.xml(name, said), "words": said},
    }


def surface_words(record: Record, surface: Surface) -> Iterator[str]:
    """Yield what a figure shows, in words: how it is measured, each box, each leg, each strip."""
    if surface.width and surface.height:
        far = surface.height if surface.height_far is None else surface.height_far
        yield measured(surface, view(surface.width, surface.height, far, FIGURE.room))
    boxes = [
        f"{each.name}: {each.spot.along:g} along, {each.spot.up:g} up {each.spot.to}"
        f"{_late(from_memory(surface, each.spot))}"
        for each in placed(record, surface)
    ]
    if boxes:
        yield f"{'; '.join(boxes)}."
    legs = []
    for leg in record.fabric.legs:
        run = run_of(record, leg)
        if run is not None and leg.surface == surface.id:
            where = leg_name(leg, surface).removeprefix(f"cable on {surface_name(surface)}, ")
            deep = "" if leg.deep is None else f", {leg.deep:g} deep"
            late = _late(leg_from_memory(surface, leg))
            legs.append(f"{leg.circuit or 'feed'}: {where}{deep}{late}")
    if legs:
        yield f"Cables (mm): {'; '.join(dict.fromkeys(legs))}."
    if not legs:
        yield keep_out_lines(record, surface)[0]


def _late(late: bool) -> str:
    return f" ({MARK})" if late else ""


def _draw(sheet: Sheet, part: Part) -> None:
    match part:
        case Line():
            sheet.line(
                part.start,
                part.end,
                thick=part.thick * _POINTS,
                dashed=bool(part.dash),
                ink=_ink(part.ink),
            )
        case Shape():
            _shape(sheet, part)
        case Ring():
            sheet.mark(part.centre, "ellipse", size=part.radius)
        case Words():
            _label(sheet, part)


def _shape(sheet: Sheet, part: Shape) -> None:
    xs, ys = zip(*part.corners, strict=True)
    box = (min(xs), min(ys), max(xs), max(ys))
    level = {(x in box[::2], y in box[1::2]) for x, y in part.corners} == {(True, True)}
    if part.fill is not None and level and len(part.corners) == 4:
        thick = part.thick * _POINTS if part.ink is not None and not part.dash else 0.0
        sheet.box(box, fill=_ink(part.fill), thick=thick)
        if thick:
            return
    if part.ink is not None or not level:
        ink = _ink(part.ink or "#bebebe")
        closed: tuple[Spot, ...] = (*part.corners, part.corners[0])
        sheet.line(*closed, thick=part.thick * _POINTS, dashed=bool(part.dash), ink=ink)


def _label(sheet: Sheet, part: Words) -> None:
    """Write words where no other stand; what finds no room is in the words below the figure."""
    inside: Box = (0.0, 0.0, sheet.width, sheet.height)
    size = part.size * _POINTS * 0.95
    trial = Sheet(sheet.width, sheet.height)
    box = trial.label(part.at, part.text, size=size, anchor=_ANCHOR[part.anchor])
    if sheet.free(box, inside):
        sheet.label(part.at, part.text, size=size, anchor=_ANCHOR[part.anchor], ground=True)


def _ink(colour: str) -> str:
    return colour.removeprefix("#").upper()
