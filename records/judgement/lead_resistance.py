"""The resistance of the test leads: in what the meter shows unless it nulls them, and no part of
what is measured. It is taken off once, when the reading is taken, and both figures are kept.

Source: IET Guidance Note 3, continuity tests: null the leads, or measure them and take them off
(from memory). Taken off in decimals, as a person does it on paper: 0.42 − 0.05 is 0.37.
"""

from __future__ import annotations

from decimal import Decimal

from records.errors import BadQuantity
from records.model.job import Instrument
from records.model.measurement import Measurement
from records.model.reading import Figure
from records.terms import Sign

BELOW_NOTHING = 0.5
"""Ω that what is left may lie below zero: that far a meter's zero may be off, no more."""


def to_take_off(meter: Instrument | None, test: Measurement) -> float | None:
    """Return what has to be taken off what a meter shows [Ω]; None if nothing has to be.

    Args:
        meter: The instrument in hand; None if nobody said which.
        test: What is measured with it.
    """
    if meter is None or meter.nulled is not False or not test.leads:
        return None
    return meter.leads or None


def is_unknown(meter: Instrument | None, test: Measurement) -> bool:
    """Whether the leads are in what a meter shows, and nobody said how much they have."""
    return meter is not None and meter.nulled is False and test.leads and meter.leads is None


def without_leads(figure: Figure, leads: float | None) -> Figure:
    """Return a figure as it goes on record: less the leads, with how much that was.

    Args:
        figure: What the meter shows.
        leads: Resistance of the leads [Ω]; None: nothing is taken off.
    Returns:
        The figure as it is, too, if it is out of the meter's range: from “more than 20” nothing
        can be taken off.
    Raises:
        BadQuantity: If far less than nothing is left, so that it can't be the leads' resistance.
    """
    if leads is None or figure.sign is not Sign.EQUAL or figure.leads is not None:
        return figure
    value = float(Decimal(repr(figure.value)) - Decimal(repr(leads)))
    if value < -BELOW_NOTHING:
        raise BadQuantity(
            f"{figure.value:g} Ω less {leads:g} Ω for the leads is below zero. Correct the lead "
            "resistance of the instrument in the step Job, or say there that it nulls them."
        )
    return figure.model_copy(update={"value": value, "leads": leads})


def as_shown(figure: Figure) -> float:
    """Return what the meter showed, the leads still in it, in the unit of the figure."""
    if figure.leads is None:
        return figure.value
    return float(Decimal(repr(figure.value)) + Decimal(repr(figure.leads)))
