"""What somebody is told about a reading that could not be taken: what stays off until then."""

from __future__ import annotations

from records.model.measurements import MEASUREMENTS
from records.model.reading import NotTaken, Quantity, Slot
from records.model.slots import measured_by
from records.terms import Part, Stage

_BACK = frozenset(entry.back for entry in MEASUREMENTS if entry.back is not None)
"""Checks that what came off is back: nothing else can show it."""


def stands_in(slot: Slot, taken: NotTaken) -> str:
    """Return what holds while a reading could not be taken; it shows nothing by itself.

    Args:
        slot: The reading.
        taken: Why it could not be taken, and which test elsewhere stands in for it.
    """
    if slot.quantity in _BACK:
        return "Nothing replaces the earth. Leave everything off; put it back."
    if slot.quantity is Quantity.PUT_BACK:
        return "Nothing else will do. Leave everything off; look at each of them."
    if taken.stands_in is not None:
        return "That test counts instead; the certifier confirms it."
    if slot.quantity is Quantity.EARTHING:
        return "Nothing replaces the earth. Leave the outbuilding off until this is read."
    if slot.stage is Stage.DEAD:
        return "It stays locked off until the certifier agrees what counts instead of this."
    behind = slot.stage is Stage.LIVE and slot.place.part is not Part.ORIGIN
    if behind and not measured_by(slot).optional:
        return "Leave it off until the certifier agrees what counts instead of this."
    return "Agree with the certifier what stands in for it."
