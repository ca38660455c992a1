"""What holds a cable, and how tightly it is bent: spacing of supports, radius of bends."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from records.errors import NotTabulated
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.legs import Run, leg_name, runs_of, surface_name
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model import wiring
from records.model.fabric import Leg, Surface
from records.tables.cable_sizes import clip_spacing, least_bend, overall
from records.tables.table import Published
from records.terms import CableKind, Verdict

_LEVEL = 1.0
"""mm within which a leg begins where the one before ended."""
_STEEP = 2.0
"""Times its level part that a leg goes up, from which its supports are those of cable going up."""


def supports_of(run: wiring.Run) -> Published[tuple[float, float]] | None:
    """Return how far apart supports of a cable are, along and up [mm]; None: not listed."""
    try:
        cable, _, across = _size(run)
        return clip_spacing(cable, across)
    except NotTabulated:
        return None


def least_bend_of(run: wiring.Run) -> Published[float] | None:
    """Return the least inside radius of a bend of a run's cable [mm]; None: unlisted."""
    try:
        return least_bend(*_size(run))
    except NotTabulated:
        return None


def support_words(run: wiring.Run) -> str:
    """Return how a cable is held and bent, as a sentence; empty where nothing is listed."""
    held, bent = supports_of(run), least_bend_of(run)
    if held is None or bent is None:
        return ""
    along, up = held.value
    return (
        f"Supports at most {along:g} mm apart along, {up:g} up (guidance); bends no tighter than "
        f"{bent.value:.0f} mm inside."
    )


def _size(run: wiring.Run) -> tuple[CableKind, float, float]:
    if run.cable is None or run.csa is None:
        raise NotTabulated("The cable, or its size, isn't entered.")
    return run.cable, run.csa, overall(run.cable, run.cores, run.csa).value


def support_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each spacing and bend that is entered, or that a short leg forces."""
    record = facts.record
    surfaces = {each.id: each for each in record.fabric.surfaces}
    forced = _forced(record.fabric.legs)
    owner = runs_of(record)
    for leg in record.fabric.legs:
        surface, run = surfaces.get(leg.surface), owner(leg)
        if surface is None or run is None:
            continue
        if leg.clips is not None:
            yield from _clips(facts, leg, surface, run, leg.clips)
        if leg.bend is not None or leg.id in forced:
            yield from _bend(facts, leg, surface, run, forced.get(leg.id, 0))


def _clips(facts: Facts, leg: Leg, surface: Surface, run: Run, clips: float) -> Iterator[Judged]:
    base = line(facts, run.place, f"clips {leg.id}", f"supports of {leg_name(leg, surface)}")
    found = supports_of(run.run)
    if found is None:
        return
    rises = abs(leg.to_up - leg.up) >= _STEEP * abs(leg.to_along - leg.along)
    most, way = (found.value[1], "going up") if rises else (found.value[0], "along")
    base = base._replace(source=found.source, weight=12)
    words = f"Supports {clips:g} mm apart; at most {most:g} mm {way} (guidance)."
    if clips <= most + SLACK:
        yield base._replace(verdict=Verdict.WITHIN, why=words)
    else:
        yield base._replace(
            verdict=Verdict.NEAR,
            why=f"{words} Where people pass under it they are metal: it mustn't fall in a fire.",
            next_check=do(
                Act.OPEN, f"Add supports on {surface_name(surface)} while it is open."
            ).text(),
        )


def _bend(facts: Facts, leg: Leg, surface: Surface, run: Run, bends: int) -> Iterator[Judged]:
    found = least_bend_of(run.run)
    if found is None:
        return
    least = found.value
    base = line(facts, run.place, f"bend {leg.id}", f"bend of {leg_name(leg, surface)}")._replace(
        source=found.source, weight=14
    )
    again = do(Act.OPEN, "Lay the bend wider, or change a cable that was kinked.").text()
    if leg.bend is not None and leg.bend < least - SLACK:
        yield base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"Bent to {leg.bend:g} mm inside; this cable takes {least:.0f} mm or more.",
            next_check=again,
        )
    elif bends and leg.length * 1000 < bends * least - SLACK:
        yield base._replace(
            verdict=Verdict.NEAR,
            why=f"{leg.length * 1000:.0f} mm between {bends} bends; at {least:.0f} mm inside they "
            f"need {bends * least:.0f} mm.",
            next_check=again,
        )
    elif leg.bend is not None:
        yield base._replace(
            verdict=Verdict.WITHIN,
            why=f"Bent to {leg.bend:g} mm inside; {least:.0f} mm or more is right.",
        )


def _forced(legs: tuple[Leg, ...]) -> dict[str, int]:
    """Return how many bends a leg has that lies between two others of its run, by its id."""
    bends: dict[str, int] = {}
    for one, other in pairwise(legs):
        same = (one.circuit, one.run, one.surface) == (other.circuit, other.run, other.surface)
        joined = max(abs(one.to_along - other.along), abs(one.to_up - other.up)) <= _LEVEL
        if same and joined and _turns(one, other):
            for each in (one, other):
                bends[each.id] = bends.get(each.id, 0) + 1
    return {id: count for id, count in bends.items() if count > 1}


def _turns(one: Leg, other: Leg) -> bool:
    dx, dy = one.to_along - one.along, one.to_up - one.up
    ox, oy = other.to_along - other.along, other.to_up - other.up
    # Back along itself it is another cable, or a loop into a box.
    return abs(dx * oy - dy * ox) > 0.1 * hypot(dx, dy) * hypot(ox, oy)
