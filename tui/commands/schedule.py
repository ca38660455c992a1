"""Writes the schedule for the certifying electrician."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

from tui.commands.opening import RECORD
from tui.commands.output import check_free, say


@click.command()
@click.argument("file", type=RECORD)
@click.option("-o", "--out", type=RECORD, help="The document; without it: FILE with .docx.")
@click.option("--template", type=RECORD, help="Your own template, a .docx with fields to fill.")
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
def schedule(file: Path, out: Path | None, template: Path | None, force: bool) -> None:
    """Write the schedule of a record as a .docx.

    It is a record for the certifying electrician and no certificate.
    """
    from records.document.schedule import write_schedule
    from records.store.design_history import designs
    from records.store.file import RecordFile
    from records.store.showing import file_name

    out = file.with_suffix(".docx") if out is None else out
    with RecordFile.open(file, read_only=True) as opened:
        check_free(out, force=force)
        write_schedule(
            opened.record,
            out,
            fingerprint=opened.fingerprint,
            made=datetime.now().astimezone(),
            template=template,
            then=designs(opened.history()),
        )
        say(f"The schedule is in {file_name(out)}")
        say(f"Fingerprint of the record: {opened.fingerprint}")
