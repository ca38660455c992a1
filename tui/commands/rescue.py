"""Brings out of a damaged file what can be read."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from records.days import moment_words
from tui.commands.lines import wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say

if TYPE_CHECKING:
    from records.store.unproved import Unproved

_MOST = 60
"""Readings listed one by one; all of them are in the file."""


@click.command()
@click.argument("file", type=RECORD)
@click.option("-o", "--out", type=RECORD, required=True, help="The new record file to make.")
def rescue(file: Path, out: Path) -> None:
    """Make a new record file of what can be read of a damaged one.

    FILE is never written to. Everything up to the damage is brought out, word for word, with its
    history and its fingerprints. What can be read after it is listed and goes to a file of its own
    beside OUT, as not proved.
    """
    from records.errors import CannotOpen
    from records.store.copies import Copies
    from records.store.rescue import rescue as bring_out
    from records.store.showing import file_name
    from records.store.unproved import NothingProved

    try:
        found = bring_out(file, out)
    except CannotOpen as error:
        if isinstance(error, NothingProved) and error.unproved:
            _tell_unproved(error.unproved, file, out)
        kept = Copies().of(file)
        hint = f" The latest copy kept of it: {file_name(kept[-1])}" if kept else ""
        raise CannotOpen(f"{error}{hint}") from None
    count = len(found.rows)
    lines = [found.trouble or f"{file_name(file)} is complete; nothing was missing."]
    last = f"change {count}, fingerprint {found.fingerprints[-1]}"
    lines.append(f"Brought out into {file_name(out)}: all up to {last}.")
    if found.later:
        later = f"{found.later} later change{'s are' if found.later > 1 else ' is'}"
        lines.append(f"{later} there too, but what came in between is damaged.")
        _tell_unproved(found.unproved, file, out)
    if found.trouble and (kept := Copies().of(file)):
        lines.append(
            f"A copy from when it was last opened may hold more: {file_name(kept[-1])} "
            f"(compare with farboard history)."
        )
    for line in lines:
        say("\n".join(wrapped(line)))


def _tell_unproved(found: Sequence[Unproved], file: Path, out: Path) -> None:
    """List what can be read after the damage, and say where it is."""
    from records.store.rescue import keep_unproved
    from records.store.showing import file_name

    place = keep_unproved(found, file, out)
    readings = [(each, words) for each in found for words in each.readings]
    for each, words in readings[:_MOST]:
        change = each.change
        head = f"NOT PROVED  change {change.number}, {moment_words(change.at)} UTC, {change.by}: "
        say("\n".join(wrapped(head + words, indent=" " * 12, first="")))
    if len(readings) > _MOST:
        say(f"… and {len(readings) - _MOST} readings more.")
    told = (
        f"Hold each against your notes: no digest shows that it is as it was entered. They are in "
        f"{file_name(place)} and in no record."
    )
    say("\n".join(wrapped(told)))
