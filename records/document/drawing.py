"""A sheet to draw on in millimetres, black on white, kept as a small PNG file.

Pillow draws and writes; its own font knows no letters but those of English, so all that is
written here is plain, and names stand in the text beside a picture.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, cast

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw as Pen
    from PIL.ImageFont import FreeTypeFont, ImageFont

DOTS_PER_MM = 10.0
"""254 dots to the inch: sharp on paper, and a whole number of dots to each millimetre."""
BLACK, GREY, PALE, FAINT, WHITE = 0, 110, 190, 226, 255
_STEP = 17
"""Between one grey and the next: sixteen of them are enough, and take half the room."""

Place = tuple[float, float]
"""Millimetres from the left and from the top."""
Box = tuple[float, float, float, float]
"""Left, top, right, bottom, in millimetres."""


class Sheet:
    """White paper of a size in millimetres."""

    def __init__(self, width: float, height: float) -> None:
        """Take a white sheet."""
        from PIL import Image, ImageDraw

        size = (round(width * DOTS_PER_MM), round(height * DOTS_PER_MM))
        self.width, self.height = width, height
        self._image = Image.new("L", size, WHITE)
        self._draw: Pen = ImageDraw.Draw(self._image)
        self._taken: list[Box] = []

    def line(
        self, places: Iterable[Place], *, ink: int = BLACK, thick: float = 0.2, dash: float = 0
    ) -> None:
        """Draw from place to place; `dash`: length of a stroke and of the gap after it."""
        corners = list(places)
        if not dash:
            dots = [self._at(each) for each in corners]
            self._draw.line(dots, fill=ink, width=_dots(thick), joint="curve")
            return
        for (x0, y0), (x1, y1) in pairwise(corners):
            length = math.hypot(x1 - x0, y1 - y0)
            for at in range(math.ceil(length / (2 * dash))):
                ends = (2 * at * dash / length, min((2 * at + 1) * dash / length, 1.0))
                stroke = [(x0 + (x1 - x0) * each, y0 + (y1 - y0) * each) for each in ends]
                self.line(stroke, ink=ink, thick=thick)

    def box(self, box: Box, *, fill: int | None = None, ink: int | None = None) -> None:
        """Draw a box, filled or not, with an edge or without."""
        left, top = self._at(box[:2])
        right, bottom = self._at(box[2:])
        if right > left and bottom > top:
            edge = _dots(0.2) if ink is not None else 0
            self._draw.rectangle((left, top, right, bottom), fill=fill, outline=ink, width=edge)

    def hatch(self, box: Box, *, ink: int = GREY, gap: float = 1.0, thick: float = 0.15) -> None:
        """Fill a box with slanting lines."""
        left, top, right, bottom = box
        tall = bottom - top
        at = left - tall
        while at < right:
            low = max(at, left)
            high = min(at + tall, right)
            if high > low:
                self.line(
                    [(low, bottom - (low - at)), (high, bottom - (high - at))],
                    ink=ink, thick=thick,
                )  # fmt: skip
            at += gap

    def diamond(self, place: Place, *, solid: bool, size: float = 1.1) -> None:
        """Mark a place with a diamond."""
        x, y = place
        corners = [(x, y - size), (x + size, y), (x, y + size), (x - size, y)]
        self._shape(corners, solid)

    def square(self, place: Place, *, solid: bool, size: float = 0.75) -> None:
        """Mark a place with a square."""
        x, y = place
        corners = [(x - size, y - size), (x + size, y - size), (x + size, y + size),
                   (x - size, y + size)]  # fmt: skip
        self._shape(corners, solid)

    def ring(self, place: Place, *, size: float = 0.85) -> None:
        """Mark a place with a small ring."""
        x, y = (each * DOTS_PER_MM for each in place)
        r = size * DOTS_PER_MM
        self._draw.ellipse((x - r, y - r, x + r, y + r), fill=WHITE, outline=BLACK, width=3)
        self._take((place[0] - size, place[1] - size, place[0] + size, place[1] + size))

    def cross(self, place: Place, *, size: float = 1.0) -> None:
        """Mark a place with a heavy cross."""
        x, y = place
        for down in (size, -size):
            self.line([(x - size, y - down), (x + size, y + down)], thick=0.5)
        self._take((x - size, y - size, x + size, y + size))

    def write(
        self, place: Place, text: str, *, size: float = 2.3, anchor: str = "lm", ink: int = BLACK,
        ground: bool = False,
    ) -> Box:  # fmt: skip
        """Write words at a place.

        Args:
            place: Where `anchor` stands.
            text: Plain letters only.
            size: Of the letters [mm].
            anchor: Which part of the words stands there, as Pillow names it.
            ink: How dark.
            ground: Whether to clear what lies behind.
        Returns:
            What the words take.
        """
        font, at = _font(_dots(size)), self._at(place)
        found = self._draw.textbbox(at, text, font=font, anchor=anchor)
        if ground:
            left, top, right, bottom = found
            self._draw.rectangle((left - 2, top - 2, right + 2, bottom + 2), fill=WHITE)
        self._draw.text(at, text, font=font, anchor=anchor, fill=ink)
        left, top, right, bottom = (each / DOTS_PER_MM for each in found)
        self._take((left, top, right, bottom))
        return left, top, right, bottom

    def label(
        self, place: Place, text: str, inside: Box, *, size: float = 2.3, below: bool = False
    ) -> bool:
        """Write words beside a place where nothing else is written; say whether there was room.

        Args:
            place: What they belong to.
            text: Plain letters only.
            inside: Where they may stand.
            size: Of the letters [mm].
            below: Whether they stand below rather than above, if both is free.
        """
        font = _font(_dots(size))
        for right, down in _BESIDE:
            at = (place[0] + (1.8 if right else -1.8), place[1] + (-down if below else down))
            anchor = "lm" if right else "rm"
            dots = self._draw.textbbox(self._at(at), text, font=font, anchor=anchor)
            box = cast(Box, tuple(each / DOTS_PER_MM for each in dots))
            clear = all(_apart(box, each) for each in self._taken)
            if clear and _within(box, inside):
                self.write(at, text, size=size, anchor=anchor, ground=True)
                return True
        return False

    def png(self) -> bytes:
        """Return the sheet as a PNG file; the same drawing gives the same bytes."""
        out = io.BytesIO()
        few = self._image.point([round(each / _STEP) for each in range(256)])
        few.putpalette([each * _STEP for each in range(256 // _STEP + 1) for _ in "rgb"])
        few.save(out, "PNG", bits=4, dpi=(DOTS_PER_MM * 25.4,) * 2)
        return out.getvalue()

    def _shape(self, corners: Sequence[Place], solid: bool) -> None:
        dots = [self._at(each) for each in corners]
        self._draw.polygon(dots, fill=BLACK if solid else WHITE, outline=BLACK, width=3)
        xs, ys = zip(*corners, strict=True)
        self._take((min(xs), min(ys), max(xs), max(ys)))

    def _take(self, box: Box) -> None:
        self._taken.append(box)

    @staticmethod
    def _at(place: Sequence[float]) -> tuple[int, int]:
        return round(place[0] * DOTS_PER_MM), round(place[1] * DOTS_PER_MM)


_BESIDE = tuple(
    (right, down) for down in (-2.6, 2.6, 0.0, -5.2, 5.2, -7.8, 7.8) for right in (True, False)
)


@lru_cache(maxsize=8)
def _font(dots: int) -> FreeTypeFont | ImageFont:
    from PIL import ImageFont

    return ImageFont.load_default(dots)


def _dots(mm: float) -> int:
    return max(1, round(mm * DOTS_PER_MM))


def _apart(one: Box, other: Box) -> bool:
    gap = 0.4
    return (
        one[2] + gap < other[0] or other[2] + gap < one[0]
        or one[3] + gap < other[1] or other[3] + gap < one[1]
    )  # fmt: skip


def _within(box: Box, around: Box) -> bool:
    return (
        box[0] >= around[0] and box[1] >= around[1] and box[2] <= around[2] and box[3] <= around[3]
    )
