"""Why this cable: how the cable that was chosen stands, and what the next smaller ones lack."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from records.model.record import Record
from records.options.assumptions import assumed
from records.options.cables import make_of
from records.options.feed import (
    Choice,
    Option,
    cautions,
    cpc_words,
    feed_options,
    wanted_room,
    words,
)
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


@dataclass(frozen=True, slots=True)
class PrintedWhy:
    """Why the feed has its cable, as the person wants it in the schedule."""

    words: str
    """In the person's own words; empty if there are none."""
    runs: tuple[Why, ...]
    """By run; one that isn't there has no cable yet, or one that can't be compared."""
    missing: tuple[str, ...]
    """What has to be entered before it can be said, a sentence each."""


def printed_why(record: Record) -> PrintedWhy | None:
    """Return why this cable, if the record says that it is printed; else None.

    It is wanted if somebody said so, or wrote words for it and nobody said no. What is said is
    worked out from the design as it is now: a choice that no longer holds says so.

    Args:
        record: The job.
    """
    buying = record.buying
    wanted = bool(buying.why) if buying.print_why is None else buying.print_why
    if not wanted:
        return None
    return PrintedWhy(buying.why, why_this_cable(record), tuple(_unsaid(record)))


def _unsaid(record: Record) -> Iterator[str]:
    lacks = assumed(record).lacks
    yield from lacks
    for at, run in enumerate(record.feed.runs, start=1):
        if not lacks and make_of(run) is None:
            yield f"Run {at}: its cable is not all entered yet (Feed, run {at})."


def why_this_cable(record: Record, room: float | None = None) -> tuple[Why, ...]:
    """Return for each run of the feed with a cable why it is this one; none before it is chosen.

    Args:
        record: The job.
        room: % by which the load may grow; None: as the record has it.
    """
    return tuple(_each(record, wanted_room(record) if room is None else room))


def _each(record: Record, room: float) -> Iterator[Why]:
    for at, run in enumerate(record.feed.runs):
        if make_of(run) is None:
            continue
        choice = feed_options(record, at, room=room)
        if choice.present is not None:
            yield _why(record, choice, choice.present)


def _why(record: Record, choice: Choice, option: Option) -> Why:
    make, u0 = option.make, record.origin.u0
    marks = []
    if option is choice.smallest:
        marks.append("smallest line conductor that passes")
    if option is choice.roomy:
        marks.append(f"first that leaves {choice.room:g} % of load")
    elif option.roomy:
        marks.append(f"leaves {choice.room:g} % of load")
    same = [
        each
        for each in choice.options
        if (each.make.cable, each.make.cores, each.make.cpc, each.make.cpc_csa)
        == (make.cable, make.cores, make.cpc, make.cpc_csa)
    ]
    if not any(each is option for each in same):
        # It is in no list of what is made: it is shown between those that are.
        same = sorted((*same, option), key=lambda each: each.make.csa)
    at = next(number for number, each in enumerate(same) if each is option)
    beside = same[max(at - 2, 0) : at + 2]
    verdict = option.verdict
    return Why(
        choice.run + 1,
        words(make),
        cpc_words(make),
        f"{verdict.mark} {verdict.value}",
        option.decides.why if option.decides is not None else "",
        ", ".join(marks),
        FEED_HEAD,
        tuple((each.verdict.mark, *feed_row(each, u0)) for each in beside),
        choice.notes,
        tuple(cautions(record)),
    )
