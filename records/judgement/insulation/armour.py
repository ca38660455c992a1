"""The armour of a feed to an electrode of its own: it must not reach the outbuilding's earth."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.model.reading import Figure, Reading, Slot
from records.terms import Verdict
from records.units import Unit

_APART = 1.0
"""MΩ between the house's earth and the outbuilding's: as between conductors of other circuits.
Common practice; no standard gives a figure for this pair."""


def _least(_facts: Facts, _slot: Slot) -> Bound:
    note = "two earths that are kept apart"
    return Limit(Sense.LEAST, _APART, Unit.MEGOHM, cite.COMMON, note=note, digits=1)


def _low(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is not Verdict.OUTSIDE:
            yield each
            continue
        yield each._replace(
            weight=60,
            says=f"{each.says} The two earths are joined: a fault on one puts the other's metal "
            "at its voltage.",
            causes=(
                "the armour, a pipe, a frame or a screen bridges the two earths",
                "the electrode's conductor or a bond was still on the bar: the ground joins them",
            ),
            next_check=do(Act.LEAVE_OFF, "Keep everything off and locked off.")
            + do(Act.EARTH_OFF, "Electrode's conductor off its bar.")
            + do(
                Act.READ_DEAD,
                "Low-ohm meter from the earth bar to the cut-back armour. A few ohms is a bridge, "
                "tens of ohms the ground.",
            ),
        )


ARMOUR_OPEN = Rule(_least, beside=_low)
