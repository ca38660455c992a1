"""Screws that hold a board, and where none belong: held against the cables behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.expected.formulas.zones import Line
from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.faces import mirrored, other_side, with_both_faces
from records.judgement.fabric.legs import (
    Run,
    from_face,
    from_other_face,
    leg_name,
    line_of,
    run_of,
    runs_of,
    surface_name,
)
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Cover, Surface
from records.model.record import Record
from records.terms import Verdict

CLEAR = 5.0
"""mm that a screw should end before a cable (common practice)."""
KEEP = 50.0
"""mm to each side of a cable where no screw belongs (common practice)."""


def fixing_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each hidden leg behind a board whose screws are known, from both faces."""
    record = facts.record
    surfaces = {each.id: each for each in record.fabric.surfaces}
    owner = runs_of(record)
    for leg in record.fabric.legs:
        surface, run = surfaces.get(leg.surface), owner(leg)
        if surface is None or run is None or leg.deep == 0:
            continue
        name = leg_name(leg, surface)
        deep = from_face(leg, surface)
        if surface.screw is not None and deep is not None:
            base = _base(facts, run, f"screws {leg.id}", f"screws before {name}")
            yield _judged(base, surface.screw, deep, safe=leg.cover is not Cover.NONE)
        back = other_side(record, surface)
        if back is None or back.screw is None:
            continue
        base = _base(facts, run, f"screws {leg.id}-back", f"screws behind {name}")
        far = from_other_face(leg, with_both_faces(record, surface), run)
        if far is None:
            what = "how deep it lies" if leg.deep is None else f"how thick {surface_name(back)} is"
            yield base._replace(
                why=f"Screws of {back.screw:g} mm come from the other face; {what} isn't entered.",
                next_check=do(Act.ENTER, f"Measure and enter {what}.").text(),
            )
        else:
            yield _judged(base, back.screw, far, safe=leg.cover is Cover.CONDUIT)


def _base(facts: Facts, run: Run, name: str, title: str) -> Judged:
    return line(facts, run.place, name, title)._replace(source=cite.COMMON, weight=44)


def _judged(base: Judged, screw: float, deep: float, *, safe: bool) -> Judged:
    words = f"Screws of {screw:g} mm; the cable is {deep:g} mm behind the face."
    if safe or screw <= deep - CLEAR + SLACK:
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
    """A part of a surface where no screw or nail belongs [mm]: a rectangle, or a sloping band."""

    left: float
    bottom: float
    right: float
    top: float
    why: str
    ends: tuple[float, float] | None = None
    """Of a sloping one: how high the cable is at its left and its right end."""

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Its corners, from the lower left one round."""
        if self.ends is None:
            low, high = (self.bottom, self.bottom), (self.top, self.top)
        else:
            low = (self.ends[0] - KEEP, self.ends[1] - KEEP)
            high = (self.ends[0] + KEEP, self.ends[1] + KEEP)
        return (
            (self.left, low[0]),
            (self.right, low[1]),
            (self.right, high[1]),
            (self.left, high[0]),
        )

    def __str__(self) -> str:
        across = f"{self.left:.0f} to {self.right:.0f} along"
        if self.ends is None:
            return f"{across}, {self.bottom:.0f} to {self.top:.0f} up: {self.why}"
        (_, a), (_, b), (_, c), (_, d) = self.corners
        return f"{across}, sloping from {a:.0f}–{d:.0f} up to {b:.0f}–{c:.0f} up: {self.why}"


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
        found.append(_strip((x0, y0, x1, y1), surface, f"cable of {run.name}{side}"))
    return tuple(found)


def _strip(route: Line, surface: Surface, why: str) -> Strip:
    x0, y0, x1, y1 = route if route[0] <= route[2] else (*route[2:], *route[:2])
    left, right = max(0.0, x0 - KEEP), min(x1 + KEEP, surface.width or float("inf"))
    bottom, top = max(0.0, min(y0, y1) - KEEP), max(y0, y1) + KEEP
    gentle = 0 < abs(y1 - y0) <= _GENTLE * (x1 - x0)
    if not gentle:
        return Strip(left, bottom, right, top, why)
    slope = (y1 - y0) / (x1 - x0)
    ends = (y0 + (left - x0) * slope, y1 + (right - x1) * slope)
    return Strip(left, bottom, right, top, why, ends)


_GENTLE = 0.5
"""Rise for each mm along up to which a sloping cable has a sloping strip, that is 45 to 50 mm wide
to each side square to the cable; of a steeper one all of its rectangle is kept clear."""
