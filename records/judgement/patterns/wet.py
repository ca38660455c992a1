"""Insulation that is low on every pair: water, not a nail."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import CERTIFIER
from records.judgement.cable_path import wet_place
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.insulation.likely_causes import PAIRS
from records.judgement.wording import listed
from records.model.reading import Figure, Place, Slot, slot_of
from records.terms import Sign, Stage, Verdict

_WET = 50.0
"""MΩ under which all pairs together point to damp: common practice."""
_SHORT = 0.01
"""MΩ up to which a pair is joined rather than damp: common practice."""
_APART = 10.0
"""Times that damp lets the pairs of one cable differ: one further down has a fault of its own.
Common practice."""
_USUAL = 500.0


def wet(facts: Facts) -> Iterator[Pattern]:
    """All three pairs of a circuit or the feed are low; of several cables, one finding.

    A pair that is far below the others has more than damp: it stays a finding of its own.
    """
    places = [FEED, *(place for _, place in facts.circuits())]
    for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
        damp: dict[Place, tuple[Slot, ...]] = {}
        for place in places:
            slots = tuple(slot_of(each, place, stage) for each in PAIRS)
            values = [_damp(facts, slot) for slot in slots]
            known = {slot: each for slot, each in zip(slots, values, strict=True) if each}
            if len(known) == len(slots):
                top = max(known.values())
                damp[place] = tuple(slot for slot, each in known.items() if each * _APART >= top)
        if len(damp) == 1:
            ((place, slots),) = damp.items()
            title = f"{facts.title(place)}: insulation, all pairs"
            yield _pattern(place, title, slots, wet_place(facts, place))
        elif damp:
            every = tuple(slot for slots in damp.values() for slot in slots)
            names = listed([place.circuit or place.part.value for place in damp])
            title = f"Insulation of {len(damp)} cables, all pairs, {stage.value}"
            rain = f"rain or damp air in the ends, boxes and glands of {names}"
            yield _pattern(BOARD, title, every, rain)


def _damp(facts: Facts, slot: Slot) -> float | None:
    last = facts.last(slot)
    if last is None or not isinstance(last.taken, Figure) or last.taken.sign is Sign.OVER:
        return None
    gentle = last.test_voltage is not None and last.test_voltage < _USUAL
    return last.taken.value if _SHORT < last.taken.value < _WET and not gentle else None


def _pattern(place: Place, title: str, slots: tuple[Slot, ...], first: str) -> Pattern:
    concern = Concern(
        "all pairs low",
        Verdict.UNLIKELY,
        f"L-N, L-E and N-E are all under {_WET:.0f} MΩ: damp makes them fall together.",
        (first, "wet cable ends or condensation", "a damp meter surface or leads"),
        do(Act.OPEN, "Dry and reseal ends, glands and boxes. Clean, dry leads; repeat another day.")
        + CERTIFIER,
        cite.COMMON,
        35,
    )
    return Pattern(concern, place, title, slots, slots, carries=True)
