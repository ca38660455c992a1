"""Entries about places that can't be so: each says what would be right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from records.expected.boxes import Placed, Rect, hole, placed
from records.expected.formulas.zones import distance, top_at
from records.judgement.design.line import line
from records.judgement.fabric.legs import leg_name, line_of, runs_of, surface_name
from records.judgement.fabric.surfaces import wrong
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.fabric import Frame, Leg, Spot, Surface
from records.model.reading import place_of
from records.terms import Part

_STUD = 45.0
"""mm of a timber stud's width (common practice)."""


def entry_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each entry that contradicts another; what fits has none."""
    record = facts.record
    surfaces = {each.id: each for each in record.fabric.surfaces}
    cuts: dict[str, list[Rect]] = {}
    for each in placed(record):
        cuts.setdefault(each.spot.surface, []).append(hole(each.spot))
        surface = surfaces.get(each.spot.surface)
        place = place_of(Part.CIRCUIT, each.circuit.id) if each.circuit else BOARD
        trouble = (
            f"{each.name} is on a surface that is not in this record."
            if surface is None
            else spot_trouble(each.spot, surface, opening=each.is_opening)
        )
        if trouble:
            base = line(facts, place, f"spot {spot_key(each)}", f"{each.name}: where it is")
            yield wrong(base, trouble)
    owner = runs_of(record)
    routes: dict[tuple[str, str | None], list[Leg]] = {}
    for leg in record.fabric.legs:
        routes.setdefault((leg.surface, leg.circuit), []).append(leg)
    for leg in record.fabric.legs:
        surface, run = surfaces.get(leg.surface), owner(leg)
        place = run.place if run is not None else BOARD
        if surface is None or run is None:
            what = "surface" if surface is None else "run of cable"
            base = line(facts, place, f"leg {leg.id}", f"leg {leg.id}")
            yield wrong(base, f"Leg {leg.id} belongs to a {what} that is not in this record.")
            continue
        trouble = leg_trouble(leg, surface) or _from_nowhere(
            leg, surface, cuts.get(leg.surface, ()), routes[leg.surface, leg.circuit]
        )
        if trouble:
            base = line(facts, place, f"leg {leg.id}", leg_name(leg, surface))
            yield wrong(base, trouble)


def spot_key(each: Placed) -> str:
    """Return how the check of a place is called, after its kind."""
    return f"{each.circuit.id if each.circuit else ''}{each.name}"


def spot_trouble(spot: Spot, surface: Surface, *, opening: bool = False) -> str:
    """Return what is wrong with a place on a surface, as a sentence; empty if nothing is."""
    name = surface_name(surface)
    cut = hole(spot)
    if surface.width is not None and cut.right > surface.width:
        return f"{name} is {surface.width:g} mm wide; this reaches to {cut.right:g} mm."
    if cut.left < 0:
        return f"Its left edge would be {-cut.left:g} mm beyond the corner of {name}."
    if surface.height is not None and surface.width is not None:
        far = surface.height if surface.height_far is None else surface.height_far
        top = min(
            top_at(each, surface.width, surface.height, far) for each in (cut.left, cut.right)
        )
        if cut.top > top:
            return f"{name} is {top:.0f} mm high there; this reaches to {cut.top:g} mm."
    if cut.bottom < 0:
        return "Its lower edge would be below the floor."
    wide = cut.right - cut.left
    if not opening and surface.frame in (Frame.TIMBER, Frame.METAL) and surface.centres is not None:
        bay = surface.centres - _STUD
        if wide > bay:
            return f"It is {wide:g} mm wide; between studs there are {bay:g} mm."
    if spot.deep is not None and surface.thick is not None and spot.deep > surface.thick:
        return f"Its box is {spot.deep:g} mm deep; the wall is {surface.thick:g} mm thick."
    return ""


def leg_trouble(leg: Leg, surface: Surface) -> str:
    """Return what is wrong with a leg on its surface, as a sentence; empty if nothing is."""
    name = surface_name(surface)
    x0, y0, x1, y1 = line_of(leg)
    if surface.width is not None and max(x0, x1) > surface.width:
        return f"{name} is {surface.width:g} mm wide; the cable goes to {max(x0, x1):g} mm."
    if surface.width is not None and surface.height is not None:
        far = surface.height if surface.height_far is None else surface.height_far
        for x, y in ((x0, y0), (x1, y1)):
            top = top_at(x, surface.width, surface.height, far)
            if y > top + 1:
                return f"{name} is {top:.0f} mm high there; the cable goes to {y:g} mm."
    if leg.deep is not None and surface.thick is not None and leg.deep > surface.thick:
        return f"It would be {leg.deep:g} mm deep; the wall is {surface.thick:g} mm thick."
    if leg.length == 0:
        return "It ends where it begins: a leg has a length."
    beyond = [each for each in leg.holes if each.at > leg.length * 1000 + 1]
    if beyond:
        return f"A hole is {beyond[0].at:g} mm along it; it is {leg.length * 1000:.0f} mm long."
    return ""


_NEAR = 150.0
"""mm within which a leg begins at a box, or where another leg ends."""


def _from_nowhere(leg: Leg, surface: Surface, cuts: Iterable[Rect], routes: Iterable[Leg]) -> str:
    """Return that neither end of a leg meets a box, another leg of its circuit, or an edge.

    Args:
        leg: A leg.
        surface: Where it is.
        cuts: The holes of what is placed there.
        routes: The legs of its circuit there.
    """
    ends = ((leg.along, leg.up), (leg.to_along, leg.to_up))
    if any(_at_edge(surface, x, y) for x, y in ends):
        return ""
    for cut in cuts:
        left, right = cut.left - _NEAR, cut.right + _NEAR
        bottom, top = cut.bottom - _NEAR, cut.top + _NEAR
        if any(left <= x <= right and bottom <= y <= top for x, y in ends):
            return ""
    for other in routes:
        if other.id != leg.id and any(distance(line_of(other), x, y) <= _NEAR for x, y in ends):
            return ""
    return "It begins and ends nowhere: no box, edge or other leg of its circuit is near."


def _at_edge(surface: Surface, x: float, y: float) -> bool:
    """Whether a place is so near an edge that the cable can come from another surface."""
    width, height = surface.width, surface.height
    if width is None or height is None:
        return True
    far = height if surface.height_far is None else surface.height_far
    top = top_at(x, width, height, far)
    return min(x, y, width - x, top - y) <= _NEAR
