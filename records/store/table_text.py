"""A table as text that any spreadsheet opens (RFC 4180), out and in; it knows no record.

A cell that a spreadsheet would take for a formula is written with an apostrophe before it, as
spreadsheets themselves mark text, and read back without. Source: OWASP, "CSV Injection" (from
memory); the apostrophe is common practice.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from records.errors import BadRecord

LARGEST = 8 * 1024 * 1024
"""Bytes of a table; a whole job with every slot filled stays far under this."""
MOST_ROWS = 20_000
_MOST_COLUMNS = 100

_EMPTY = "The sheet is empty: not even its headings are there."

_STARTS = "=+\\-@＝＋－＠"
_FORMULA = re.compile(f"'*[{_STARTS}]")
_MARKED = re.compile(f"'+[{_STARTS}]")
# Where a spreadsheet splits at semicolons whatever stands in quotes, a formula could begin there.
_INNER = re.compile(f"(;[\"\\s]*)('*[{_STARTS}])")
_INNER_MARKED = re.compile(f"(;[\"\\s]*)'('*[{_STARTS}])")


@dataclass(frozen=True, slots=True)
class Row:
    """One row under the headings."""

    line: int
    """The line of the text that it begins on, from 1: the row that a spreadsheet shows."""
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Headings and rows, cells stripped of blanks at both ends."""

    headings: tuple[str, ...]
    rows: tuple[Row, ...]


def to_text(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table as text: commas, everything in quotes, CRLF, a byte order mark before it.

    The mark tells spreadsheets that it is UTF-8; without it Ω comes out as two other letters.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    # Blanks at the ends go, as they do on reading: one before a sign would hide it from `harmless`.
    writer.writerow([harmless(each.strip()) for each in headings])
    writer.writerows([harmless(each.strip()) for each in row] for row in rows)
    return "\ufeff" + out.getvalue()


def from_bytes(data: bytes) -> Table:
    """Return the table in a file, whatever spreadsheet wrote it.

    Commas, semicolons or tabs; UTF-8 with or without a byte order mark, or UTF-16 with one.

    Raises:
        BadRecord: If it is no such table; the message says what is wrong and, where it is one
            line, which.
    """
    if len(data) > LARGEST:
        raise BadRecord(
            f"This is too large for a sheet of readings: {len(data):,} bytes, {LARGEST:,} is the "
            "most."
        )
    text = _decoded(data)
    if not text.strip():
        raise BadRecord(_EMPTY)
    first, _, rest = text.partition("\n")
    skipped = 0
    named = re.fullmatch(r'"?sep=([,;\t])"?\s*', first)  # a line that some spreadsheets put first
    if named:
        text, skipped = rest, 1
        first = text.partition("\n")[0]
    return _table(text, named.group(1) if named else _separator(first), skipped)


def harmless(cell: str) -> str:
    """Return a cell as no spreadsheet takes it for a formula; `meant` undoes it exactly."""
    cell = _INNER.sub(r"\1'\2", cell)
    return f"'{cell}" if _FORMULA.match(cell) else cell


def meant(cell: str) -> str:
    """Return what a cell was before `harmless`."""
    cell = cell[1:] if _MARKED.match(cell) else cell
    return _INNER_MARKED.sub(r"\1\2", cell)


def _decoded(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        coding = "utf-16"
    elif data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise BadRecord("This is a spreadsheet's own file: save it as CSV (UTF-8) first.")
    elif b"\0" in data:
        raise BadRecord("This is no text, so it is no sheet of readings.")
    else:
        coding = "utf-8-sig"
    try:
        return data.decode(coding)
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise BadRecord(
            f"Line {line} is not text in UTF-8: save the sheet as “CSV UTF-8”, so that Ω and ° "
            "survive."
        ) from None


def _separator(heading: str) -> str:
    return max(",;\t", key=heading.count)


def _table(text: str, separator: str, skipped: int) -> Table:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    found: list[Row] = []
    begins = 1
    try:
        for cells in reader:
            line, begins = begins + skipped, reader.line_num + 1
            if not any(cell.strip() for cell in cells):
                continue
            if len(found) > MOST_ROWS or len(cells) > _MOST_COLUMNS:
                raise BadRecord(
                    f"Line {line}: a sheet has at most {MOST_ROWS:,} rows and {_MOST_COLUMNS} "
                    "columns."
                )
            found.append(Row(line, tuple(meant(cell.strip()) for cell in cells)))
    except csv.Error as error:
        raise BadRecord(f"Line {begins + skipped} can't be read as CSV: {error}.") from None
    if not found:
        raise BadRecord(_EMPTY)
    headings, *rows = found
    return Table(headings.cells, tuple(rows))
