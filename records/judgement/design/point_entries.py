"""What is said of a point: the fuse of its connection unit, and a cpc that ends before it."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.compare import SLACK
from records.judgement.design.odd import odd
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.circuit import Circuit, Point
from records.model.reading import Place
from records.tables import devices
from records.terms import DeviceKind, Form


def point_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each thing said about a point that can't stay so."""
    for circuit, place in facts.circuits():
        for point in circuit.points:
            here = place.at_point(point.id)
            yield from _fuse(facts, circuit, point, here)
            if point.cpc_ends:
                yield odd(
                    facts,
                    here,
                    "cpc",
                    "The cpc ends at a box before this point. Its metal can become live, and no "
                    "loop can be read there.",
                    "Plan the cpc through to every point, or a class II point where it stays so; "
                    "the certifier decides.",
                    title="its cpc",
                    source=cite.CPC_TO_POINTS,
                    weight=55,
                )


def _fuse(facts: Facts, circuit: Circuit, point: Point, here: Place) -> Iterator[Judged]:
    if point.fuse is None:
        return
    known = devices.ratings(DeviceKind.BS_1362)
    if all(abs(point.fuse - each) > SLACK for each in known):
        sizes = ", ".join(f"{each:g}" for each in known)
        yield odd(
            facts,
            here,
            "fuse",
            f"A connection unit has no fuse of {point.fuse:g} A (BS 1362: {sizes} A).",
            "Read the fuse, and enter it.",
            title="fuse of its connection unit",
        )
    rating = circuit.device.rating
    if rating is not None and circuit.form is not Form.FCU and point.fuse > rating + SLACK:
        yield odd(
            facts,
            here,
            "fuse and device",
            f"Its fuse of {point.fuse:g} A is larger than the circuit's device of {rating:g} A: it "
            "protects nothing.",
            "Plan a smaller fuse, or correct one of the two.",
            title="fuse of its connection unit",
        )
