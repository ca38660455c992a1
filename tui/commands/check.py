"""Prints the review of a record; the exit code says whether anything was found."""

from __future__ import annotations

import json
from pathlib import Path

import click

from tui.commands.opening import RECORD, at_option
from tui.commands.output import say, send


@click.command()
@click.argument("file", type=RECORD)
@click.option("--json", "as_json", is_flag=True, help="For other programs: all of it, as JSON.")
@click.option("--all", "everything", is_flag=True, help="Also what is within and not needed.")
@click.option(
    "--details/--no-details",
    default=True,
    show_default=True,
    help="All about each finding, after the list of what to deal with.",
)
@at_option
@click.pass_context
def check(
    ctx: click.Context, file: Path, as_json: bool, everything: bool, details: bool, at: int | None
) -> None:
    """Print the review of a record, or of exported JSON.

    First what to deal with, one line each, worst first, and what is still to test; then all about
    each finding, by part and circuit. The summary is the last line. Exit code 0: nothing to deal
    with; 1: findings, readings not taken among them; 2: the record can't be read.
    """
    from records.expected.plan import expected
    from records.judgement.design_changed_since import judged_again, with_changes_said
    from records.judgement.review import review
    from records.store.record_in import record_in

    found = record_in(file, at, then=True)
    follows = expected(found.record)
    reviewed = review(found.record, follows)
    reviewed = with_changes_said(reviewed, judged_again(found.then, found.record, follows))
    if as_json:
        from tui.commands.check_json import as_data

        data = as_data(file, found, reviewed)
        send(json.dumps(data, ensure_ascii=False, allow_nan=False, indent=2) + "\n")
    else:
        from tui.commands.check_text import lines

        for text, verdict in lines(file, found, reviewed, everything=everything, details=details):
            say(text, fg=verdict and _COLOUR.get(verdict), bold=bool(verdict))
    ctx.exit(1 if reviewed.findings else 0)


_COLOUR = {
    "outside": "red",
    "unlikely": "magenta",
    "near limit": "yellow",
    "within": "green",
}
