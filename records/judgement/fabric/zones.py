"""Cables hidden in walls: deep, covered, or in a zone with 30 mA before it; never 30 mA alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import Enum, auto

from records.expected.boxes import placed, plate
from records.expected.formulas.zones import Zone, below_top, outside, rectangle
from records.judgement import cite
from records.judgement.advice import Act, do, plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.fabric.faces import mirrored, other_side, with_both_faces
from records.judgement.fabric.legs import (
    Run,
    from_face,
    from_other_face,
    is_sheathed,
    leg_name,
    line_of,
    point_on,
    runs_of,
    surface_name,
)
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Cover, Frame, Leg, Surface, SurfaceKind
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


class Need(Enum):
    """What a hidden leg in a wall is judged by."""

    NOTHING = auto()
    """Earthed metal is all round it, or a plate before it and the other face is far enough."""
    DEPTH = auto()
    """It is far enough from both faces."""
    THICKNESS = auto()
    """It is far enough from this face; how far the other one is isn't known."""
    ZONE = auto()


def zone_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each leg that is hidden in a wall."""
    record = facts.record
    surfaces = {each.id: each for each in record.fabric.surfaces}
    walls = {id: with_both_faces(record, each) for id, each in surfaces.items()}
    known = {id: _different(zones(record, each)) for id, each in surfaces.items()}
    owner = runs_of(record)
    for leg in record.fabric.legs:
        surface, run = surfaces.get(leg.surface), owner(leg)
        if surface is None or run is None or surface.kind not in WALLS or leg.deep == 0:
            continue
        base = line(facts, run.place, f"zone {leg.id}", leg_name(leg, surface))._replace(
            source=ZONES,
            weight=45,
        )
        yield _judged(base, leg, walls[leg.surface], run, known[leg.surface])


def need_of(leg: Leg, wall: Surface, run: Run) -> Need:
    """Return what a leg is judged by.

    Args:
        leg: A hidden leg.
        wall: Its surface, with what its other face says (`with_both_faces`).
        run: What it belongs to.
    """
    if is_sheathed(leg, run):
        return Need.NOTHING
    near, far = from_face(leg, wall), from_other_face(leg, wall, run)
    plated = leg.cover is Cover.PLATE
    if not plated and (near is None or near < DEEP - SLACK):
        return Need.ZONE
    if far is None:
        return Need.THICKNESS
    if far < DEEP - SLACK:
        return Need.ZONE
    return Need.NOTHING if plated else Need.DEPTH


def zone_gaps(
    record: Record, surface: Surface, within: tuple[Zone, ...] | None = None
) -> dict[str, tuple[tuple[float, float], ...]]:
    """Return what of each leg on a wall lies outside every zone and should not, by its id.

    Args:
        record: The job.
        surface: One of its surfaces.
        within: Its zones, where they are known already.
    """
    if surface.kind not in WALLS or surface.width is None or surface.height is None:
        return {}
    wall = with_both_faces(record, surface)
    within = _different(zones(record, surface) if within is None else within)
    found, owner = {}, runs_of(record)
    for leg in record.fabric.legs:
        if leg.surface != surface.id or leg.deep == 0:
            continue
        run = owner(leg)
        if run is None:
            continue
        if need_of(leg, wall, run) is Need.ZONE:
            found[leg.id] = outside(line_of(leg), within)
    return found


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


def _different(zones: Iterable[Zone]) -> tuple[Zone, ...]:
    """Return zones without those of the same place: a row of sockets is level with one line."""
    return tuple({each.sides: each for each in zones}.values())


def _of_points(
    record: Record, surface: Surface, other: Surface, width: float, top: float
) -> Iterator[Zone]:
    for each in placed(record, other):
        spot = each.spot
        unsized = spot.box is None and spot.width is None
        if each.is_opening or unsized or spot.hidden or (spot.box and spot.box.is_hidden):
            continue  # what nobody sees from the room tells nobody where a cable is
        seen = plate(spot)
        left, right, side = seen.left, seen.right, ""
        if other is not surface:
            left, right = mirrored(surface, other, right), mirrored(surface, other, left)
            side = " on the other side"
        yield rectangle(left, 0, right, top, f"above or below {each.name}{side}")
        yield rectangle(0, seen.bottom, width, seen.top, f"level with {each.name}{side}")


def _judged(base: Judged, leg: Leg, surface: Surface, run: Run, zones: tuple[Zone, ...]) -> Judged:
    near, far = from_face(leg, surface), from_other_face(leg, surface, run)
    match need_of(leg, surface, run):
        case Need.NOTHING:
            why = "Behind an earthed metal cover, or in earthed armour: no zone is asked for."
            return base._replace(verdict=Verdict.WITHIN, why=why)
        case Need.THICKNESS:
            this = (
                "A plate stops screws from this face only."
                if leg.cover is Cover.PLATE
                else f"{near:g} mm deep from this face."
            )
            return base._replace(
                why=f"{this} How thick the wall is isn't entered: {DEEP:g} mm count from both "
                "faces.",
                next_check=do(Act.ENTER, f"Enter how thick {surface_name(surface)} is.").text(),
            )
        case Need.DEPTH:
            return _deep(base, surface, run)
    if leg.cover is Cover.PLATE:
        shallow = f"{far:g} mm from the other face, where no plate is"
    elif near is None:
        shallow = "how deep it is isn't entered"
    elif far is None or near <= far:
        shallow = f"{near:g} mm from this face"
    else:
        shallow = f"{far:g} mm from the other face"
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
        next_check=do(Act.ENTER, "Enter IΔn of the RCBO (Circuits, or Feed).").text(),
    )


def _deep(base: Judged, surface: Surface, run: Run) -> Judged:
    deep = f"At least {DEEP:g} mm from both faces"
    if run.protected or (surface.frame not in (Frame.METAL, None) and not surface.foil):
        return base._replace(verdict=Verdict.WITHIN, why=f"{deep}.")
    if run.unread:
        return _unread(base)
    if surface.frame is Frame.METAL:
        return base._replace(
            verdict=Verdict.OUTSIDE,
            why="In a wall with a metal frame, without 30 mA protection: asked for at any depth.",
            next_check=plan(
                "A 30 mA RCD without delay before it, or earthed steel round the cable."
            ),
            source=_METAL,
        )
    if surface.frame is None:
        return base._replace(
            why=f"{deep}, without 30 mA protection. Metal in the wall would ask for it at any "
            "depth; what its frame is isn't entered.",
            next_check=do(
                Act.ENTER, f"Enter the frame of {surface_name(surface)}: timber, metal or brick."
            ).text(),
            source=_METAL,
        )
    return base._replace(
        verdict=Verdict.NEAR,
        why=f"{deep}, without 30 mA protection, in a wall with foil or a metal lining. Metal parts "
        "ask for 30 mA at any depth; whether foil is one is read in two ways.",
        next_check=do(Act.ASK, "Ask the certifier, or put a 30 mA RCD before it.").text(),
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
