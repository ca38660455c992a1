"""What a live reading showed that stops all others: no earth, no or wrong polarity, an open loop.

Source: IET Guidance Note 3 and HSE GS38 (from memory): a live test is only safe with an earth that
was shown, and with line and neutral where they belong.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from records.interlock.comes_off import last_ones
from records.interlock.dead_tests import WRONG, Verdicts
from records.model.reading import Figure, Quantity, Reading, Slot, Tick
from records.model.record import Record
from records.model.slots import title
from records.terms import Part, Sign, Stage, Verdict

_STOPS_ALL = {
    Quantity.ZE: "no good earth is shown at the origin",
    Quantity.POLARITY: "the polarity of the supply is not correct",
    Quantity.ZDB: "no good earth is shown at the sub-board",
    Quantity.FAULT_LN: "the fault current is outside",
    Quantity.FAULT_LE: "the fault current to earth is outside",
    Quantity.VOLTAGE: "the voltage is outside",
    Quantity.VOLTAGE_LE: "the voltage to earth is outside",
    Quantity.VOLTAGE_NE: "there is voltage on the neutral",
}
"""At origin and board, where everything behind depends on it."""


@dataclass(frozen=True, slots=True)
class LiveFailure:
    """A live reading that was wrong and was not read right since."""

    slot: Slot
    why: str
    everywhere: bool
    """Whether it stops all live readings, or those of its circuit only."""

    def stops(self, slot: Slot) -> bool:
        """Return whether nothing is taken there before this is read right; its own retest is."""
        if slot == self.slot:
            return False
        return self.everywhere or slot.place.circuit == self.slot.place.circuit


def live_failures(
    record: Record,
    verdicts: Verdicts,
    until: datetime | None = None,
    slots: Sequence[Slot] | None = None,
) -> tuple[LiveFailure, ...]:
    """Return what failed live and was not read right since, the earliest in the order of tests.

    “Could not” and “not needed” after it change nothing: the last true reading counts.

    Args:
        record: The job.
        verdicts: How each reading stood.
        until: Only what was taken before then counts; None: everything.
        slots: What `stopping` gave for the record, if it is asked for many moments.
    """
    return tuple(_found(record, verdicts, slots or stopping(record), until))


def stopping(record: Record) -> tuple[Slot, ...]:
    """Return the slots of a record that have readings and can stop others, in order of entry."""
    return tuple(
        slot
        for slot in dict.fromkeys(each.slot for each in record.readings)
        if slot.stage is Stage.LIVE
        and (
            slot.quantity is Quantity.ZS
            if slot.place.part is Part.CIRCUIT
            else slot.quantity in _STOPS_ALL
        )
    )


def failure_words(record: Record, failure: LiveFailure) -> str:
    """Return a failure in words: `Board, Zdb: no good earth is shown at the sub-board`."""
    slot = failure.slot
    return f"{title(record, slot.place)}, {slot.quantity.value}: {failure.why}"


def _found(
    record: Record, verdicts: Verdicts, slots: Iterable[Slot], until: datetime | None
) -> Iterator[LiveFailure]:
    for slot in slots:
        failed = (_failure(slot, each, verdicts) for each in _last(record, slot, until))
        found = next(filter(None, failed), None)
        if found is not None:
            yield found


def _failure(slot: Slot, last: Reading, verdicts: Verdicts) -> LiveFailure | None:
    verdict = verdicts.get(last.id)
    if verdict is None:
        return None
    if slot.place.part is Part.CIRCUIT:
        if verdict is not Verdict.OUTSIDE:
            return None
        is_open = isinstance(last.taken, Figure) and last.taken.sign is Sign.OVER
        why = "the loop is open" if is_open else "it may not disconnect in time"
        return LiveFailure(slot, why, everywhere=is_open)
    wrong = verdict is Verdict.OUTSIDE and not _over_capacity_at_house(last)
    if wrong or (slot.quantity is Quantity.POLARITY and verdict in WRONG):
        return LiveFailure(slot, _STOPS_ALL[slot.quantity], everywhere=True)
    return None


def _over_capacity_at_house(reading: Reading) -> bool:
    """Return whether it is a fault current over what a device in the house can break.

    The certifier decides about that device; the house lived with it before. No current at all is
    another matter: there is no earth, or no neutral.
    """
    return (
        reading.slot.place.part is Part.ORIGIN
        and reading.slot.quantity in (Quantity.FAULT_LN, Quantity.FAULT_LE)
        and isinstance(reading.taken, Figure)
        and reading.taken.value > 0.1
    )


def _last(record: Record, slot: Slot, until: datetime | None) -> tuple[Reading, ...]:
    real = [
        each
        for each in record.taken(slot)
        if isinstance(each.taken, Figure | Tick) and (until is None or each.at < until)
    ]
    return last_ones(real) if real else ()
