"""All that a person needs to take one reading, in words, ready to be set on a screen."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from records.days import moment_words
from records.expected.results import NotWorkedOut, Result, Worked
from records.judgement.review_types import Judged, Limit
from records.judgement.todo.walking import BOARD, HOUSE, NO_ROOM, stand_of
from records.judgement.wording import in_full, rounded
from records.model.job import Instrument, Person
from records.model.measurements import Measurement
from records.model.reading import Reading, slot_of
from records.model.record import Record
from records.model.slots import measured_by
from records.session import Session
from records.tables.rounding import span_words
from records.taking.leads import first_of, warning_of
from records.taking.queue import Entry
from records.terms import Stage


@dataclass(frozen=True, slots=True)
class Card:
    """What stands beside the field before the figure is typed."""

    title: str
    """Where, and the trade's symbol."""
    room: str
    """The room to stand in; empty if it is the house or the board, or not named."""
    test: str
    """The measurement in words."""
    between: str
    instrument: str
    setting: str
    first: str
    expect: str
    limit: str
    source: str
    """Where the limit stands; empty if there is none."""
    before: tuple[str, ...]
    """What was entered here already, oldest first, and at the earlier stage."""
    changed: str = ""
    """That its last reading was judged again, and what changed; empty if it was not."""
    leads: str = ""
    """What to do about leads that nobody takes off; empty if nothing is to be done."""


def card(
    record: Record,
    entry: Entry,
    expected: Result | None,
    now: datetime,
    changed: str = "",
    meter: Instrument | None = None,
) -> Card:
    """Return what to show for one entry of the queue.

    Args:
        record: The job.
        entry: The reading to take.
        expected: What the meter should show.
        now: The present moment: what was taken today is shown with its time alone.
        changed: What `changed_since` gives.
        meter: The instrument in hand; None if there is none.
    """
    test = entry.measurement
    limit = entry.own.limit if entry.own else None
    stand = stand_of(record, entry.slot)
    room = "" if stand in (HOUSE, BOARD, NO_ROOM) else stand
    return Card(
        title=f"{entry.place}{f' ({room})' if room else ''} · {test.symbol}",
        room=room,
        test="" if test.title.casefold() == test.symbol.casefold() else test.title,
        between=test.between,
        instrument=test.instrument,
        setting=test.setting,
        first=first_of(test, meter),
        expect="correct" if test.is_check else expectation(expected),
        limit=str(limit) if limit else "",
        source=limit_source(entry.own),
        before=(
            *earlier_stage(record, entry),
            *(attempts(record, entry.own, now) if entry.own else ()),
        ),
        changed=changed,
        leads=warning_of(test, meter),
    )


def how(test: Measurement, meter: Instrument | None) -> str:
    """Return in one paragraph how something is measured, with the instrument in hand."""
    setting = f", {test.setting}" if test.setting else ""
    parts = (
        f"{test.title}: between {test.between}",
        f"With: {test.instrument}{setting}",
        f"First: {first_of(test, meter)}",
    )
    return " ".join(f"{part.rstrip('.')}." for part in parts)


def changed_since(session: Session, entry: Entry) -> str:
    """Return that the reading of an entry was judged again since it was entered, and why.

    Empty if it was not, or if nothing was read yet: then nothing of the history is looked at.
    """
    if entry.own is None or entry.is_open:
        return ""
    return session.judged_again.get(entry.own.key, "")


def expectation(result: Result | None) -> str:
    """Return an expectation in one line: `0.35 Ω`, `0.31 to 0.42 Ω`, or why there is none."""
    match result:
        case Worked(words="", low=float(low), high=float(high)) if low != high:
            span = span_words(low, high, result.unit, result.digits)
            return f"{rounded(result.value, result.unit, result.digits)} ({span})"
        case Worked():
            return str(result)
        case NotWorkedOut(why=why):
            return f"No expected value: {why}"
    return "No expected value"


def limit_source(judged: Judged | None) -> str:
    """Return where the limit of a verdict stands in print, else the ground for the verdict.

    Short, for the bench; the detail of a finding says on what basis it is known.
    """
    if judged is None:
        return ""
    source = judged.limit.source if judged.limit else judged.source
    return ", ".join(filter(None, (source.work, source.place))) if source else ""


def limit_line(limit: Limit | None) -> str:
    """Return a limit in words with its note."""
    if limit is None:
        return "none"
    return f"{limit} ({limit.note})" if limit.note else str(limit)


def attempts(record: Record, judged: Judged, now: datetime | None = None) -> tuple[str, ...]:
    """Return one line for each reading of a slot: which attempt, what, when, who, how.

    Where there are several, each with how it stood when it was taken.
    """
    return tuple(
        f"{_ordinal(number + 1)}: {_line(record, each, now)}"
        + (f" · {judged.stood[number].words}" if judged.stood else "")
        for number, each in enumerate(judged.attempts)
    )


def earlier_stage(record: Record, entry: Entry) -> tuple[str, ...]:
    """Return the last reading of the same thing before covering, for comparison at the bench."""
    if entry.slot.stage is not Stage.DEAD:
        return ()
    before = record.taken(slot_of(entry.slot.quantity, entry.slot.place, Stage.BEFORE_COVERING))
    return (f"before covering: {_line(record, before[-1])}",) if before else ()


def clock(moment: datetime, now: datetime | None = None) -> str:
    """Return a moment as people write it: the time, with the day if that is not today."""
    if now is not None and moment.astimezone(now.tzinfo).date() == now.date():
        return f"{moment:%H:%M}"
    return moment_words(moment)


def named(record: Record, id: str | None) -> str:
    """Return the name of a person of the job; their id if the name is not entered."""
    found: Person | None = next((each for each in record.job.people if each.id == id), None)
    return (found.name or found.id) if found else ""


def _line(record: Record, reading: Reading, now: datetime | None = None) -> str:
    parts = [in_full(reading.taken, measured_by(reading.slot)), clock(reading.at, now)]
    if reading.from_notes:
        parts.append(f"from notes, entered {clock(reading.from_notes, now)}")
    parts += [
        part
        for part in (
            named(record, reading.by),
            reading.instrument or "",
            f"{reading.test_voltage:g} V" if reading.test_voltage else "",
            reading.method,
            reading.note,
        )
        if part
    ]
    return " · ".join(parts)


def _ordinal(number: int) -> str:
    return {1: "1st", 2: "2nd", 3: "3rd"}.get(number, f"{number}th")
