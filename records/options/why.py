"""Why this cable: how the cable that was chosen stands, and what the next smaller ones lack."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.model.record import Record
from records.options.cables import Make
from records.options.feed import ROOM, Choice, Option, cautions, cpc_words, feed_options, words
from records.options.rows import FEED_HEAD, feed_row


@dataclass(frozen=True, slots=True)
class Why:
    """The choice of cable of one run of the feed, for the person who confirms it."""

    run: int
    """From 1."""
    cable: str
    cpc: str
    stands: str
    """Mark and word of its gravest check."""
    decides: str
    """The check that decides, with its figures."""
    mark: str
    """Whether it is the smallest that passes, or the first with room; empty if it is neither."""
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    """The chosen cable, and of the same kind and cpc the sizes beside it: verdict, then `head`."""
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]


def why_this_cable(record: Record, room: float = ROOM) -> tuple[Why, ...]:
    """Return for each run of the feed with a cable why it is this one; none before it is chosen.

    Args:
        record: The job.
        room: % by which the load may grow.
    """
    return tuple(_each(record, room))


def _each(record: Record, room: float) -> Iterator[Why]:
    for at, run in enumerate(record.feed.runs):
        if run.cable is None or run.csa is None or run.cpc is None:
            continue
        own = Make(run.cable, run.cores, run.csa, run.cpc, run.cpc_csa)
        choice = feed_options(record, at, room=room)
        option = next((each for each in choice.options if each.make == own), None)
        if option is not None:
            yield _why(record, choice, option)


def _why(record: Record, choice: Choice, option: Option) -> Why:
    make, u0 = option.make, record.origin.u0
    marks = []
    if option is choice.smallest:
        marks.append("smallest line conductor that passes")
    if option is choice.roomy:
        marks.append(f"first that leaves {choice.room:g} % of load")
    same = [
        each
        for each in choice.options
        if (each.make.cable, each.make.cores, each.make.cpc, each.make.cpc_csa)
        == (make.cable, make.cores, make.cpc, make.cpc_csa)
    ]
    at = same.index(option)
    beside = same[max(at - 2, 0) : at + 2]
    verdict = option.verdict
    return Why(
        choice.run + 1, words(make), cpc_words(make), f"{verdict.mark} {verdict.value}",
        option.decides.why if option.decides is not None else "", ", ".join(marks),
        FEED_HEAD, tuple((each.verdict.mark, *feed_row(each, u0)) for each in beside),
        choice.notes, tuple(cautions(record)),
    )  # fmt: skip
