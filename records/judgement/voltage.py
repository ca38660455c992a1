"""The voltages at the sub-board: a band for those of the line, next to nothing for the neutral."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from records.judgement import cite
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.model.reading import Figure, Quantity, Reading, Slot
from records.units import Unit

_FEW = 5.0
"""V between neutral and earth, with few loads on: common practice."""


def _band(facts: Facts, _slot: Slot) -> Bound:
    u0 = facts.record.origin.u0
    return Limit(
        Sense.BAND, 0.94 * u0, Unit.VOLT, cite.SUPPLY_VOLTAGE, upper=1.1 * u0, digits=0,
        note="nominal voltage, 10 % up and 6 % down",
    )  # fmt: skip


def _beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    to_earth = reading.slot.quantity is Quantity.VOLTAGE_LE
    for each in beside_limit(facts, reading, figure, limit):
        causes: tuple[str, ...] = (
            "a bad neutral or a broken supply neutral", "heavy load on a long feed"
        )  # fmt: skip
        if to_earth:
            causes = ("the earth of the outbuilding isn't joined", "line and neutral are crossed",
                      *causes)  # fmt: skip
        yield replace(
            each, causes=causes, weight=40,
            next_check="Leave everything off; read at the origin; tell the network operator.",
        )  # fmt: skip


def _few(_facts: Facts, _slot: Slot) -> Bound:
    return Limit(Sense.MOST, _FEW, Unit.VOLT, cite.COMMON, digits=0, note="with few loads on")


def _neutral(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if figure.value > facts.record.origin.u0 / 2:
            yield replace(
                each, pattern="supply-reversed", weight=60,
                says=f"{each.says} That is the voltage of a line: neutral and line are crossed.",
                causes=("line and neutral crossed in the feed or before it",
                        "a broken supply neutral"),
                next_check="Lock off; tell the certifier; look upstream for where they cross.",
            )  # fmt: skip
        else:
            yield replace(
                each, pattern="neutral-lifted", weight=45,
                causes=("a bad neutral joint", "a broken supply neutral (TN-C-S)",
                        "heavy load on a long feed", "line and neutral crossed upstream"),
                next_check="Leave everything off; read at the origin; look at polarity upstream.",
            )  # fmt: skip


VOLTAGE = Rule(_band, beside=_beside)
NEUTRAL = Rule(_few, beside=_neutral)
