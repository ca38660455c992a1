"""Screws that hold a board, and where none belong: held against the cables behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.judgement import cite
from records.judgement.advice import plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.legs import Run, from_face, leg_name, line_of, run_of
from records.judgement.fabric.zones import mirrored, other_side
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Cover, Leg, Surface
from records.model.record import Record
from records.terms import Verdict

CLEAR = 5.0
"""mm that a screw should end before a cable (common practice)."""
KEEP = 50.0
"""mm to each side of a cable where no screw belongs (common practice)."""


def fixing_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each hidden leg behind a board whose screws are known."""
    surfaces = {each.id: each for each in facts.record.fabric.surfaces}
    for leg in facts.record.fabric.legs:
        surface, run = surfaces.get(leg.surface), run_of(facts.record, leg)
        if surface is None or run is None or surface.screw is None or leg.deep == 0:
            continue
        deep = from_face(leg, surface)
        if deep is not None:
            yield _judged(facts, leg, surface, run, surface.screw, deep)


def _judged(
    facts: Facts, leg: Leg, surface: Surface, run: Run, screw: float, deep: float
) -> Judged:
    base = line(
        facts, run.place, f"screws {leg.id}", f"screws before {leg_name(leg, surface)}"
    )._replace(
        source=cite.COMMON,
        weight=44,
    )
    words = f"Screws of {screw:g} mm; the cable is {deep:g} mm behind the face."
    if leg.cover is not Cover.NONE or screw <= deep - CLEAR + SLACK:
        return base._replace(verdict=Verdict.WITHIN, why=words)
    reach = screw >= deep - SLACK
    return base._replace(
        verdict=Verdict.OUTSIDE if reach else Verdict.NEAR,
        why=f"{words} {'They reach it.' if reach else f'That leaves under {CLEAR:g} mm.'}",
        causes=("screws as long as for a bare stud",) if reach else (),
        next_check=plan(
            f"Screws of {max(deep - CLEAR, 0):.0f} mm at most here, an earthed steel plate over "
            "the cable, or the cable further back."
        ),
    )


@dataclass(frozen=True, slots=True)
class Strip:
    """A part of a surface where no screw or nail belongs [mm]."""

    left: float
    bottom: float
    right: float
    top: float
    why: str

    def __str__(self) -> str:
        return (
            f"{self.left:.0f} to {self.right:.0f} along, {self.bottom:.0f} to {self.top:.0f} up: "
            f"{self.why}"
        )


def keep_out(record: Record, surface: Surface) -> tuple[Strip, ...]:
    """Return the strips of a surface where no screw belongs: each cable with 50 mm to each side.

    What is entered on the other side of the same wall counts too: a long screw goes through.
    """
    back = other_side(record, surface)
    found = []
    for leg in record.fabric.legs:
        run = run_of(record, leg)
        if run is None or leg.deep == 0:
            continue
        x0, y0, x1, y1 = line_of(leg)
        side = ""
        if back is not None and leg.surface == back.id:
            x0, x1 = mirrored(surface, back, x0), mirrored(surface, back, x1)
            side = ", entered on the other side"
        elif leg.surface != surface.id:
            continue
        found.append(
            Strip(
                max(0.0, min(x0, x1) - KEEP),
                max(0.0, min(y0, y1) - KEEP),
                min(max(x0, x1) + KEEP, surface.width or float("inf")),
                max(y0, y1) + KEEP,
                f"cable of {run.name}{side}",
            )
        )
    return tuple(found)
