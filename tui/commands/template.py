"""Writes the template of the schedule, for a person to edit a copy of."""

from __future__ import annotations

from pathlib import Path

import click

from tui.commands.opening import RECORD
from tui.commands.output import check_free, say


@click.command()
@click.option("-o", "--out", type=RECORD, required=True, help="Where to: MINE.docx.")
@click.option("--force", is_flag=True, help="Write over OUT if it is there.")
def template(out: Path, force: bool) -> None:
    """Write the template of the schedule as a .docx, with a guide to each name it may use.

    Edit it in a word processor, then: farboard schedule FILE --template MINE.docx. Keep it: verify
    asks for it. Fingerprint, edition and “no certificate” are put on each page if they are missing.
    """
    from records.document.own_template import template_with_guide
    from records.document.saving import checked_place, save
    from records.store.showing import file_name

    check_free(out, force=force)
    place = checked_place(out)
    save(template_with_guide(), place)
    say(f"The template is in {file_name(out)}; the guide to its names is at its end.")
    say("Use it: farboard schedule FILE --template MINE.docx")
