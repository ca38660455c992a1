"""Electrode, fault currents, supply voltage and RCD times."""

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
from records.model.wiring import Rcd
from records.tables.disconnection import rcd_times, stable_electrode
from records.terms import Part, Sign, Verdict
from records.units import Unit

_FAULT_SHARE = 0.3
"""What a fault current may be off the loop it goes with: BS EN 61557-3 allows as much."""
_DIGIT = 0.01
"""kA that a meter shows at least."""
_IMPOSSIBLE_RA = 5.0
"""Ω under which one short rod is not believed: common practice."""
_RISEN = 1.5


def _most_ra(facts: Facts, _slot: Slot) -> Bound:
    found = facts.design(BOARD, What.RA_LIMIT)
    if isinstance(found, NotWorkedOut):
        return found
    source = found.sources[0] if found.sources else cite.TT_RCD
    return Limit(Sense.MOST, found.value, Unit.OHM, source, digits=0, note="RA × IΔn ≤ 50 V")


def _electrode(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    stable = stable_electrode()
    if figure.value > stable.value and figure.sign is not Sign.UNDER:
        yield Concern(
            "ra-unstable", Verdict.UNLIKELY,
            f"Above {stable.value:.0f} Ω an electrode may not stay as it is through the year.",
            ("dry or stony soil", "a rod too short", "a loose clamp"),
            "Drive the rod deeper or add another; read again in a dry spell.", stable.source, 15,
        )  # fmt: skip
    if figure.value < _IMPOSSIBLE_RA and figure.sign is not Sign.OVER:
        yield Concern(
            "ra-too-good", Verdict.UNLIKELY,
            f"Under {_IMPOSSIBLE_RA:.0f} Ω is hardly ever one rod alone.",
            ("still joined to bonding or to the supply's earth", "spikes too near the electrode"),
            "Take everything off the electrode, move the spikes, and repeat.", cite.COMMON, 20,
        )  # fmt: skip
    earlier = [
        each.taken.value
        for each in facts.attempts(reading.slot)[:-1]
        if isinstance(each.taken, Figure) and each.taken.sign is Sign.EQUAL
    ]
    if earlier and figure.value > _RISEN * min(earlier):
        yield Concern(
            "ra-risen", Verdict.UNLIKELY,
            f"It was {amount(min(earlier), Unit.OHM, 1)} before.",
            ("dry or frozen soil", "a corroded or loose clamp", "a damaged lead"),
            "Look at the clamp; note the weather; drive deeper.", cite.COMMON, 10,
        )  # fmt: skip


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


def _voltage_band(facts: Facts, _slot: Slot) -> Bound:
    u0 = facts.record.origin.u0
    return Limit(
        Sense.BAND, 0.94 * u0, Unit.VOLT, cite.SUPPLY_VOLTAGE, upper=1.1 * u0, digits=0,
        note="nominal voltage, 10 % up and 6 % down",
    )  # fmt: skip


def _voltage_beside(
    facts: Facts, reading: Reading, figure: Figure, limit: Limit
) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        yield replace(
            each,
            causes=("a bad neutral or a broken supply neutral", "heavy load on a long feed"),
            next_check="Leave everything off; read at the origin; tell the network operator.",
            weight=40,
        )


def rcd_of(facts: Facts, slot: Slot) -> Rcd:
    """Return the RCD that a slot is about."""
    circuit = facts.circuit_of(slot)
    if circuit is not None:
        return circuit.rcd
    record = facts.record
    return record.feed.rcd if slot.place.part is Part.FEED else record.board.rcd


def _rcd_limit(facts: Facts, slot: Slot) -> Bound:
    delayed = rcd_of(facts, slot).delayed
    times = rcd_times(delayed=delayed)[0]
    longest = times.longest * 1000
    if delayed:
        return Limit(
            Sense.BAND, times.shortest * 1000, Unit.MILLISECOND, times.source, upper=longest,
            digits=0, note="delayed, type S, at 1 × IΔn",
        )  # fmt: skip
    return Limit(
        Sense.MOST, longest, Unit.MILLISECOND, times.source, digits=0, note="at 1 × IΔn a.c."
    )


def _rcd_beside(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    quick = limit.sense is Sense.BAND and figure.value < limit.value
    for each in beside_limit(facts, reading, figure, limit):
        if quick and figure.sign is not Sign.OVER:
            yield Concern(
                "rcd-too-quick", Verdict.OUTSIDE,
                f"A delayed RCD waits at least {limit.value:.0f} ms; this one doesn't, "
                "so it will trip together with the one after it.",
                ("it isn't a delayed one", "the meter was set to a general one"),
                "Read the label for the S in its box; repeat.", limit.source, 20,
            )  # fmt: skip
        elif each.verdict is Verdict.OUTSIDE:
            yield replace(
                each,
                causes=("the line probe was on the supply side", "the RCD is bypassed or faulty",
                        "a delayed RCD taken for a general one", "a loop too high for the test"),
                next_check="Line probe on the load side, loads off, repeat; then change the RCD.",
                source=cite.RCD_TEST, weight=30,
            )  # fmt: skip
        else:
            yield replace(each, next_check="Repeat three times and note the slowest.")


def _rcd(_facts: Facts, _reading: Reading, figure: Figure) -> Iterator[Concern]:
    if figure.sign is not Sign.OVER and figure.value < 1:
        yield Concern(
            "rcd-no-time", Verdict.UNLIKELY, "No RCD opens in no time at all.",
            ("the circuit was already off", "the display was read before the test"),
            "Switch on, check that the circuit is live, and repeat.", cite.COMMON, 10,
        )  # fmt: skip


ELECTRODE = Rule(_most_ra, _electrode)
FAULT = Rule(_most_fault, _fault, _fault_beside)
VOLTAGE = Rule(_voltage_band, beside=_voltage_beside)
RCD_TIME = Rule(_rcd_limit, _rcd, _rcd_beside)
