"""All readings of a job as one table to fill in: a row for each, in our own words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from enum import StrEnum

from records.expected.results import Expected
from records.judgement.lead_resistance import as_shown
from records.judgement.review_types import Judged, Review, key_of
from records.judgement.wording import Taken, in_full, said
from records.model.job import Instrument, person_words
from records.model.measurements import Measurement
from records.model.reading import Figure, NotTaken, Reading, Slot, StandIn, Tick
from records.model.record import Record
from records.model.slots import measured_by, offered, slots, title
from records.store.table_text import to_text
from records.tables.testing import insulation_test_voltage
from records.terms import Stage
from records.units import Unit, Volt


class Column(StrEnum):
    """The headings, in the order in which they are written; read back, any order will do."""

    WHERE = "where"
    WHAT = "what"
    STAGE = "stage"
    UNIT = "unit"
    EXPECTED = "expected"
    LIMIT = "limit"
    SO_FAR = "so far"
    """Earlier readings of the slot; the last one stands in the columns to fill in."""
    READING = "reading"
    TAKEN_AT = "taken at"
    BY = "by"
    INSTRUMENT = "instrument"
    LEADS = "leads Ω"
    """What was, or is to be, taken off the reading, which is what the meter showed."""
    TEST_VOLTAGE = "test voltage V"
    TEMPERATURE = "temperature °C"
    METHOD = "method"
    NOTE = "note"
    RE_TEST = "re-test"
    KEY = "key"
    """What a row is known by when it comes back; people leave it as it is."""


SAYS_WHICH = (Column.WHERE, Column.WHAT, Column.STAGE, Column.UNIT)
"""What a row says about itself beside its key. If these don't agree, columns were torn apart."""

TO_FILL = (
    Column.READING,
    Column.TAKEN_AT,
    Column.BY,
    Column.INSTRUMENT,
    Column.LEADS,
    Column.TEST_VOLTAGE,
    Column.TEMPERATURE,
    Column.METHOD,
    Column.NOTE,
    Column.RE_TEST,
)

Cells = dict[Column, str]


def sheet(record: Record, expected: Expected, review: Review, stage: Stage | None = None) -> str:
    """Return the table as text that any spreadsheet opens.

    Args:
        record: The job.
        expected: What follows from it.
        review: All verdicts on it.
        stage: One stage only; None for all.
    """
    rows = rows_of(record, expected, review, stage)
    return to_text(tuple(Column), ([row[column] for column in Column] for row in rows))


def rows_of(
    record: Record, expected: Expected, review: Review, stage: Stage | None = None
) -> Iterator[Cells]:
    """Yield the rows: the slots that the job needs, then others that have readings."""
    own = {each.slot: each for each in review.lines if each.slot is not None}
    for slot in known_slots(record):
        if stage in (None, slot.stage):
            yield _row(record, slot, expected, own.get(slot))


def known_slots(record: Record) -> tuple[Slot, ...]:
    """Return the slots that a sheet is written with: those needed, and others with readings.

    What takes an earth off brings the question whether that is back.
    """
    wanted = slots(record)
    read = {each.slot for each in record.readings if _is_measured(each.slot)}
    asked = {(each.place, measured_by(each).back) for each in (*wanted, *read)}
    backs = {each for each in offered(record) if (each.place, each.quantity) in asked}
    return (*wanted, *sorted((read | backs) - set(wanted), key=key_of))


def slots_brought(record: Record) -> tuple[Slot, ...]:
    """Return the slots that a sheet can bring readings for: optional ones too."""
    return tuple(dict.fromkeys((*known_slots(record), *offered(record))))


def names_of(record: Record, slot: Slot) -> Cells:
    """Return what a row says about itself, and its key."""
    test = measured_by(slot)
    return {
        Column.WHERE: title(record, slot.place),
        Column.WHAT: f"{test.symbol}: {test.title}",
        Column.STAGE: slot.stage.value,
        Column.UNIT: "correct or not" if test.is_check else test.unit.value,
        Column.KEY: key_of(slot),
    }


def filled(record: Record, reading: Reading) -> Cells:
    """Return a reading as it stands in the columns to fill in, as they are read back."""
    people = {each.id: person_words(each) for each in record.job.people}
    meters = {each.id: instrument_words(each) for each in record.job.instruments}
    return {
        Column.READING: typed_words(reading, measured_by(reading.slot)),
        Column.TAKEN_AT: sheet_moment(reading.at),
        Column.BY: people.get(reading.by or "", reading.by or ""),
        Column.INSTRUMENT: meters.get(reading.instrument or "", reading.instrument or ""),
        Column.LEADS: _leads(reading.taken),
        Column.TEST_VOLTAGE: _figure(reading.test_voltage),
        Column.TEMPERATURE: _figure(reading.temperature),
        Column.METHOD: reading.method,
        Column.NOTE: reading.note,
        Column.RE_TEST: "",
    }


def typed_words(reading: Reading, test: Measurement) -> str:
    """Return what the meter showed as a person would type it: `0.35`, `>999`, `right`."""
    words = said(before_leads(reading.taken), test)
    match reading.taken:
        case Figure():
            plain = words.removesuffix(test.unit.value).replace(" ", "")
            return plain.replace("\N{MINUS SIGN}", "-")
        case Tick(good=good):
            return "right" if good else "wrong"
        case NotTaken(stands_in=StandIn(by=by, where=where)):
            return f"elsewhere: {by}, {where}"
    return words


def before_leads(taken: Taken) -> Taken:
    """Return a reading with the leads still in it, as the meter showed it."""
    if not isinstance(taken, Figure):
        return taken
    return taken.model_copy(update={"value": as_shown(taken), "leads": None})


def instrument_words(instrument: Instrument) -> str:
    """Return how an instrument is called in a sheet."""
    return f"{instrument.id} {instrument.serial}".strip()


def sheet_moment(moment: datetime) -> str:
    """Return a moment to the minute, as the clock on the wall showed it here."""
    return f"{moment.astimezone():%Y-%m-%d %H:%M}"


def _row(record: Record, slot: Slot, expected: Expected, own: Judged | None) -> Cells:
    attempts, test = record.taken(slot), measured_by(slot)
    result = expected.meter.get(slot)
    limit = own.limit if own else None
    earlier = (f"{in_full(each.taken, test)} ({sheet_moment(each.at)})" for each in attempts[:-1])
    row = {
        **dict.fromkeys(Column, ""),
        **names_of(record, slot),
        Column.EXPECTED: "right" if test.is_check else str(result or ""),
        Column.LIMIT: f"{limit} ({limit.note})" if limit and limit.note else str(limit or ""),
        Column.SO_FAR: ", then ".join(earlier),
    }
    if attempts:
        row |= filled(record, attempts[-1])
    elif test.unit is Unit.MEGOHM:
        usual = insulation_test_voltage(Volt(record.origin.u0)).value
        row[Column.TEST_VOLTAGE] = _figure(usual)
    return row


def _leads(taken: Taken) -> str:
    return _figure(taken.leads) if isinstance(taken, Figure) else ""


def _figure(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def _is_measured(slot: Slot) -> bool:
    try:
        measured_by(slot)
    except KeyError:
        return False
    return True
