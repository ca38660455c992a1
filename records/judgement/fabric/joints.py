"""Joints that nobody reaches any more once a surface is covered."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.boxes import placed
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.design.line import line
from records.judgement.fabric.entries import spot_key
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.fabric import Box
from records.model.reading import place_of
from records.terms import Part, Verdict

_REACH = cite.bs7671("Regulation 526.3")


def joint_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each joint box behind a surface that isn't maintenance-free."""
    for each in placed(facts.record):
        if each.spot.box is not Box.JOINT:
            continue
        place = place_of(Part.CIRCUIT, each.circuit.id) if each.circuit else BOARD
        name = f"joint {each.spot.surface} {spot_key(each)}"
        yield line(
            facts, place, name, f"{each.name}: a joint nobody reaches once covered"
        )._replace(
            verdict=Verdict.NEAR,
            source=_REACH,
            weight=35,
            why="A joint has to stay where it can be inspected. Only one that is maintenance-free "
            "(marked MF), soldered, welded, pressed or in compound may be hidden.",
            next_check=do(
                Act.OPEN,
                "Move it to a blank plate in sight, or use one marked MF and enter mf as its box.",
            ).text(),
        )
