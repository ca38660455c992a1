"""A drawing in millimetres that a word processor shows as shapes: sharp, searchable, in grey.

DrawingML (ECMA-376 part 1, sections 20.1 and 20.4; the shapes of word processors as Word 2010 and
later write them). All lines of one pen are one shape, each label is a text box.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from xml.sax.saxutils import escape, quoteattr

from records.document.text_width import width_of

EMU = 36000
"""English metric units in a millimetre."""
_A = "http://schemas.openxmlformats.org/drawingml/2006/main"
_WP = "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"
_MC = "http://schemas.openxmlformats.org/markup-compatibility/2006"
_OFFICE = "http://schemas.microsoft.com/office/word/2010"
_WPG, _WPS = f"{_OFFICE}/wordprocessingGroup", f"{_OFFICE}/wordprocessingShape"
_POINT = 0.3528
"""mm"""

Place = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, right, bottom [mm]."""
Pen = tuple[float, bool, str]
"""Width [pt], whether dashed, and how dark."""
BLACK, GREY, PALE, FAINT, WHITE = "000000", "6E6E6E", "B4B4B4", "E2E2E2", "FFFFFF"


class Sheet:
    """A sheet of a width and a height [mm]."""

    def __init__(self, width: float, height: float) -> None:
        """Take an empty sheet."""
        self.width, self.height = width, height
        self._lines: dict[Pen, list[tuple[Place, ...]]] = {}
        self._boxes: list[tuple[Box, str, float, str]] = []
        self._marks: list[tuple[Box, str, float, str]] = []
        self._labels: list[tuple[Box, str, bool, float, bool]] = []

    def line(
        self, *places: Place, thick: float = 0.75, dashed: bool = False, ink: str = BLACK
    ) -> None:
        """Draw from place to place; `thick` in points."""
        self._lines.setdefault((thick, dashed, ink), []).append(places)

    def box(self, box: Box, *, fill: str = WHITE, thick: float = 0.75) -> None:
        """Draw a filled box below all lines; with `thick` 0 it has no edge."""
        self._boxes.append((box, fill, thick, "rect"))

    def mark(self, place: Place, shape: str, *, fill: str = WHITE, size: float = 1.1) -> None:
        """Mark a place above all lines (`rect`, `diamond`, `ellipse`); `size` [mm]: half of it."""
        x, y = place
        self._marks.append(((x - size, y - size, x + size, y + size), fill, 0.75, shape))

    def hatch(self, box: Box, *, gap: float = 1.0, ink: str = GREY) -> None:
        """Fill a box with slanting lines."""
        left, top, right, bottom = box
        tall = bottom - top
        at = left - tall
        while at < right:
            low, high = max(at, left), min(at + tall, right)
            if high > low:
                self.line(
                    (low, bottom - (low - at)), (high, bottom - (high - at)), thick=0.4, ink=ink
                )
            at += gap

    def free(self, box: Box, within: Box) -> bool:
        """Return whether a label may stand in a box: inside `within`, no label or mark there."""
        inside = (
            box[0] >= within[0]
            and box[1] >= within[1]
            and box[2] <= within[2]
            and box[3] <= within[3]
        )
        taken = [each[0] for each in self._labels] + [each[0] for each in self._marks]
        return inside and not any(_overlap(box, each) for each in taken)

    def label(
        self,
        place: Place,
        text: str,
        *,
        bold: bool = False,
        size: float = 8.0,
        anchor: str = "middle",
        ground: bool = False,
    ) -> Box:
        """Write a line of text whose middle, left or right end stands at a place; return its box.

        Args:
            place: Of the anchor, at half the height of the letters.
            text: One line.
            bold: Whether in heavy letters.
            size: Of the letters [pt].
            anchor: middle, left or right.
            ground: Whether it clears what lies behind it.
        """
        wide = width_of(text, size, bold=bold) + 0.6
        left = place[0] - {"middle": wide / 2, "left": 0.0, "right": wide}[anchor]
        half = size * _POINT * 0.62
        box = (left, place[1] - half, left + wide, place[1] + half)
        self._labels.append((box, text, bold, size, ground))
        return box

    def faults(self) -> list[str]:
        """Return the labels that cross a line, another label or the edge of the sheet."""
        found = []
        for at, (box, text, _, _, ground) in enumerate(self._labels):
            if box[0] < -0.05 or box[1] < 0 or box[2] > self.width + 0.05 or box[3] > self.height:
                found.append(f"“{text}” is over the edge")
            for other, words, *_ in self._labels[at + 1 :]:
                if _overlap(box, other):
                    found.append(f"“{text}” is over “{words}”")
            for lines in () if ground else self._lines.values():
                for one, two in (pair for line in lines for pair in pairwise(line)):
                    if _overlap(
                        box,
                        (
                            min(one[0], two[0]),
                            min(one[1], two[1]),
                            max(one[0], two[0]),
                            max(one[1], two[1]),
                        ),
                    ):
                        found.append(f"“{text}” is over a line")
        return found

    def xml(self, name: str, words: str) -> str:
        """Return the drawing as it stands in a run.

        Args:
            name: What it is called.
            words: What it shows, for whoever can't see it.
        """
        wide, tall = round(self.width * EMU), round(self.height * EMU)
        shapes = [_rect(*each) for each in self._boxes]
        shapes += [_path(pen, lines, wide, tall) for pen, lines in self._lines.items()]
        shapes += [_rect(*each) for each in self._marks]
        shapes += [_text(*each) for each in self._labels]
        numbered = "".join(
            each.replace("<wps:cNvPr ", f'<wps:cNvPr id="{at}" name="shape {at}"', 1)
            for at, each in enumerate(shapes, start=2)
        )
        about = f"name={quoteattr(name)} descr={quoteattr(words)}"
        return (
            f'<mc:AlternateContent xmlns:mc="{_MC}"><mc:Choice Requires="wpg" xmlns:wpg="{_WPG}">'
            f'<w:drawing xmlns:wp="{_WP}" xmlns:a="{_A}" xmlns:wps="{_WPS}"><wp:inline distT="0" '
            f'distB="0" distL="0" distR="0"><wp:extent cx="{wide}" cy="{tall}"/>'
            f'<wp:docPr id="1" {about}/><wp:cNvGraphicFramePr/><a:graphic><a:graphicData '
            f'uri="{_WPG}"><wpg:wgp><wpg:cNvGrpSpPr/><wpg:grpSpPr><a:xfrm><a:off x="0" y="0"/>'
            f'<a:ext cx="{wide}" cy="{tall}"/><a:chOff x="0" y="0"/><a:chExt cx="{wide}" '
            f'cy="{tall}"/></a:xfrm></wpg:grpSpPr>{numbered}</wpg:wgp></a:graphicData></a:graphic>'
            f"</wp:inline></w:drawing></mc:Choice><mc:Fallback><w:t>{escape(words)}</w:t>"
            "</mc:Fallback></mc:AlternateContent>"
        )


def _path(pen: Pen, lines: Iterable[tuple[Place, ...]], wide: int, tall: int) -> str:
    thick, dashed, ink = pen
    drawn = "".join(_stroke(each) for each in lines)
    dash = '<a:prstDash val="dash"/>' if dashed else ""
    return (
        f"<wps:wsp><wps:cNvPr /><wps:cNvSpPr/><wps:spPr>{_frame((0, 0, wide, tall))}<a:custGeom>"
        '<a:avLst/><a:gdLst/><a:ahLst/><a:cxnLst/><a:rect l="0" t="0" r="r" b="b"/><a:pathLst>'
        f'<a:path w="{wide}" h="{tall}" fill="none">{drawn}</a:path></a:pathLst></a:custGeom>'
        f'<a:noFill/><a:ln w="{round(thick * 12700)}"><a:solidFill><a:srgbClr val="{ink}"/>'
        f"</a:solidFill>{dash}<a:round/></a:ln></wps:spPr><wps:bodyPr/></wps:wsp>"
    )


def _stroke(places: tuple[Place, ...]) -> str:
    points = [f'<a:pt x="{round(x * EMU)}" y="{round(y * EMU)}"/>' for x, y in places]
    rest = "".join(f"<a:lnTo>{each}</a:lnTo>" for each in points[1:])
    return f"<a:moveTo>{points[0]}</a:moveTo>{rest}"


def _rect(box: Box, fill: str, thick: float, shape: str) -> str:
    edge = '<a:solidFill><a:srgbClr val="000000"/></a:solidFill>' if thick else "<a:noFill/>"
    return (
        f"<wps:wsp><wps:cNvPr /><wps:cNvSpPr/><wps:spPr>{_frame(_emu(box))}<a:prstGeom "
        f'prst="{shape}"><a:avLst/></a:prstGeom>'
        f'<a:solidFill><a:srgbClr val="{fill}"/></a:solidFill>'
        f'<a:ln w="{round(thick * 12700)}">{edge}</a:ln></wps:spPr><wps:bodyPr/></wps:wsp>'
    )


def _text(box: Box, text: str, bold: bool, size: float, ground: bool) -> str:
    fill = '<a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill>' if ground else "<a:noFill/>"
    heavy = "<w:b/>" if bold else ""
    return (
        f'<wps:wsp><wps:cNvPr /><wps:cNvSpPr txBox="1"/><wps:spPr>{_frame(_emu(box))}<a:prstGeom '
        f'prst="rect"><a:avLst/></a:prstGeom>{fill}<a:ln><a:noFill/></a:ln></wps:spPr>'
        '<wps:txbx><w:txbxContent><w:p><w:pPr><w:pStyle w:val="Drawingtext"/></w:pPr><w:r><w:rPr>'
        f'{heavy}<w:sz w:val="{round(size * 2)}"/></w:rPr><w:t xml:space="preserve">{escape(text)}'
        '</w:t></w:r></w:p></w:txbxContent></wps:txbx><wps:bodyPr wrap="none" lIns="0" tIns="0" '
        'rIns="0" bIns="0" anchor="ctr"><a:noAutofit/></wps:bodyPr></wps:wsp>'
    )


def _frame(box: tuple[int, int, int, int]) -> str:
    left, top, right, bottom = box
    return (
        f'<a:xfrm><a:off x="{left}" y="{top}"/><a:ext cx="{right - left}" cy="{bottom - top}"/>'
        "</a:xfrm>"
    )


def _emu(box: Box) -> tuple[int, int, int, int]:
    left, top, right, bottom = (round(each * EMU) for each in box)
    return left, top, right, bottom


def _overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
