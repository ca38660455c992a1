"""Pages as PNG or PDF, by way of dots: 254 to the inch."""

from __future__ import annotations

import io
import math
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from records.document.walls.shapes import Line, Page, Ring, Shape, Spot, Words

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageDraw import ImageDraw
    from PIL.ImageFont import FreeTypeFont, ImageFont

DOTS = 10.0
"""To each millimetre."""


def png(pages: Sequence[Page]) -> bytes:
    """Return pages, one below the other, as a PNG file."""
    from PIL import Image

    drawn = [_drawn(each) for each in pages]
    width, height = max(each.width for each in drawn), sum(each.height for each in drawn)
    whole = Image.new("RGB", (width, height), "#ffffff")
    top = 0
    for each in drawn:
        whole.paste(each, (0, top))
        top += each.height
    out = io.BytesIO()
    whole.quantize(64).save(out, "PNG", dpi=(DOTS * 25.4,) * 2)
    return out.getvalue()


def pdf(pages: Sequence[Page]) -> bytes:
    """Return pages as a PDF file, each as large as it is."""
    first, *others = [_drawn(each) for each in pages]
    out = io.BytesIO()
    first.save(
        out,
        "PDF",
        resolution=DOTS * 25.4,
        save_all=True,
        append_images=others,
        title=_plain(pages[0].title),
    )
    return out.getvalue()


def _drawn(page: Page) -> Image:
    from PIL import Image, ImageDraw

    image = Image.new("RGB", (_dots(page.width), _dots(page.height)), "#ffffff")
    draw = ImageDraw.Draw(image)
    for part in page.parts:
        match part:
            case Line():
                _line(draw, part.start, part.end, part.ink, part.thick, part.dash)
            case Shape():
                _shape(draw, part)
            case Ring():
                x, y, r = (each * DOTS for each in (*part.centre, part.radius))
                draw.ellipse(
                    (x - r, y - r, x + r, y + r),
                    fill=part.fill,
                    outline="#000000",
                    width=max(1, _dots(part.thick)),
                )
            case Words():
                _words(draw, part)
    return image


def _shape(draw: ImageDraw, part: Shape) -> None:
    if part.fill is not None:
        draw.polygon([_at(each) for each in part.corners], fill=part.fill)
    if part.ink is not None:
        for one, other in zip(part.corners, (*part.corners[1:], part.corners[0]), strict=True):
            _line(draw, one, other, part.ink, part.thick, part.dash)


def _line(
    draw: ImageDraw, start: Spot, end: Spot, ink: str, thick: float, dash: tuple[float, ...]
) -> None:
    wide = max(1, _dots(thick))
    length = math.hypot(end[0] - start[0], end[1] - start[1])
    if not dash or not length:
        draw.line((*_at(start), *_at(end)), fill=ink, width=wide)
        return
    at, number = 0.0, 0
    while at < length:
        stroke = dash[number % len(dash)]
        if number % 2 == 0:
            ends = [
                (
                    start[0] + (end[0] - start[0]) * share / length,
                    start[1] + (end[1] - start[1]) * share / length,
                )
                for share in (at, min(at + stroke, length))
            ]
            draw.line((*_at(ends[0]), *_at(ends[1])), fill=ink, width=wide)
        at, number = at + stroke, number + 1


def _words(draw: ImageDraw, part: Words) -> None:
    font = _font(_dots(part.size * 1.05))
    anchor = {"start": "lm", "middle": "mm", "end": "rm"}[part.anchor]
    at, text = _at(part.at), _plain(part.text)
    if part.ground:
        left, top, right, bottom = draw.textbbox(at, text, font=font, anchor=anchor)
        draw.rectangle((left - 3, top - 3, right + 3, bottom + 3), fill="#ffffff")
    draw.text(
        at, text, font=font, anchor=anchor, fill="#000000", stroke_width=1 if part.bold else 0
    )


_SIGNS = str.maketrans(
    {"–": "-", "×": "x", "·": "-", "ø": "dia ", "²": "2", "Ω": "ohm", "“": '"', "”": '"', "’": "'"}
)


def _plain(text: str) -> str:
    """Return words in the letters that Pillow's own font has; the SVG keeps all of them."""
    folded = unicodedata.normalize("NFKD", text.translate(_SIGNS))
    kept = "".join(each for each in folded if not unicodedata.combining(each))
    return kept.encode("ascii", "replace").decode()


@lru_cache(maxsize=8)
def _font(dots: int) -> FreeTypeFont | ImageFont:
    from PIL import ImageFont

    return ImageFont.load_default(dots)


def _at(spot: Spot) -> tuple[float, float]:
    return spot[0] * DOTS, spot[1] * DOTS


def _dots(mm: float) -> int:
    return round(mm * DOTS)
