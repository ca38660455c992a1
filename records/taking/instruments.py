"""Which instrument, at which test voltage, a reading is taken with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from records.errors import BadText
from records.model.job import Instrument, InstrumentKind
from records.model.measurements import Measurement
from records.model.record import Record
from records.terms import Stage
from records.text import checked_text

T = TypeVar("T")

_BY_EYE = ("your own eyes", "none: by hand")


def by_eye(entry: Measurement) -> bool:
    """Whether a check needs no instrument from the job's list."""
    return entry.instrument in _BY_EYE or entry.instrument.startswith("two-pole")


def kind_for(entry: Measurement) -> InstrumentKind | None:
    """Return the kind of single-purpose meter that does this; None: any of them, or none."""
    for kind in InstrumentKind:
        if entry.instrument.startswith(kind.value):
            return kind
    return None


def fits(instrument: Instrument, entry: Measurement) -> bool:
    """Whether an instrument can take a reading; one of unknown kind is given the doubt."""
    wanted = kind_for(entry)
    return wanted is None or instrument.kind in (None, InstrumentKind.MULTIFUNCTION, wanted)


def instrument_for(
    record: Record, stage: Stage, entry: Measurement, chosen: Sequence[str]
) -> Instrument | None:
    """Return the instrument that a reading of this measurement is taken with.

    Args:
        record: The job with its instruments.
        stage: The stage of the work.
        entry: What is measured.
        chosen: Ids that the person chose for this stage, the latest first.
    Returns:
        The latest chosen one that can do it; else the one last used in this stage for it; else the
        only one of the job that can. None if none can, or if the person has to say which.
    """
    if by_eye(entry):
        return None
    able = {each.id: each for each in able_for(record, entry)}
    used = (
        each.instrument
        for each in reversed(record.readings)
        if each.slot.stage is stage and each.instrument is not None
    )
    for id in (*chosen, *used):
        if id in able:
            return able[id]
    return only_one(tuple(able.values()))


def able_for(record: Record, entry: Measurement) -> tuple[Instrument, ...]:
    """Return the instruments of a job that can take a reading; none for a check by eye."""
    if by_eye(entry):
        return ()
    return tuple(each for each in record.job.instruments if fits(each, entry))


def only_one(found: Sequence[T]) -> T | None:
    """Return the only one there is; None if there is none, or if a person has to say which."""
    return found[0] if len(found) == 1 else None


def words(instrument: Instrument) -> str:
    """Return how an instrument is called on a line: its id, kind and serial number."""
    kind = instrument.kind.value if instrument.kind else "instrument"
    return f"{instrument.id} {kind}" + (f" {instrument.serial}" if instrument.serial else "")


def instrument_named(record: Record, name: str) -> Instrument:
    """Return the instrument of a job that an id or a serial number means.

    Raises:
        BadText: If the job has none called so.
    """
    word = checked_text(name).casefold()
    meters = record.job.instruments
    for each in meters:
        if word and word in (each.id.casefold(), each.serial.casefold()):
            return each
    known = "; ".join(words(each) for each in meters)
    raise BadText(f"This job has no such instrument. It has: {known or 'none yet'}.")
