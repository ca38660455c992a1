"""A ring's own readings: its ends, and its points with the ends cross-connected."""

from __future__ import annotations

from collections.abc import Iterator
from statistics import median

from records.expected.results import Worked
from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import STAYS_OFF
from records.judgement.cable_path import MOST_SPUR, spur_metres
from records.judgement.compare import SLACK, away, outside
from records.judgement.concern import Concern
from records.judgement.continuity.path import (
    LEAST,
    OPEN_LEAD,
    below_nought,
    changed_since_covering,
    low_range,
    open_circuit,
)
from records.judgement.facts import Facts
from records.judgement.older import read_again
from records.judgement.rule import Rule, off_expectation, said_off
from records.judgement.wording import amount, rounded
from records.model.circuit import Circuit, Point
from records.model.reading import Figure, Quantity, Reading, Slot, place_of, slot_of
from records.terms import Part, Sign, Verdict
from records.units import Unit

_SHARE = 0.15
"""Of the length of a ring: common practice."""
_ROUNDING = 0.02
"""Ω that each end-to-end reading may be off in a ratio: common practice."""
_RATIO_SHARE = 0.1
_SAID = {Quantity.R1: "line", Quantity.RN: "neutral", Quantity.R2: "cpc"}


def _end(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from below_nought(figure)
    quantity = reading.slot.quantity
    if figure.sign is Sign.OVER:
        said = f"The {_SAID[quantity]} of the ring is broken"
        yield low_range(figure) or open_circuit(said, _END_OPEN)
        return
    yield from changed_since_covering(facts, reading, figure)
    off = off_expectation(facts, reading, figure, LEAST, _SHARE)
    if off is not None:
        same = ("both leads on the same leg, or on the same conductor",)
        yield Concern(
            "ring-length",
            Verdict.UNLIKELY,
            f"{said_off(*off)}.",
            (
                *(same if figure.value < LEAST else ()),
                "the length was guessed, or the ring takes another way",
                "a loose terminal" if off[0] > 0 else "a bridge across the ring",
                "two circuits mixed up, or another cable size than entered",
            ),
            do(Act.ENTER, "Measure the length again along the clipped route, drops included."),
            cite.CONTINUITY,
            5,
        )
    if quantity in (Quantity.R1, Quantity.RN):
        yield from _unequal(facts, reading, figure)
    if quantity is Quantity.R2:
        yield from _ratio(facts, reading, figure)


_END_OPEN = (
    "a terminal missed or a conductor snapped at a point",
    "the two ends are of different rings, or of different colours",
    OPEN_LEAD,
)
"""There is no switch in a ring end to end, and no link at the board."""


def _unequal(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    own = reading.slot.quantity
    other = Quantity.RN if own is Quantity.R1 else Quantity.R1
    beside = facts.plain(_at(reading.slot, other))
    if beside is None or figure.sign is not Sign.EQUAL or _odd_end(facts, reading.slot) is not own:
        return
    gap = abs(figure.value - beside)
    if gap > LEAST + SLACK:
        yield read_again(facts, reading, _at(reading.slot, other)) or Concern(
            "ring-ends-differ",
            Verdict.UNLIKELY,
            f"It differs from {other.value} ({amount(beside, Unit.OHM)}) by "
            f"{rounded(gap, Unit.OHM)}; line and neutral are the same size and agree within "
            f"{LEAST} Ω.",
            (
                "a loose terminal on the higher one",
                "a point bypassed in one conductor",
                "a poor contact of the lead",
            ),
            do(Act.OPEN, "Tighten the terminals and repeat.")
            + do(Act.JOIN, "Cross-connect line and neutral, and see where the readings jump."),
            cite.GUIDANCE,
            15,
        )


def _odd_end(facts: Facts, slot: Slot) -> Quantity:
    """Return which of line and neutral is farther from what the cpc and the design give for both.

    Nothing to go by: the neutral, which is read after the line.
    """
    r1, rn = (facts.plain(_at(slot, each)) for each in (Quantity.R1, Quantity.RN))
    e1, e2 = (facts.meter_value(_at(slot, each)) for each in (Quantity.R1, Quantity.R2))
    r2 = facts.plain(_at(slot, Quantity.R2))
    meant = [e1] if e1 is not None else []
    if r2 is not None and e1 and e2:
        meant.append(r2 * e1 / e2)
    if r1 is None or rn is None or not meant:
        return Quantity.RN
    middle = median(meant)
    return Quantity.R1 if abs(r1 - middle) > abs(rn - middle) + SLACK else Quantity.RN


def _ratio(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    one, two = _at(reading.slot, Quantity.R1), reading.slot
    r1, e1, e2 = facts.plain(one), facts.meter_value(one), facts.meter_value(two)
    if r1 is None or not e1 or e2 is None or figure.sign is not Sign.EQUAL or r1 <= 0:
        return
    ratio = e2 / e1
    low = (figure.value - _ROUNDING) / (r1 + _ROUNDING)
    high = (figure.value + _ROUNDING) / max(r1 - _ROUNDING, 1e-6)
    if low <= ratio * (1 + _RATIO_SHARE) and high >= ratio * (1 - _RATIO_SHARE):
        return
    rn = facts.plain(_at(two, Quantity.RN))
    if rn is not None and abs(rn - r1) > LEAST + SLACK and _odd_end(facts, two) is Quantity.R1:
        return  # the line is the odd one of the three, and its own reading says so
    older = read_again(facts, reading, one)
    if older is not None:
        yield older
        return
    is_low = figure.value / r1 < ratio
    causes = (
        (
            "the cpc has a parallel path through metal boxes or pipes",
            "a bridge across the ring",
            "a cpc of another size than entered",
        )
        if is_low
        else ("a poor joint in the cpc", "a cpc of another size than entered")
    )
    yield Concern(
        "ring-ratio",
        Verdict.UNLIKELY,
        f"r2/r1 is {figure.value / r1:.2f}; the sizes entered give {ratio:.2f}.",
        causes,
        do(
            Act.LOOK,
            "A parallel path through metal boxes is no fault: leave their earths on. See "
            "which cable was used.",
        )
        if is_low
        else do(Act.OPEN, "Tighten the cpc's terminals; see which cable was used."),
        cite.RING_RATIO,
        10,
    )


def ring_value(facts: Facts, circuit: Circuit, quantity: Quantity) -> tuple[float, float] | None:
    """Return what a point on the ring itself should show, by the end-to-end readings [Ω].

    L-N: a quarter of r1 + rn everywhere. L-cpc: from r1·r2/(r1+r2) at the board to a quarter of
    the sum half way round (IET Guidance Note 3; the ends from two paths side by side).

    Returns:
        The least and the most, or None while the ends were not both read.
    """
    place = place_of(Part.CIRCUIT, circuit.id)
    other = Quantity.RN if quantity is Quantity.CROSS_LN else Quantity.R2
    r1 = facts.plain_at(place, Quantity.R1)
    r2 = facts.plain_at(place, other)
    if not r1 or not r2 or r1 < 0 or r2 < 0:
        return None
    middle = (r1 + r2) / 4
    return (r1 * r2 / (r1 + r2), middle)


def _cross(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from below_nought(figure)
    if figure.sign is Sign.OVER:
        yield low_range(figure) or _open_point(facts, reading.slot)
        return
    circuit = facts.circuit_of(reading.slot)
    point = point_of(circuit, reading.slot)
    span = ring_value(facts, circuit, reading.slot.quantity) if circuit else None
    by = "the ends as measured give"
    if span is None or (point is not None and point.spur):
        expected = facts.meter(reading.slot)
        if not isinstance(expected, Worked):
            return
        span = (expected.low or expected.value, expected.high or expected.value)
        by = "the design gives"
    gap = outside(figure, *span, LEAST)
    if not gap or _ends_tell(facts, reading, figure):
        return
    ends = () if by == "the design gives" else (Quantity.R1, Quantity.RN, Quantity.R2)
    older = read_again(facts, reading, *(_at_board(reading.slot, each) for each in ends))
    if older is not None:
        yield older
        return
    whole = rounded(span[1], Unit.OHM)
    if gap > 0:
        yield Concern(
            "ring-point-high",
            Verdict.UNLIKELY,
            f"{rounded(gap, Unit.OHM)} more than {by} here ({whole}).",
            (
                *_spur(facts, reading.slot, gap, point),
                "a worn or loose contact at this point",
                "a loose terminal",
            ),
            do(Act.OPEN, "Open the point: count its cables and read at its terminals."),
            cite.GUIDANCE,
            10,
        )
    else:
        yield Concern(
            "ring-point-low",
            Verdict.UNLIKELY,
            f"{rounded(-gap, Unit.OHM)} less than {by} here ({whole}).",
            (
                "the ends are crossed wrongly: both of the same leg joined",
                "a bridge inside the ring",
            ),
            do(Act.JOIN, "Join opposite legs at the board and repeat, before you doubt the cable."),
            cite.GUIDANCE,
            10,
        )


def _spur(facts: Facts, slot: Slot, gap: float, point: Point | None) -> tuple[str, ...]:
    """Return the spur that would explain a point, if one of a sensible length would."""
    length = spur_metres(facts, slot, gap)
    if length is None:
        return ("a spur that isn't entered",)
    if length > MOST_SPUR + SLACK:
        return ()
    if point is not None and point.spur:
        return (f"its spur is about {length:.0f} m longer than entered",)
    return (f"a spur of about {max(length, 1.0):.0f} m that isn't entered",)


def _ends_tell(facts: Facts, reading: Reading, figure: Figure) -> bool:
    """Whether a point is as the design has it, while the ends it is held against are not."""
    expected = facts.meter(reading.slot)
    if not isinstance(expected, Worked) or away(figure, expected, LEAST):
        return False
    place = reading.slot.place.whole
    for quantity in (Quantity.R1, Quantity.RN, Quantity.R2):
        slot = slot_of(quantity, place, reading.slot.stage)
        end, value = facts.meter_value(slot), facts.plain(slot)
        if end is None or value is None:
            continue
        if abs(value - end) > max(LEAST, _SHARE * end):
            return True
    return False


def _open_point(facts: Facts, slot: Slot) -> Concern:
    if slot.quantity is Quantity.CROSS_LE and facts.plain(_at(slot, Quantity.CROSS_LN)) is not None:
        return Concern(
            "ring-point-cpc",
            Verdict.OUTSIDE,
            "L-N is closed at this point, L-cpc is open.",
            (
                "line and neutral are the wrong way round at this point",
                "its cpc isn't landed, or is broken on its spur",
            ),
            STAYS_OFF
            + do(Act.READ_DEAD, "Read N-cpc: a value is reversed polarity, open a missing cpc."),
            cite.POLARITY,
            30,
        )
    other = Quantity.CROSS_LE if slot.quantity is Quantity.CROSS_LN else Quantity.CROSS_LN
    beside = facts.figure(_at(slot, other))
    if beside is not None and beside.sign is Sign.OVER:
        return Concern(
            "ring-point-both",
            Verdict.OUTSIDE,
            "Neither L-N nor L-cpc is closed at this point.",
            (
                "its line isn't landed",
                "neutral and cpc are crossed here: it works, and trips the RCD under load",
                "the lead of the adaptor is broken",
            ),
            STAYS_OFF
            + do(Act.AGAIN, "Try the adaptor at the next point. Open there too: it is the adaptor.")
            + do(Act.OPEN, "Then open this one."),
            cite.POLARITY,
            30,
        )
    causes = (
        "the socket's own switch left off",
        "a terminal missed at this point",
        "the cross-connection at the board came off",
        OPEN_LEAD,
    )
    return open_circuit("No path at this point", causes)


def point_of(circuit: Circuit | None, slot: Slot) -> Point | None:
    """Return the point that a slot is at."""
    points = circuit.points if circuit else ()
    return next((each for each in points if each.id == slot.place.point), None)


def _at_board(slot: Slot, quantity: Quantity) -> Slot:
    """Return the end-to-end reading of the ring that a point is on."""
    whole = slot.place.whole
    return slot_of(quantity, whole, slot.stage)


def _at(slot: Slot, quantity: Quantity) -> Slot:
    return slot_of(quantity, slot.place, slot.stage)


END = Rule(concerns=_end)
CROSS = Rule(concerns=_cross)
