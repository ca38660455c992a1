"""How figures and readings are put into words, with the digits that the trade writes."""

from __future__ import annotations

from collections.abc import Sequence

from records.judgement.lead_resistance import as_shown
from records.model.measurements import Measurement
from records.model.reading import Figure, NotNeeded, NotTaken, Remedy, StandIn, Tick
from records.tables.rounding import SMALL_KA
from records.terms import Sign, WorkKind
from records.units import Unit

Taken = Figure | Tick | NotTaken | NotNeeded
"""What stands in a reading."""


def said(taken: Taken, measurement: Measurement) -> str:
    """Return a reading in words: `0.35 Ω`, `> 999 MΩ`, `not correct`, `not needed: …`.

    Args:
        taken: What the meter showed, or what was found, or why there is nothing.
        measurement: What was measured; it knows the unit and the digits.
    """
    match taken:
        case Figure():
            return _figure(taken, measurement)
        case Tick(good=True):
            return "correct"
        case Tick():
            return "not correct"
        case NotTaken(stands_in=StandIn(where=where)):
            return f"not taken here: {taken.reason}, recorded in: {where}"
        case NotTaken():
            return f"could not be taken: {taken.reason}"
        case NotNeeded():
            return f"not needed: {taken.reason}"


def in_full(taken: Taken, measurement: Measurement) -> str:
    """Return a reading in words, with what was taken off it: `0.37 Ω (0.42 Ω − 0.05 Ω leads)`.

    For wherever there is room; `said` is for a narrow column.
    """
    words = said(taken, measurement)
    less = less_leads(taken, measurement)
    return f"{words} ({less})" if less else words


def less_leads(taken: Taken, measurement: Measurement) -> str:
    """Return what the meter showed and what was taken off: `0.42 Ω − 0.05 Ω leads`; else nothing.

    Args:
        taken: What was read.
        measurement: What was measured; it knows the unit and the digits.
    """
    if not isinstance(taken, Figure) or taken.leads is None:
        return ""
    meter = amount(as_shown(taken), measurement.unit, measurement.digits)
    return f"{meter} − {amount(taken.leads, Unit.OHM, measurement.digits)} leads"


def done_line(remedy: Remedy) -> str:
    """Return what was done about a finding in words, or what was passed on to be decided."""
    if remedy.to_decide:
        return f"to the certifier, to decide: {remedy.done}"
    if remedy.kind in (None, WorkKind.OTHER):
        return remedy.done
    return f"{remedy.kind.words}: {remedy.done}"


def amount(value: float, unit: Unit, digits: int = 2) -> str:
    """Return a figure with its unit, such as `0.35 Ω`; never fewer digits than it has.

    Args:
        value: In `unit`.
        unit: Printed after the figure.
        digits: Decimals to print at least; megohms from 10 up are printed without.
    """
    if unit is Unit.KILOAMPERE and 0 < abs(value) < SMALL_KA:
        return f"{number(round(1000 * value, 6), 0)} A"
    return f"{number(value, _decimals(value, unit, digits))} {unit.value}".strip()


def number(value: float, digits: int) -> str:
    """Return a figure with `digits` decimals, or with as many more as it takes to say it whole."""
    text = f"{value:.{digits}f}"
    if abs(float(text) - value) > 1e-9 * max(1.0, abs(value)):
        text = f"{value:.9f}".rstrip("0").rstrip(".")
    if float(text) == 0:
        text = text.lstrip("-")  # a meter's -0.00 is nought
    return text.replace("-", "\N{MINUS SIGN}")


def rounded(value: float, unit: Unit, digits: int = 2) -> str:
    """Return a figure that was worked out, rounded to what is worth printing, with its unit."""
    digits = _decimals(value, unit, digits)
    small = unit is Unit.KILOAMPERE and abs(value) < SMALL_KA  # whole milliampere are enough
    return amount(round(value, 6 if small else digits), unit, digits)


def listed(words: Sequence[str]) -> str:
    """Return words as one enumeration: `a`, `a and b`, `a, b and c`."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def _figure(figure: Figure, measurement: Measurement) -> str:
    unit = measurement.unit
    if figure.sign is Sign.EQUAL:
        return amount(figure.value, unit, measurement.digits)
    return f"{figure.sign.value} {number(figure.value, 0)} {unit.value}".strip()


def _decimals(value: float, unit: Unit, digits: int) -> int:
    return 0 if unit is Unit.MEGOHM and abs(value) >= 10 else digits
