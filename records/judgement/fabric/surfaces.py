"""Surfaces, photographs and openings as entered: what can't be so, and what would be right."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from records.expected.boxes import Placed, hole, overlap, placed
from records.expected.formulas.zones import inside, rectangle
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.design.line import line
from records.judgement.fabric.legs import leg_name, line_of, runs_of, surface_name
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.fabric import Leg, Surface
from records.model.record import Record
from records.terms import Verdict

_THROUGH = 1.0
"""mm of cable inside an opening from which it runs through it."""


def surface_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each surface, or leg beside an opening, that can't be as entered."""
    record = facts.record
    for surface in record.fabric.surfaces:
        for name, why in _troubles(record, surface):
            base = line(facts, BOARD, f"surface {surface.id} {name}", surface_name(surface))
            yield wrong(base, why)
    surfaces = {each.id: each for each in record.fabric.surfaces}
    owner, openings = runs_of(record), tuple(each for each in placed(record) if each.is_opening)
    for leg in record.fabric.legs:
        run, where = owner(leg), surfaces.get(leg.surface)
        door = opening_in_the_way(openings, leg) if where is not None else ""
        if run is not None and where is not None and door:
            base = line(facts, run.place, f"leg {leg.id} opening", leg_name(leg, where))
            yield wrong(base, f"It runs through {door}: nothing is there to hold it.")


def wrong(base: Judged, why: str) -> Judged:
    """Return the line of an entry that can't be so."""
    return base._replace(
        verdict=Verdict.UNLIKELY,
        why=why,
        source=cite.COMMON,
        weight=8,
        next_check=do(Act.ENTER, "Measure again and correct the entry.").text(),
    )


def _troubles(record: Record, surface: Surface) -> Iterator[tuple[str, str]]:
    names = Counter(each.name.casefold().strip() for each in record.fabric.surfaces if each.name)
    if names[surface.name.casefold().strip()] > 1:
        yield "name", f"Two surfaces are called {surface.name}. Call each by its own name."
    if surface.kind is None:
        yield (
            "kind",
            "What it is isn't entered: a wall has safe zones, a ceiling has none. Type this wall, "
            "this ceiling, this outside.",
        )
    for what, value in (("wide", surface.width), ("high", surface.height)):
        if value == 0:
            yield what, f"It is 0 mm {what}. Enter what the tape shows."
    others = {each.id: each for each in record.fabric.surfaces}
    if surface.other_side is not None:
        back = others.get(surface.other_side)
        if back is None or back is surface:
            yield "back", f"Its other side ({surface.other_side}) is no other surface here."
        elif back.other_side not in (None, surface.id):
            yield "back", f"Its other side, {surface_name(back)}, names another surface as its own."
        elif None not in (surface.thick, back.thick) and surface.thick != back.thick:
            yield (
                "faces",
                f"The wall is {surface.thick:g} mm thick here and {back.thick:g} mm on "
                f"{surface_name(back)}. Enter one thickness.",
            )
    layers = (surface.board or 0.0) + (surface.frame_depth or 0.0)
    if surface.thick is not None and layers > surface.thick:
        yield (
            "thick",
            (
                f"Board and studs are {layers:g} mm; the whole wall is entered as "
                f"{surface.thick:g} mm."
            ),
        )
    yield from _overlaps(record, surface)


def _overlaps(record: Record, surface: Surface) -> Iterator[tuple[str, str]]:
    """Two boxes that would be cut into each other."""
    here = [(each, hole(each.spot)) for each in placed(record, surface) if not each.is_opening]
    for at, (one, cut) in enumerate(here):
        for other, its in here[:at]:
            over = overlap(cut, its)
            if over is not None:
                yield (
                    f"overlap {at}",
                    f"{other.name} and {one.name} overlap by {over[0]:.0f} × {over[1]:.0f} mm.",
                )


def opening_in_the_way(openings: Iterable[Placed], leg: Leg) -> str:
    """Return the opening that a leg runs through; empty if none."""
    for each in openings:
        if each.spot.surface != leg.surface:
            continue
        cut = hole(each.spot)
        found = inside(line_of(leg), rectangle(cut.left, cut.bottom, cut.right, cut.top, each.name))
        if found is not None and (found[1] - found[0]) * leg.length * 1000 > _THROUGH:
            along_edge = leg.along == leg.to_along and leg.along in (cut.left, cut.right)
            over_edge = leg.up == leg.to_up and leg.up in (cut.bottom, cut.top)
            if not along_edge and not over_edge:
                return each.name
    return ""
