"""Brings out of a damaged file what can be read."""

from __future__ import annotations

from pathlib import Path

import click

from tui.commands.lines import wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say


@click.command()
@click.argument("file", type=RECORD)
@click.option("-o", "--out", type=RECORD, required=True, help="The new record file to make.")
def rescue(file: Path, out: Path) -> None:
    """Make a new record file of what can be read of a damaged one.

    FILE is never written to. Everything up to the damage is brought out, word for word, with its
    history and its fingerprints.
    """
    from records.errors import CannotOpen
    from records.store.copies import Copies
    from records.store.rescue import rescue as bring_out
    from records.store.showing import file_name

    try:
        found = bring_out(file, out)
    except CannotOpen as error:
        kept = Copies().of(file)
        hint = f" The latest copy kept of it: {file_name(kept[-1])}" if kept else ""
        raise CannotOpen(f"{error}{hint}") from None
    count = len(found.rows)
    lines = [found.trouble or f"{file_name(file)} is whole; nothing was missing."]
    last = f"change {count}, fingerprint {found.fingerprints[-1]}"
    lines.append(f"Brought out into {file_name(out)}: all up to {last}.")
    if found.later:
        later = f"{found.later} later change{'s are' if found.later > 1 else ' is'}"
        lines.append(f"{later} there too, but what came in between is damaged.")
    if found.trouble and (kept := Copies().of(file)):
        lines.append(
            f"A copy from when it was last opened may hold more: {file_name(kept[-1])} "
            f"(compare with farboard history)."
        )
    for line in lines:
        say("\n".join(wrapped(line)))
