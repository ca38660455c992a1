"""Heat: a downlight in thermal insulation, and cable that lies on one."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.boxes import Placed, Rect, hole, placed
from records.expected.formulas.zones import inside, rectangle
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.design.line import line
from records.judgement.fabric.legs import leg_name, line_of, runs_of, surface_name
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Box, Lagging, Leg, Surface
from records.model.reading import place_of
from records.terms import Part, Verdict

_HEAT = cite.bs7671("Regulation 421.1.2")
_CABLE = cite.bs7671("Regulation 522.2.1")


def lamp_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each downlight in insulation, and for each cable that lies on one."""
    record = facts.record
    owner = runs_of(record)
    for surface in record.fabric.surfaces:
        lamps = [each for each in placed(record, surface) if each.spot.box is Box.LAMP]
        for lamp in lamps:
            yield from _in_insulation(facts, surface, lamp)
        for leg in record.fabric.legs if lamps else ():
            run = owner(leg)
            if leg.surface != surface.id or run is None or leg.deep == 0:
                continue
            # Of its own circuit it goes into the lamp, even where a row is drawn as one leg.
            others = (each for each in lamps if each.circuit and each.circuit.id != leg.circuit)
            on = next((each for each in others if _lies_on(leg, hole(each.spot))), None)
            if on is None:
                continue
            base = line(facts, run.place, f"lamp {leg.id}", leg_name(leg, surface))
            yield base._replace(
                verdict=Verdict.NEAR,
                source=_CABLE,
                weight=30,
                why=f"It lies across {on.name} of another circuit: the lamp heats it.",
                next_check=do(
                    Act.OPEN,
                    f"Lay it beside {on.name}, as far off as the lamp's leaflet says.",
                ).text(),
            )


def _in_insulation(facts: Facts, surface: Surface, lamp: Placed) -> Iterator[Judged]:
    if surface.lagging in (None, Lagging.NONE) or lamp.circuit is None:
        return
    place = place_of(Part.CIRCUIT, lamp.circuit.id)
    name = f"lamp {surface.id} {lamp.circuit.id}{lamp.name}"
    base = line(facts, place, name, f"{lamp.name}: downlight in {surface_name(surface)}")
    yield base._replace(
        verdict=Verdict.NEAR,
        source=_HEAT,
        weight=30,
        why="Thermal insulation lies on this surface. A downlight that isn't made to be covered "
        "overheats under it.",
        next_check=do(
            Act.LOOK,
            "Read on the lamp whether insulation may cover it. If not, keep it clear by what its "
            "leaflet says, or fit a cover over it.",
        ).text(),
    )


def _lies_on(leg: Leg, cut: Rect) -> bool:
    """Whether a leg crosses the hole of a lamp."""
    zone = rectangle(cut.left, cut.bottom, cut.right, cut.top, "")
    return inside(line_of(leg), zone) is not None
