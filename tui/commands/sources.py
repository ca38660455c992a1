"""Lists every published value that Farboard goes by, with where it comes from."""

from __future__ import annotations

from itertools import groupby

import click

from tui.commands.lines import wrapped
from tui.commands.output import say


@click.command()
@click.argument("word", required=False, default="")
def sources(word: str) -> None:
    """List the published values and where they come from.

    With WORD, only tables with that word in their title or source.
    """
    from records.tables.catalogue import all_tables, notes
    from tui.commands.trouble import Trouble

    remarks, found = notes(), False
    for title, rows in groupby(all_tables(), key=lambda entry: entry.table):
        entries = list(rows)
        cited = dict.fromkeys(str(entry.source) for entry in entries)
        if not any(word.casefold() in text.casefold() for text in (title, *cited)):
            continue
        found = True
        unit = f" [{entries[0].unit}]" if entries[0].unit else ""
        say("\n".join(wrapped(title + unit)), bold=True)
        for source in cited:
            say("\n".join(wrapped(source, indent="  ")))
        if title in remarks:
            say("\n".join(wrapped(remarks[title], indent="  ")))
        width = min(40, max(len(entry.row) for entry in entries))
        for entry in entries:
            row = f"    {entry.row:<{width}} "
            say("\n".join(wrapped(entry.printed, first=row, indent=" " * 8)))
        say()
    if not found:
        raise Trouble(
            f"No table has “{word}” in its title or source. Without a word, all are listed."
        )
