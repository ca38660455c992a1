"""One row of a filled-in sheet: is it news, and which reading is it."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime

from pydantic import ValidationError

from records.errors import BadQuantity, BadRecord, BadText
from records.habits import DayOrder
from records.judgement.lead_resistance import to_take_off
from records.judgement.wording import Taken, said
from records.model.certifier import new_reading_id
from records.model.measurements import Measurement
from records.model.reading import Figure, Reading, Slot
from records.model.record import Record
from records.model.slots import measured_by
from records.store.sheet import (
    TO_FILL,
    Cells,
    Column,
    before_leads,
    filled,
    instrument_words,
    sheet_moment,
)
from records.store.showing import shown
from records.taking.exceptions import tested_elsewhere
from records.taking.leads import counted
from records.taking.person_named import person_named
from records.taking.sheet_time import moment
from records.taking.stage_settings import is_insulation
from records.taking.typed_reading import could_not, not_needed, understand
from records.taking.unnamed_rows import meter_of, person_of
from records.terms import Sign
from records.text import checked_text
from records.typed import read_typed
from records.units import Unit

NO_TIME = "time of the reading not noted"
"""Stands in the note of a reading that came without its time."""

_REASONS = (
    (re.compile(r"(?:can.?t(?: be taken)?|could not be taken)\s*:\s*", re.IGNORECASE), could_not),
    (re.compile(r"not needed\s*:\s*", re.IGNORECASE), not_needed),
)
_ELSEWHERE = re.compile(r"elsewhere\s*:\s*", re.IGNORECASE)
_COLUMNS = {"temperature": Column.TEMPERATURE, "test_voltage": Column.TEST_VOLTAGE}
_YES, _NO = ("yes", "y", "x", "1", "true"), ("", "no", "n", "0", "false")


@dataclass(frozen=True, slots=True)
class Written:
    """What a sheet's times are read by."""

    now: datetime
    """The present moment with its time zone: when the readings are entered."""
    order: DayOrder | None = None


def take_words(text: str, test: Measurement) -> Taken:
    """Return what the words for one reading mean: a figure, an answer, or why there is none.

    Raises:
        BadQuantity: If it is none of these.
        BadText: If the reason won't do.
    """
    for start, make in _REASONS:
        match = start.match(text.strip())
        if match:
            return make(text.strip()[match.end() :])
    return understand(text, test)


def entered(record: Record, slot: Slot, text: str) -> Taken:
    """Return what a cell says of one reading of a job; `elsewhere: P3, where` names a person of it.

    Raises:
        BadQuantity: If it is no reading.
        BadText: If the reason won't do, or nothing elsewhere can stand in for it.
    """
    match = _ELSEWHERE.match(text.strip())
    if match:
        return tested_elsewhere(record, slot, text.strip()[match.end() :])
    return take_words(text, measured_by(slot))


def has_news(record: Record, slot: Slot, cells: Cells, written: Written) -> bool:
    """Return whether a row brings something that isn't on record.

    Args:
        record: The job, with the readings of earlier rows in it.
        slot: Where it belongs.
        cells: The row.
        written: When the sheet is read, and how its dates are written.
    Raises:
        FarboardError: If it would change or remove what is on record, or says something about a
            reading that it doesn't have.
    """
    before = record.taken(slot)
    text, again = cells[Column.READING], _again(cells)
    if not text:
        _check_empty(cells, taken=bool(before))
        return False
    if not before:
        if again:
            raise BadRecord("“re-test” is marked, but nothing was taken here before.")
        return True
    last, test = before[-1], measured_by(slot)
    taken = entered(record, slot, text)
    on_record = said(before_leads(last.taken), test)
    same = said(taken, test) == on_record
    if again:
        at = cells.get(Column.TAKEN_AT, "")
        beside = [each for each in record.certifier_readings if each.slot == slot]
        return not any(
            said(taken, test) == said(before_leads(each.taken), test)
            and at
            and _is_time_of(each, at, written)
            for each in (last, *beside)
        )
    if not same:
        raise BadRecord(
            f"“{shown(text)}” is not what is on record: “{on_record}”. What was "
            "read is never changed. If it was tested again, put yes under “re-test” and its time "
            "under “taken at”."
        )
    _check_untouched(record, last, cells, written)
    return False


def new_reading(
    record: Record, slot: Slot, cells: Cells, written: Written, by: str | None
) -> Reading:
    """Return the reading that a row brings; it counts as entered now, from notes.

    Args:
        record: The job, with the readings of earlier rows in it.
        slot: Where it belongs.
        cells: The row.
        written: The moment of entry, and how the sheet's dates are written.
        by: Id of who took it if the row doesn't say; None: as at the bench, the only one who
            could have. So it is with the instrument.
    Raises:
        FarboardError: If a cell won't do; the message names its column.
    """
    test = measured_by(slot)
    sole = meter_of(record, test)
    meter = _instrument(record, cells.get(Column.INSTRUMENT, "")) or (sole.id if sole else None)
    taken = counted(
        entered(record, slot, cells[Column.READING]), _to_take_off(record, cells, test, meter)
    )
    words = cells.get(Column.TAKEN_AT, "")
    at = moment(words, written.now, written.order) if words else written.now
    before = record.taken(slot)
    if before and not words:
        raise BadRecord(
            "a re-test needs its time under “taken at”: it has to come after the first."
        )
    if before and at <= before[-1].at:
        raise BadRecord(
            "“taken at” has to be the time of the re-test, after the reading before it, which was "
            f"taken {sheet_moment(before[-1].at)}."
        )
    person = _person(record, cells.get(Column.BY, "")) or by
    if person is None and (only := person_of(record)) is not None:
        person = only.id
    note = cells.get(Column.NOTE, "")
    if not words and NO_TIME not in note:
        note = f"{note}; {NO_TIME}" if note else NO_TIME
    try:
        return Reading(
            id=new_reading_id(record),
            slot=slot,
            taken=taken,
            at=at,
            from_notes=written.now,
            by=person,
            instrument=meter,
            test_voltage=_test_voltage(cells, test),
            temperature=_number(cells, Column.TEMPERATURE, Unit.CELSIUS),
            method=_text(cells, Column.METHOD),
            note=_text({Column.NOTE: note}, Column.NOTE),
        )
    except ValidationError as error:
        fault = error.errors(include_url=False)[0]
        column = _COLUMNS.get(str(fault["loc"][0]), Column.READING)
        why = fault["msg"].replace("Input should be", "it has to be")
        raise BadRecord(f"“{column}”: {shown(fault['input'])} is not possible; {why}.") from None


def _check_empty(cells: Cells, *, taken: bool) -> None:
    if taken:
        raise BadRecord(
            "the reading was emptied, but one is on record here: a reading is never deleted. "
            "Leave the row as it was written, or leave it out."
        )
    for column in (Column.TAKEN_AT, Column.LEADS, Column.METHOD, Column.NOTE, Column.RE_TEST):
        if cells.get(column, ""):
            raise BadRecord(
                f"“{column}” says “{shown(cells[column])}”, but there is no reading. If it could "
                "not be taken, write “can't: ” and the reason under “reading”."
            )


def _check_untouched(record: Record, last: Reading, cells: Cells, written: Written) -> None:
    ours = filled(record, last)
    for column in TO_FILL:
        given = cells.get(column, "")
        if column in (Column.READING, Column.RE_TEST) or given in ("", ours[column]):
            continue  # an empty cell says nothing: a sheet can be read twice without harm
        if column is Column.TAKEN_AT and _is_time_of(last, given, written):
            continue
        if column is Column.BY and _person(record, given) == last.by:
            continue
        if column is Column.INSTRUMENT and _instrument(record, given) == last.instrument:
            continue
        if column in (Column.TEST_VOLTAGE, Column.TEMPERATURE) and _same_figure(
            given, ours[column]
        ):
            continue
        if column is Column.LEADS and _same_figure(given, ours[column] or "0"):
            continue
        raise BadRecord(
            f"“{column}” says “{shown(given)}”, but “{ours[column]}” is on record with this "
            "reading, and what was entered is never changed. If it was tested again, put yes "
            "under “re-test”."
        )


def _again(cells: Cells) -> bool:
    word = cells.get(Column.RE_TEST, "").casefold()
    if word in _YES:
        return True
    if word in _NO:
        return False
    raise BadText(f"“re-test” says “{shown(word)}”: put yes there, or nothing.")


def _is_time_of(reading: Reading, text: str, written: Written) -> bool:
    with suppress(BadQuantity):
        return sheet_moment(reading.at) == sheet_moment(moment(text, written.now, written.order))
    return False


def _same_figure(given: str, ours: str) -> bool:
    try:
        return float(given.replace(",", ".")) == float(ours)
    except ValueError:
        return False


def _person(record: Record, text: str) -> str | None:
    try:
        return person_named(record, text)
    except BadText as error:
        raise BadText(f"“{Column.BY}”: {error}") from None


def _instrument(record: Record, text: str) -> str | None:
    meters = {
        each.id: (each.id, each.serial, instrument_words(each)) for each in record.job.instruments
    }
    return _one_of(meters, text, Column.INSTRUMENT, "instrument")


def _one_of(
    known: dict[str, tuple[str, str, str]], text: str, column: Column, kind: str
) -> str | None:
    if not text:
        return None
    word = text.casefold()
    found = [id for id, names in known.items() if word in [name.casefold() for name in names]]
    if len(found) == 1:
        return found[0]
    if found:
        raise BadText(
            f"“{column}” says “{shown(text)}”, which is more than one {kind}: use the id."
        )
    names = "; ".join(names[2] for names in known.values()) or "nobody and nothing yet"
    raise BadText(
        f"“{column}” says “{shown(text)}”, but this job has no such {kind}. It has: {names}."
    )


def _to_take_off(
    record: Record, cells: Cells, test: Measurement, meter: str | None
) -> float | None:
    """Return what is taken off for the leads [Ω]: as the row says, else as at the bench."""
    if not cells.get(Column.LEADS, ""):
        known = next((each for each in record.job.instruments if each.id == meter), None)
        return to_take_off(known, test)
    leads = _number(cells, Column.LEADS, Unit.OHM) or None
    if leads is None:
        return None
    if not test.leads:
        raise BadQuantity(f"“{Column.LEADS}”: only low-resistance readings have leads to take off.")
    taken = take_words(cells[Column.READING], test)
    if not isinstance(taken, Figure) or taken.sign is not Sign.EQUAL:
        raise BadQuantity(
            f"“{Column.LEADS}”: nothing can be taken off “{said(taken, test)}”; leave it empty."
        )
    if leads < 0:
        raise BadQuantity(f"“{Column.LEADS}”: leads have no resistance below nothing.")
    return leads


def _test_voltage(cells: Cells, test: Measurement) -> float | None:
    if cells.get(Column.TEST_VOLTAGE, "") and not is_insulation(test):
        raise BadQuantity(f"“{Column.TEST_VOLTAGE}”: only insulation tests have a test voltage.")
    return _number(cells, Column.TEST_VOLTAGE, Unit.VOLT)


def _number(cells: Cells, column: Column, unit: Unit) -> float | None:
    text = cells.get(column, "")
    if not text:
        return None
    try:
        return read_typed(text, unit).value
    except BadQuantity as error:
        raise BadQuantity(f"“{column}”: {error}") from None


def _text(cells: Cells, column: Column) -> str:
    try:
        return checked_text(cells.get(column, ""))
    except BadText as error:
        raise BadText(f"“{column}”: {error}") from None
