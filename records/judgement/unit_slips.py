"""Figures a thousand times off: milliohms typed as ohms, seconds as milliseconds."""

from __future__ import annotations

import math
from dataclasses import dataclass

from records.expected.results import NotWorkedOut, Result, Worked
from records.judgement.lead_resistance import as_shown
from records.judgement.review_types import Limit, Sense
from records.model.reading import Figure, Slot
from records.model.slots import measured_by
from records.terms import Sign
from records.units import Unit

_THOUSAND = 1000.0
_WITHIN = 2.0
"""How many times more or less than expected a figure may be and still fit: common practice."""
_FEWEST = 100.0
"""The share of a limit that a figure without an expectation has at least: common practice."""
_SMALLER = {
    Unit.OHM: "mΩ",
    Unit.KILOAMPERE: "A",
    Unit.AMPERE: "mA",
}
_LARGER = {Unit.OHM: "kΩ", Unit.MILLISECOND: "s", Unit.MILLIAMPERE: "A", Unit.AMPERE: "kA"}
"""The unit a thousand times smaller or larger. Insulation has its own rule: a low figure there is
never explained away. A voltage has none: next to no voltage is a finding. Nor are there testers of
RCDs that show µs or µA: a time or a current too long is what it says."""
_SLACK = 1e-9
"""0.35 × 1000 / 1000 need not be 0.35 in binary."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A figure that fits once its unit is taken a thousand times smaller or larger."""

    typed: float
    unit: str
    """In which the figure that was typed would fit."""
    fits: float
    """The same in the unit of the measurement."""


def thousandfold(
    slot: Slot, figure: Figure, expected: Result | None, bound: Limit | NotWorkedOut | None = None
) -> Slip | None:
    """Return the slip that a figure looks like; None if it is no thousand times off.

    Args:
        slot: Where the figure stands.
        figure: What was typed; one with a sign shows nothing.
        expected: What the meter should show.
        bound: The limit, which has to do where nothing is expected.
    """
    shown = as_shown(figure)
    if figure.sign is not Sign.EQUAL or shown <= 0:
        return None
    unit, least = measured_by(slot).unit, 10.0 ** -measured_by(slot).digits
    for names, factor in ((_SMALLER, 1 / _THOUSAND), (_LARGER, _THOUSAND)):
        fits = round(shown * factor - (figure.leads or 0.0), 9)
        if unit in names and fits >= least - _SLACK and _fits(fits, figure.value, expected, bound):
            return Slip(shown, names[unit], fits)
    return None


def _fits(
    value: float, typed: float, expected: Result | None, bound: Limit | NotWorkedOut | None
) -> bool:
    if isinstance(expected, Worked):
        low, high = _ends(expected)
        return low / _WITHIN - _SLACK <= value <= high * _WITHIN + _SLACK
    if not isinstance(bound, Limit) or bound.sense is Sense.SHOULD:
        return False
    if bound.sense is Sense.BAND:
        low, high = bound.value, math.inf if bound.upper is None else bound.upper
    elif bound.sense is Sense.MOST:
        low, high = bound.value / _FEWEST, bound.value
    else:
        return False
    return low - _SLACK <= value <= high + _SLACK and not low <= typed <= high


def _ends(expected: Worked) -> tuple[float, float]:
    """Return between what a figure is expected; a time has no lower end worth the name."""
    high = max(expected.value, expected.high or 0.0)
    low = expected.value if expected.low is None else min(expected.low, expected.value)
    return low or high / _FEWEST, high


def is_slip(slot: Slot, figure: Figure, expected: Result | None) -> bool:
    """Whether a figure is a thousand times off what is expected, so that no other reading can be
    held against it."""
    return isinstance(expected, Worked) and thousandfold(slot, figure, expected) is not None
