"""A ring of which line, neutral and cpc are all open: the legs are no pair, or a lead is open."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern, Pattern
from records.judgement.continuity.path import is_open
from records.judgement.facts import Facts
from records.model.reading import Quantity, slot_of
from records.terms import Form, Stage, Verdict

_ENDS = (Quantity.R1, Quantity.RN, Quantity.R2)


def ring_open(facts: Facts) -> Iterator[Pattern]:
    """All three ends of a ring are open at once: three breaks have one cause."""
    for circuit, place in facts.circuits():
        if circuit.form is not Form.RING:
            continue
        for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
            slots = tuple(slot_of(each, place, stage) for each in _ENDS)
            figures = [facts.figure(slot) for slot in slots]
            if not all(each is not None and is_open(each) for each in figures):
                continue
            concern = Concern(
                "ring open",
                Verdict.OUTSIDE,
                "Line, neutral and cpc are all open from end to end: look for one cause.",
                (
                    "the two legs in hand are of two different cables or circuits",
                    "an open test lead",
                    "the cable is cut through, or a box was left out",
                ),
                do(Act.AGAIN, "Join the test tips: 0.00; see that both legs are of this ring.")
                + do(Act.OPEN, "Then split the ring half way and read each half."),
                cite.GUIDANCE,
                50,
            )
            title = f"{facts.title(place)}: ring open in all three, {stage.value}"
            yield Pattern(concern, place, title, slots, gathers=slots)
