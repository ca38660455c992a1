"""Cables hidden in walls: deep, covered, or in a zone with 30 mA before it; never 30 mA alone."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.boxes import placed, plate
from records.expected.formulas.zones import Zone, below_top, outside, rectangle
from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.legs import (
    Run,
    from_face,
    from_other_face,
    is_covered,
    leg_name,
    line_of,
    point_on,
    run_of,
    surface_name,
)
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Box, Frame, Leg, Surface, SurfaceKind
from records.model.record import Record
from records.terms import Basis, Verdict

DEEP = 50.0
"""mm from every surface of the wall at which no zone is asked for."""
BAND = 150.0
"""mm of the zones at the top and in the corners."""
THIN = 100.0
"""mm up to which the points on the other side of a wall make zones here too."""

ZONES = cite.bs7671("Regulation 522.6.202", Basis.READ)
_METAL = cite.bs7671("Regulation 522.6.203", Basis.READ)
WALLS = (SurfaceKind.WALL, SurfaceKind.OUTSIDE)


def zone_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each leg that is hidden in a wall."""
    record = facts.record
    surfaces = {each.id: each for each in record.fabric.surfaces}
    known = {id: tuple(zones(record, each)) for id, each in surfaces.items()}
    for leg in record.fabric.legs:
        surface, run = surfaces.get(leg.surface), run_of(record, leg)
        if surface is None or run is None or surface.kind not in WALLS or leg.deep == 0:
            continue
        base = line(facts, run.place, f"zone {leg.id}", leg_name(leg, surface))._replace(
            source=ZONES,
            weight=45,
        )
        yield _judged(base, leg, surface, run, known[leg.surface])


def other_side(record: Record, surface: Surface) -> Surface | None:
    """Return the back of a surface, whichever of both names the other."""
    for each in record.fabric.surfaces:
        if each.id != surface.id and (
            each.id == surface.other_side or each.other_side == surface.id
        ):
            return each
    return None


def mirrored(surface: Surface, other: Surface, along: float) -> float:
    """Return where on a surface a distance along its back is [mm].

    Whoever faces the other side sees it the other way round. A wall is as much wider outside as its
    corners are thick: both faces have their middle in one place.
    """
    width, back = surface.width or 0.0, other.width or surface.width or 0.0
    return width / 2 - (along - back / 2)


def zones(record: Record, surface: Surface) -> Iterator[Zone]:
    """Yield the zones of a wall, the other side's too where the wall is thin enough.

    Source:
        BS 7671, Regulation 522.6.202 (a read summary; the wording from memory): within 150 mm of
        the top or of an angle of two walls; level with, or straight above or below, a point that
        can be seen, as wide and as high as it is.
    """
    width, height = surface.width, surface.height
    if width is None or height is None:
        return
    far = height if surface.height_far is None else surface.height_far
    top = max(height, far)
    yield below_top(width, height, far, BAND, f"{BAND:g} mm below the top")
    yield rectangle(0, 0, min(BAND, width), top, f"{BAND:g} mm from the corner")
    yield rectangle(max(0.0, width - BAND), 0, width, top, f"{BAND:g} mm from the far corner")
    yield from _of_points(record, surface, surface, width, top)
    other = other_side(record, surface)
    if other is None:
        return
    known = [each for each in (surface.thick, other.thick) if each is not None]
    if known and max(known) <= THIN + SLACK:
        yield from _of_points(record, surface, other, width, top)


def _of_points(
    record: Record, surface: Surface, other: Surface, width: float, top: float
) -> Iterator[Zone]:
    for each in placed(record, other):
        spot = each.spot
        unsized = spot.box is None and spot.width is None
        if each.is_opening or unsized or spot.box is Box.JOINT:
            continue  # what nobody sees from the room tells nobody where a cable is
        seen = plate(spot)
        left, right, side = seen.left, seen.right, ""
        if other is not surface:
            left, right = mirrored(surface, other, right), mirrored(surface, other, left)
            side = " on the other side"
        yield rectangle(left, 0, right, top, f"above or below {each.name}{side}")
        yield rectangle(0, seen.bottom, width, seen.top, f"level with {each.name}{side}")


def _judged(base: Judged, leg: Leg, surface: Surface, run: Run, zones: tuple[Zone, ...]) -> Judged:
    if is_covered(leg, run):
        why = "Behind an earthed metal cover, or in earthed armour: no zone is asked for."
        return base._replace(verdict=Verdict.WITHIN, why=why)
    near, far = from_face(leg, surface), from_other_face(leg, surface)
    if near is not None and near >= DEEP - SLACK:
        if far is None:
            return base._replace(
                why=f"{near:g} mm deep from this face. How thick the wall is isn't entered: "
                f"{DEEP:g} mm count from both faces.",
                next_check=do(Act.ENTER, f"Enter how thick {surface_name(surface)} is.").text(),
            )
        if far >= DEEP - SLACK:
            return _deep(base, surface, run)
    shallow = (
        "how deep it is isn't entered"
        if near is None
        else (
            f"{near:g} mm from this face"
            if far is None or near <= far
            else f"{far:g} mm from the other face"
        )
    )
    if surface.width is None or surface.height is None:
        return base._replace(
            why=f"Zones are counted from the edges of {surface_name(surface)}, and its size isn't "
            "entered.",
            next_check=do(Act.ENTER, f"Enter width and height of {surface_name(surface)}.").text(),
        )
    gaps = outside(line_of(leg), zones)
    if gaps:
        begin, end = gaps[0][0], gaps[-1][1]
        return base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"Outside every safe zone for {end - begin:.0f} mm ({_where(leg, begin, end)}); "
            f"{shallow}, less than {DEEP:g} mm. An RCD alone doesn't replace a zone.",
            causes=("a route that goes the short way instead of level with a box",),
            next_check=plan(
                "Move the cable level with, or straight above or below, a box that can be seen. "
                f"Or put earthed steel over it, or lay it {DEEP:g} mm deep from both faces."
            ),
        )
    if not run.protected and run.unread:
        return _unread(base)
    if not run.protected:
        return base._replace(
            verdict=Verdict.OUTSIDE,
            why=f"In a safe zone, {shallow}, without 30 mA protection: both are asked for.",
            next_check=plan(
                "A 30 mA RCD without delay before it, or earthed steel over the cable."
            ),
        )
    return base._replace(verdict=Verdict.WITHIN, why=f"In a safe zone, {shallow}, behind 30 mA.")


def _unread(base: Judged) -> Judged:
    return base._replace(
        why="Not calculated: IΔn of its RCBO is not entered.",
        next_check=do(Act.ENTER, "Enter IΔn of the RCBO (Circuits).").text(),
    )


def _deep(base: Judged, surface: Surface, run: Run) -> Judged:
    if surface.frame is not Frame.METAL or run.protected:
        return base._replace(verdict=Verdict.WITHIN, why=f"At least {DEEP:g} mm from both faces.")
    if run.unread:
        return _unread(base)
    return base._replace(
        verdict=Verdict.OUTSIDE,
        why="In a wall with a metal frame, without 30 mA protection: asked for at any depth.",
        next_check=plan("A 30 mA RCD without delay before it, or earthed steel round the cable."),
        source=_METAL,
    )


def _where(leg: Leg, begin: float, end: float) -> str:
    """Return between which figures a stretch of a leg lies, as one measures them."""
    (x0, y0), (x1, y1) = point_on(leg, begin), point_on(leg, end)
    if leg.up == leg.to_up:
        return f"{leg.up:g} up, from {min(x0, x1):.0f} to {max(x0, x1):.0f} along"
    if leg.along == leg.to_along:
        return f"{leg.along:g} along, from {min(y0, y1):.0f} to {max(y0, y1):.0f} up"
    return f"from {x0:.0f} along, {y0:.0f} up to {x1:.0f} along, {y1:.0f} up"
