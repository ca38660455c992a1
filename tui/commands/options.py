"""Prints what would do: for the feed, a circuit, or later; nothing is changed."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

from tui.commands.opening import RECORD
from tui.commands.output import say, send, write_bytes
from tui.commands.trouble import Trouble

if TYPE_CHECKING:
    from records.model.record import Record
    from records.options.feed import Choice


_MOST_OTHERS = 2


class _Between(click.FloatRange):
    """A number between two others; “nan” is none, though every comparison lets it by."""

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Return the number."""
        found = float(super().convert(value, param, ctx))
        if math.isnan(found):
            self.fail(f"“{value}” is not a number.", param, ctx)
        return found


@click.command()
@click.argument("file", type=RECORD)
@click.argument("what", required=False, default="feed")
@click.option(
    "--run",
    type=click.IntRange(min=1),
    metavar="N",
    help="Run of the feed to try cables in; the longest unless set.",
)
@click.option(
    "--room",
    type=_Between(0, 1000),
    default=25.0,
    metavar="PERCENT",
    help="Load to leave room for; 25 unless set here or in the record.",
)
@click.option(
    "--radial",
    type=_Between(0, 1000, min_open=True),
    metavar="METRES",
    help="Cable that a radial would need in the place of a ring.",
)
@click.option(
    "--later",
    type=_Between(0, 100, min_open=True),
    metavar="KW",
    help="With “room”: a load to try on its own circuit.",
)
@click.option(
    "--allowance",
    type=_Between(0, 200),
    default=10.0,
    metavar="PERCENT",
    help="With “buy”: cable over what is entered; 10 unless set here or in the record.",
)
@click.option(
    "-o",
    "--output",
    "out",
    type=click.Path(path_type=Path),
    metavar="LIST.csv",
    help="With “buy”: write the list for a spreadsheet; ending in .html: as a page.",
)
@click.option("--force", is_flag=True, help="Write over a list that is there already.")
@click.option(
    "--with",
    "others",
    type=RECORD,
    multiple=True,
    metavar="OTHER",
    help="With “compare”: another record or exported JSON; up to two.",
)
@click.option("--all", "everything", is_flag=True, help="Every cable tried, not only the nearest.")
@click.option("--json", "as_json", is_flag=True, help="For other programs: all of it, as JSON.")
@click.pass_context
def options(
    ctx: click.Context,
    file: Path,
    what: str,
    run: int | None,
    room: float,
    radial: float | None,
    later: float | None,
    allowance: float,
    out: Path | None,
    force: bool,
    others: tuple[Path, ...],
    everything: bool,
    as_json: bool,
) -> None:
    """Print what would do, before anything is bought. Nothing in the record changes.

    WHAT is “feed” (unless said otherwise); a circuit such as C2; “room”: how much more load and
    length the design takes; “earth”: both earths of the outbuilding side by side; “buy”: the list
    of what to buy; or “compare”: this design beside others.

    Exit code 0: something will do; 1: nothing does, or an input is missing.
    """
    from records.store.record_in import record_in
    from tui.commands import options_json, options_text

    record = record_in(file).record
    wanted = what.casefold()
    _check_belongs(ctx, wanted)
    data: Callable[[], dict[str, Any]]
    if wanted == "feed":
        chosen = _feed(record, run, given(ctx, "room", room))
        found = chosen.smallest is not None
        data = lambda: options_json.feed(record, chosen)  # noqa: E731
        lines = options_text.feed(record, chosen, everything=everything)
    elif wanted == "room":
        from records.options.room import assumed_for_room, room_left, with_load_later

        rooms = room_left(record)
        tried = None if later is None else with_load_later(record, later)
        found = all(each.more is not None for each in rooms) and not (
            tried and (tried.fails or tried.why)
        )
        data = lambda: options_json.room(rooms, tried, assumed_for_room(record))  # noqa: E731
        lines = options_text.room(rooms, tried, later, assumed_for_room(record))
    elif wanted == "earth":
        from records.options.earth import earth_choice

        both = earth_choice(record)
        found = True
        data = lambda: options_json.earth(both)  # noqa: E731
        lines = options_text.earth(both)
    elif wanted == "buy":
        from records.options.buy import buy_list

        bought = buy_list(record, given(ctx, "allowance", allowance))
        found = not bought.missing
        data = lambda: options_json.buy(bought)  # noqa: E731
        lines = options_text.buy(bought)
        if out is not None:
            from records.entering.buy_file import as_file

            write_bytes(out, as_file(out, record, bought), force=force)
    elif wanted == "compare":
        if not 1 <= len(others) <= _MOST_OTHERS:
            raise Trouble("Name one or two other designs: options FILE compare --with OTHER")
        designs = [record_in(each).record for each in others]
        found = True
        data = lambda: options_json.compare(record, designs)  # noqa: E731
        lines = options_text.compare([record, *designs], [each.name for each in others])
    else:
        from records.options.circuit import circuit_options
        from records.terms import Use

        id = _circuit(record, what)
        if radial is not None and record.circuit(id).use is not Use.SOCKETS:
            raise Trouble(f"--radial goes with sockets, and {id} has none: leave it out.")
        choice = circuit_options(record, id, radial=radial)
        found = any(each.will_do for each in choice.options)
        data = lambda: options_json.circuit(record, choice)  # noqa: E731
        lines = options_text.circuit(record, choice, everything=everything)
    if as_json:
        send(json.dumps(data(), ensure_ascii=False, allow_nan=False, indent=2) + "\n")
    else:
        say("\n".join(lines))
    ctx.exit(0 if found else 1)


def given(ctx: click.Context, name: str, value: float) -> float | None:
    """Return a value that was typed; None for its default: then what the record has counts."""
    typed = ctx.get_parameter_source(name) is ParameterSource.COMMANDLINE
    return value if typed else None


_BELONGS = {
    "run": ("--run", "feed"),
    "room": ("--room", "feed"),
    "radial": ("--radial", "a circuit"),
    "later": ("--later", "room"),
    "allowance": ("--allowance", "buy"),
    "out": ("-o", "buy"),
    "force": ("--force", "buy"),
    "others": ("--with", "compare"),
}
"""Options of the command, and what each has an effect on."""
_KNOWN = ("feed", "room", "earth", "buy", "compare")


def _check_belongs(ctx: click.Context, wanted: str) -> None:
    """Refuse an option that would have no effect on what is asked for."""
    kind = wanted if wanted in _KNOWN else "a circuit"
    for name, (typed, of) in _BELONGS.items():
        given = ctx.get_parameter_source(name) is ParameterSource.COMMANDLINE
        if given and of != kind:
            raise Trouble(f"{typed} goes with “{of}”, not with “{wanted}”: leave it out.")


def _feed(record: Record, run: int | None, room: float | None) -> Choice:
    from records.options.feed import feed_options, longest_run

    count = len(record.feed.runs)
    if run is not None and run > max(count, 1):
        there = f"it has {count}" if count else "it has none yet"
        raise Trouble(f"There is no run {run} of the feed: {there} (--run).")
    at = longest_run(record) if run is None else run - 1
    return feed_options(record, at, room=room)


def _circuit(record: Record, what: str) -> str:
    ids = [each.id for each in record.circuits]
    if what.upper() in ids:
        return what.upper()
    known = ", ".join(("feed", *ids, "room", "earth", "buy", "compare"))
    raise Trouble(f"“{what}” is nothing that can be chosen here. Type one of: {known}.")
