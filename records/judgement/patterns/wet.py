"""Insulation that is low on every pair: water, not a nail."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import CERTIFIER
from records.judgement.cable_path import wet_place
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import FEED, Facts
from records.judgement.insulation.likely_causes import PAIRS
from records.model.reading import Figure, Place, Slot
from records.terms import Sign, Stage, Verdict

_WET = 50.0
"""MΩ under which all pairs together point to damp: common practice."""
_USUAL = 500.0


def wet(facts: Facts) -> Iterator[Pattern]:
    """All three pairs of a circuit or the feed are low, none of them dead short."""
    places = [FEED, *(place for _, place in facts.circuits())]
    for place in places:
        for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
            slots = tuple(Slot(quantity=each, place=place, stage=stage) for each in PAIRS)
            if all(_is_wet(facts, slot) for slot in slots):
                yield _pattern(facts, place, slots)


def _is_wet(facts: Facts, slot: Slot) -> bool:
    last = facts.last(slot)
    if last is None or not isinstance(last.taken, Figure) or last.taken.sign is Sign.OVER:
        return False
    gentle = last.test_voltage is not None and last.test_voltage < _USUAL
    return 0.01 < last.taken.value < _WET and not gentle


def _pattern(facts: Facts, place: Place, slots: tuple[Slot, ...]) -> Pattern:
    concern = Concern(
        "all pairs low", Verdict.UNLIKELY,
        f"L-N, L-E and N-E are all under {_WET:.0f} MΩ: damp makes them fall together.",
        (wet_place(facts, place), "wet cable ends or condensation",
         "a damp meter surface or leads"),
        do(
            Act.OPEN, "Dry and reseal ends, glands and boxes. Clean, dry leads; repeat another day."
        )
        + CERTIFIER,
        cite.COMMON, 15,
    )  # fmt: skip
    return Pattern(concern, place, f"{facts.title(place)}: insulation, all pairs", slots, slots)
