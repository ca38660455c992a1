"""One pair of conductors that is down alike on every circuit: one cause, at the board."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, Advice, do
from records.judgement.concern import Concern, Pattern
from records.judgement.facts import BOARD, FEED, Facts
from records.judgement.insulation.likely_causes import NEW, PAIRS
from records.model.reading import Place, Quantity, Slot, slot_of
from records.terms import Sign, Stage, Verdict

LEAST = 3
"""Readings of one pair that make a pattern: common practice."""
ALIKE = 2.0
"""Times that the highest of them may be the lowest: common practice."""
JOINED = 0.1
"""MΩ under which all are as good as joined, whatever their ratio: common practice."""

_WHY: dict[Quantity, tuple[tuple[str, ...], Advice]] = {
    Quantity.IR_NE: (
        (
            "the main switch is closed: the supply's neutral is earthed",
            "the neutrals are still in their bar, and one of them touches earth",
            "a link or surge protection between neutral and earth at the board",
        ),
        do(
            Act.LIFT,
            "Main switch open, every neutral lifted out of the bar; read them again, one by one.",
        ),
    ),
    Quantity.IR_LE: (
        (
            "surge protection or electronics at the board still connected",
            "the circuits were read through the board: the worst one pulls all down",
            "the link of the continuity test is still in",
        ),
        do(
            Act.LIFT,
            "Surge protection and electronics out, each circuit lifted out of its "
            "device; read them again, one by one.",
        ),
    ),
    Quantity.IR_LN: (
        (
            "surge protection or electronics at the board still connected",
            "the circuits were read through the board: the worst one pulls all down",
            "the link of a test is still in at the board",
        ),
        do(
            Act.LIFT,
            "Surge protection and electronics out, each circuit lifted out of its "
            "device; read them again, one by one.",
        ),
    ),
}


def one_pair_down(facts: Facts) -> Iterator[Pattern]:
    """Every reading of one pair is low, all by about the same, and the other pairs are not."""
    places = [FEED, *(place for _, place in facts.circuits())]
    for stage in (Stage.BEFORE_COVERING, Stage.DEAD):
        for quantity in PAIRS:
            found = _low(facts, places, quantity, stage)
            if found is None or len(found) < LEAST or not _alike(found):
                continue
            if any(
                _is_low(facts, slot, other)
                for slot in found
                for other in PAIRS
                if other is not quantity
            ):
                continue  # more than one pair: damp, or each for itself
            yield _pattern(quantity, stage, tuple(found))


def _low(
    facts: Facts, places: list[Place], quantity: Quantity, stage: Stage
) -> dict[Slot, float] | None:
    """Return the readings of a pair, if those of all circuits are low; the feed only if it is."""
    found: dict[Slot, float] = {}
    for place in places:
        slot = slot_of(quantity, place, stage)
        figure = facts.figure(slot)
        if figure is None:
            continue
        if figure.sign is Sign.OVER or figure.value >= NEW:
            if place == FEED:
                continue
            return None
        found[slot] = figure.value
    return found


def _alike(found: dict[Slot, float]) -> bool:
    low, high = min(found.values()), max(found.values())
    return high < JOINED or high <= ALIKE * low


def _is_low(facts: Facts, slot: Slot, quantity: Quantity) -> bool:
    beside = facts.figure(slot_of(quantity, slot.place, slot.stage))
    return beside is not None and beside.sign is not Sign.OVER and beside.value < NEW


def _pattern(quantity: Quantity, stage: Stage, slots: tuple[Slot, ...]) -> Pattern:
    causes, check = _WHY[quantity]
    pair = quantity.value.removeprefix("insulation ")
    concern = Concern(
        "one pair down",
        Verdict.UNLIKELY,
        f"All {len(slots)} readings of {pair} are low by about the same, and the other pairs are "
        "not. Look for one cause at the board.",
        causes,
        check,
        cite.COMMON,
        45,
    )
    title = f"Insulation {pair} of all circuits, {stage.value}"
    return Pattern(concern, BOARD, title, slots, gathers=slots, mark=pair)
