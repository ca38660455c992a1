"""The readings as a sheet: what stands in it, and that any spreadsheet can carry it unharmed."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from records.demo import demo_record
from records.errors import BadRecord
from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.wording import said
from records.model.record import Record
from records.model.slots import measured_by, slots
from records.store.sheet import Column, rows_of, sheet
from records.store.table_text import LARGEST, from_bytes, harmless, meant, to_text
from records.terms import Stage
from tests.taking.job import small_job, with_answer


def written(record: Record, stage: Stage | None = None) -> str:
    due = expected(record)
    return sheet(record, due, review(record, due), stage)


def test_there_is_a_row_for_each_reading_that_the_job_needs() -> None:
    record = small_job()
    due = expected(record)
    rows = list(rows_of(record, due, review(record, due)))

    assert len(rows) == len(slots(record)) == len({row[Column.KEY] for row in rows})
    ring = next(row for row in rows if row[Column.KEY] == "circuit/C1/-/dead/r1")
    assert ring[Column.WHERE] == "C1 Bench sockets"
    assert ring[Column.WHAT] == "r1: Ring final circuit: line end to end"
    assert ring[Column.STAGE] == "dead tests"
    assert ring[Column.UNIT] == "Ω"
    slot = next(s for s in due.meter if s.quantity == "r1" and s.stage is Stage.DEAD)
    assert ring[Column.EXPECTED] == str(due.meter[slot])
    assert not any(row[Column.READING] or row[Column.TAKEN_AT] for row in rows)


def test_the_limit_stands_in_the_row_as_the_review_gives_it() -> None:
    record = small_job()
    due = expected(record)
    reviewed = review(record, due)
    rows = {row[Column.KEY]: row for row in rows_of(record, due, reviewed)}

    limited = [line for line in reviewed.lines if line.slot and line.limit]
    assert len(limited) > 20
    for line in limited:
        assert rows[line.key][Column.LIMIT].startswith(str(line.limit))


def test_one_stage_can_be_written_alone() -> None:
    rows = list(csv.DictReader(io.StringIO(written(small_job(), Stage.LIVE)[1:])))
    assert {row["stage"] for row in rows} == {"live tests"}
    assert len(rows) == len(slots(small_job(), Stage.LIVE))


def test_what_was_read_stands_there_the_last_to_fill_in_the_earlier_ones_beside() -> None:
    record = demo_record()
    due = expected(record)
    rows = {row[Column.KEY]: row for row in rows_of(record, due, review(record, due))}
    row = rows["circuit/C1/-/before-covering/r2"]

    assert row[Column.READING] == "0.50"
    assert row[Column.SO_FAR].startswith("> 99.9 Ω (2026-03-05 ")
    assert row[Column.BY] == "P2 The fitter"
    assert row[Column.INSTRUMENT] == "M1 0417-22"
    assert row[Column.NOTE] == "After the repair"
    shown = " ".join(row[Column.SO_FAR] for row in rows.values())
    for reading in record.readings:
        last = record.taken(reading.slot)[-1]
        words = said(reading.taken, measured_by(reading.slot))
        assert reading is last or words in shown


def test_insulation_rows_carry_the_test_voltage_of_the_circuit() -> None:
    """500 V d.c. for circuits up to 500 V: BS 7671, Table 64 (from memory)."""
    record = small_job()
    due = expected(record)
    volts = {
        row[Column.UNIT]: row[Column.TEST_VOLTAGE]
        for row in rows_of(record, due, review(record, due))
    }
    assert volts.pop("MΩ") == "500"
    assert set(volts.values()) == {""}


def test_the_text_is_what_spreadsheets_take() -> None:
    """RFC 4180: CRLF after each row, quotes doubled; the mark before it is common practice."""
    text = written(small_job())

    assert text.startswith('\ufeff"where","what","stage"')
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n")


def test_a_hostile_name_is_text_in_a_spreadsheet_and_comes_back_as_it_was() -> None:
    record = small_job()
    hostile = "=HYPERLINK(1);-2"
    first = record.circuits[0].model_copy(update={"name": hostile})
    record = record.model_copy(update={"circuits": (first, *record.circuits[1:])})
    bond = with_answer(record, slots(record, Stage.LIVE)[1], True)
    text = written(bond)
    cells = [cell for row in csv.reader(io.StringIO(text[1:])) for cell in row]
    cells += [cell for row in csv.reader(io.StringIO(text[1:]), delimiter=";") for cell in row]

    assert not [cell for cell in cells if cell.strip(' "').startswith(("=", "+", "-", "@"))]
    table = from_bytes(text.encode())
    where = table.headings.index("where")
    assert any(row.cells[where] == f"C1 {hostile}" for row in table.rows)


@given(st.text("=+-@'\"; ＝ab,\t0", max_size=12))
def test_a_cell_is_harmless_and_comes_back_exactly(cell: str) -> None:
    safe = harmless(cell)

    assert not safe.startswith(("=", "+", "-", "@", "＝"))
    assert not any(
        part.lstrip(' "').startswith(("=", "+", "-", "@")) for part in safe.split(";")[1:]
    )
    assert meant(safe) == cell


@example([["\t'=", " =1+1"]])
@given(st.lists(st.lists(st.text("aΩ=-,;\"'\tx", max_size=6), min_size=2, max_size=2), max_size=4))
def test_a_table_comes_back_as_it_was_written(rows: list[list[str]]) -> None:
    table = from_bytes(to_text(["one", "two"], rows).encode())

    assert table.headings == ("one", "two")
    kept = [tuple(cell.strip() for cell in row) for row in rows]
    assert [row.cells for row in table.rows] == [row for row in kept if any(row)]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("end", ["\r\n", "\n"])
def test_what_spreadsheets_save_is_read(separator: str, coding: str, end: str) -> None:
    text = end.join((separator.join(("where", "reading")), separator.join(("Ω", '"0,35"')), "", ""))
    table = from_bytes(text.encode(coding))

    assert table.headings == ("where", "reading")
    assert [(row.line, row.cells) for row in table.rows] == [(2, ("Ω", "0,35"))]


def test_lines_are_counted_as_the_spreadsheet_counts_rows() -> None:
    table = from_bytes(b"sep=;\r\nwhere;reading\r\n;\r\na;1\r\n\r\nb;2\r\n")
    assert [row.line for row in table.rows] == [4, 6]


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"),
        (b"\r\n,,\r\n", "empty"),
        (b"a,b\n\xff,1", "Line 2 is not text in UTF-8"),
        (b'a,b\n"x', "Line 2 can't be read"),
        (b'a,b\n1,"2"3', "Line 2 can't be read"),
        (b"PK\x03\x04\x00", "save it as CSV"),
        (b"SQLite format 3\x00", "no text"),
        (b"x" * (LARGEST + 1), "too large"),
        (b"a\n" + b"1\n" * 20_002, "at most 20,000 rows"),
        (b"a" + b"," * 200, "empty|at most 20,000 rows and 100 columns"),
    ],
)
def test_what_is_no_sheet_is_refused_with_the_reason(data: bytes, says: str) -> None:
    with pytest.raises(BadRecord, match=says):
        from_bytes(data)
