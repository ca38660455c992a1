"""A filled-in sheet of readings becomes readings: all of it, or nothing with every reason."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from difflib import get_close_matches

from records.errors import BadRecord, FarboardError
from records.habits import DayOrder
from records.judgement.review_types import key_of
from records.judgement.wording import listed
from records.model.certifier import BESIDE, list_for
from records.model.reading import Reading, Slot
from records.model.record import MOST_READINGS, Record
from records.older_words import current_key
from records.store.sheet import SAYS_WHICH, TO_FILL, Cells, Column, names_of, slots_brought
from records.store.showing import shown
from records.store.table_text import Table
from records.taking.sheet_row import Written, has_news, new_reading
from records.taking.sheet_time import TimeCell, order_of
from records.taking.trial import with_reading
from records.taking.unnamed_rows import Row
from records.taking.unnamed_rows import remarks as unnamed

_BY_NAME = {each.casefold(): each for each in Column}
_NEEDED = (*SAYS_WHICH, Column.READING, Column.KEY)


class BadRows(FarboardError):
    """Rows that can't be taken; `faults` names each with its line and the reason."""

    def __init__(self, faults: tuple[str, ...]) -> None:
        self.faults = faults
        count = "One row" if len(faults) == 1 else f"{len(faults):,} rows"
        super().__init__("\n".join((f"{count} can't be taken. Nothing was taken.", *faults)))


@dataclass(frozen=True, slots=True)
class SheetIn:
    """What a sheet brings."""

    readings: tuple[Reading, ...]
    """New ones, ready for the record."""
    known: int
    """Rows whose reading was on record already, just so."""
    empty: int
    """Rows without a reading."""
    remarks: tuple[str, ...]
    """What the person should know about the columns, and what was put down where a row says not."""


def from_sheet(
    record: Record,
    table: Table,
    now: datetime,
    by: str | None = None,
    order: DayOrder | None = None,
) -> SheetIn:
    """Return the readings that a filled-in sheet brings.

    Args:
        record: The job that the sheet was written from.
        table: The sheet.
        now: The present moment with its time zone: when the readings are entered.
        by: Id of who took the readings whose row doesn't say.
        order: How its dates are written; None: as the whole column can be read.
    Raises:
        BadRecord: If the columns won't do.
        TwoOrders: If the dates can be read in both orders.
        BadRows: If a row won't do; each is named.
    """
    columns, remarks = _columns(table)
    slots = {key_of(slot): slot for slot in slots_brought(record)}
    if order is None:
        order = order_of(_times(record, table, columns, slots), now)
        if order is DayOrder.MONTH_FIRST:
            remarks.append("The dates under “taken at” are read with the month first.")
    written = Written(now, order)
    grown, seen = record, dict[Slot, int]()
    faults: list[str] = []
    found: list[Row] = []
    known = empty = 0
    for row in table.rows:
        cells: Cells = {
            column: row.cells[at] if at < len(row.cells) else "" for column, at in columns.items()
        }
        try:
            _check_width(row.cells, len(table.headings))
            slot = _slot(record, slots, cells, seen, row.line)
            if not has_news(record, slot, cells, written):
                known += bool(record.taken(slot))
                empty += not record.taken(slot)
                continue
            made = new_reading(grown, slot, cells, written, by)
        except FarboardError as error:
            faults.append(f"Line {row.line}{_place(cells)}: {error}")
            continue
        found.append(Row(cells, made))
        grown = with_reading(grown, made)
    if faults:
        raise BadRows(tuple(faults))
    remarks += unnamed(record, found, by)
    beside = sum(list_for(record, each.made) == BESIDE for each in found)
    if beside:
        remarks.append(
            f"{beside} of the certifier’s own stand beside the installer’s, which still count."
        )
    if len(grown.readings) > MOST_READINGS:
        raise BadRecord(f"A record has at most {MOST_READINGS:,} readings. Nothing was taken.")
    return SheetIn(tuple(each.made for each in found), known, empty, tuple(remarks))


def _times(
    record: Record, table: Table, columns: dict[Column, int], slots: dict[str, Slot]
) -> list[TimeCell]:
    """Return the cells under “taken at” that are not empty."""
    found = []
    for row in table.rows:
        cells = {column: row.cells[at] for column, at in columns.items() if at < len(row.cells)}
        text = cells.get(Column.TAKEN_AT, "")
        if text.strip():
            slot = slots.get(current_key(cells.get(Column.KEY, "")))
            before = record.taken(slot) if slot is not None else ()
            found.append(TimeCell(row.line, text, before[-1].at if before else None))
    return found


def _columns(table: Table) -> tuple[dict[Column, int], list[str]]:
    found: dict[Column, int] = {}
    for at, heading in enumerate(table.headings):
        name = " ".join(heading.split()).casefold()
        if not name and not any(at < len(row.cells) and row.cells[at] for row in table.rows):
            continue
        if name not in _BY_NAME:
            close = get_close_matches(name, list(Column), n=1)
            meant = f" Did you mean “{close[0]}”?" if close else ""
            raise BadRecord(
                f"Column {at + 1} is headed “{shown(heading)}”, which no sheet of readings "
                f"has.{meant} Nothing was taken."
            )
        column = _BY_NAME[name]
        if column in found:
            raise BadRecord(f"Two columns are headed “{column}”. Nothing was taken.")
        found[column] = at
    lacking = [f"“{each}”" for each in _NEEDED if each not in found]
    if lacking:
        raise BadRecord(
            f"The sheet has no column {listed(lacking)}. Write a fresh one with "
            "“farboard readings FILE -o OUT.csv” and fill that in. Nothing was taken."
        )
    return found, list(_remarks(found))


def _remarks(found: dict[Column, int]) -> Iterator[str]:
    # Without that of the leads they are taken off as at the bench.
    missing = [f"“{each}”" for each in TO_FILL if each not in (*found, Column.LEADS)]
    if missing:
        yield f"There is no column {listed(missing)}: nothing of that kind was taken."
    if list(found) != [each for each in Column if each in found]:
        yield "The columns are in another order than they were written; they go by their names."


def _which(column: Column, text: str) -> str:
    """Return what a cell says of which reading it is; a test goes by its symbol, not its title.

    So a sheet that was printed before a title was put better is still taken.
    """
    words = " ".join(text.split())
    return words.split(": ")[0] if column is Column.WHAT else words


def _check_width(cells: tuple[str, ...], width: int) -> None:
    if any(cells[width:]):
        raise BadRecord("the row has more cells than there are headings.")


def _slot(
    record: Record, slots: dict[str, Slot], cells: Cells, seen: dict[Slot, int], line: int
) -> Slot:
    key = cells[Column.KEY]
    slot = slots.get(current_key(key))
    if not key:
        raise BadRecord("the column “key” is empty, so nobody knows which reading this is.")
    if slot is None:
        raise BadRecord(f"this job has no reading “{shown(key)}”.")
    ours = names_of(record, slot)
    for column in SAYS_WHICH:
        if _which(column, cells[column]) != _which(column, ours[column]):
            lost = " Save the sheet as “CSV UTF-8”." if "?" in cells[column] else ""
            raise BadRecord(
                f"“{column}” says “{shown(cells[column])}”, but the key stands for "
                f"“{ours[column]}”. Were the columns sorted apart, or the design changed? Write a "
                f"fresh sheet.{lost}"
            )
    if slot in seen:
        raise BadRecord(f"the same reading is on line {seen[slot]} already; one row each.")
    seen[slot] = line
    return slot


def _place(cells: Cells) -> str:
    words = " · ".join(
        part for part in (cells[Column.WHERE], cells[Column.WHAT].partition(":")[0]) if part
    )
    return f" ({shown(words)})" if words else ""
