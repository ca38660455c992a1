"""Slips of the typing: figures that no meter shows, whatever is wrong with the work."""

from __future__ import annotations

from records.judgement import cite
from records.judgement.concern import Concern
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound
from records.judgement.uncertainty import kind_of
from records.model.reading import Figure, Slot
from records.terms import Verdict


def below_nothing(figure: Figure, slot: Slot) -> bool:
    """Whether a figure is under nought where a meter has no sign: only a nulled ohmmeter has."""
    return figure.value < 0 and kind_of(slot.quantity) != "low resistance"


def typed_below_nothing(bound: Bound) -> Concern:
    """Return the concern about such a figure; it stands for nothing that a limit could judge."""
    needs_more = isinstance(bound, Limit) and bound.sense is not Sense.MOST
    verdict = Verdict.OUTSIDE if needs_more else Verdict.UNLIKELY
    return Concern(
        "below-nothing", verdict, "A meter shows nothing under nought here.",
        ("a minus sign typed by mistake", "the figure of another test"),
        "Read it again and type what the meter shows.", cite.COMMON, 70,
    )  # fmt: skip
