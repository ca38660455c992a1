"""What kind of work was done about a finding, and when: as people type it."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from records.days import day_words, moment_words, read_day, read_moment
from records.errors import BadQuantity, BadText
from records.judgement.review_types import Judged, Review, slots_of
from records.taking.notes_time import read_when
from records.terms import WorkKind
from records.text import says_something

_SECOND = timedelta(seconds=1)
_SAID: dict[WorkKind, tuple[str, ...]] = {
    WorkKind.DEVICE: ("device", "rcd", "rcbo", "breaker", "mcb", "fuse", "switch"),
    WorkKind.JOINT: ("joint", "gland", "terminal", "connection"),
    WorkKind.CABLE: ("cable", "run"),
    WorkKind.POINT: ("point", "socket", "lamp", "outlet"),
    WorkKind.EARTH: ("earth", "bond", "bonding", "electrode"),
    WorkKind.OTHER: ("other",),
    WorkKind.MISREAD: ("misread", "wrong"),
}
_KINDS = {
    **{each.words: each for each in WorkKind},
    **{word: kind for kind, words in _SAID.items() for word in words},
}


@dataclass(frozen=True, slots=True)
class Work:
    """What kind of work it was, and when it was done."""

    kind: WorkKind
    at: datetime


@dataclass(frozen=True, slots=True)
class Turning:
    """Between what work on a finding lies: the reading that was bad, and the next one."""

    bad: datetime | None
    """When the reading was taken that it is about; None for the design."""
    again: datetime | None
    """When that was read again and was good; None if it was not."""


def turning(review: Review, finding: Judged) -> Turning:
    """Return between what the work on a finding lies."""
    bad, again = [], []
    for slot in slots_of(finding):
        own = next(iter(review.of(slot)), None)
        if own is None or not own.attempts:
            continue
        last = own.stood[-1] if own.stood else None
        if own.found and last is not None and not last.is_bad:
            was = own.found[-1][0]
            bad.append(was.at)
            again.append(own.attempts[own.attempts.index(was) + 1].at)
        else:
            bad.append(own.attempts[-1].at)
    return Turning(max(bad, default=None), min(again, default=None))


def kind_named(text: str) -> WorkKind | None:
    """Return the kind of work that a word or two name; None if they name none."""
    return _KINDS.get(" ".join(text.casefold().split()))


def read_work(text: str, between: Turning, now: datetime) -> Work:
    """Return the kind of work and when it was done: `joint`, `joint, 14:30`, `cable, 5 Mar 2026`.

    Args:
        text: As typed; without a kind it is other work, without a time it was done now, or just
            before the reading was taken again.
        between: What it lies between.
        now: The present moment, with its time zone.
    Raises:
        BadText: If the words before the comma name no kind of work.
        BadQuantity: If it is no time, or one at which it can't have been done.
    """
    named, _, when = (part.strip() for part in text.partition(","))
    if not named and not when:
        return Work(WorkKind.OTHER, read_done_at("", between, now))
    kind = kind_named(named)
    if kind is None:
        known = ", ".join(words[0] for words in _SAID.values())
        raise BadText(
            f"“{named[:40]}” is no kind of work. Type one of {known}; then a comma and "
            "the day, if it was not today."
        )
    return Work(kind, read_done_at(when, between, now))


def read_done_at(text: str, between: Turning, now: datetime) -> datetime:
    """Return when something was done: a time, a day, a day with its time; empty or `now`: now.

    Of a day alone the time is not known. It is put after the bad reading, and before the next one
    if that was taken on the same day; else at the end of the day.

    Raises:
        BadQuantity: If it is no time, is still to come, or lies before the reading it is about.
    """
    typed = text.strip().casefold()
    day = None if typed in ("", "now") else _day_alone(typed, now)
    if day is not None:
        when = min(now, datetime.combine(day, time(23, 59, 59), now.tzinfo))
        if day > now.date():
            raise BadQuantity(f"{day_words(day)} is still to come: type the day it was done.")
    else:
        when = now if typed in ("", "now") else read_when(typed, now)
    again = between.again
    open_end = day is not None or typed in ("", "now")
    if open_end and again is not None and again <= when and day in (None, _of(again, now)):
        when = again - _SECOND
        if between.bad is not None:
            when = max(when, between.bad)
    if between.bad is not None and when < between.bad:
        was = between.bad.astimezone(now.tzinfo)
        raise BadQuantity(
            f"That is before the reading it is about, of {moment_words(was)}: type when "
            "the work was done."
        )
    return when


def _of(moment: datetime, now: datetime) -> date:
    return moment.astimezone(now.tzinfo).date()


def _day_alone(typed: str, now: datetime) -> date | None:
    """Return the day that a text names without a time; None if it has one, or names none."""
    with suppress(BadQuantity):
        read_moment(typed, now)
        return None
    return read_day(typed, now.date())


@dataclass(frozen=True, slots=True)
class Done:
    """What was done about a finding, as it was typed."""

    said: str
    work: Work
    named: bool
    """Whether the kind of work was said."""


def read_done(text: str, kind: str, work: Callable[[str], Work]) -> Done:
    """Return what was done: `joint, 5 Mar 2026: locknut tightened`, or its parts apart.

    Args:
        text: What was done; with the kind before a colon if `kind` is empty.
        kind: The kind of work and when, if they were asked for apart.
        work: Reads a kind and its time.
    Raises:
        FarboardError: If it says nothing, or the time can't be right.
    """
    head, colon, rest = f"{text} ".partition(": ")
    named = not kind and bool(colon) and kind_named(head.partition(",")[0]) is not None
    said = rest.strip() if named else text
    check_said(said)
    return Done(said, work(head if named else kind), named or bool(kind))


def check_said(text: str) -> None:
    """Refuse what says nothing: a dash, a figure, two letters.

    Raises:
        BadText: If so.
    """
    if not says_something(text):
        raise BadText("Say it in a few words.")
