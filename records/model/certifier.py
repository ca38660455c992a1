"""The certifier's own readings: beside those of who installs, never in their place."""

from __future__ import annotations

from records.model.job import Duty
from records.model.reading import Figure, NotNeeded, NotTaken, Reading, Slot, Tick
from records.model.record import Record, next_id
from records.model.record_view import whole

READINGS, BESIDE = "readings", "certifier_readings"
"""The lists of a record that readings stand in."""


def certifies(record: Record, person: str | None) -> bool:
    """Return whether somebody of a job is the one who certifies."""
    return any(each.id == person and each.duty is Duty.CERTIFIES for each in record.job.people)


def stands_beside(
    record: Record, slot: Slot, taken: Figure | Tick | NotTaken | NotNeeded, by: str | None
) -> bool:
    """Return whether something that is entered stands beside the installer's reading.

    That is a figure of the certifier where somebody else has read one. What nobody else has read
    counts like any reading, and so does an answer: that an earth is back is true of now, whoever
    says so.

    Args:
        record: The job, without it.
        slot: Where.
        taken: What is entered.
        by: Id of who took it.
    """
    if not isinstance(taken, Figure) or not certifies(record, by):
        return False
    figures = [each for each in record.taken(slot) if isinstance(each.taken, Figure)]
    return bool(figures) and not certifies(record, figures[-1].by)


def list_for(record: Record, reading: Reading) -> str:
    """Return the name of the list of a record that a new reading goes into."""
    beside = stands_beside(record, reading.slot, reading.taken, reading.by)
    return BESIDE if beside else READINGS


def new_reading_id(record: Record) -> str:
    """Return an id that no reading of the job carries, whoever took it."""
    return next_id("R", (*record.readings, *record.certifier_readings))


def all_counted(record: Record) -> Record:
    """Return the job as if the certifier's readings counted like all others.

    What came off for one of them is off, and what one of them shows is wrong is wrong: for what may
    be taken next it makes no difference who read it.
    """
    global _latest
    if not record.certifier_readings:
        return record
    record = whole(record)
    if _latest[0] is not record:
        readings = (*record.readings, *record.certifier_readings)
        _latest = (record, record.model_copy(update={READINGS: readings, BESIDE: ()}))
    return _latest[1]


_latest: tuple[Record | None, Record] = (None, Record())
