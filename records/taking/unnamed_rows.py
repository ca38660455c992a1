"""Rows of a sheet that don't say who read them or with what: what is put down, and what is said."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from records.model.job import Duty, Instrument, Person, person_words
from records.model.measurements import Measurement
from records.model.reading import Reading
from records.model.record import Record
from records.model.slots import measured_by
from records.store.sheet import Cells, Column
from records.taking.instruments import able_for, by_eye, only_one
from records.taking.instruments import words as meter_words
from records.taking.leads import warning_of
from records.taking.stage_settings import who_may

_BACK = (
    "To have it on record, take the sheet back (Ctrl+Z in the wizard), fill in “{column}” and "
    "read it again."
)


def meter_of(record: Record, entry: Measurement) -> Instrument | None:
    """Return the only instrument of a job that can take a reading; None if a person has to say."""
    return only_one(able_for(record, entry))


def person_of(record: Record) -> Person | None:
    """Return the only person who takes the readings of a job; None if a person has to say."""
    return only_one(who_may(record))


@dataclass(frozen=True, slots=True)
class Row:
    """A row that was taken."""

    cells: Cells
    made: Reading

    @property
    def measurement(self) -> Measurement:
        """What was measured."""
        return measured_by(self.made.slot)

    @property
    def is_without_meter(self) -> bool:
        """Whether it needs an instrument and its cell says none."""
        return not self.cells.get(Column.INSTRUMENT, "") and not by_eye(self.measurement)


def remarks(record: Record, rows: Sequence[Row], by: str | None) -> Iterator[str]:
    """Yield what was put down for rows that say nothing, and where nothing could be.

    Args:
        record: The job before the sheet.
        rows: The rows that were taken.
        by: Id of who took the readings whose row doesn't say; None: nobody was named.
    """
    nameless = sum(not each.cells.get(Column.BY, "") for each in rows)
    if nameless and by is None:
        yield _of_people(record, nameless)
    yield from _of_meters(record, [each for each in rows if each.is_without_meter])


def _of_people(record: Record, count: int) -> str:
    found = [person_words(each) for each in who_may(record)]
    person = person_of(record)
    if person is not None:
        alone = "who installs" if person.duty is Duty.INSTALLS else "whom this job names"
        return f"{found[0]}, the only one {alone}, was put down for {_rows(count)} without “by”."
    start = f"Nobody was put down for {_rows(count)} without “by”: "
    if not found:
        return f"{start}this job names no one yet. People are entered in the step Job."
    return f"{start}it could be {' or '.join(found)}. {_BACK.format(column=Column.BY)}"


def _of_meters(record: Record, rows: Sequence[Row]) -> Iterator[str]:
    groups = Counter(able_for(record, each.measurement) for each in rows)
    for able, count in groups.items():
        here = [each for each in rows if able_for(record, each.measurement) == able]
        meter = only_one(able)
        if meter is not None:
            yield (
                f"{meter_words(meter)}, the only one of this job that can, was put down for "
                f"{_rows(count)} without “instrument”."
            )
            yield from dict.fromkeys(filter(None, (_warning(each, meter) for each in here)))
            continue
        start = f"No instrument was put down for {_rows(count)} without “instrument”"
        if any(_has_leads(each, able) for each in here):
            start += ", and no leads were taken off"
        if able:
            named = " or ".join(meter_words(each) for each in able)
            yield f"{start}: it could be {named}. {_BACK.format(column=Column.INSTRUMENT)}"
        else:
            yield f"{start}: this job has none that can take them. They are entered in step Job."


def _warning(row: Row, meter: Instrument) -> str:
    return "" if row.cells.get(Column.LEADS, "") else warning_of(row.measurement, meter)


def _has_leads(row: Row, able: Sequence[Instrument]) -> bool:
    """Whether leads would be taken off with one of the instruments that it could be."""
    leads = row.measurement.leads and not row.cells.get(Column.LEADS, "")
    return leads and any(each.nulled is False for each in able)


def _rows(count: int) -> str:
    return "1 row" if count == 1 else f"{count} rows"
