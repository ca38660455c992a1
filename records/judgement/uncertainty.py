"""How far a meter may be off: the band beside a limit in which a reading proves nothing."""

from __future__ import annotations

from dataclasses import dataclass

from records.judgement.facts import Facts
from records.judgement.review_types import Limit, Sense
from records.judgement.wording import rounded
from records.model.reading import Figure, Quantity, Reading
from records.tables.testing import worst_uncertainty
from records.units import Unit

_KIND = {
    Quantity.R1_R2: "low resistance",
    Quantity.R1: "low resistance",
    Quantity.RN: "low resistance",
    Quantity.R2: "low resistance",
    Quantity.CROSS_LN: "low resistance",
    Quantity.CROSS_LE: "low resistance",
    Quantity.EARTHING: "low resistance",
    Quantity.BONDING: "low resistance",
    Quantity.IR_LN: "insulation",
    Quantity.IR_LE: "insulation",
    Quantity.IR_NE: "insulation",
    Quantity.ELECTRODE: "earth electrode",
    Quantity.ZE: "loop impedance",
    Quantity.ZDB: "loop impedance",
    Quantity.ZS: "loop impedance",
    # A fault current is worked out by the meter from the loop it measures.
    Quantity.FAULT_LN: "loop impedance",
    Quantity.FAULT_LE: "loop impedance",
    Quantity.RCD_TIME: "RCD time, of the limit",
    Quantity.RCD_FIVE: "RCD time, of the limit",
    Quantity.R1_R2_CORE: "low resistance",
    Quantity.R1_R2_ARMOUR: "low resistance",
    Quantity.GLAND: "low resistance",
    Quantity.R2_LONG: "low resistance",
    Quantity.RN_R2: "low resistance",
    Quantity.IR_GROUP: "insulation",
    Quantity.IR_FOIL: "insulation",
    Quantity.R1_RN: "low resistance",
    Quantity.ARMOUR_EARTHED: "low resistance",
    Quantity.ARMOUR_OPEN: "insulation",
    Quantity.LEADS_ZERO: "low resistance",
    Quantity.ELECTRODE_LOOP: "loop impedance",
}


def kind_of(quantity: Quantity) -> str | None:
    """Return which function of a meter reads a quantity; None for a check or a voltage."""
    return _KIND.get(quantity)


_FAR = 10
"""Uncertainties from a limit, above which they are no longer counted."""


@dataclass(frozen=True, slots=True)
class Guard:
    """The operating uncertainty of a meter."""

    share: float
    """Of the reading; with `of_limit`, of the limit."""
    of_limit: bool
    ground: str
    """Whose figure it is, in words."""
    leads: float = 0.0
    """What was taken off the reading: the meter showed that much more, and is off by a share of
    what it showed."""

    def at(self, value: float, limit: float) -> float:
        """Return the uncertainty of a reading beside a limit, in their unit."""
        return self.share * abs(limit if self.of_limit else value + self.leads)


def guard(facts: Facts, reading: Reading) -> Guard:
    """Return the uncertainty to reckon with: the instrument's own, else the standard's highest.

    A voltage and an RCD's operating current have none here: no figure for them was found.
    """
    kind = _KIND.get(reading.slot.quantity)
    if kind is None:
        return Guard(0.0, False, "")
    instrument = facts.instrument(reading)
    if instrument is not None and instrument.uncertainty is not None:
        words = f"± {instrument.uncertainty:g} % by the sheet of {instrument.name}"
        return Guard(instrument.uncertainty / 100, False, words, _leads(reading))
    most = worst_uncertainty(kind)
    of_limit = kind.endswith("of the limit")
    whole = "of the limit" if of_limit else "of the reading"
    words = f"± {most.value:.0%} {whole}, the most that BS EN 61557 allows".replace("%", " %")
    return Guard(most.value, of_limit, words, _leads(reading))


def _leads(reading: Reading) -> float:
    return (reading.taken.leads or 0.0) if isinstance(reading.taken, Figure) else 0.0


def distance(value: float, limit: Limit, band: Guard, unit: Unit, digits: int) -> str:
    """Return how far a reading is from its limit, in the unit and in uncertainties of the meter."""
    edge = nearest_edge(value, limit)
    gap = abs(value - edge)
    one = band.at(value, edge)
    said = f"{rounded(gap, unit, max(digits, limit.digits))} from the limit"
    if not one:
        return said
    return f"{said}, {_times(gap / one)} the uncertainty of the meter ({band.ground})"


def _times(count: float) -> str:
    """Return how many uncertainties a distance is, as roundly as an uncertainty is known."""
    if count < 1:
        return "less than"
    if count < 1.5:
        return "about as much as"
    if count < 2.5:
        return "about twice"
    return f"about {count:.0f} times" if count <= _FAR else f"more than {_FAR} times"


def nearest_edge(value: float, limit: Limit) -> float:
    """Return the end of a limit that a reading is nearest to."""
    if limit.sense is Sense.BAND and limit.upper is not None:
        return min(limit.value, limit.upper, key=lambda edge: abs(edge - value))
    return limit.value
