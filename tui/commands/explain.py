"""Prints how one figure was worked out."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

import click
from click.shell_completion import CompletionItem

from tui.commands.lines import wrapped
from tui.commands.opening import RECORD
from tui.commands.output import say
from tui.commands.trouble import Trouble

if TYPE_CHECKING:
    from records.expected.naming import Explained
    from records.model.record import Record


def _completed(ctx: click.Context, _: click.Parameter, typed: str) -> list[CompletionItem]:
    """Offer the names of figures that begin as typed; none if the file doesn't say any."""
    from records.errors import FarboardError

    file = ctx.params.get("file")
    if file is None:
        return []
    try:
        _record, known = _read(Path(file))
    except FarboardError:
        return []
    names = dict.fromkeys(each.name for each in known)
    start = typed.casefold()
    return [CompletionItem(name) for name in names if name.casefold().startswith(start)]


@click.command()
@click.argument("file", type=RECORD)
@click.argument("what", required=False, default="", shell_complete=_completed)
@click.pass_context
def explain(ctx: click.Context, file: Path, what: str) -> None:
    """Print the working of one figure: formula, values put in, result, sources.

    WHAT is a figure and a place, such as zs:C2, drop:feed or meter-r1+r2:C1. Without it, all that
    can be explained is listed. Exit code 1: it could not be worked out; the reason is printed.
    """
    from records.expected.naming import find
    from records.expected.results import NotWorkedOut

    record, known = _read(file)
    if not what:
        say("\n".join(_listed(record, known)))
        return
    found = find(known, what)
    if not found:
        raise Trouble(_unknown(what, known))
    for number, each in enumerate(found):
        if number:
            say()
        say("\n".join(_working(record, each)))
    ctx.exit(1 if any(isinstance(each.result, NotWorkedOut) for each in found) else 0)


def _read(file: Path) -> tuple[Record, tuple[Explained, ...]]:
    from records.expected.naming import explained
    from records.expected.plan import expected
    from records.store.record_in import record_in

    record = record_in(file).record
    return record, explained(expected(record))


def _working(record: Record, each: Explained) -> Iterator[str]:
    from records.expected.results import NotWorkedOut
    from records.judgement.wording import rounded
    from records.model.slots import title

    result = each.result
    yield from wrapped(f"{title(record, each.place)}: {each.figure}")
    if isinstance(result, NotWorkedOut):
        yield from _line("Result", f"not calculated: {result.why}")
        return
    yield from _line("Formula", result.formula)
    yield from _line("Put in", result.put_in)
    yield from _line("Result", f"{result.symbol} = {result}")
    if not result.words and result.low is not None and result.high is not None:
        ends = (rounded(end, result.unit, result.digits) for end in (result.low, result.high))
        yield from _line("Between", " and ".join(ends))
    yield from _line("Note", result.note)
    for number, source in enumerate(result.sources):
        yield from _line("" if number else "Sources", str(source))


def _line(word: str, text: str) -> list[str]:
    return wrapped(text, first=f"  {word:<9} ", indent=" " * 12) if text else []


def _listed(record: Record, known: tuple[Explained, ...]) -> Iterator[str]:
    from records.model.slots import title

    yield "What can be explained; ? before a name: not calculated, and why not."
    order = dict.fromkeys(each.place for each in known)
    at = {place: number for number, place in enumerate(order)}
    ordered = sorted(known, key=lambda each: at[each.place])
    for place, group in groupby(ordered, lambda each: each.place):
        yield ""
        yield from wrapped(title(record, place))
        names = dict.fromkeys(_marked(each) for each in group)
        yield from wrapped("  ".join(names), indent="  ")
    if not known:
        yield from wrapped("Nothing yet: the design has not been entered.")
    else:
        yield ""
        yield from wrapped(f"For one of them: farboard explain FILE {known[0].name}")


def _marked(each: Explained) -> str:
    return f"?{each.name}" if hasattr(each.result, "why") else each.name


def _unknown(what: str, known: tuple[Explained, ...]) -> str:
    names = [each.name for each in known]
    lower = {name.casefold(): name for name in names}
    close = get_close_matches(what.casefold(), list(lower), n=3, cutoff=0.5)
    meant = f" Did you mean {', '.join(lower[each] for each in close)}?" if close else ""
    return f"“{what}” is none of the figures of this record.{meant} Without WHAT, all are listed."
