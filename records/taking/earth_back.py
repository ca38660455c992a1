"""What must be answered before anything else: the earth goes back on after Ze."""

from __future__ import annotations

from records.model.reading import Figure, Place, Quantity, Slot, Tick
from records.model.record import Record
from records.terms import Part, Stage

_ORIGIN = Place(part=Part.ORIGIN)
ZE = Slot(quantity=Quantity.ZE, place=_ORIGIN, stage=Stage.LIVE)
EARTH_BACK = Slot(quantity=Quantity.EARTH_BACK, place=_ORIGIN, stage=Stage.LIVE)


def owed(record: Record) -> Slot | None:
    """Return the check that must be answered next, or None.

    Every Ze reading, a re-test too, takes the earth off its bar. Until somebody has answered
    "right" after the last one, the installation may be without earth.
    """
    for each in reversed(record.readings):
        if each.slot == EARTH_BACK and isinstance(each.taken, Tick) and each.taken.good:
            return None
        if each.slot == ZE and isinstance(each.taken, Figure):
            return EARTH_BACK
    return None
