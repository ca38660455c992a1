"""Heights of sockets and switches: a rule for new dwellings, and none for a plain outbuilding."""

from __future__ import annotations

from collections.abc import Iterator

from records.evidence import Source
from records.expected.boxes import hole, placed, plate
from records.judgement.advice import Act, do
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.fabric import Box, SurfaceKind
from records.model.reading import place_of
from records.terms import Basis, Part, Verdict

LOW, HIGH = 450.0, 1200.0
"""mm above finished floor between which sockets and switches of a new dwelling are."""
_WALLS = (SurfaceKind.WALL, SurfaceKind.OUTSIDE)
_GANGS = (Box.ONE_GANG, Box.TWO_GANG)

HEIGHTS = Source(
    "Approved Document M",
    "heights in habitable rooms of new dwellings",
    Basis.READ,
    "a warranty body's and a college's summaries",
)


def height_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line for each socket or switch out of 450 to 1200 mm where that rule applies.

    It is for new dwellings. A shed, a workshop or a garage has none: there nothing is said.
    """
    record = facts.record
    if record.fabric.dwelling is not True:
        return
    kinds = {each.id: each.kind for each in record.fabric.surfaces}
    for each in placed(record):
        if each.circuit is None or each.spot.box not in _GANGS:
            continue
        if kinds.get(each.spot.surface) not in _WALLS:
            continue
        seen = plate(each.spot)
        low = hole(each.spot).bottom
        if low >= LOW - SLACK and seen.top <= HIGH + SLACK:
            continue
        place = place_of(Part.CIRCUIT, each.circuit.id)
        name = f"height {each.circuit.id}{each.name}"
        yield line(facts, place, name, f"{each.name}: its height")._replace(
            verdict=Verdict.NEAR,
            source=HEIGHTS,
            weight=10,
            why=f"From {low:g} to {seen.top:g} mm above the floor; {LOW:g} to {HIGH:g} in "
            "a new dwelling. Over a worktop it may be higher.",
            next_check=do(Act.ASK, "Ask building control, before the hole is cut.").text(),
        )
