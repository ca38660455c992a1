"""A record in which much could not be taken."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, Facts
from records.model.reading import NotTaken
from records.terms import Verdict

_SHARE = 0.2
_AT_LEAST = 5


def much_untaken(facts: Facts) -> Iterator[Pattern]:
    """More than a fifth of what was answered could not be taken."""
    answered = [slot for slot in facts.wanted if facts.last(slot) is not None]
    missing = tuple(
        slot
        for slot in answered
        if (last := facts.last(slot)) is not None and isinstance(last.taken, NotTaken)
    )
    if len(missing) >= _AT_LEAST and len(missing) > _SHARE * len(answered):
        concern = Concern(
            "much not taken",
            Verdict.NOT_TAKEN,
            f"{len(missing)} of {len(answered)} readings could not be taken.",
            ("access, time or a missing instrument",),
            do(Act.ASK, "Each needs a reason, and the certifier's agreement."),
            cite.COMMON,
        )
        yield Pattern(concern, BOARD, "Readings that could not be taken", missing)
