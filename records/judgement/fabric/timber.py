"""Holes and notches in the timber that a cable goes through."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.evidence import Source
from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.legs import Run, is_sheathed, leg_name, point_on, runs_of
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Cover, Hole, Leg, Surface, Timber
from records.terms import Basis, Verdict

FACE = 50.0
"""mm from the faces of a wall, the top and bottom of a joist (Regulations 522.6.201 and 202)."""
HOLE = 0.25
"""Share of a joist's depth that a hole may have."""
HOLE_PLACE = (0.25, 0.4)
"""Where in the span a hole may be, from the nearer support."""
NOTCH = 0.125
"""Share of a joist's depth that a notch may have: the stricter of two published rules."""
NOTCH_PLACE = (0.1, 0.2)
"""Where in the span a notch may be: what both published rules allow."""
DEEPEST = 250.0
"""mm of a joist up to which the rules hold."""
APART = 3.0
"""Diameters between the centres of two holes."""
NOTCH_APART = 100.0
"""mm between a hole and a notch."""
_AXIS = 0.5
"""Share of its own size by which the middle of a hole may lie off the middle of the joist: a choice
(common practice), for the rule says “on the neutral axis”."""
_OFF = 5.0
"""mm by which a hole in a thin stud may miss its middle (common practice)."""
_SAME = 25.0
"""mm along two legs within which they cross one joist (common practice)."""

_HOLES = Source(
    "BS 5268-2 and the guidance after it",
    "holes in joists on the neutral axis",
    Basis.READ,
    "builders' summaries of it",
)
_NOTCHES = Source(
    "BS 5268-2 (1/8, 0.07 to 0.25 of span) and a house-builders' standard of 2020 (0.15, 0.1 to "
    "0.2 of span)",
    "notches in joists; the stricter of each is taken",
    Basis.READ,
    "summaries",
)
_JOIST = cite.bs7671("Regulation 522.6.201", Basis.READ)
_WALL = cite.bs7671("Regulation 522.6.202", Basis.READ)
_DESIGNER = do(Act.ASK, "Stop cutting. Ask the designer how to strengthen it.")
_PLATE = do(Act.OPEN, "Put an earthed steel plate over it, or bore a new hole in the middle.")


@dataclass(frozen=True, slots=True)
class _Fault:
    verdict: Verdict
    why: str
    next_check: Advice
    source: Source
    weight: int


@dataclass(frozen=True, slots=True)
class _Bored:
    """A hole with where it is."""

    leg: Leg
    number: int
    hole: Hole
    along: float
    up: float


def timber_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each hole or notch; one that is right says so."""
    surfaces = {each.id: each for each in facts.record.fabric.surfaces}
    bored: dict[str, list[_Bored]] = {}
    for leg in facts.record.fabric.legs:
        for number, hole in enumerate(leg.holes, start=1):
            here = _Bored(leg, number, hole, *point_on(leg, hole.at))
            bored.setdefault(leg.surface, []).append(here)
    owner = runs_of(facts.record)
    for id, holes in bored.items():
        surface = surfaces.get(id)
        for at, one in enumerate(holes):
            run = owner(one.leg)
            if run is not None and surface is not None:
                yield _line(facts, one, surface, run, holes[:at])


def _line(facts: Facts, one: _Bored, surface: Surface, run: Run, before: list[_Bored]) -> Judged:
    hole, leg = one.hole, one.leg
    what = "notch" if hole.is_notch else "hole"
    base = line(
        facts,
        run.place,
        f"timber {leg.id}-{one.number}",
        f"{what} {one.number} of {leg_name(leg, surface)}",
    )._replace(
        source=_WALL if hole.timber is Timber.STUD else _JOIST,
    )
    if hole.size <= 0 or hole.from_face + hole.size > hole.deep + SLACK:
        return base._replace(
            verdict=Verdict.UNLIKELY,
            weight=8,
            source=cite.COMMON,
            why=f"{hole.size:g} mm, {hole.from_face:g} mm from the face: the timber is "
            f"{hole.deep:g} mm deep.",
            next_check=do(Act.ENTER, "Measure it again and correct the entry.").text(),
        )
    found = [*_from_faces(leg, run, hole, surface), *_in_timber(hole), *_apart(one, before)]
    if not found:
        return base._replace(verdict=Verdict.WITHIN, why=_figures(hole))
    order = (Verdict.OUTSIDE, Verdict.NEAR, Verdict.NOT_TAKEN)
    first, *others = sorted(found, key=lambda each: (order.index(each.verdict), -each.weight))
    why = " ".join(dict.fromkeys(each.why for each in (first, *others)))
    steps = first.next_check
    for each in others:
        steps += each.next_check
    return base._replace(
        verdict=first.verdict,
        why=why,
        next_check=steps.text(),
        source=first.source,
        weight=first.weight,
    )


def _figures(hole: Hole) -> str:
    return f"{hole.size:g} mm in {hole.deep:g} mm, {hole.from_face:g} mm from the face."


def _from_faces(leg: Leg, run: Run, hole: Hole, surface: Surface) -> Iterator[_Fault]:
    if is_sheathed(leg, run):
        return
    stud = hole.timber is Timber.STUD
    source = _WALL if stud else _JOIST
    plated = leg.cover is Cover.PLATE
    if hole.is_notch and not plated:
        yield _Fault(
            Verdict.OUTSIDE,
            f"A notch puts the cable less than {FACE:g} mm from the face.",
            do(Act.OPEN, "Put an earthed steel plate over the notch."),
            source,
            44,
        )
        return
    # A wall is measured from its finished face, a joist from the timber.
    near = hole.from_face + ((surface.board or 0.0) if stud else 0.0)
    if plated:
        near = FACE  # it stops what comes through the face that it is on, and no other
    far = hole.deep - hole.from_face - hole.size
    least, side = (near, "near") if near <= far else (far, "far")
    if least >= FACE - SLACK:
        return
    best = (hole.deep - hole.size) / 2
    if stud and best < FACE:
        # Nobody can bore this stud 50 mm from both faces: the rule of zones judges the cable.
        bored = far if plated else min(hole.from_face, far)
        off = best - bored
        if off > _OFF + SLACK:
            yield _Fault(
                Verdict.OUTSIDE,
                f"{bored:g} mm from the {side} face of the stud; in the middle "
                f"it would be {best:g} mm. A screw for the board finds it.",
                _PLATE,
                cite.COMMON,
                44,
            )
        return
    yield _Fault(
        Verdict.OUTSIDE,
        f"{least:g} mm from the {side} face; at least {FACE:g} mm is asked for.",
        _PLATE,
        source,
        44,
    )


def _in_timber(hole: Hole) -> Iterator[_Fault]:
    match hole.timber:
        case Timber.STUD:
            if hole.is_notch or hole.size > HOLE * hole.deep + SLACK:
                yield _ask(
                    "Farboard has no published rule for a notch in a stud, or a hole over a "
                    "quarter of its depth."
                )
        case Timber.RAFTER if hole.is_notch:
            yield _Fault(
                Verdict.OUTSIDE, "A rafter or truss is not notched.", _DESIGNER, _HOLES, 43
            )
        case Timber.RAFTER:
            yield _ask("Holes in rafters and trusses only where their maker provides for them.")
        case Timber.JOIST:
            yield from _in_joist(hole)


def _in_joist(hole: Hole) -> Iterator[_Fault]:
    if hole.deep > DEEPEST + SLACK:
        yield _ask(f"The rules for joists end at {DEEPEST:g} mm deep.")
        return
    most = (NOTCH if hole.is_notch else HOLE) * hole.deep
    source = _NOTCHES if hole.is_notch else _HOLES
    if hole.size > most + SLACK:
        what = "A notch" if hole.is_notch else "A hole"
        yield _Fault(
            Verdict.OUTSIDE,
            f"{what} of {hole.size:g} mm in a joist of {hole.deep:g} mm; at most {most:.4g} mm.",
            _DESIGNER,
            source,
            43,
        )
    off = abs(hole.from_face + hole.size / 2 - hole.deep / 2)
    if not hole.is_notch and off > _AXIS * hole.size + SLACK:
        yield _Fault(
            Verdict.OUTSIDE,
            f"{off:g} mm off the middle of the joist: a hole belongs on its neutral axis.",
            do(Act.ASK, "Ask the designer. Bore the next ones half way down."),
            source,
            42,
        )
    low, high = NOTCH_PLACE if hole.is_notch else HOLE_PLACE
    if hole.span and hole.from_support is not None and hole.from_support > hole.span:
        yield _Fault(
            Verdict.NOT_TAKEN,
            f"It is entered {hole.from_support:g} mm from a support; the span is {hole.span:g} mm.",
            do(Act.ENTER, "Measure both again and correct the entry."),
            cite.COMMON,
            8,
        )
    elif hole.span is None or hole.from_support is None or hole.span <= 0:
        yield _Fault(
            Verdict.NOT_TAKEN,
            "Its place in the span is not entered.",
            do(
                Act.ENTER,
                "Enter the span of the joist and how far the hole is from the nearer support.",
            ),
            source,
            5,
        )
    elif not low - SLACK <= _share(hole.span, hole.from_support) <= high + SLACK:
        yield _Fault(
            Verdict.OUTSIDE,
            f"At {_share(hole.span, hole.from_support):.2f} of the span from its support; "
            f"{low:g} to {high:g} is allowed.",
            do(Act.ASK, "Ask the designer. Move the ones still to be cut."),
            source,
            42,
        )


def _share(span: float, from_support: float) -> float:
    """Return where in the span, from the nearer support, whichever it was measured from."""
    return min(from_support, abs(span - from_support)) / span


def _apart(one: _Bored, before: list[_Bored]) -> Iterator[_Fault]:
    """Two cables beside each other bore one joist twice: the legs run the same way."""
    if one.hole.timber is not Timber.JOIST:
        return
    for other in before:
        between = _between(one, other)
        if between is None or other.hole.timber is not Timber.JOIST:
            continue
        mixed = one.hole.is_notch is not other.hole.is_notch
        least = NOTCH_APART if mixed else APART * max(one.hole.size, other.hole.size)
        if 1 < between < least - SLACK:
            yield _Fault(
                Verdict.OUTSIDE,
                f"{between:.0f} mm from the next one in the same joist; at least {least:g} mm.",
                do(Act.ASK, "Ask the designer. Spread the ones still to be cut."),
                _HOLES,
                41,
            )


def _between(one: _Bored, other: _Bored) -> float | None:
    """Return the distance along the joist of two holes in it [mm]; None if it isn't the same."""
    dx, dy = one.leg.to_along - one.leg.along, one.leg.to_up - one.leg.up
    ox, oy = other.leg.to_along - other.leg.along, other.leg.to_up - other.leg.up
    length, others = (dx**2 + dy**2) ** 0.5, (ox**2 + oy**2) ** 0.5
    if not length or not others or abs(dx * oy - dy * ox) > 0.05 * length * others:
        return None
    ux, uy = dx / length, dy / length
    x, y = other.along - one.along, other.up - one.up
    if abs(x * ux + y * uy) > _SAME:
        return None
    return float(abs(y * ux - x * uy))


def _ask(why: str) -> _Fault:
    return _Fault(Verdict.NEAR, why, do(Act.ASK, "Ask the designer."), cite.COMMON, 20)
