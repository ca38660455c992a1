"""Insulation at 250 V with equipment left in: what is joined then, and what is read.

BS 7671, 643.3.3 (from memory): where what can't be disconnected would be damaged, L and N are
joined and read to earth at 250 V d.c.
"""

from __future__ import annotations

from dataclasses import replace

from records.model.entries import AT_THE_HOUSE, HOLD, ISOLATED
from records.model.measurements import Measurement
from records.model.reading import Figure, Quantity, Slot, slot_of
from records.model.record import Record
from records.terms import Part
from records.units import Unit

USUAL_VOLTAGE = 500.0
"""D.c. test voltage of a 230/400 V circuit [V] (BS 7671, Table 64, from memory)."""
LOWER_VOLTAGE = 250.0
"""Where what can't be disconnected would be damaged [V] (BS 7671, 643.3.3, from memory)."""
LOWER_METHOD = "250 V d.c., L and N joined, to earth: "
SETTING = f"{LOWER_VOLTAGE:g} V d.c."

_PAIRS = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)


def as_tested(test: Measurement, why: str) -> Measurement:
    """Return a measurement with what is connected and set at the lower voltage.

    Args:
        test: Its entry in the catalogue.
        why: What can't be disconnected; empty: at the usual voltage.
    """
    if not why or test.unit is not Unit.MEGOHM:
        return test
    if test.quantity is not Quantity.IR_LE:
        return replace(test, setting=SETTING)
    state = AT_THE_HOUSE if test.part is Part.FEED else ISOLATED
    return replace(
        test,
        between="L and N joined, and earth",
        setting=SETTING,
        first=f"{state}Line out of its device, neutral out of its bar; join the two. Left in: "
        f"{why.rstrip('.')}. All else disconnected. {HOLD} Link out afterwards.",
    )


def read_instead(slot: Slot, why: str) -> Slot | None:
    """Return what is read instead of a pair that is joined at the lower voltage; None: it is read.

    Args:
        slot: The reading in hand.
        why: What can't be disconnected; empty: at the usual voltage.
    """
    if not why or slot.quantity not in _PAIRS or slot.quantity is Quantity.IR_LE:
        return None
    return slot_of(Quantity.IR_LE, slot.place, slot.stage)


JOINED = (
    "L and N are joined here, at 250 V: read insulation L-E. L-N and N-E are set aside. At 500 V, "
    "with everything disconnected, all three are read."
)


def set_aside(record: Record) -> tuple[tuple[Slot, str], ...]:
    """Return the pairs that nobody reads because L and N were joined, each with why.

    What was read between L and N all the same, or said not to be needed, is not among them.
    """
    last = {each.slot: each for each in record.readings}
    found = []
    for slot, reading in last.items():
        if not reading.joined or not isinstance(reading.taken, Figure):
            continue
        for quantity in (Quantity.IR_LN, Quantity.IR_NE):
            pair = slot_of(quantity, slot.place, slot.stage)
            if pair not in last:
                found.append((pair, _WHY[quantity].format(reading.method)))
    return tuple(found)


_WHY = {
    Quantity.IR_LN: "not read: L and N were joined ({})",
    Quantity.IR_NE: "read together with L-E: L and N were joined ({})",
}
