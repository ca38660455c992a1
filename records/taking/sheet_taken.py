"""A filled-in sheet put on record, whole or not at all, and what is said of it then."""

from __future__ import annotations

from records.expected.plan import expected
from records.habits import DayOrder
from records.interlock.comes_off import EARTHS, PUT_BACK
from records.judgement.review import review
from records.model.certifier import list_for
from records.model.reading import Figure
from records.model.record import Record
from records.store.edits import append
from records.store.file import RecordFile
from records.store.table_text import Table
from records.taking.desk import present
from records.taking.finding_text import slot_name
from records.taking.person_named import person_named
from records.taking.sheet_import import SheetIn, from_sheet


def take_sheet(
    file: RecordFile, table: Table, by: str = "", order: DayOrder | None = None
) -> list[str]:
    """Put the readings of a sheet on record.

    What the interlock would have refused is kept, and is a finding: it was read already.

    Args:
        file: The record file.
        table: The sheet.
        by: Who took the readings, where a row doesn't say; a name or an id.
        order: How its days are written; None: as the person is used to.
    Returns:
        What happened, and what of it needs looking at, a line each.
    Raises:
        FarboardError: If a row won't do, or it could not be put on disk; then nothing is changed.
    """
    person = person_named(file.record, by)
    found = from_sheet(file.record, table, present(), person, order)
    ops = [op for each in found.readings for op in append(f"/{list_for(file.record, each)}", each)]
    if ops:
        file.change(ops, by=by or "from a sheet")
    return _told(file.record, found)


def _told(record: Record, found: SheetIn) -> list[str]:
    """Return what happened, and what of it needs looking at."""
    count = len(found.readings)
    taken = f"{count} readings are" if count != 1 else "1 reading is"
    lines = [
        f"{taken} on record from the sheet; {found.known} were there already, "
        f"{found.empty} rows have no reading.",
        *found.remarks,
    ]
    less = sum(
        isinstance(each.taken, Figure) and each.taken.leads is not None for each in found.readings
    )
    if less:
        lines.append(
            f"The leads were taken off {less} of them, as the column “leads Ω” or the instrument "
            "says. The column “reading” has what the meter showed."
        )
    new = {each.slot for each in found.readings}
    for line in review(record, expected(record)).findings if new else ():
        # What the bench would have refused is kept, and said: it stands about several readings.
        about = {line.slot} if line.slot is not None else {*line.about}
        if about & new or line.slot in (*EARTHS, PUT_BACK):
            name = slot_name(record, line.slot) if line.slot is not None else line.title
            lines.append(f"{line.verdict.mark} {line.verdict.value}: {name}. {line.why}")
    return lines
