"""The bare line of a design check."""

from __future__ import annotations

from records.expected.results import What
from records.judgement.facts import Facts
from records.judgement.review_types import Judged
from records.model.reading import Place
from records.terms import Verdict


def design_key(place: Place, name: str) -> str:
    """Return the key of a design check."""
    return f"{place.part.code}/{place.circuit or '-'}/{place.point or '-'}/design/{name}"


def line(facts: Facts, place: Place, what: What | str, title: str) -> Judged:
    """Return a design check that nothing is known about yet: not taken.

    Args:
        facts: The record.
        place: The feed, the board or a circuit.
        what: The figure it is about, or a name of its own.
        title: What is checked, in words.
    """
    name = what.value if isinstance(what, What) else what
    return Judged(
        design_key(place, name),
        Verdict.NOT_TAKEN,
        place,
        f"{facts.title(place)}: {title}",
        "Not calculated yet.",
        what=what if isinstance(what, What) else None,
    )
