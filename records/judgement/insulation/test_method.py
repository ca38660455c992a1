"""How an insulation reading was taken: its test voltage, and what it was joined to."""

from __future__ import annotations

import re
from collections.abc import Iterator

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.cable_path import wet_place
from records.judgement.concern import Concern
from records.judgement.facts import Facts
from records.judgement.insulation.likely_causes import NEW
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
    yield from two_voltages(facts, reading, figure)
    yield from _moving(facts, reading, figure)


def voltage_used(facts: Facts, reading: Reading) -> Iterator[Concern]:
    """Return the concern about a test voltage that isn't the usual one, without a reason."""
    usual, taken = usual_voltage(facts), reading.test_voltage
    if taken is None or taken == usual.value:
        return
    asked = f"Tested at {taken:g} V d.c.; {usual.value:g} V is asked for."
    if taken > usual.value:
        yield Concern(
            "insulation-voltage",
            Verdict.NEAR,
            f"{asked} More can harm what is connected: the certifier decides if it counts.",
            next_check=do(Act.ASK, "Tell the certifier what was connected: it may be harmed."),
            source=usual.source,
        )
    elif taken < usual.value / 2:
        yield Concern(
            "insulation-voltage",
            Verdict.UNLIKELY,
            asked,
            next_check=do(Act.LIFT, f"Electronics out, and repeat at {usual.value:g} V."),
            source=usual.source,
        )
    elif not (reading.method or reading.note):
        yield Concern(
            "insulation-voltage",
            Verdict.NEAR,
            f"Tested at {taken:g} V d.c. instead of {usual.value:g} V, and it doesn't say why: "
            "only for what can't be disconnected. The certifier decides if it counts.",
            next_check=do(Act.ENTER, "Say what could not be disconnected; then stop here.")
            + do(Act.LIFT, f"Else electronics out, and repeat at {usual.value:g} V."),
            source=cite.INSULATION,
        )


def _joined(facts: Facts, reading: Reading) -> Iterator[Concern]:
    """L-N read while L and N are joined, as they are with equipment in place."""
    of_lines = reading.slot.quantity is Quantity.IR_LN
    if of_lines and gentle(facts, reading) and "joined" in reading.method.casefold():
        yield Concern(
            "insulation-joined",
            Verdict.UNLIKELY,
            "With equipment in place L and N are joined and read to earth: between them there is "
            "nothing to read.",
            ("the reading of another pair", "L and N were not joined after all"),
            do(Act.ENTER, "Enter L-N as not needed, with the reason; then stop here.")
            + do(Act.LIFT, "Or electronics out, and read it at the full voltage."),
            cite.INSULATION,
            15,
        )


def _moving(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """A reading that moves while it is held: up as a cable charges, down as a leak grows."""
    words = f"{reading.method} {reading.note}".casefold()
    before = _just_before(facts, reading)
    entry = measured_by(reading.slot)
    if before is not None and _fell(before, figure):
        how = f"It fell from {said(before, entry)} within {_MINUTES:g} minutes"
    elif _FALLS.search(words):
        how = "It is said to fall while it is held"
    elif (before is not None and _rose(before, figure)) or _CLIMBS.search(words):
        yield _rising(facts, reading, figure, before)
        return
    else:
        return
    yield Concern(
        "insulation-falling",
        Verdict.UNLIKELY,
        f"{how}: a sound cable is steady or creeps up.",
        (
            "damp that creeps along ends, boxes or glands",
            "a leak that grows under the voltage",
            "a lead that slips",
        ),
        do(Act.OPEN, "Dry and clean the ends; hold it a minute. If it falls again, split the run."),
        cite.INSULATION_LEADS,
        20,
    )


def _rising(facts: Facts, reading: Reading, figure: Figure, before: Figure | None) -> Concern:
    """A reading that creeps up: of high ones the insulation takes up charge, low ones are wet.

    A cable is charged in far less than a second: 100 m are some 0.03 µF (common practice), and a
    tester gives 1 mA (BS EN 61557-2).
    """
    entry = measured_by(reading.slot)
    how = f"It crept up from {said(before, entry)}" if before is not None else "It is said to climb"
    if figure.sign is Sign.OVER or figure.value >= NEW:
        says = f"{how}: the insulation takes up charge. The steady figure counts."
        return Concern("insulation-rising", Verdict.WITHIN, says)
    return Concern(
        "insulation-climbing",
        Verdict.UNLIKELY,
        f"{how} and is still under {NEW:.0f} MΩ after seconds: no cable charges that long. It is "
        "water.",
        (wet_place(facts, reading.slot.place), "a wet cable end"),
        do(Act.OPEN, "Open and dry the joint box or gland, and close it.")
        + do(Act.AGAIN, "Read it again over several days; only a figure that stays counts."),
        cite.COMMON,
        32,
    )


def _just_before(facts: Facts, reading: Reading) -> Figure | None:
    """Return the first figure of the same go: same pair and voltage, minutes before."""
    first = None
    for each in reversed(facts.attempts(reading.slot)[:-1]):
        late = (reading.at - each.at).total_seconds() > 60 * _MINUTES
        other = each.test_voltage != reading.test_voltage
        mended = any(each.at <= remedy.at <= reading.at for remedy in facts.record.remedies)
        if late or other or mended or not isinstance(each.taken, Figure):
            break
        first = each.taken
    return first


_MINUTES = 5.0
_MOVED = 1.3
"""How many times more or less within minutes is a movement: common practice."""
_CLIMBS = re.compile(
    r"(?<!not )(?<!n't )(?<!never )(?<!longer )(?<!without )"
    r"\b(?:climbs|climbing|rising|creeps up|creeping up)\b"
)
"""Said of the reading: it goes up while it is held."""
_FALLS = re.compile(
    r"(?<!not )(?<!n't )(?<!never )(?<!longer )(?<!without )\b(?:falling|falls|dropping)\b"
    r"|\b(?:it|reading|value|figure|resistance|still|slowly) drops\b"
    r"|\bdrops (?:while|when|slowly|as|under)\b"
)
"""Said of the reading: a drop is also the cable that goes down a wall to a switch."""


def _fell(before: Figure, figure: Figure) -> bool:
    """Whether a figure is shown to be less than one before it: both signs leave that open."""
    if before.sign is Sign.UNDER or figure.sign is Sign.OVER:
        return False
    return figure.value < before.value / _MOVED


def _rose(before: Figure, figure: Figure) -> bool:
    """Whether a figure is shown to be more than one before it, of which the meter showed one."""
    if before.sign is not Sign.EQUAL or figure.sign is Sign.UNDER:
        return False
    return figure.value > before.value * _MOVED


def two_voltages(facts: Facts, reading: Reading, figure: Figure) -> Iterator[Concern]:
    """Return the concern about far more at 250 V than at 500 V: rather electronics than cable."""
    if gentle(facts, reading) or figure.sign is Sign.OVER:
        return
    usual = usual_voltage(facts).value
    for other in facts.attempts(reading.slot)[:-1]:
        if gentle(facts, other) and isinstance(other.taken, Figure):
            shown = other.taken.sign is not Sign.UNDER
            if shown and other.taken.value > _WELL_ABOVE * figure.value:
                yield Concern(
                    "insulation-electronics",
                    Verdict.UNLIKELY,
                    f"At {other.test_voltage:g} V it was "
                    f"{said(other.taken, measured_by(reading.slot))}: electronics do that, a "
                    "cable rarely.",
                    ("surge protection", "a filter or USB outlet", "a driver left in"),
                    do(Act.LIFT, f"Disconnect it and repeat at {usual:g} V."),
                    weight=25,
                )
            return
