"""Draws curve, loop and ring for the schedule, legible in black and white."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

from records.document.drawing import FAINT, GREY, PALE, Box, Place, Sheet
from records.expected.pictures.curve import TIMES, Line, TimeCurrent
from records.expected.pictures.figure_text import amperes, seconds
from records.expected.pictures.loop import LoopBar
from records.expected.pictures.ring import RingLine, RingPicture, RingPoint

CURVE_SIZE = (84.0, 58.0)
RING_SIZE = (84.0, 46.0)
LOOP_SIZE = (84.0, 4.2)
"""Width and height [mm]; a loop's height without its bars."""
_BAR = 4.2
_SMALL = 2.1


def plot_curve(picture: TimeCurrent) -> Sheet:
    """Return the time/current picture of a device on logarithmic axes."""
    sheet = Sheet(*CURVE_SIZE)
    inside: Box = (12.0, 2.0, sheet.width - 4.5, sheet.height - 5.5)
    low, high = picture.range()

    def at(current: float, time: float) -> Place:
        x = (math.log10(max(current, 1e-9)) - low) / (high - low)
        y = (TIMES[1] - math.log10(time)) / (TIMES[1] - TIMES[0])
        return (
            inside[0] + min(max(x, 0.0), 1.0) * (inside[2] - inside[0]),
            inside[1] + min(max(y, 0.0), 1.0) * (inside[3] - inside[1]),
        )

    def draw(line: Line, thick: float, dash: float = 0.0) -> None:
        for one, other in pairwise(line):
            if min(one[1], other[1]) < 10.0 ** TIMES[1]:  # the rest is above the picture
                sheet.line([at(*one), at(*other)], thick=thick, dash=dash)

    floor, end = 10.0 ** TIMES[0], 10.0**high
    if picture.rcd is not None:
        _residual(sheet, picture, at, floor, end)
    _log_grid(sheet, at, (low, high), inside)
    curve = picture.curve
    if curve.band is not None:
        top = at(curve.band[0], curve.latest[-2][1])[1]
        sheet.hatch((at(curve.band[0], 1)[0], top, at(curve.band[1], 1)[0], inside[3]))
    draw(curve.earliest, 0.25, 0.6)
    draw(curve.latest, 0.6)
    sheet.line([at(curve.held_from, curve.held), at(end, curve.held)], thick=0.6, dash=1.2)
    if picture.required is not None:
        y = at(1, picture.required)[1]
        sheet.line([(inside[0], y), (inside[2], y)], thick=0.4, dash=2.5)
        said = f"off within {seconds(picture.required)}"
        sheet.write((inside[0] + 1, y - 0.6), said, anchor="ls", size=_SMALL, ground=True)
    drawn = []
    for point in picture.points:
        time = point.time if point.time is not None else point.by_rcd
        place = at(point.current, time or 10.0 ** TIMES[1])
        sheet.line([(place[0], inside[1]), (place[0], inside[3])], ink=GREY, thick=0.15, dash=0.7)
        drawn.append((point, place))
    for point, place in drawn:
        sheet.diamond(place, solid=point.name == "readings")
    for point, place in drawn:
        sheet.label(place, f"{point.name} {amperes(point.current)}", inside, size=_SMALL)
    return sheet


def plot_loop(bars: Sequence[LoopBar]) -> Sheet:
    """Return the loop as bars, each to the scale of its own limit."""
    sheet = Sheet(LOOP_SIZE[0], LOOP_SIZE[1] + len(bars) * (_BAR + 1.2))
    left, right, tall = 14.0, sheet.width - 2.0, _BAR
    most = max(1.0, *(each.share for each in bars)) * 1.08
    limit = left + (right - left) / most
    for row, bar in enumerate(bars):
        top = 3.4 + row * (tall + 1.2)
        sheet.write((left - 1, top + tall / 2), bar.name, anchor="rm", size=_SMALL)
        drawn = 0.0
        for order, part in enumerate(bar.parts):
            ends = (left + (limit - left) * each / bar.limit for each in (drawn, drawn + part.ohms))
            box = (next(ends), top, next(ends), top + tall)
            _filled(sheet, box, order)
            text = f"{part.ohms:.2f}"
            if box[2] - box[0] > 1.3 * len(text) + 0.6:
                middle = ((box[0] + box[2]) / 2, top + tall / 2)
                sheet.write(middle, text, anchor="mm", size=_SMALL, ground=True)
            drawn += part.ohms
        if bar.rule_of_thumb is not None and bar.rule_of_thumb < bar.limit:
            x = left + (limit - left) * bar.rule_of_thumb / bar.limit
            sheet.line([(x, top - 0.4), (x, top + tall + 0.4)], thick=0.3, dash=0.6)
            sheet.write((x - 0.5, top + tall / 2), "0.8", anchor="rm", size=1.8, ground=True)
    sheet.line([(limit, 2.6), (limit, sheet.height - 0.3)], thick=0.6)
    sheet.write((limit, 2.2), "limit", anchor="ms", size=_SMALL)
    return sheet


def plot_ring(picture: RingPicture) -> Sheet:
    """Return a ring's cross-connected readings over the way round."""
    sheet = Sheet(*RING_SIZE)
    inside: Box = (12.0, 2.0, sheet.width - 4.5, sheet.height - 5.5)
    most = picture.most

    def at(x: float, ohms: float) -> Place:
        share = min(max(ohms / most, 0.0), 1.0)
        return (
            inside[0] + x * (inside[2] - inside[0]),
            inside[3] - share * (inside[3] - inside[1]),
        )

    _ring_axes(sheet, picture, at, inside)
    for line in picture.lines:
        dash = 0.0 if line.name == "L-N" else 1.2
        if line.line:
            sheet.line([at(*each) for each in line.line], thick=0.35, dash=dash)
    points = [
        (line, point, at(point.x, most if point.value is None else point.value))
        for line in picture.lines
        for point in line.read
    ]
    for line, point, place in sorted(points, key=lambda each: each[1].doubted):
        _ring_mark(sheet, line, point, place)
    for line, point, place in points:
        if point.doubted:
            value = "open" if point.value is None else f"{point.value:.2f} ohm"
            name = point.name if point.name.isascii() and len(point.name) <= 18 else point.id
            sheet.label(place, f"{name}: {value} {line.name}", inside, size=_SMALL)
    for line in picture.lines:
        if line.line:
            below = line.name == "L-N"
            sheet.label(at(*line.line[-2]), line.name, inside, size=_SMALL, below=below)
    return sheet


def _residual(
    sheet: Sheet,
    picture: TimeCurrent,
    at: Callable[[float, float], Place],
    floor: float,
    end: float,
) -> None:
    assert picture.rcd is not None
    steps = picture.rcd.steps
    rights = [*(each[0] for each in steps[1:]), end]
    for (current, shortest, longest), right in zip(steps, rights, strict=True):
        top, bottom = at(current, longest), at(right, max(shortest, floor))
        sheet.box((*top, *bottom), fill=FAINT)
    place = at(end, math.sqrt(steps[-1][2] * max(steps[-1][1], floor)))
    sheet.write((place[0] - 1, place[1]), picture.rcd.name, anchor="rm", size=_SMALL)


def _log_grid(
    sheet: Sheet, at: Callable[[float, float], Place], decades: tuple[int, int], inside: Box
) -> None:
    left, top, right, bottom = inside
    for power in range(decades[0], decades[1] + 1):
        x = at(10.0**power, 1)[0]
        for part in range(2, 10) if power < decades[1] else ():
            minor = at(part * 10.0**power, 1)[0]
            sheet.line([(minor, top), (minor, bottom)], ink=FAINT, thick=0.1)
        sheet.line([(x, top), (x, bottom)], ink=PALE, thick=0.15)
        sheet.write((x, bottom + 1), amperes(10.0**power), anchor="ma", size=_SMALL)
    for power in range(TIMES[0], TIMES[1] + 1):
        y = at(1, 10.0**power)[1]
        sheet.line([(left, y), (right, y)], ink=PALE, thick=0.15)
        sheet.write((left - 1, y), seconds(10.0**power), anchor="rm", size=_SMALL)


def _filled(sheet: Sheet, box: Box, order: int) -> None:
    """Fill a part of a bar: solid, hatched, blank, cross-hatched; told apart without colour."""
    if order == 0:
        sheet.box(box, fill=GREY)
    elif order % 2:
        sheet.hatch(box, ink=0, gap=0.9 if order == 1 else 2.0)
    sheet.box(box, ink=0)


def _ring_axes(
    sheet: Sheet, picture: RingPicture, at: Callable[[float, float], Place], inside: Box
) -> None:
    left, top, right, bottom = inside
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        x = at(share, 0.0)[0]
        sheet.line([(x, top), (x, bottom)], ink=PALE, thick=0.15)
        if picture.around is not None:
            name = f"{share * picture.around:.3g} m"
        else:
            name = {0.0: "leg 1", 0.5: "half way", 1.0: "leg 2"}.get(share, "")
        sheet.write((x, bottom + 1), name, anchor="ma", size=_SMALL)
    for value in picture.ticks():
        y = at(0.0, value)[1]
        sheet.line([(left, y), (right, y)], ink=PALE, thick=0.15)
        sheet.write((left - 1, y), f"{value:.2f}", anchor="rm", size=_SMALL)
    sheet.write((1.0, top), "ohm", anchor="lt", size=_SMALL)


def _ring_mark(sheet: Sheet, line: RingLine, point: RingPoint, place: Place) -> None:
    if point.doubted:
        sheet.cross(place)
    elif line.name == "L-N":
        sheet.ring(place)
    else:
        sheet.square(place, solid=False)
