"""The readings out as a sheet for any spreadsheet, and in again."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tui.commands.lines import fitted, wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say, send, write_text
from tui.commands.stages import STAGES, stage_of
from tui.commands.trouble import Trouble

if TYPE_CHECKING:
    from records.store.table_text import Table

_DASH = Path("-")


@click.command("readings")
@click.argument("file", type=RECORD)
@click.option("-o", "--out", type=RECORD, help="Write the sheet there; - for the screen.")
@click.option("--from", "source", type=RECORD, help="Read a filled-in sheet; - for what is piped.")
@click.option("--stage", type=click.Choice(STAGES), help="Write only the rows of one stage.")
@click.option("--by", default="", help="Who took the readings, where a row doesn't say.")
@click.option(
    "--dates",
    type=click.Choice(["day-first", "month-first"]),
    help="How “taken at” is written, where it can be read both ways.",
)
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
def readings(
    file: Path,
    out: Path | None,
    source: Path | None,
    stage: str | None,
    by: str,
    dates: str | None,
    force: bool,
) -> None:
    """Write all readings as a CSV sheet, or read one back.

    The sheet has a row for each reading that the job needs, with what to expect and the limit.
    Fill in reading and “taken at” (20/3/26 14:30) in any spreadsheet, save it as CSV, and read
    it back with --from. A reading may also be “can't: reason” or “not needed: reason”. It is what
    the meter shows: “leads Ω” is taken off it, or, if that is empty, the leads of an instrument
    that doesn't null them. Without “by” and “instrument” the only person and the only instrument of
    the job that can have taken it are put down.

    It is taken whole or not at all: each row that won't do is named with its line. What is on
    record is never changed: a second reading needs yes under “re-test”, and its time.
    """
    if (out is None) == (source is None):
        raise click.UsageError("Say either -o OUT, to write a sheet, or --from IN, to read one.")
    if out is not None:
        _write(file, out, stage, force)
    elif source is not None:
        if stage is not None:
            raise click.UsageError("--stage is for writing; leave rows out instead, or empty.")
        _read(file, source, by, dates)


def _write(file: Path, out: Path, stage: str | None, force: bool) -> None:
    from records.expected.plan import expected
    from records.judgement.review import review
    from records.store.record_in import record_in
    from records.store.sheet import sheet
    from records.store.showing import file_name

    record = record_in(file).record
    due = expected(record)
    text = sheet(record, due, review(record, due), stage_of(stage) if stage else None)
    if out == _DASH:
        send(text)  # bytes: the mark and the line ends are part of it
        return
    write_text(out, text, force=force)
    say(fitted(f"The sheet is in {file_name(out)}: {text.count(chr(10)) - 1} rows.", sys.stdout))
    if not record.circuits:
        said = "No circuits are entered yet: they decide which readings are needed."
        say(fitted(said, sys.stdout))


def _read(file: Path, source: Path, by: str, dates: str | None) -> None:
    from records.habits import DayOrder
    from records.store.file import RecordFile
    from records.taking.sheet_taken import take_sheet

    table = _table(source)
    with RecordFile.open(file) as opened:
        lines = take_sheet(opened, table, by, DayOrder(dates) if dates else None)
        for line in filter(None, (opened.remark, *lines)):
            say("\n".join(wrapped(line)))


def _table(source: Path) -> Table:
    from records.disk import read_ordinary
    from records.errors import BadRecord
    from records.store.heading import check_is_file
    from records.store.showing import file_name
    from records.store.table_text import LARGEST, from_bytes

    if source == _DASH:
        return from_bytes(sys.stdin.buffer.read(LARGEST + 1))
    check_is_file(source)
    name = file_name(source)
    try:
        return from_bytes(read_ordinary(source, LARGEST))
    except BadRecord as error:
        raise BadRecord(f"{name}: {error}") from None
    except OSError as error:
        raise Trouble(f"{name} can't be read: {error.strerror}.") from None
