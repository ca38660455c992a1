"""What the loop rules ask about a reading: how it was taken, and what was read beside it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.advice import NONE, Act, Advice, do
from records.judgement.advice.phrases import (
    BOARD_OFF,
    CIRCUIT_OFF,
    EARTH_BACK,
    RING_105,
    WHOLE_HOUSE_OFF,
    ZE_AGAIN,
)
from records.judgement.compare import SLACK, away
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.wording import rounded
from records.model.circuit import Circuit
from records.model.needs import behind_rcd, feed_rcd
from records.model.reading import Figure, Quantity, Reading, Slot
from records.terms import Form, Sign, Verdict
from records.units import Unit

_STEADY = 0.1
"""Ω that repeated loop readings may spread: common practice."""
_MINUTES = 10
RCD_ADDS = 0.8
"""Ω above the sum, from which an RCD in the path is no explanation any more: common practice."""
TT_LEAST = 2.0
"""Ω: no electrode gives so little, so no loop that goes by one: common practice."""
_LEAST = 0.05
"""Ω that a loop has at least, and that a meter can tell at all: common practice."""
_OPEN, _OPEN_TT = 19.0, 1000.0
"""Ω from which an over-range loop is open: a range of 20 Ω ends at 19.99; by an electrode it can be
high. Common practice."""


def rcd_in_path(facts: Facts, slot: Slot) -> bool:
    """Whether an RCD lies in the path of a loop reading, at the sub-board or on a circuit."""
    circuit = facts.circuit_of(slot)
    if circuit is not None:
        return behind_rcd(facts.record, circuit)
    return feed_rcd(facts.record, None)


def is_calculated(reading: Reading) -> bool:
    """Whether its method says that a loop was worked out, not measured."""
    return "calc" in reading.method.casefold() or "worked out" in reading.method.casefold()


def high_range(reading: Reading) -> bool:
    """Whether a loop was read on the high-current range, so that it needn't be asked for."""
    return "high" in reading.method.casefold()


def where_lifted(reading: Reading) -> Advice:
    """Return the question that comes before a doubt: where the earth was lifted for a reading.

    Nothing if its method or note says it already.
    """
    said = f"{reading.method} {reading.note}".casefold()
    question = do(Act.ENTER, "Say where the earth was lifted for it.")
    return NONE if "lifted" in said else question


def read_r1_r2(facts: Facts, circuit: Circuit) -> float | None:
    """Return R1+R2 of a circuit as it was read [Ω]; of a ring the highest L-cpc reading."""
    place = next(place for each, place in facts.circuits() if each.id == circuit.id)
    if circuit.form is not Form.RING:
        return facts.plain_at(place, Quantity.R1_R2)
    crossed = [facts.plain(le) for _, le in facts.points(circuit)]
    known = [each for each in crossed if each is not None]
    if known:
        return max(known)
    r1, r2 = facts.plain_at(place, Quantity.R1), facts.plain_at(place, Quantity.R2)
    return None if r1 is None or r2 is None else (r1 + r2) / 4


def unsteady(facts: Facts, reading: Reading) -> Iterator[Concern]:
    """Several readings at one go that don't agree: something moves."""
    tries = [reading]
    for late, early in pairwise(reversed(facts.attempts(reading.slot))):
        near = (late.at - early.at).total_seconds() <= 60 * _MINUTES
        if not near or late.method != early.method or _remedied(facts, early, late):
            break
        tries.append(early)
    values = [
        each.taken.value
        for each in tries
        if isinstance(each.taken, Figure) and each.taken.sign is Sign.EQUAL
    ]
    if len(values) < 3:
        return
    spread = max(values) - min(values)
    if spread > max(_STEADY, 0.1 * max(values)) + SLACK:
        yield Concern(
            "loop-unsteady",
            Verdict.UNLIKELY,
            f"{len(values)} readings at one go spread over {rounded(spread, Unit.OHM)}.",
            ("a loose connection: it can start a fire", "a worn contact", "a noisy supply"),
            _AHEAD if reading.slot.quantity is Quantity.ZE else _TIGHTEN,
            cite.COMMON,
            50,
        )


_TIGHTEN = (
    do(Act.LEAVE_OFF, "Switch it off and lock it off.")
    + do(Act.OPEN, "Tighten the terminals to the maker's torque.")
    + do(Act.AGAIN, "Then read the loop again.")
)
_AHEAD = (
    EARTH_BACK
    + do(Act.LOOK, "What is loose lies ahead of the main switch: you can't make it dead.")
    + WHOLE_HOUSE_OFF
    + RING_105
)


def too_good(reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Return the concern about a loop of next to nothing."""
    if figure.sign is not Sign.OVER and figure.value < _LEAST:
        yield Concern(
            "loop-too-good",
            Verdict.UNLIKELY,
            f"Under {_LEAST} Ω is less than any supply has, and than meters can tell.",
            (
                "nulled with the loop in it, or with the probes on one terminal",
                "milliohms or kiloamperes typed as ohms",
                "parallel paths through other earths",
            ),
            EARTH_BACK + ZE_AGAIN if reading.slot.quantity is Quantity.ZE else _PROBES,
            cite.COMMON,
            20,
        )


_PROBES = do(
    Act.READ_LIVE,
    "Read it again with the probes where they belong; on the high-current range only if there is "
    "no RCD upstream.",
)


def open_loop(facts: Facts, reading: Reading, figure: Figure) -> Concern | None:
    """Return the concern about a loop that is open, as far as the meter goes."""
    quantity = reading.slot.quantity
    electrode = facts.feed_is_tt if quantity is Quantity.ZE else facts.tt
    if figure.sign is not Sign.OVER or figure.value < (_OPEN_TT if electrode else _OPEN):
        return None
    if quantity is Quantity.ZE:
        first, check = "the supply has no earth here", EARTH_BACK + WHOLE_HOUSE_OFF + RING_105
    elif quantity is Quantity.ZDB:
        first = "the conductor of the electrode" if facts.tt_island else "the earth of the feed"
        first, check = f"{first} is off, broken or not landed", BOARD_OFF
    else:
        first, check = "the cpc is broken or not landed at this point", CIRCUIT_OFF
    return Concern(
        "loop-open",
        Verdict.OUTSIDE,
        "No earth is found here: metalwork on it could become live.",
        (first, "a probe or an adaptor without contact", "line and neutral crossed at the probe"),
        check,
        cite.LOOP_METHOD,
        65,
    )


def below_expected(facts: Facts, reading: Reading, figure: Figure) -> bool:
    """Whether a loop is low by the design as well: if not, a reading before it is too high."""
    expected = facts.meter(reading.slot)
    return not isinstance(expected, Worked) or away(figure, expected, 0.05) < 0


def _remedied(facts: Facts, early: Reading, late: Reading) -> bool:
    return any(early.at <= each.at <= late.at for each in facts.record.remedies)
