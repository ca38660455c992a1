"""Prints all changes ever made to a record."""

from __future__ import annotations

from pathlib import Path

import click

from records.days import moment_words
from tui.commands.lines import wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say


@click.command()
@click.argument("file", type=RECORD)
@click.option("--last", type=click.IntRange(min=1), metavar="N", help="Only the last N changes.")
def history(file: Path, last: int | None) -> None:
    """Print who changed what and when, the oldest first.

    What was taken back is there too: nothing leaves the history.
    """
    from records.store.file import RecordFile
    from records.store.history_text import history_lines

    with RecordFile.open(file, read_only=True) as opened:
        changes = list(history_lines(opened.history()))
        for each in changes[-last:] if last else changes:
            change = each.change
            head = f"{change.number:>4}  {moment_words(change.at)}:{change.at:%S} UTC"
            say("\n".join(wrapped(change.by, first=head + "  ", indent=" " * 6)), bold=True)
            for words in each.words:
                say("\n".join(wrapped(words, indent=" " * 6)))
        say("\n".join(wrapped(f"Fingerprint: {opened.fingerprint}")))
