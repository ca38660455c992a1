"""Prospective fault currents."""

from __future__ import annotations

from collections.abc import Iterator

from records.expected.results import NotWorkedOut, What, Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import BOARD_OFF, EARTH_BACK, RING_105, WHOLE_HOUSE_OFF
from records.judgement.compare import outside
from records.judgement.concern import Concern
from records.judgement.facts import BOARD, FEED, ORIGIN, Facts
from records.judgement.live.under_load import feed_line_neutral
from records.judgement.older import read_again
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.wording import amount, listed, rounded
from records.model.reading import Figure, Quantity, Reading, Slot
from records.model.supply import Ground
from records.terms import Part, Sign, Stage, Verdict
from records.units import Unit

_FAULT_SHARE = 0.3
"""What a fault current may be off the loop it goes with: BS EN 61557-3 allows as much."""
_TWO_SHARE = 0.4
"""What two fault currents may be off one another, each with its own error: common practice."""
_DIGIT = 0.01
"""kA that a meter shows at least."""
_LAST = 0.02
"""Ω, two of the last digit of a loop: close to a strong supply they are a third of it. Common
practice."""
_LEAST_LOOP = 0.01
"""Ω that a loop is taken to have at least, to divide by."""
_TOP = 30.0
"""kA that testers of installations show at most, about: common practice."""


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
    causes: tuple[str, ...] = (
        "the device is too weak for this place",
        "the meter's error is large here",
    )
    check = _OFF_AND_LOCKED
    if figure.value > _TOP:
        causes = ("amperes typed as kiloamperes", *causes)
        meant = amount(figure.value / 1000, Unit.KILOAMPERE)
        check = do(Act.ENTER, f"If {figure.value:g} A was read, type {meant}. Else read it again.")
    unlabelled = _unlabelled(facts, reading.slot)
    if unlabelled:
        words = f"Enter the breaking capacity as the label has it ({unlabelled[0]})."
        check = do(Act.ENTER, words)
    found = list(beside_limit(facts, reading, figure, limit))
    for each in found:
        yield each._replace(causes=causes, next_check=check, weight=25)
    if unlabelled and not found:
        yield Concern(
            "breaking-assumed",
            Verdict.NOT_TAKEN,
            f"The breaking capacity is only assumed for {listed(unlabelled)}.",
            next_check=check,
            source=cite.BREAKING,
        )


def _unlabelled(facts: Facts, slot: Slot) -> tuple[str, ...]:
    """Return the devices at a place whose breaking capacity was not read off the label."""
    if slot.place.part is Part.ORIGIN:
        return ("Feed",) if facts.record.feed.device.breaking is None else ()
    return tuple(
        facts.title(place) for each, place in facts.circuits() if each.device.breaking is None
    )


def _fault(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    nothing = _no_current(facts, reading.slot, figure)
    if nothing is not None:
        yield nothing
    if reading.slot.quantity is Quantity.FAULT_LE:
        yield from _against_loop(facts, reading.slot, figure)
    if reading.slot.place.part is Part.ORIGIN:
        yield from _against_entered(facts, reading.slot, figure)
    else:
        yield from _against_origin(facts, reading.slot, figure)


def _no_current(facts: Facts, slot: Slot, figure: Figure) -> Concern | None:
    """Return the concern about no fault current at all: a lost earth, or nothing was live."""
    if figure.sign is Sign.OVER or not 0 <= figure.value < _DIGIT / 2:
        return None
    if slot.quantity is Quantity.FAULT_LN:
        return Concern(
            "no-fault-current",
            Verdict.UNLIKELY,
            "No fault current: no supply gives so little.",
            ("it wasn't switched on", "a probe without contact", "milliamperes typed as kA"),
            do(Act.AGAIN, "Read it again, with its unit."),
            cite.LOOP_METHOD,
            10,
        )
    at_board = slot.place.part is Part.BOARD
    if facts.tt if at_board else facts.feed_is_tt:
        return None  # an electrode lets so little flow that a meter shows none in kA
    return Concern(
        "no-fault-current",
        Verdict.OUTSIDE,
        "No fault current: no earth is found here. Metalwork on it could become live.",
        ("the earth is off, broken or not landed", "a probe without contact"),
        BOARD_OFF if at_board else EARTH_BACK + WHOLE_HOUSE_OFF + RING_105,
        cite.LOOP_METHOD,
        65,
    )


def _against_loop(facts: Facts, slot: Slot, figure: Figure) -> Iterator[Concern]:
    at_board = slot.place.part is Part.BOARD
    loop = facts.plain_at(BOARD, Quantity.ZDB) if at_board else facts.plain_at(ORIGIN, Quantity.ZE)
    if not loop or loop < 0:
        return
    volts = _volts(facts)
    current = volts / loop / 1000
    least, most = (volts / max(loop + each, _LEAST_LOOP) / 1000 for each in (_LAST, -_LAST))
    gap = outside(figure, least, most, _FAULT_SHARE * current + _DIGIT)
    # With Ze the earth is off its bar; the fault current is read with all earths on: more.
    if gap < 0 or (gap > 0 and at_board):
        known = (
            facts.slot_of(BOARD, Quantity.ZDB) if at_board else facts.slot_of(ORIGIN, Quantity.ZE)
        )
        last = facts.last(slot)
        older = read_again(facts, last, known) if last is not None else None
        yield older or Concern(
            "fault-against-loop",
            Verdict.UNLIKELY,
            f"{'Zdb' if at_board else 'Ze'} of {amount(loop, Unit.OHM)} goes with "
            f"{rounded(current, Unit.KILOAMPERE)} at {volts:g} V.",
            (
                "L-N and L-E mixed up",
                "amperes and kiloamperes mixed up",
                "read with another range or at another place",
            ),
            do(Act.AGAIN, "Read the loop and the fault current again, one after the other."),
            cite.LOOP_METHOD,
            10,
        )


def _volts(facts: Facts) -> float:
    """Return the voltage as read, or the nominal one if what was read can't be."""
    u0 = facts.record.origin.u0
    read = facts.plain_at(BOARD, Quantity.VOLTAGE)
    return read if read is not None and 0.8 * u0 < read < 1.2 * u0 else u0


def _against_entered(facts: Facts, slot: Slot, figure: Figure) -> Iterator[Concern]:
    origin = facts.record.origin
    entered = origin.fault_current
    if entered is None or slot.stage is not Stage.LIVE:
        return
    gap = outside(figure, entered, entered, _TWO_SHARE * entered + _DIGIT)
    said = f"{amount(entered, Unit.KILOAMPERE)} is entered as the most at the origin"
    if gap > 0:
        yield Concern(
            "fault-above-entered",
            Verdict.UNLIKELY,
            f"{said}: breaking capacities were checked against too little.",
            (
                "the supply was changed, or what was entered is wrong",
                "the meter's error at low impedance",
                "amperes and kiloamperes mixed up",
            ),
            do(Act.AGAIN, "Read it again.")
            + do(Act.ASK, "Then ask the network operator and correct what is entered (Origin)."),
            cite.BREAKING,
            20,
        )
    elif (
        gap < 0
        and slot.quantity is Quantity.FAULT_LN
        and origin.fault_current_ground is Ground.MEASURED
    ):
        yield Concern(
            "fault-changed",
            Verdict.UNLIKELY,
            f"{said}, as measured.",
            ("a joint of line or neutral of the supply", "read on another range, or elsewhere"),
            do(Act.AGAIN, "Read it again.")
            + do(Act.ASK, "If it stays, leave the loads off and tell the network operator."),
            cite.LOOP_METHOD,
            30,
        )


def _against_origin(facts: Facts, slot: Slot, figure: Figure) -> Iterator[Concern]:
    by_electrode = facts.tt_island and slot.quantity is Quantity.FAULT_LE
    at_origin = facts.plain_at(ORIGIN, slot.quantity)
    if not at_origin or at_origin < 0 or by_electrode:
        return  # an electrode of its own is another way back than that of the house
    if outside(figure, 0.0, at_origin, 0.05 * at_origin + _DIGIT) > 0:
        yield Concern(
            "fault-above-origin",
            Verdict.UNLIKELY,
            f"At the origin it was {amount(at_origin, Unit.KILOAMPERE)}: it can only get less "
            "along the feed.",
            ("origin and sub-board mixed up", "the meter's error at low impedance"),
            do(Act.READ_LIVE, "Read both again on the high-current range."),
            cite.LOOP_METHOD,
            20,
        )
    elif slot.quantity is Quantity.FAULT_LN:
        yield from _left_by_feed(facts, figure, at_origin)


def _left_by_feed(facts: Facts, figure: Figure, at_origin: float) -> Iterator[Concern]:
    """The fault current at the board from that at the origin, and what the feed adds by design."""
    feed = feed_line_neutral(facts)
    if feed is None:
        return
    u0 = facts.record.origin.u0
    left = u0 / (u0 / at_origin + 1000 * feed)
    gap = outside(figure, left, left, _TWO_SHARE * left + _DIGIT)
    if gap:
        yield Concern(
            "fault-against-origin",
            Verdict.UNLIKELY,
            f"Of {amount(at_origin, Unit.KILOAMPERE)} at the origin the feed leaves "
            f"{rounded(left, Unit.KILOAMPERE)}.",
            (
                "a bad joint of line or neutral in the feed",
                "a longer or thinner feed than entered",
                "amperes and kiloamperes mixed up",
            )
            if gap < 0
            else ("a shorter or thicker feed than entered", "read at another place or range"),
            do(Act.OPEN, "Tighten the terminals of the feed.")
            + do(Act.AGAIN, "Then read both again."),
            cite.LOOP_METHOD,
            15,
        )


_OFF_AND_LOCKED = do(
    Act.LEAVE_OFF, "Leave it off and locked: the device may burst in a fault."
) + do(Act.ASK, "The certifier decides: another device, or one that backs it up.")


FAULT = Rule(_most_fault, _fault, _fault_beside)
