"""The context of the sheet of pictures: each with its title, its words and its file."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from typing import Any

from records.document.drawing import Sheet
from records.document.groups import row_name
from records.document.plots import plot_curve, plot_loop, plot_ring
from records.expected.pictures.curve import FaultPoint, TimeCurrent, time_current
from records.expected.pictures.figure_text import amperes, ohms, seconds
from records.expected.pictures.loop import LoopBar, loop_bars
from records.expected.pictures.ring import RingLine, RingPicture, ring_picture
from records.expected.results import Expected, NotWorkedOut
from records.judgement.doubted import doubted, ring_patterns
from records.judgement.review_types import Review
from records.model.reading import Place, place_of
from records.model.record import Record
from records.terms import Form, Part

Shown = dict[str, Any]


def pictures(record: Record, expected: Expected, review: Review) -> dict[str, list[Shown]]:
    """Return what the sheet prints: pairs of curves and of rings, and one line for each loop.

    Args:
        record: The job.
        expected: What follows from it.
        review: The verdicts on it; they say which readings of a ring are marked.
    """
    places = [
        place_of(Part.FEED),
        *(place_of(Part.CIRCUIT, each.id) for each in record.circuits),
    ]
    against = doubted(review)
    curves, loops, rings = [], [], []
    for place in places:
        name = row_name(record, place)
        curve = time_current(record, expected, place)
        if not isinstance(curve, NotWorkedOut):
            curves.append(_shown(name, plot_curve(curve), _curve_words(curve), "Time and current"))
        bars = loop_bars(record, expected, place)
        if not isinstance(bars, NotWorkedOut):
            loops.append(_shown(name, plot_loop(bars), _loop_words(bars), "Loop"))
        if place.circuit is None or record.circuit(place.circuit).form is not Form.RING:
            continue
        ring = ring_picture(record, expected, place, against)
        if not isinstance(ring, NotWorkedOut) and any(each.read for each in ring.lines):
            words = [*_ring_words(ring), *_told(review, place)]
            rings.append(_shown(name, plot_ring(ring), words, "Ring, cross-connected"))
    return {"curves": _pairs(curves), "loops": loops, "rings": _pairs(rings)}


def _shown(name: str, sheet: Sheet, words: Sequence[str], sort: str) -> Shown:
    said = " ".join(words)
    return {
        "title": name,
        "words": list(words),
        "image": {
            "png": base64.b64encode(sheet.png()).decode(),
            "alt": f"{sort}, {name}. {said}",
            "width": f"{sheet.width:g}",
        },
    }


def _pairs(shown: list[Shown]) -> list[Shown]:
    padded = [*shown, {}] if len(shown) % 2 else shown
    return [
        {"left": left, "right": right}
        for left, right in zip(padded[::2], padded[1::2], strict=True)
    ]


def _curve_words(picture: TimeCurrent) -> list[str]:
    required = f", off within {seconds(picture.required)}" if picture.required else ""
    words = [f"{picture.device}{required}."]
    words += [_fault(each) for each in picture.points]
    if not picture.points:
        words.append("No fault current is worked out yet.")
    return words


def _fault(point: FaultPoint) -> str:
    rcd = f"; RCD {point.rcd_words}" if point.rcd_words else ""
    return f"By the {point.name} {amperes(point.current)} at least: {point.words}{rcd}."


def _loop_words(bars: Sequence[LoopBar]) -> list[str]:
    words = []
    for bar in bars:
        over = "over the limit: " if bar.share > 1 else ""
        parts = ", ".join(f"{each.name} {ohms(each.ohms)}" for each in bar.parts)
        words.append(
            f"By the {bar.name}, {bar.state}: {over}{ohms(bar.total)}, {bar.share:.0%} of "
            f"{ohms(bar.limit)} ({bar.limit_name}): {parts}."
        )
        if bar.note:
            words.append(bar.note)
    return words


def _ring_words(picture: RingPicture) -> list[str]:
    words = [_line_words(each) for each in picture.lines]
    words.append(f"Lines: expected {picture.ground}.")
    if picture.around is None:
        words.append("Not every distance is entered: the points stand evenly, in their order.")
    off = [
        f"{point.name}, {name}: {'open' if point.value is None else ohms(point.value)}"
        for name, point in picture.doubted
    ]
    if off:
        words.append(f"To look at: {'; '.join(off)}.")
    return words


def _line_words(line: RingLine) -> str:
    taken = f"{len(line.read)} of {len(line.points)} read"
    if not line.line:
        return f"{line.name}: {taken}."
    values = [value for _, value in line.line]
    low, high = ohms(min(values)).removesuffix(" Ω"), ohms(max(values))
    due = high if high.startswith(low) else f"{low} to {high}"
    return f"{line.name}: {taken}, {due} expected on the ring."


def _told(review: Review, place: Place) -> list[str]:
    return [
        f"{each.verdict.mark} {each.verdict.value}: {each.why}"
        for each in ring_patterns(review, place.circuit or "")
    ]
