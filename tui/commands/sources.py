"""Lists every published value that Farboard goes by, with where it comes from."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from pathlib import Path

import click

from tui.commands.lines import wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say


@click.command()
@click.argument("word", required=False, default="")
@click.option(
    "--decisive",
    "record",
    type=RECORD,
    help="Only the figures that decide a verdict on this record, the least sure first.",
)
def sources(word: str, record: Path | None) -> None:
    """List the published values and where they come from.

    With WORD, only tables with that word in their title or source.
    """
    if record is not None:
        for text, strong in _decisive(record, word):
            say(text, bold=strong)
        return
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


def _decisive(file: Path, word: str) -> Iterator[tuple[str, bool]]:
    """Yield, line by line, the figures that decide the verdicts on a record, by their basis."""
    from records.expected.plan import expected
    from records.judgement.review import review
    from records.judgement.trust import TRUST, deciding
    from records.store.record_in import record_in

    record = record_in(file).record
    decided: dict[str, list[str]] = {}
    sources = {}
    for line in review(record, expected(record)).lines:
        for source in deciding(line):
            if word.casefold() in f"{source.figure} {source}".casefold():
                sources[source.figure] = source
                decided.setdefault(source.figure, []).append(f"{line.verdict.mark} {line.title}")
    if not sources:
        yield "No verdict on this record is decided by a published figure yet.", False
        return
    for basis, words in TRUST.items():
        found = [each for each in sources.values() if each.basis is basis]
        if not found:
            continue
        yield "\n".join(wrapped(words.format(len(found)))), True
        for each in found:
            yield "\n".join(wrapped(each.figure, indent="    ", first="  ")), False
            yield "\n".join(wrapped(str(each), indent="    ")), False
            yield "\n".join(wrapped(_decides(decided[each.figure]), indent="    ")), False
        yield "", False


_MOST = 4


def _decides(lines: list[str]) -> str:
    names = list(dict.fromkeys(lines))
    more = f"; and {len(names) - _MOST} more" if len(names) > _MOST else ""
    return f"Decides: {'; '.join(names[:_MOST])}{more}."
