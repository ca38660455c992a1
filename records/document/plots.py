"""Draws curve, loop and ring as shapes, legible in black and white."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

from records.document.shapes import BLACK, FAINT, GREY, PALE, Box, Place, Sheet
from records.document.text_width import width_of
from records.expected.pictures.curve import TIMES, Line, TimeCurrent
from records.expected.pictures.figure_text import amperes, seconds
from records.expected.pictures.loop import LoopBar
from records.expected.pictures.ring import RingLine, RingPicture, RingPoint

_WIDTH = 170.0
_TALL = 58.0
_INSIDE: Box = (16.0, 3.0, _WIDTH - 6.0, _TALL - 7.0)
_BAR, _BETWEEN = 6.0, 3.0
_SIZE = 8.0
_BESIDE = tuple(
    (side, down) for down in (-3.4, 3.4, 0.0, -7.0, 7.0, -10.6, 10.6) for side in ("left", "right")
)
"""Where a label may stand beside its place: which of its ends is there, how far below [mm]."""


def plot_curve(picture: TimeCurrent) -> Sheet:
    """Return the time/current picture of a device on logarithmic axes."""
    sheet = Sheet(_WIDTH, _TALL)
    low, high = picture.range()

    def at(current: float, time: float) -> Place:
        x = (math.log10(max(current, 1e-9)) - low) / (high - low)
        y = (TIMES[1] - math.log10(time)) / (TIMES[1] - TIMES[0])
        return _at(x, y)

    def draw(line: Line, thick: float, *, dashed: bool = False) -> None:
        for one, other in pairwise(line):
            if min(one[1], other[1]) < 10.0 ** TIMES[1]:  # the rest is above the picture
                sheet.line(at(*one), at(*other), thick=thick, dashed=dashed)

    end = 10.0**high
    _log_grid(sheet, at, (low, high))
    if picture.rcd is not None:
        _residual(sheet, picture, at, end)
    curve = picture.curve
    if curve.band is not None:
        top = at(curve.band[0], curve.latest[-2][1])[1]
        sheet.hatch((at(curve.band[0], 1)[0], top, at(curve.band[1], 1)[0], _INSIDE[3]))
    draw(curve.earliest, 0.75, dashed=True)
    draw(curve.latest, 2.0)
    sheet.line(at(curve.held_from, curve.held), at(end, curve.held), thick=2.0, dashed=True)
    places = []
    for point in picture.points:
        time = point.time if point.time is not None else point.by_rcd
        place = at(point.current, time or 10.0 ** TIMES[1])
        sheet.line((place[0], _INSIDE[1]), (place[0], _INSIDE[3]), ink=GREY, thick=0.5, dashed=True)
        sheet.mark(place, "diamond", fill=BLACK if point.name == "readings" else "FFFFFF", size=1.4)
        places.append((point, place))
    for point, place in places:
        _beside(sheet, place, f"{point.name} {amperes(point.current)}")
    if picture.required is not None:
        y = at(1, picture.required)[1]
        sheet.line((_INSIDE[0], y), (_INSIDE[2], y), thick=1.25, dashed=True)
        _beside(sheet, (_INSIDE[0] + 1, y), f"off within {seconds(picture.required)}")
    return sheet


def plot_loop(bars: list[LoopBar]) -> Sheet:
    """Return the loop as bars, each to the scale of its own limit."""
    sheet = Sheet(_WIDTH, 6.0 + len(bars) * (_BAR + _BETWEEN))
    left, right = 24.0, _WIDTH - 4.0
    most = max(1.0, *(each.share for each in bars)) * 1.05
    limit = left + (right - left) / most
    for row, bar in enumerate(bars):
        top = 6.0 + row * (_BAR + _BETWEEN)
        sheet.label((left - 1, top + _BAR / 2), bar.name, anchor="right")
        drawn = 0.0
        for order, part in enumerate(bar.parts):
            start, end = (
                left + (limit - left) * each / bar.limit for each in (drawn, drawn + part.ohms)
            )
            if end > start:
                sheet.box((start, top, end, top + _BAR), fill=_FILLS[order % len(_FILLS)])
            text = f"{part.ohms:.2f}"
            if end - start > width_of(text, _SIZE) + 1:
                sheet.label(((start + end) / 2, top + _BAR / 2), text)
            drawn += part.ohms
        if bar.rule_of_thumb is not None and bar.rule_of_thumb < bar.limit:
            x = left + (limit - left) * bar.rule_of_thumb / bar.limit
            sheet.line((x, top - 1), (x, top), thick=1)
            sheet.line((x, top + _BAR), (x, top + _BAR + 1), thick=1)
    sheet.line((limit, 4.0), (limit, sheet.height), thick=1.75)
    sheet.label((limit, 2.0), "limit")
    return sheet


def plot_ring(picture: RingPicture, told: Callable[[str, str], str]) -> Sheet:
    """Return a ring's cross-connected readings over the way round.

    Args:
        picture: What to draw.
        told: Returns the findings that a point has, by the line's name and the point's id.
    """
    sheet = Sheet(_WIDTH, _TALL)
    most = picture.most

    def at(x: float, ohms: float) -> Place:
        return _at(x, 1 - min(max(ohms / most, 0.0), 1.0))

    _ring_axes(sheet, picture, at)
    for line in picture.lines:
        if line.line:
            sheet.line(*(at(*each) for each in line.line), thick=1.25, dashed=line.name != "L-N")
    points = [
        (line, point, at(point.x, most if point.value is None else point.value))
        for line in picture.lines
        for point in line.read
    ]
    for line, point, place in points:
        _ring_mark(sheet, line, point, place)
    for line, point, place in points:
        if point.doubted:
            value = "open" if point.value is None else f"{point.value:.2f} Ω"
            found = told(line.name, point.id)
            # Where a name is too long for the picture, its number and the findings still stand.
            for text in (f"{point.name}: {value} {line.name}", f"{point.id}: {value}", point.id):
                if _beside(sheet, place, f"{text} {found}".rstrip()):
                    break
    for line in picture.lines:
        if line.line:
            _beside(sheet, at(*line.line[-2]), line.name)
    return sheet


_FILLS = (PALE, "FFFFFF", FAINT)
"""Source, feed, circuit: told apart without colour."""


def _at(x: float, y: float) -> Place:
    """Return a place inside the axes from shares of their lengths, from the left and the top."""
    x, y = min(max(x, 0.0), 1.0), min(max(y, 0.0), 1.0)
    return (
        _INSIDE[0] + x * (_INSIDE[2] - _INSIDE[0]),
        _INSIDE[1] + y * (_INSIDE[3] - _INSIDE[1]),
    )


def _beside(sheet: Sheet, place: Place, text: str) -> bool:
    """Write words beside a place where nothing else is written; say whether there was room."""
    wide, half = width_of(text, _SIZE) + 0.6, 1.8
    for side, down in _BESIDE:
        x = place[0] + (2.2 if side == "left" else -2.2)
        left = x if side == "left" else x - wide
        box = (left, place[1] + down - half, left + wide, place[1] + down + half)
        if sheet.free(box, _INSIDE):
            sheet.label((x, place[1] + down), text, anchor=side, ground=True)
            return True
    return False


def _residual(
    sheet: Sheet, picture: TimeCurrent, at: Callable[[float, float], Place], end: float
) -> None:
    assert picture.rcd is not None
    floor = 10.0 ** TIMES[0]
    steps = picture.rcd.steps
    rights = [*(each[0] for each in steps[1:]), end]
    for (current, shortest, longest), right in zip(steps, rights, strict=True):
        top, bottom = at(current, longest), at(right, max(shortest, floor))
        if bottom[0] > top[0] and bottom[1] > top[1]:
            sheet.box((*top, *bottom), fill=FAINT, thick=0)
    place = at(end, math.sqrt(steps[-1][2] * max(steps[-1][1], floor)))
    sheet.label((place[0] - 1, place[1]), picture.rcd.name, anchor="right", ground=True)


def _log_grid(sheet: Sheet, at: Callable[[float, float], Place], decades: tuple[int, int]) -> None:
    left, top, right, bottom = _INSIDE
    for power in range(decades[0], decades[1] + 1):
        x = at(10.0**power, 1)[0]
        sheet.line((x, top), (x, bottom), ink=PALE, thick=0.5)
        sheet.label((x, bottom + 4.4), amperes(10.0**power))
    for power in range(TIMES[0], TIMES[1] + 1):
        y = at(1, 10.0**power)[1]
        sheet.line((left, y), (right, y), ink=PALE, thick=0.5)
        sheet.label((left - 1, y), seconds(10.0**power), anchor="right")


def _ring_axes(sheet: Sheet, picture: RingPicture, at: Callable[[float, float], Place]) -> None:
    left, top, right, bottom = _INSIDE
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        x = at(share, 0.0)[0]
        sheet.line((x, top), (x, bottom), ink=PALE, thick=0.5)
        if picture.around is not None:
            name = f"{share * picture.around:.3g} m"
        else:
            name = {0.0: "leg 1", 0.5: "half way", 1.0: "leg 2"}.get(share, "")
        if name:
            sheet.label((x, bottom + 4.4), name)
    for value in picture.ticks():
        y = at(0.0, value)[1]
        sheet.line((left, y), (right, y), ink=PALE, thick=0.5)
        sheet.label((left - 1, y), f"{value:.2f} Ω", anchor="right")


def _ring_mark(sheet: Sheet, line: RingLine, point: RingPoint, place: Place) -> None:
    if point.doubted:
        x, y = place
        for down in (1.6, -1.6):
            sheet.line((x - 1.6, y - down), (x + 1.6, y + down), thick=2.0)
        sheet.mark(place, "ellipse", fill=BLACK, size=0.3)
    else:
        sheet.mark(place, "ellipse" if line.name == "L-N" else "rect")
