"""A pasted column at the bench: offered to the fields from the one in hand on, then filled."""

from __future__ import annotations

from collections.abc import Sequence

from records.errors import BadText
from records.taking.bench import Bench
from records.taking.outcome import Outcome
from records.taking.paste import Fill, fills, values


def offer(bench: Bench, text: str) -> tuple[Fill, ...]:
    """Return which fields a pasted column would go into, from the one in hand on.

    Raises:
        FarboardError: If it doesn't fit, or nothing may be taken here now.
    """
    now = bench.prompt
    if now.closed:
        raise BadText(f"{now.closed} Nothing was taken from the paste.")
    return fills(bench.queue, bench.position.at, values(text))


def offer_lines(bench: Bench, found: Sequence[Fill]) -> tuple[str, ...]:
    """Return a line for each value with the field that it would go into.

    Raises:
        BadQuantity: If the leads of the instrument can't have as much as is taken off.
    """
    return tuple(
        f"{bench.desk.echo(each.entry.slot, each.taken)}  →  {each.entry.place}, "
        f"{each.entry.measurement.symbol}"
        for each in found
    )


def fill(bench: Bench, found: Sequence[Fill]) -> Outcome:
    """Put a pasted column on disk, all of it or nothing, and go on.

    Raises:
        NotNow: If one of them may not be taken, the others before it being taken.
        FarboardError: If they could not be put on disk.
    """
    with bench.leading_to_earth():
        bench.desk.fill(found)
    bench.look_again()
    slots = {each.entry.slot for each in found}
    bad = sum(each.is_bad for each in bench.queue.entries if each.slot in slots)
    following = bench.position.following()
    if following is not None:
        bench.enter(following)
    words = f"{len(found)} readings taken from the paste, {bad or 'none'} of them to look at."
    return Outcome(words, "bad" if bad else "good")
