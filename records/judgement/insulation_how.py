"""How an insulation reading was taken: its test voltage, and what it was joined to."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement import cite
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.wording import said
from records.model.reading import Figure, Quantity, Reading
from records.model.slots import measured_by
from records.tables.table import Published
from records.tables.testing import insulation_test_voltage
from records.terms import Sign, Verdict
from records.units import Volt

_WELL_ABOVE = 5.0
"""How many times more at 250 V than at 500 V points to electronics: common practice."""


def usual_voltage(facts: Facts) -> Published[Volt]:
    """Return the d.c. test voltage that the nominal voltage asks for [V]."""
    return insulation_test_voltage(Volt(facts.record.origin.u0))


def gentle(facts: Facts, reading: Reading) -> bool:
    """Whether it was taken below the usual voltage, with equipment in place."""
    taken = reading.test_voltage
    return taken is not None and taken < usual_voltage(facts).value


def how_taken(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Return what is to be said of the way in which an insulation reading was taken."""
    yield from voltage_used(facts, reading)
    yield from _joined(facts, reading)
    yield from _two_voltages(facts, reading, figure)


def voltage_used(facts: Facts, reading: Reading) -> Iterator[Concern]:
    """Return the concern about a test voltage that isn't the usual one, without a reason."""
    usual, taken = usual_voltage(facts), reading.test_voltage
    if taken is None or taken == usual.value:
        return
    asked = f"Tested at {taken:g} V d.c.; {usual.value:g} V is asked for."
    if taken > usual.value:
        yield Concern(
            "insulation-voltage", Verdict.NEAR, f"{asked} More can harm what is connected.",
            next_check="See that surge protection and electronics still work; tell the certifier.",
            source=usual.source,
        )  # fmt: skip
    elif taken < usual.value / 2:
        yield Concern(
            "insulation-voltage", Verdict.UNLIKELY, asked,
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


def _joined(facts: Facts, reading: Reading) -> Iterator[Concern]:
    """L-N read while L and N are joined, as they are with equipment in place."""
    of_lines = reading.slot.quantity is Quantity.IR_LN
    if of_lines and gentle(facts, reading) and "joined" in reading.method.casefold():
        yield Concern(
            "insulation-joined", Verdict.UNLIKELY,
            "With equipment in place L and N are joined and read to earth: between them there is "
            "nothing to read.",
            ("the reading of another pair", "L and N were not joined after all"),
            "Enter L-N as not needed, with the reason; or read it at the full voltage, "
            "everything out.",
            cite.INSULATION, 15,
        )  # fmt: skip


def _two_voltages(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """D.c. at 250 V well above that at 500 V in the same place: electronics, not cable."""
    if gentle(facts, reading) or figure.sign is Sign.OVER:
        return
    usual = usual_voltage(facts).value
    for other in facts.attempts(reading.slot)[:-1]:
        if gentle(facts, other) and isinstance(other.taken, Figure):
            if other.taken.value > _WELL_ABOVE * figure.value:
                yield Concern(
                    "insulation-electronics", Verdict.UNLIKELY,
                    f"At {other.test_voltage:g} V it was "
                    f"{said(other.taken, measured_by(reading.slot))}: that is what electronics "
                    "do, not cable.",
                    ("surge protection", "a filter or USB outlet", "a driver left in"),
                    f"Disconnect it and repeat at {usual:g} V.",
                    weight=25,
                )  # fmt: skip
            return
