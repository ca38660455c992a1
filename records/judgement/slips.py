"""Slips of the typing: figures that no meter shows, and figures a thousand times off."""

from __future__ import annotations

from records.judgement import cite
from records.judgement.advice import Act, do
from records.judgement.advice.phrases import (
    EARTH_BACK,
    LOCK_OFF,
    STAYS_OFF,
    WHOLE_HOUSE_OFF,
)
from records.judgement.concern import Concern
from records.judgement.review_types import Limit, Sense
from records.judgement.rule import Bound
from records.judgement.uncertainty import kind_of
from records.judgement.unit_slips import Slip
from records.judgement.wording import amount, number
from records.model.reading import Figure, Quantity, Slot
from records.model.slots import measured_by
from records.terms import Verdict

_LOOPS = (Quantity.ZE, Quantity.ZDB, Quantity.ZS)


def below_nothing(figure: Figure, slot: Slot) -> bool:
    """Whether a figure is under nought where a meter has no sign: only a nulled ohmmeter has."""
    return figure.value < 0 and kind_of(slot.quantity) != "low resistance"


def typed_below_nothing(bound: Bound) -> Concern:
    """Return the concern about such a figure; it stands for nothing that a limit could judge."""
    needs_more = isinstance(bound, Limit) and bound.sense is not Sense.MOST
    verdict = Verdict.OUTSIDE if needs_more else Verdict.UNLIKELY
    return Concern(
        "below-nothing",
        verdict,
        "A meter shows nothing below zero here.",
        ("a minus sign typed by mistake", "the figure of another test"),
        do(Act.ENTER, "Read it again and type what the meter shows."),
        cite.COMMON,
        70,
    )


def unit_slip(slot: Slot, slip: Slip, bound: Bound) -> Concern:
    """Return the concern about a figure a thousand times off; until somebody looks it stands."""
    entry = measured_by(slot)
    unit, meant = entry.unit, amount(slip.fits, entry.unit, entry.digits)
    typed = number(slip.typed, 0)
    outside = isinstance(bound, Limit) and bound.sense is Sense.MOST and slip.typed > bound.value
    check = do(Act.ENTER, f"Look at the meter, unit included. If it is {meant}, type that.")
    if slot.quantity in _LOOPS and slip.typed > slip.fits:
        off = EARTH_BACK + WHOLE_HOUSE_OFF if slot.quantity is Quantity.ZE else LOCK_OFF
        check += do(Act.LOOK, f"If it is {typed} {unit.value}, there is next to no earth.") + off
    elif kind_of(slot.quantity) == "low resistance" and slip.typed > slip.fits:
        check += do(Act.LOOK, f"If it is {typed} {unit.value}, there is no sound path.") + STAYS_OFF
    return Concern(
        "unit-slip",
        Verdict.OUTSIDE if outside else Verdict.UNLIKELY,
        f"{typed} would fit as {slip.unit}: is it {meant}?",
        (f"{slip.unit} typed as {unit.value}", "the figure of another test"),
        check,
        cite.COMMON,
        70,
    )
