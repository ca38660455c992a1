"""Design checks of a ring: what its cable carries in one leg, its conductors and its device."""

from __future__ import annotations

from records.expected.results import NotWorkedOut, What
from records.judgement.advice import plan
from records.judgement.compare import SLACK
from records.judgement.design.line import line
from records.judgement.design.pairs import verdict_on
from records.judgement.facts import Facts
from records.judgement.review_types import Judged, Limit, Sense
from records.model.circuit import Circuit
from records.model.reading import Place
from records.tables.ratings import ring_least_rating, ring_least_size
from records.terms import Verdict


def ring_capacity(facts: Facts, place: Place) -> Judged:
    """Return the check that the cable carries 20 A in a leg."""
    found = facts.design(place, What.IZ)
    base = line(facts, place, What.IZ, "Iz of a ring's cable")
    if isinstance(found, NotWorkedOut):
        return base._replace(why=f"Not calculated: {found.why}", expected=found)
    least = ring_least_rating()
    limit = Limit(Sense.LEAST, least.value, found.unit, least.source, digits=0)
    verdict = verdict_on(found, least.value, Sense.LEAST)
    why = f"Iz {found}; must be {limit} in a leg of a ring. {found.note}".strip()
    done = base._replace(verdict=verdict, why=why, expected=found, limit=limit, weight=40)
    if verdict is Verdict.WITHIN:
        return done
    return done._replace(
        causes=("thermal insulation round the cable", "grouping or warmth"),
        next_check=plan("Another way for the cable, thicker cable, or radials instead of a ring."),
        source=least.source,
    )


def ring_size(facts: Facts, place: Place, circuit: Circuit) -> Judged:
    """Return the check that conductors and device are those of a ring."""
    least = ring_least_size()
    base = line(facts, place, "ring conductors", "a ring's conductors and device")
    sizes = [run.csa for run in circuit.runs]
    rating = circuit.device.rating
    known = [each for each in sizes if each is not None]
    if not known or len(known) < len(sizes) or rating is None:
        why = f"Not calculated: the sizes and In are not all entered yet (Circuits, {circuit.id})."
        return base._replace(why=why)
    words = (
        f"Line {min(known):g} mm², must be at least {least.value:g} mm²; "
        f"In {rating:g} A, must be at most 32 A."
    )
    good = min(known) >= least.value - SLACK and rating <= 32
    if good:
        return base._replace(verdict=Verdict.WITHIN, why=words, source=least.source)
    return base._replace(
        verdict=Verdict.OUTSIDE,
        why=f"{words} That is no ring as the regulation has it.",
        next_check=plan("Another cable, another device, or radials."),
        source=least.source,
        weight=30,
    )
