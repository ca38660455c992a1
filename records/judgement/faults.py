"""Prospective fault currents."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from records.expected.results import NotWorkedOut, What, Worked
from records.judgement import cite
from records.judgement.compare import outside
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.wording import amount, rounded
from records.model.reading import Figure, Quantity, Reading, Slot
from records.terms import Part, Verdict
from records.units import Unit

_FAULT_SHARE = 0.3
"""What a fault current may be off the loop it goes with: BS EN 61557-3 allows as much."""
_DIGIT = 0.01
"""kA that a meter shows at least."""


def _most_fault(facts: Facts, slot: Slot) -> Bound:
    places = [FEED] if slot.place.part is Part.ORIGIN else [place for _, place in facts.circuits()]
    found = [facts.design(place, What.BREAKING) for place in places]
    missing = next((each for each in found if isinstance(each, NotWorkedOut)), None)
    if missing is not None:
        return missing
    if not found:
        return NotWorkedOut("breaking capacity", "no circuit is entered yet (Circuits)")
    least = min((each for each in found if isinstance(each, Worked)), key=lambda each: each.value)
    return Limit(Sense.MOST, least.value, Unit.KILOAMPERE, cite.BREAKING, digits=1, note=least.note)


def _fault_beside(
    facts: Facts, reading: Reading, figure: Figure, limit: Limit
) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        yield replace(
            each,
            causes=("the device is too weak for this place", "the meter's error is large here"),
            next_check="The certifier decides: another device, or one that backs it up.",
            weight=25,
        )


def _fault(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    slot = reading.slot
    at_board = slot.place.part is Part.BOARD
    loop = facts.plain_at(BOARD, Quantity.ZDB) if at_board else facts.plain_at(ORIGIN, Quantity.ZE)
    if slot.quantity is Quantity.FAULT_LE and loop:
        volts = facts.plain_at(BOARD, Quantity.VOLTAGE) or facts.record.origin.u0
        current = volts / loop / 1000
        gap = outside(figure, current, current, _FAULT_SHARE * current + _DIGIT)
        # With Ze the earth is off its bar; the fault current is read with all earths on: more.
        if gap < 0 or (gap > 0 and at_board):
            symbol = "Zdb" if at_board else "Ze"
            yield Concern(
                "fault-against-loop", Verdict.UNLIKELY,
                f"{symbol} of {amount(loop, Unit.OHM)} goes with "
                f"{rounded(current, Unit.KILOAMPERE)} at {volts:g} V.",
                ("L-N and L-E mixed up", "amperes and kiloamperes mixed up",
                 "read with another range or at another place"),
                "Read the loop and the fault current again, one after the other.",
                cite.LOOP_METHOD, 10,
            )  # fmt: skip
    at_origin = facts.plain_at(ORIGIN, slot.quantity)
    if at_board and at_origin is not None and outside(figure, 0.0, at_origin, 0.05 * at_origin) > 0:
        yield Concern(
            "fault-above-origin", Verdict.UNLIKELY,
            f"At the origin it was {amount(at_origin, Unit.KILOAMPERE)}: it can only get less "
            "along the feed.",
            ("origin and sub-board mixed up", "the meter's error at low impedance"),
            "Read both again on the high-current range.", cite.LOOP_METHOD, 20,
        )  # fmt: skip


FAULT = Rule(_most_fault, _fault, _fault_beside)
