"""Insulation resistance: the limit, what new wiring shows, and what a low pair means."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from records.judgement import cite
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound, Rule, beside_limit
from records.judgement.wording import rounded, said
from records.model.reading import Figure, Quantity, Reading, Slot
from records.model.slots import measured_by
from records.tables.testing import insulation_minimum, insulation_test_voltage
from records.terms import Sign, Stage, Verdict
from records.units import Unit, Volt

PAIRS = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
NEW = 100.0
"""MΩ that new, dry wiring shows at least: common practice."""
_DEAD_SHORT = 0.001
"""MΩ below which no load in place explains a reading: common practice."""
_FALL = 10.0
"""How many times lower than before covering is a fall worth a look: common practice."""
_WELL_ABOVE = 5.0
"""How many times more at 250 V than at 500 V points to electronics: common practice."""


def _least(facts: Facts, _slot: Slot) -> Bound:
    found = insulation_minimum(Volt(facts.record.origin.u0))
    return Limit(Sense.LEAST, found.value / 1e6, Unit.MEGOHM, found.source, digits=1)


def _low(facts: Facts, reading: Reading, figure: Figure, limit: Limit) -> Iterator[Concern]:
    for each in beside_limit(facts, reading, figure, limit):
        if each.verdict is Verdict.OUTSIDE and figure.sign is not Sign.OVER:
            causes, check = _meaning(facts, reading.slot, figure)
            yield replace(each, causes=causes, next_check=check, weight=30)
        else:
            yield replace(each, next_check="Find what lowers it: new work is far above.")


def _meaning(facts: Facts, slot: Slot, figure: Figure) -> tuple[tuple[str, ...], str]:
    """Return causes and next check for a low pair, by what the other pairs show."""
    others_high = all(
        other is not None and other.value >= NEW
        for other in (facts.figure(_pair(slot, each)) for each in PAIRS if each != slot.quantity)
    )
    if slot.quantity is Quantity.IR_NE:
        return (
            ("the main switch is closed: on TN-C-S neutral and earth are one",
             "the neutral is still in its bar", "neutral touches a box screw, or a nail is in it",
             "the neutral of a connection unit is on its cpc"),
            "Open the main switch, lift the neutral out of the bar, and repeat.",
        )  # fmt: skip
    if slot.quantity is Quantity.IR_LN:
        if figure.value < _DEAD_SHORT:
            return (
                ("a load, lamp or driver is still connected", "a crushed cable",
                 "conductors crossed at a box", "a nail through line and neutral"),
                "Take every load out and repeat; if it stays, split the run half way.",
            )  # fmt: skip
        return (
            ("a load, lamp, driver, heating element or neon is still connected",
             "damp in a box"),
            "Loads, lamps and drivers out, and repeat"
            + (": the other pairs are high, so the cable is likely sound." if others_high else "."),
        )  # fmt: skip
    return (
        ("a screw or nail touches line and metal or cpc", "water in a box or gland",
         "surge protection or electronics still connected", "a crushed cable"),
        "Halve the circuit; look along the recorded route at what was screwed on since.",
    )  # fmt: skip


def _concerns(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from _test_voltage(facts, reading)
    yield from _two_voltages(facts, reading, figure)
    fallen = list(_fallen(facts, reading, figure))
    yield from fallen
    low = figure.sign is not Sign.OVER and figure.value < NEW
    if low and not fallen and not _gentle(facts, reading):
        yield Concern(
            "insulation-not-new", Verdict.UNLIKELY,
            f"New, dry wiring shows {NEW:.0f} MΩ or more.",
            ("damp in a box, gland or joint", "something still connected", "leads damp or dirty"),
            "Dry, clean leads; everything out; repeat, if need be on another day.",
        )  # fmt: skip


def _gentle(facts: Facts, reading: Reading) -> bool:
    """Whether it was taken below the usual voltage, with equipment in place."""
    usual = insulation_test_voltage(Volt(facts.record.origin.u0)).value
    return reading.test_voltage is not None and reading.test_voltage < usual


def _test_voltage(facts: Facts, reading: Reading) -> Iterator[Concern]:
    usual = insulation_test_voltage(Volt(facts.record.origin.u0))
    taken = reading.test_voltage
    if taken is None or taken >= usual.value:
        return
    if taken < usual.value / 2:
        yield Concern(
            "insulation-voltage", Verdict.UNLIKELY,
            f"Tested at {taken:g} V d.c.; {usual.value:g} V is asked for.",
            next_check=f"Repeat at {usual.value:g} V with electronics out.", source=usual.source,
        )  # fmt: skip
    elif not (reading.method or reading.note):
        yield Concern(
            "insulation-voltage", Verdict.NEAR,
            f"Tested at {taken:g} V d.c. instead of {usual.value:g} V, and it doesn't say why: "
            "only for what can't be disconnected.",
            next_check=f"Say what could not be disconnected, or repeat at {usual.value:g} V.",
            source=cite.INSULATION,
        )  # fmt: skip


def _two_voltages(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """D.c. at 250 V well above that at 500 V in the same place: electronics, not cable."""
    usual = insulation_test_voltage(Volt(facts.record.origin.u0)).value
    if _gentle(facts, reading) or figure.sign is Sign.OVER:
        return
    for other in facts.attempts(reading.slot)[:-1]:
        gentle = other.test_voltage is not None and other.test_voltage < usual
        if gentle and isinstance(other.taken, Figure):
            if other.taken.value > _WELL_ABOVE * figure.value:
                entry = measured_by(reading.slot)
                yield Concern(
                    "insulation-electronics", Verdict.UNLIKELY,
                    f"At {other.test_voltage:g} V it was {said(other.taken, entry)}: "
                    "that is what electronics do, not cable.",
                    ("surge protection", "a filter or USB outlet", "a driver left in"),
                    f"Disconnect it and repeat at {usual:g} V.",
                    weight=25,
                )  # fmt: skip
            return


def _fallen(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Well below what the same pair showed before covering."""
    slot = reading.slot
    if slot.stage is Stage.BEFORE_COVERING or figure.sign is Sign.OVER:
        return
    early = _pair(slot, slot.quantity, Stage.BEFORE_COVERING)
    before = facts.figure(early)
    if before is None or before.sign is Sign.UNDER or figure.value >= NEW:
        return
    if before.value <= _FALL * figure.value or _gentle(facts, reading):
        return
    only = [
        each
        for each in PAIRS
        if (now := facts.figure(_pair(slot, each))) is not None and now.value < NEW
    ]
    one = len(only) == 1
    causes = (
        ("a screw or nail has gone into the cable since it was covered", "a crushed cable")
        if one and slot.quantity is Quantity.IR_LE
        else ("something connected since", "a screw or nail in the cable")
        if one
        else ("damp plaster or a wet box: all pairs fall and recover", "damage since covering")
    )
    yield Concern(
        "insulation-fallen", Verdict.UNLIKELY,
        f"Before covering this pair showed {said(before, measured_by(early))}"
        f"{'; the other pairs are still high' if one else ''}.",
        causes, "Halve the circuit; look along the recorded route, first at new fixings.",
        weight=30,
    )  # fmt: skip


def _pair(slot: Slot, quantity: Quantity, stage: Stage | None = None) -> Slot:
    return Slot(quantity=quantity, place=slot.place, stage=stage or slot.stage)


def _group(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    yield from _test_voltage(facts, reading)
    behind = [
        found.value
        for _, place in facts.circuits()
        for pair in (Quantity.IR_LE, Quantity.IR_NE)
        if (found := facts.figure(Slot(quantity=pair, place=place, stage=Stage.DEAD))) is not None
        and found.value > 0
    ]
    if not behind or figure.sign is Sign.OVER:
        return
    # Side by side they come to less than any of them; over-range ones to no more than this.
    together = 1 / sum(1 / each for each in behind)
    if figure.value < _GROUP_SHARE * together:
        yield Concern(
            "group-below-circuits", Verdict.UNLIKELY,
            f"The circuits by themselves come to {rounded(together, Unit.MEGOHM)} side by side.",
            ("electronics in the board: an RCBO, an AFDD, surge protection, an indicator",
             "a damp board, or a circuit that wasn't read by itself"),
            "Lift the circuits one by one and repeat; disconnect what is electronic.",
            cite.COMMON, 10,
        )  # fmt: skip


_GROUP_SHARE = 0.5
"""Of what the circuits come to: less than this is more than scatter. Common practice."""


INSULATION = Rule(_least, _concerns, _low)
GROUP = Rule(_least, _group)
