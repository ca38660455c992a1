"""Writes the schedule for the certifying electrician, and the template that it is made with."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

from tui.commands.opening import RECORD
from tui.commands.output import check_free, say
from tui.commands.trouble import Trouble

_YEARS = range(1980, 2200)


@click.command()
@click.argument("file", type=RECORD)
@click.option("-o", "--out", type=RECORD, help="The document; without it: FILE with .docx.")
@click.option("--template", type=RECORD, help="Your own template; see farboard template --help.")
@click.option(
    "--date",
    help="When the schedule is written, instead of now: 21 Mar 2026 17:30, or with its zone "
    "2026-03-21T17:30+00:00. The same record, template and date give the same bytes.",
)
@click.option(
    "--workings",
    type=click.Choice(["all", "findings", "none"]),
    default="findings",
    show_default=True,
    help="Of which figures the workings are printed.",
)
@click.option("--why-cable", is_flag=True, help="Say why the cables of the feed were chosen.")
@click.option("--pdf", is_flag=True, help="Write a PDF beside it, by LibreOffice if installed.")
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
def schedule(
    file: Path,
    out: Path | None,
    template: Path | None,
    date: str | None,
    workings: str,
    why_cable: bool,
    pdf: bool,
    force: bool,
) -> None:
    """Write the schedule of a record as a .docx.

    It is a record for the certifying electrician and no certificate.
    """
    from records.document.schedule import write_schedule
    from records.document.workings import WorkingsOf
    from records.store.design_history import designs
    from records.store.file import RecordFile
    from records.store.photos import photo_troubles
    from records.store.showing import file_name

    out = file.with_suffix(".docx") if out is None else out
    made = datetime.now().astimezone() if date is None else _moment(date)
    with RecordFile.open(file, read_only=True) as opened:
        check_free(out, force=force)
        printed = out.with_suffix(".pdf")
        if pdf:
            from records.document.pdf import converter

            converter()
            check_free(printed, force=force)
        write_schedule(
            opened.record,
            out,
            fingerprint=opened.fingerprint,
            made=made,
            template=template,
            then=designs(opened.history()),
            workings=WorkingsOf(workings),
            why_cable=why_cable,
        )
        for trouble in photo_troubles(opened.record, file.parent):
            say(trouble, err=True)
        say(f"The schedule is in {file_name(out)}")
        if pdf:
            from records.document.pdf import write_pdf

            write_pdf(out, printed)
            say(f"As PDF: {file_name(printed)}")
        say(f"Fingerprint of the record: {opened.fingerprint}")


def _moment(text: str) -> datetime:
    """Return the moment that somebody typed; without a zone, in that of this computer.

    Raises:
        Trouble: If it is none, or in no year of our time.
    """
    from records.days import read_stamp
    from records.errors import BadQuantity

    try:
        found = read_stamp(text, datetime.now().astimezone())
    except BadQuantity:
        raise _no_moment(text) from None
    if found.year not in _YEARS:
        raise _no_moment(text)
    return found


def _no_moment(text: str) -> Trouble:
    from records.store.showing import shown

    return Trouble(
        f"“{shown(text)}” is no date for a schedule. Type it like 21 Mar 2026 17:30, or with its "
        "zone like 2026-03-21T17:30+00:00."
    )
