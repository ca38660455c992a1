"""A filled-in sheet, row by row: what is news, what is refused, and what is known already."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

from records.errors import BadRecord
from records.expected.plan import expected
from records.judgement.review import review
from records.model.reading import Figure, Reading
from records.model.record import Record
from records.store.sheet import Column, sheet
from records.store.table_text import Row, Table, from_bytes
from records.taking.sheet_import import BadRows, SheetIn, from_sheet
from tests.taking.job import AT, small_job

NOW = AT + timedelta(days=3)
R1, RN = "circuit/C1/-/dead/r1", "circuit/C1/-/dead/rn"
IR = "circuit/C2/-/dead/ir-le"
READ = {Column.READING: "0.31", Column.TAKEN_AT: "2026-11-16 09:30"}


@cache
def blank(record: Record) -> Table:
    due = expected(record)
    return from_bytes(sheet(record, due, review(record, due)).encode())


def filled(record: Record, **rows: dict[Column, str]) -> Table:
    """Return the sheet of a record with cells of some rows put in, by key."""
    table = blank(record)
    at = {name: number for number, name in enumerate(table.headings)}
    found = []
    for row in table.rows:
        cells = list(row.cells)
        for column, text in rows.get(cells[at[Column.KEY]], {}).items():
            cells[at[column]] = text
        found.append(Row(row.line, tuple(cells)))
    return replace(table, rows=tuple(found))


def read(record: Record, table: Table) -> SheetIn:
    return from_sheet(record, table, NOW)


def with_sheet(record: Record, **rows: dict[Column, str]) -> Record:
    """Return the record with what a sheet brings."""
    new = read(record, filled(record, **rows)).readings
    return record.model_copy(update={"readings": (*record.readings, *new)})


def refused(record: Record, **rows: dict[Column, str]) -> str:
    with pytest.raises(BadRows) as error:
        read(record, filled(record, **rows))
    return "\n".join(error.value.faults)


def made(record: Record, **cells: str) -> Reading:
    columns = {Column[name]: text for name, text in cells.items()}
    (found,) = read(record, filled(record, **{R1: READ | columns})).readings
    return found


def test_a_row_becomes_one_reading_from_notes() -> None:
    found = made(small_job())

    assert (found.taken, found.at) == (
        Figure(value=0.31, typed="0.31"),
        AT.replace(hour=9, minute=30),
    )
    assert (found.from_notes, found.by, found.instrument, found.note) == (NOW, "A1", "M1", "")


def test_without_its_time_it_counts_as_entered_now_and_says_so_once() -> None:
    note = "time of the reading not noted"

    assert made(small_job(), TAKEN_AT="").at == NOW
    assert made(small_job(), TAKEN_AT="").note == note
    assert made(small_job(), TAKEN_AT="", NOTE="damp").note == f"damp; {note}"
    assert made(small_job(), TAKEN_AT="", NOTE=f"x; {note}").note == f"x; {note}"
    assert made(small_job(), NOTE="damp").note == "damp"


ON_RECORD = with_sheet(small_job(), **{R1: READ})


@pytest.mark.parametrize(
    "cells",
    [
        {},
        {Column.READING: "0,31"},
        {Column.READING: "0.310"},
        {Column.TAKEN_AT: "16/11/2026 09:30"},
        {Column.TAKEN_AT: ""},
        {Column.BY: "a1"},
        {Column.BY: "wren oakes"},
        {Column.BY: ""},
        {Column.INSTRUMENT: "0412"},
        {Column.INSTRUMENT: "m1"},
        {Column.LEADS: "0"},
        {Column.LEADS: "0,00"},
    ],
)
def test_what_is_on_record_comes_back_in_any_way_of_writing_it(cells: dict[Column, str]) -> None:
    found = read(ON_RECORD, filled(ON_RECORD, **{R1: cells}))

    assert (found.readings, found.known) == ((), 1)


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ({Column.READING: "0.32"}, "“0.32” is not what is on record: “0.31 Ω”"),
        ({Column.READING: ""}, "a reading is never deleted"),
        ({Column.TAKEN_AT: "2026-11-16 09:31"}, "“taken at” says"),
        ({Column.TAKEN_AT: "2026-11-16 09:29"}, "“taken at” says"),
        ({Column.LEADS: "0.05"}, "is on record with this reading"),
        ({Column.METHOD: "no leads"}, "“method” says “no leads”"),
        ({Column.NOTE: "damp"}, "“note” says “damp”"),
        ({Column.TEMPERATURE: "9"}, "“temperature °C” says “9”"),
        ({Column.BY: "Somebody"}, "“Somebody”"),
        ({Column.INSTRUMENT: "9999"}, "no such instrument"),
    ],
)
def test_what_is_on_record_is_never_changed_by_a_sheet(cells: dict[Column, str], says: str) -> None:
    assert says in refused(ON_RECORD, **{R1: cells})


AGAIN = {Column.READING: "0.35", Column.RE_TEST: "yes"}


@pytest.mark.parametrize(
    ("when", "says"),
    [
        ("", "needs its time"),
        ("2026-11-16 09:29", "after the reading before it"),
        ("2026-11-16 09:30", "after the reading before it"),
        ("2026-11-16 09:31", ""),
    ],
)
def test_a_re_test_comes_after_the_reading_before_it(when: str, says: str) -> None:
    cells = {R1: AGAIN | {Column.TAKEN_AT: when}}
    if says:
        assert says in refused(ON_RECORD, **cells)
    else:
        (found,) = read(ON_RECORD, filled(ON_RECORD, **cells)).readings
        assert found.taken == Figure(value=0.35, typed="0.35")


def test_a_re_test_needs_a_first_reading_and_a_plain_yes() -> None:
    assert "nothing was taken here before" in refused(small_job(), **{R1: READ | AGAIN})
    assert "put yes there" in refused(ON_RECORD, **{R1: AGAIN | {Column.RE_TEST: "perhaps"}})


def test_the_same_re_test_is_not_taken_twice() -> None:
    cells = AGAIN | {Column.TAKEN_AT: "2026-11-16 09:31"}
    twice = with_sheet(ON_RECORD, **{R1: cells})
    assert len(twice.readings) == len(ON_RECORD.readings) + 1

    assert read(twice, filled(twice, **{R1: cells})).readings == ()
    later = cells | {Column.TAKEN_AT: "2026-11-16 09:40"}
    assert len(read(twice, filled(twice, **{R1: later})).readings) == 1


@pytest.mark.parametrize(
    ("column", "text"),
    [
        (Column.TAKEN_AT, "2026-11-16 09:30"),
        (Column.LEADS, "0.05"),
        (Column.METHOD, "no leads"),
        (Column.NOTE, "locked"),
        (Column.RE_TEST, "no"),
    ],
)
def test_something_said_of_a_reading_that_is_not_there_is_asked_about(
    column: Column, text: str
) -> None:
    words = refused(small_job(), **{R1: {column: text}})

    assert f"“{column}” says “{text}”, but there is no reading" in words
    # Who and with what are often filled down a whole column: by themselves they say nothing.
    assert read(small_job(), filled(small_job(), **{R1: {Column.BY: "A1"}})).readings == ()


@pytest.mark.parametrize(
    ("key", "cells", "says"),
    [
        (R1, {Column.TEST_VOLTAGE: "500"}, "only insulation tests have a test voltage"),
        (IR, {Column.LEADS: "0.05"}, "only low-resistance readings have leads"),
        (R1, {Column.READING: ">99", Column.LEADS: "0.05"}, "nothing can be taken off"),
        (R1, {Column.LEADS: "-0.05"}, "leads have no resistance below nothing"),
        (R1, {Column.TEMPERATURE: "warm"}, "“temperature °C”"),
    ],
)
def test_a_cell_that_does_not_go_with_its_row_is_named(
    key: str, cells: dict[Column, str], says: str
) -> None:
    assert says in refused(small_job(), **{key: READ | cells})


def test_leads_are_taken_off_once_and_kept_beside_what_the_meter_showed() -> None:
    assert made(small_job(), LEADS="0.05").taken == Figure(value=0.26, typed="0.31", leads=0.05)
    assert made(small_job(), LEADS="0").taken == Figure(value=0.31, typed="0.31")


def columns(table: Table, *names: str) -> Table:
    """Return a table with only some of its columns, in that order."""
    at = [table.headings.index(each) for each in names]
    rows = tuple(Row(row.line, tuple(row.cells[each] for each in at)) for row in table.rows)
    return Table(names, rows)


@pytest.mark.parametrize("column", [Column.KEY, Column.READING, Column.WHERE, Column.WHAT])
def test_a_sheet_without_what_says_which_reading_it_is_is_refused(column: Column) -> None:
    table = blank(small_job())
    without = columns(table, *(each for each in table.headings if each != column))

    with pytest.raises(BadRecord, match=f"no column “{column}”"):
        read(small_job(), without)
    more = columns(table, *(each for each in table.headings if each != Column.NOTE))
    assert read(small_job(), more).readings == ()


def test_a_row_that_ends_early_has_empty_cells_there() -> None:
    """Spreadsheets leave off what is empty at the end of a row."""
    table = filled(small_job(), **{R1: READ})
    last = table.headings[-1]
    order = [each for each in table.headings if each not in (Column.TAKEN_AT, last)]
    moved = columns(table, *order, Column.TAKEN_AT, last)
    short = tuple(
        Row(row.line, row.cells if any(row.cells[-2:]) else row.cells[:-2]) for row in moved.rows
    )

    assert len(read(small_job(), replace(moved, rows=short)).readings) == 1


def test_a_column_without_a_heading_is_left_out_only_if_it_is_empty() -> None:
    table = filled(small_job(), **{R1: READ})
    wider = replace(
        table,
        headings=(*table.headings, ""),
        rows=tuple(Row(row.line, (*row.cells, "")) for row in table.rows),
    )
    assert len(read(small_job(), wider).readings) == 1
    first, *rest = wider.rows
    noted = replace(wider, rows=(Row(first.line, (*first.cells[:-1], "mind the dog")), *rest))
    with pytest.raises(BadRecord, match="no sheet of readings"):
        read(small_job(), noted)


def test_what_a_row_says_of_its_place_has_to_go_with_its_key() -> None:
    """Columns that were sorted apart would put a reading on another circuit."""
    for column, text in ((Column.WHERE, "C9 Shed"), (Column.STAGE, "live tests")):
        assert f"“{column}” says “{text}”" in refused(small_job(), **{R1: {column: text}})
    symbol = {Column.WHAT: "r1: as it was called in an older sheet"}
    assert len(read(small_job(), filled(small_job(), **{R1: READ | symbol})).readings) == 1
    assert "“what” says" in refused(small_job(), **{R1: {Column.WHAT: "rn: line"}})


def test_one_reading_stands_on_one_row() -> None:
    table = filled(small_job(), **{R1: READ})
    row = next(each for each in table.rows if R1 in each.cells)
    twice = replace(table, rows=(*table.rows, Row(999, row.cells)))

    with pytest.raises(BadRows) as error:
        read(small_job(), twice)
    assert f"the same reading is on line {row.line} already" in error.value.faults[0]


def test_of_many_rows_nothing_is_taken_if_one_will_not_do() -> None:
    faults = refused(small_job(), **{R1: READ, RN: READ | {Column.READING: "abc"}})

    assert faults.count("Line ") == 1
    assert "rn" in faults


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0001-01-01T00:00+14:00", "Write day and time"),  # before any calendar
        ("0001-01-01 00:00", "Write day and time"),
        ("9999-12-31 23:59", "still to come"),
        ("14:30", "without a day"),
        ("2026-11-19 09:02", "still to come"),
    ],
)
def test_a_time_that_can_not_be_is_a_row_to_correct(text: str, says: str) -> None:
    assert says in refused(small_job(), **{R1: READ | {Column.TAKEN_AT: text}})


def test_of_two_meters_with_one_serial_the_id_is_asked_for() -> None:
    record = small_job()
    meter = record.job.instruments[0]
    two = (meter, meter.model_copy(update={"id": "M2"}))
    record = record.model_copy(update={"job": record.job.model_copy(update={"instruments": two})})

    assert "more than one instrument: use the id" in refused(
        record, **{R1: READ | {Column.INSTRUMENT: "0412"}}
    )
    (found,) = read(record, filled(record, **{R1: READ | {Column.INSTRUMENT: "m2"}})).readings
    assert found.instrument == "M2"
