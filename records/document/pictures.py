"""Pictures of curve, loop and ring, where a reading or a limit makes one worth having."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from records.document.groups import group_name
from records.document.ledger import Ledger
from records.document.lines import depends_on, failed_rcd
from records.document.plots import plot_curve, plot_loop, plot_ring
from records.document.reading_cells import Cells
from records.document.shapes import Sheet
from records.expected.pictures.curve import FaultPoint, TimeCurrent, time_current
from records.expected.pictures.figure_text import amperes, ohms, seconds
from records.expected.pictures.loop import LoopBar, loop_bars
from records.expected.pictures.ring import RingLine, RingPicture, ring_picture
from records.expected.results import Expected, NotWorkedOut, What
from records.judgement.doubtful_readings import doubted, ring_patterns
from records.judgement.review_types import Judged, Review
from records.model.reading import Place, Quantity, place_of
from records.model.record import Record
from records.terms import Form, Part, Verdict

Shown = dict[str, Any]
_CROSSED = {"L-N": Quantity.CROSS_LN, "L-cpc": Quantity.CROSS_LE}
_WORTH = (Verdict.OUTSIDE, Verdict.NEAR)
_TIMES = (What.TIME, What.TIME_REQUIRED)
_MOST = 6
"""Circuits whose curve and loop are drawn: the worst; of more, the tables say the same."""


def pictures(record: Record, expected: Expected, review: Review) -> list[Shown]:
    """Return what is worth a picture: a time or a loop at its limit, a ring with a doubted point.

    Nothing is plotted from a reading that can't be: what follows from one is left out.

    Args:
        record: The job.
        expected: What follows from it.
        review: The verdicts on it.
    """
    cells = Cells(record, review, Ledger(review))
    places = [
        place_of(Part.FEED),
        *(place_of(Part.CIRCUIT, each.id) for each in record.circuits),
    ]
    tight = _tight(cells, expected, review)
    worst = sorted(
        (place for place in places if place in tight),
        key=lambda place: min(each.rank for each in tight[place][0]),
    )
    drawn, rest = set(worst[:_MOST]), worst[_MOST:]
    shown: list[Shown] = []
    for place in places:
        if place in drawn:
            shown += _at_limit(cells, place, *tight[place][1:])
        shown += _ring(cells, expected, review, place)
    if shown and rest:
        names = ", ".join(place.circuit or place.part.value for place in rest)
        shown[-1]["words"].append(
            f"Without a picture, though near or over a limit too: {names}. Their figures: part 3."
        )
    return shown


Tight = tuple[list[Judged], TimeCurrent | None, list[LoopBar]]
"""What is at its limit at a place; the curve and the loop that show it."""


def _tight(cells: Cells, expected: Expected, review: Review) -> dict[Place, Tight]:
    """Return the places where a time or a loop is at its limit and can be drawn."""
    lines: dict[Place, list[Judged]] = {}
    for line in review.lines:
        if line.verdict in _WORTH and (line.what in _TIMES or _is_loop(line)):
            lines.setdefault(line.place, []).append(line)
    found: dict[Place, Tight] = {}
    for place, there in lines.items():
        curve: TimeCurrent | NotWorkedOut | None = None
        if any(each.what in _TIMES for each in there):
            curve = sound_curve(cells, expected, place)
        bars = sound_bars(cells, expected, place) if any(map(_is_loop, there)) else []
        # Without the reading that is at its limit, a sound design is no picture worth having.
        read = any(each.name == "readings" for each in bars)
        bars = bars if read or any(each.what is What.ZS for each in there) else []
        curve = None if isinstance(curve, NotWorkedOut) else curve
        if curve is not None or bars:
            found[place] = there, curve, bars
    return found


def _at_limit(
    cells: Cells, place: Place, curve: TimeCurrent | None, bars: list[LoopBar]
) -> Iterator[Shown]:
    name = group_name(cells.record, place)
    if curve is not None:
        yield _shown(f"{name}: time and current", plot_curve(curve), _curve_words(curve))
    if bars:
        yield _shown(f"{name}: loop", plot_loop(bars), _loop_words(bars))


def _ring(cells: Cells, expected: Expected, review: Review, place: Place) -> Iterator[Shown]:
    if place.circuit is None or cells.record.circuit(place.circuit).form is not Form.RING:
        return
    name = group_name(cells.record, place)
    against = doubted(review)
    ring = ring_picture(cells.record, expected, place, against)
    patterns = ring_patterns(review, place.circuit)
    if isinstance(ring, NotWorkedOut) or not any(each.read for each in ring.lines):
        return
    if ring.doubted or patterns:

        def told(line: str, point: str) -> str:
            return " ".join(
                cells.ledger.told(
                    *(
                        each
                        for each in cells.by_part(Part.CIRCUIT, place.circuit)
                        if each.quantity is _CROSSED[line] and each.place.point == point
                    )
                )
            )

        words = [*_ring_words(ring, told), *_told(patterns)]
        yield _shown(f"{name}: ring, cross-connected", plot_ring(ring, told), words)


def sound_curve(cells: Cells, expected: Expected, place: Place) -> TimeCurrent | NotWorkedOut:
    """Return the curve of a device without what follows from a failed or doubted test."""
    curve = time_current(cells.record, expected, place)
    if isinstance(curve, NotWorkedOut):
        return curve
    points = curve.points
    if _doubt(cells, place):
        points = tuple(each for each in points if each.name != "readings")
    if failed_rcd(cells, place):
        points = tuple(replace(each, by_rcd=None, rcd_words="test failed") for each in points)
        return replace(curve, points=points, rcd=None)
    return replace(curve, points=points)


def sound_bars(cells: Cells, expected: Expected, place: Place) -> list[LoopBar]:
    """Return the bars of a loop; none from readings that can't be."""
    bars = loop_bars(cells.record, expected, place)
    if isinstance(bars, NotWorkedOut):
        return []
    return [each for each in bars if each.name != "readings" or not _doubt(cells, place)]


def _doubt(cells: Cells, place: Place) -> bool:
    """Return whether a reading behind a place can't be; one over its limit can."""
    return any(
        own.verdict is Verdict.UNLIKELY or own.part_of
        for each in depends_on(cells, place)
        if (own := cells.own.get(each)) is not None
    )


def _is_loop(it: Judged) -> bool:
    if it.slot is not None:
        return it.slot.quantity is Quantity.ZS
    return it.what is What.ZS


def _shown(name: str, sheet: Sheet, words: Sequence[str]) -> Shown:
    said = " ".join(words)
    image = {"shapes": sheet.xml(name, f"{name}. {said}"), "words": f"{name}. {said}"}
    return {"title": name, "words": list(words), "image": image}


def _curve_words(picture: TimeCurrent) -> list[str]:
    required = f", off within {seconds(picture.required)}" if picture.required else ""
    words = [f"{picture.device}{required}."]
    words += [_fault(each) for each in picture.points]
    if not picture.points:
        words.append("No fault current is calculated yet.")
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


def _ring_words(picture: RingPicture, told: Callable[[str, str], str]) -> list[str]:
    words = [_line_words(each) for each in picture.lines]
    words.append(f"Lines: expected {picture.ground}.")
    if picture.around is None:
        words.append("Not every distance is entered: the points are spaced evenly, in their order.")
    off = [
        f"{point.name}, {name}: {'open' if point.value is None else ohms(point.value)} "
        f"{told(name, point.id)}".rstrip()
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


def _told(patterns: Sequence[Judged]) -> list[str]:
    return [f"{each.verdict.mark} {each.verdict.value}: {each.why}" for each in patterns]
