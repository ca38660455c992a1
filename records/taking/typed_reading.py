"""From what a person types, or decides, to a reading that can go into the record."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from records.errors import BadQuantity, BadText
from records.judgement.wording import Taken, amount
from records.model.certifier import new_reading_id
from records.model.measurements import Measurement
from records.model.reading import Figure, NotNeeded, NotTaken, Reading, Slot, Tick
from records.model.record import Record
from records.taking.leads import counted
from records.terms import Sign
from records.text import checked_text, says_something
from records.typed import read_typed
from records.units import Unit

RIGHT = ("y", "yes", "right", "ok")
WRONG = ("n", "no", "wrong")

_TOP = {
    # What no hand-held tester shows: a slip of the unit is caught here, before it is judged.
    Unit.OHM: 100_000.0,
    Unit.MEGOHM: 1_000_000.0,
    Unit.KILOAMPERE: 100.0,
    Unit.VOLT: 1_000.0,
    Unit.MILLISECOND: 10_000.0,
}
_ZERO = 0.5
"""How far below nothing a meter's zero may lie, in the unit of the field."""


@dataclass(frozen=True, slots=True)
class Circumstances:
    """What goes with a reading beside its value."""

    by: str | None = None
    """Id of the person."""
    instrument: str | None = None
    """Id of the instrument; None for a check by eye."""
    test_voltage: float | None = None
    """Of an insulation test [V]."""
    method: str = ""
    note: str = ""
    taken_at: datetime | None = None
    """When it was taken, if it is entered later from notes."""
    leads: float | None = None
    """Resistance of the instrument's leads that has to be taken off a figure [Ω]."""


def understand(text: str, entry: Measurement) -> Figure | Tick:
    """Return what was typed: a figure in the measurement's unit, or the answer to a check.

    Raises:
        BadQuantity: If it is neither; the message says what would be right.
    """
    return _answer(text) if entry.is_check else _figure(text, entry)


def reading(
    record: Record, slot: Slot, taken: Taken, around: Circumstances, now: datetime
) -> Reading:
    """Return the next reading of a slot.

    Args:
        record: For a fresh id.
        slot: Where it belongs.
        taken: What the meter showed, or the reason why there is nothing.
        around: Who, with what, how.
        now: The moment of entry, with its time zone.
    Raises:
        BadQuantity: If the leads of the instrument can't have so much.
    """
    return Reading(
        id=new_reading_id(record),
        slot=slot,
        taken=counted(taken, around.leads),
        at=around.taken_at or now,
        from_notes=now if around.taken_at else None,
        by=around.by,
        instrument=around.instrument,
        test_voltage=around.test_voltage,
        method=around.method,
        note=around.note,
    )


def could_not(reason: str) -> NotTaken:
    """Return "could not be taken" with its reason.

    Raises:
        BadText: If the reason says nothing, or has characters that can't be printed.
    """
    return NotTaken(reason=_reason(reason))


def not_needed(reason: str) -> NotNeeded:
    """Return "not needed" with its reason.

    Raises:
        BadText: If the reason says nothing, or has characters that can't be printed.
    """
    return NotNeeded(reason=_reason(reason))


def _reason(text: str) -> str:
    words = checked_text(text)
    if not says_something(words):
        raise BadText("Give the reason in a few words: the certifier has to weigh it.")
    return words


def _answer(text: str) -> Tick:
    word = text.strip().casefold()
    if word in RIGHT:
        return Tick(good=True)
    if word in WRONG:
        return Tick(good=False)
    raise BadQuantity(
        f"“{text.strip()[:40]}”: this is a check. Type y for correct, n for not correct."
    )


def _figure(text: str, entry: Measurement) -> Figure:
    typed = read_typed(text, entry.unit, signs=True)
    top = _TOP.get(entry.unit, 1e6)
    unit = entry.unit.value
    if typed.value > top:
        raise BadQuantity(
            f"“{typed.raw}” is {amount(typed.value, entry.unit, 0)}, more than any tester shows. "
            f"Type what the display says, in {unit} if you leave the unit away."
        )
    if typed.value < -_ZERO or (typed.value < 0 and typed.sign is not Sign.EQUAL):
        raise BadQuantity(
            f"“{typed.raw}”: a meter's zero may lie a little below nothing, such as -0.01, but "
            "this is no reading. Check the sign."
        )
    return Figure(value=typed.value, sign=typed.sign, typed=typed.raw)
