"""Options as tables of 80 columns."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, zip_longest
from typing import TYPE_CHECKING

from records.options.confirm import BEFORE_BUYING, CONFIRM
from records.text import printable
from tui.commands.lines import WIDTH, wrapped

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.buy import BuyList
    from records.options.circuit import CircuitChoice
    from records.options.earth import EarthChoice, Need
    from records.options.feed import Choice
    from records.options.room import Later, Room

_LEGEND = (
    "✗ fails · needs a figure first ! holds, but read why – not asked. Drop and Zs are those of "
    "the place with least in hand. Why: --json, or the table in the wizard (F2)."
)


def feed(record: Record, choice: Choice, *, everything: bool) -> Iterator[str]:
    """Yield the table of the feed, or what has to be entered first."""
    from records.options.feed import cautions, cpc_words, remarks, words
    from records.options.rows import FEED_HEAD, feed_row, telling

    yield from wrapped(f"What would do for the feed, run {choice.run + 1}")
    yield from _listed(choice.notes)
    if choice.lacks:
        yield from _listed(choice.lacks)
        return
    yield ""
    u0 = record.origin.u0
    shown = choice.options if everything else tuple(telling(choice))
    marks = {id(choice.roomy): "R", id(choice.smallest): "S"}
    rows = [
        (
            marks.get(id(each), each.verdict.mark),
            *feed_row(each, u0, now=each is choice.present),
        )
        for each in shown
    ]
    yield from _table((" ", *FEED_HEAD), rows)
    yield ""
    if not everything and len(shown) < len(choice.options):
        yield f"{len(shown)} of {len(choice.options)} cables tried; all of them: --all."
    yield from wrapped(_LEGEND)
    yield ""
    small, roomy = choice.smallest, choice.roomy
    if small is not None:
        said = f"{words(small.make)}, cpc: {cpc_words(small.make)}"
        yield from wrapped(f"S  Smallest that passes: {said}.")
    if roomy is not None:
        said = f"{words(roomy.make)}, cpc: {cpc_words(roomy.make)}"
        yield from wrapped(f"R  First that leaves {choice.room:g} % of load: {said}.")
    elif small is not None:
        yield from wrapped(f"None leaves {choice.room:g} % of load.")
    if choice.present is not None:
        make = choice.present.make
        yield from wrapped(f"*  In the record now: {words(make)}, cpc: {cpc_words(make)}.")
    yield ""
    yield from _listed(remarks(choice))
    yield from _listed(cautions(record))


def circuit(record: Record, choice: CircuitChoice, *, everything: bool) -> Iterator[str]:
    """Yield the table of a circuit."""
    from records.options.rows import CIRCUIT_HEAD, circuit_row, telling_circuit

    name = f"{choice.circuit.id} {choice.circuit.name}".strip()
    yield from wrapped(f"What would do for {name}")
    yield from _listed(choice.notes)
    if choice.lacks:
        yield from _listed(choice.lacks)
        return
    yield ""
    shown = choice.options if everything else tuple(telling_circuit(choice))
    rows = [(each.verdict.mark, *circuit_row(each, record.origin.u0)) for each in shown]
    yield from _table((" ", *CIRCUIT_HEAD), rows)
    yield ""
    if len(shown) < len(choice.options):
        yield f"{len(shown)} of {len(choice.options)} tried; all of them: --all."
    if not any(each.will_do for each in choice.options):
        yield from wrapped("None is sure to do with the rest as it is. What stops the best:")
        yield from _listed(choice.stops)
    yield from wrapped(f"{_LEGEND} “up to”: longest cable with which all checks hold.")
    yield from wrapped(CONFIRM)


def room(
    rooms: Iterable[Room], tried: Later | None, later: float | None, assumed: str
) -> Iterator[str]:
    """Yield how much more the design takes, and what a later load would do."""
    from records.options.room import later_words, room_words

    yield from wrapped("Room left: each alone, all else as it is")
    if assumed:
        yield from _listed((assumed,))
    yield ""
    for each in rooms:
        figure, stops = room_words(each)
        text = (
            f"{each.where}: {stops}"
            if each.more is None
            else (f"{each.where}: {figure} more, {stops}")
        )
        yield from wrapped(f"{text.rstrip('.')}.", indent="  ", first="")
    if tried is not None:
        yield ""
        for line in later_words(tried, later or 0.0):
            yield from wrapped(line)
    yield ""
    yield from wrapped(CONFIRM)


def earth(both: EarthChoice) -> Iterator[str]:
    """Yield both earths side by side, topic by topic."""
    left = {each.topic: each for each in both.exported}
    right = {each.topic: each for each in both.electrode}
    yield from wrapped("Earth of the outbuilding: what each way needs here")
    chosen = "not entered" if both.chosen is None else both.chosen.value
    yield from wrapped(f"In the record now: {chosen}.")
    yield ""
    yield from _beside("EXPORTED THROUGH THE FEED", "EARTH ELECTRODE (TT)")
    for topic in dict.fromkeys((*left, *right)):
        yield f"— {topic}"
        one, other = left.get(topic), right.get(topic)
        yield from _beside(_need(one), _need(other))
    yield ""
    yield from wrapped("✓ in the record · + to add · ? for the certifier or the network operator")
    yield from _listed(both.cautions)


_HALF = (WIDTH - 2) // 2


def _need(need: Need | None) -> str:
    if need is None:
        return "–"
    return f"{need.sign} {need.text}"


def _beside(left: str, right: str) -> Iterator[str]:
    one, other = wrapped(left, width=_HALF), wrapped(right, width=_HALF)
    for a, b in zip_longest(one, other, fillvalue=""):
        yield f"{a:<{_HALF}}  {b}".rstrip()


def buy(bought: BuyList) -> Iterator[str]:
    """Yield the list of what to buy."""
    yield from wrapped(f"To buy, cable with {bought.allowance:g} % over what is entered")
    for sort, same in groupby(bought.items, lambda each: each.sort):
        yield ""
        yield sort.value
        for each in same:
            amount = f"{each.quantity} {each.unit or '×'}"
            text = f"{each.what} ({', '.join(each.uses)})"
            text = f"{text}. {each.note}" if each.note else text
            yield from wrapped(text, first=f"  {amount:>6} ", indent=" " * 9)
    if bought.missing:
        yield ""
        yield from wrapped("Not on the list until it is entered:")
        yield from _listed(bought.missing)
    yield ""
    yield from wrapped(BEFORE_BUYING)


def compare(records: Sequence[Record], names: Sequence[str]) -> Iterator[str]:
    """Yield two or three designs side by side: what is entered differently, and checks that differ.

    Args:
        records: The design as it is, then the others.
        names: Of the others.
    """
    from records.options.compare import compared

    rows = compared(records)
    yield from wrapped("Designs side by side; ! a check that is worse than now")
    yield ""
    if not rows:
        yield "The designs are the same."
    else:
        wide = _WIDTHS[len(records)]
        yield from _in_columns(("", "now", *map(printable, names)), wide)
        for each in rows:
            yield "-" * WIDTH
            texts = [f"{'! ' if side.worse else ''}{side.text}" for side in each.sides]
            yield from _in_columns((each.what, *texts), wide)
    yield ""
    yield from wrapped(CONFIRM)


_WIDTHS = {2: (32, 23, 23), 3: (23, 18, 18, 18)}


def _in_columns(texts: Sequence[str], widths: Sequence[int]) -> Iterator[str]:
    """Yield texts beside each other, each wrapped in its column."""
    columns = [list(wrapped(text, width=wide)) for text, wide in zip(texts, widths, strict=True)]
    for parts in zip_longest(*columns, fillvalue=""):
        cells = [f"{part:<{wide}}" for part, wide in zip(parts, widths, strict=True)]
        yield " ".join(cells).rstrip()


def _listed(texts: Iterable[str]) -> Iterator[str]:
    for each in texts:
        yield from wrapped(each, first="- ", indent="  ")


_FIGURE = re.compile(r"(> )?[\d.]+[✗!·?]?|[–·✗!]")


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> Iterator[str]:
    """Yield a table with words at the left and figures at the right; the last column may wrap."""
    from rich.cells import cell_len

    widths = [max(cell_len(row[at]) for row in (head, *rows)) for at in range(len(head))]
    figures = {
        at for at in range(len(head)) if rows and all(_FIGURE.fullmatch(row[at]) for row in rows)
    }
    for row in (head, *rows):
        cells = [
            f"{' ' * (widths[at] - cell_len(cell))}{cell}"
            if at in figures
            else f"{cell}{' ' * (widths[at] - cell_len(cell))}"
            for at, cell in enumerate(row)
        ]
        line = " ".join(cells).rstrip()
        yield line if cell_len(line) <= WIDTH else line[:WIDTH]
