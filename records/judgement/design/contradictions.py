"""Design checks of entries that can't be so beside each other; what fits has no line."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from records.days import day_words
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.design.device_entries import device_lines
from records.judgement.design.earth_entries import earth_entry_lines
from records.judgement.design.line import line
from records.judgement.design.run_entries import run_lines
from records.judgement.design.supply_entries import supply_lines
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.review_types import Judged
from records.model.circuit import Circuit, Point
from records.model.reading import Place
from records.terms import Form, Verdict


def odd_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each entry that contradicts another one; none where all fit."""
    yield from run_lines(facts, FEED, facts.record.feed.runs)
    for circuit, place in facts.circuits():
        yield from run_lines(facts, place, circuit.runs)
        yield from _beyond(facts, circuit, place)
        yield from _out_of_order(facts, circuit, place)
    yield from device_lines(facts)
    yield from supply_lines(facts)
    yield from earth_entry_lines(facts)
    yield from _days(facts)


def _beyond(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A point that the cable is too short to reach."""
    lengths = [run.length for run in circuit.runs]
    known = [each for each in lengths if each is not None]
    if not known or len(known) < len(lengths):
        return
    around = sum(known)
    for point in circuit.points:
        if point.at is None or point.at <= around + SLACK:
            continue
        whole = "the ring is" if circuit.form is Form.RING else "its runs are"
        base = line(facts, _at(place, point), "distance", "its distance from the board")
        yield base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"It is entered at {point.at:g} m from the board; {whole} only {around:g} m long.",
            causes=("the distance was entered wrongly", "a run is missing, or entered too short"),
            next_check=do(
                Act.ENTER, "Measure along the cable; correct the distance or the length."
            ).text(),
            source=cite.COMMON,
            weight=25,
        )


def _out_of_order(facts: Facts, circuit: Circuit, place: Place) -> Iterator[Judged]:
    """A point that is nearer to the board than the one before it on the cable.

    A spur leaves it where it likes: it has no place in that order.
    """
    placed = [each for each in circuit.points if each.at is not None and not each.spur]
    for before, point in pairwise(placed):
        if point.at is None or before.at is None or point.at >= before.at - SLACK:
            continue
        base = line(facts, _at(place, point), "order", "its place in the order of the cable")
        yield base._replace(
            verdict=Verdict.UNLIKELY,
            why=f"It is entered at {point.at:g} m from the board, after {_name(before)} at "
            f"{before.at:g} m. Points stand in the order of the cable.",
            causes=(
                "a distance was entered wrongly",
                "the points were entered in another order",
                "the cable branches",
            ),
            next_check=do(
                Act.ENTER,
                "Put the points in the order of the cable, or correct the distance. If it "
                "branches, say so here.",
            ).text(),
            source=cite.COMMON,
            weight=5,
        )


def _days(facts: Facts) -> Iterator[Judged]:
    """A meter whose next calibration is due before its last one."""
    for meter in facts.record.job.instruments:
        if meter.due is None or meter.calibrated is None or meter.due >= meter.calibrated:
            continue
        base = line(facts, BOARD, f"calibration days of {meter.id}", "")
        yield base._replace(
            verdict=Verdict.OUTSIDE,
            title=f"Calibration of {meter.name}",
            why=f"It is entered as due on {day_words(meter.due)}, before the day of the last one, "
            f"{day_words(meter.calibrated)}.",
            causes=("one of the days was entered wrongly", "the days were swapped"),
            next_check=do(
                Act.ENTER, "Read both days off the certificate or the label, and enter them (Job)."
            ).text(),
            source=cite.CALIBRATION,
            weight=15,
        )


def _at(place: Place, point: Point) -> Place:
    return place.at_point(point.id)


def _name(point: Point) -> str:
    return point.name or point.id
