"""What a rule finds: one concern about one or more readings, or about the design."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from records.evidence import COMMON_PRACTICE, Source
from records.judgement.advice import NONE, Advice
from records.model.reading import Place, Slot
from records.terms import Verdict

RANK = (
    Verdict.OUTSIDE,
    Verdict.UNLIKELY,
    Verdict.NEAR,
    Verdict.NOT_TAKEN,
    Verdict.WITHIN,
    Verdict.NOT_NEEDED,
)


class Concern(NamedTuple):
    """One thing that a rule has to say."""

    pattern: str
    """A stable name, such as `zs-below-zdb`."""
    verdict: Verdict
    says: str
    """A plain sentence, or several."""
    causes: tuple[str, ...] = ()
    """Likely ones, the likeliest first."""
    next_check: Advice = NONE
    """What to do next: made by `advice.do`, which puts the state it needs before it."""
    source: Source = COMMON_PRACTICE
    weight: int = 0


class Pattern(NamedTuple):
    """A concern about several readings together, or about the record: it gets its own line."""

    concern: Concern
    place: Place
    title: str
    about: tuple[Slot, ...]
    tells: tuple[Slot, ...] = ()
    """The readings whose own verdicts it explains: their lines point to it."""
    gathers: tuple[Slot, ...] = ()
    """The readings of which it is the one cause: those that are findings by themselves point to it
    and are told here; the others stay as they are."""
    into: Slot | None = None
    """The reading whose own line tells it; None: it gets a line of its own."""
    once: bool = False
    """Said of a meter as a whole: the readings that it is about may be good, and don't say it."""
    carries: bool = False
    """Whether it takes over the verdicts of the readings it tells: it is as grave as the gravest of
    them, and none of them is a finding of its own."""
    beside: bool = False
    """Says when readings were taken, not what they show: what they show stays a finding of its
    own."""
    mark: str = ""
    """Tells it in its key from others of its kind in the same place."""


def worst(concerns: Iterable[Concern]) -> Concern | None:
    """Return the gravest concern; of equal ones the weightiest, then the first."""
    return min(concerns, key=lambda each: (RANK.index(each.verdict), -each.weight), default=None)


def graver(one: Verdict, other: Verdict) -> Verdict:
    """Return the graver of two verdicts."""
    return min(one, other, key=RANK.index)
