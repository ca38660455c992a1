"""How long what a person said or read holds: for that person, that day, and a few hours."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

from records.interlock.comes_off import EARTHS, LIFTS_AN_EARTH, PUT_BACK
from records.model.job import Duty, Person
from records.model.reading import Figure, LiveGate, Reading, Slot, Tick
from records.model.record import Record
from records.terms import Stage

HOLDS = timedelta(hours=4)
"""How long an answer or a caution that was read holds: common practice, half a working day."""


def holds(at: datetime, by: str | None, person: str | None, now: datetime) -> bool:
    """Return whether what somebody said or read at a moment holds for a person now.

    Args:
        at: When it was said.
        by: Id of who said it.
        person: Id of who is going to take a reading.
        now: The moment of that, with its time zone: at midnight there begins another day.
    """
    same_day = at.astimezone(now.tzinfo).date() == now.date()
    return by == person and same_day and timedelta(0) <= now - at <= HOLDS


def competent(record: Record) -> tuple[Person, ...]:
    """Return who of a job may decide that something is tested live in spite of its dead tests.

    Only who certifies, by name: of nobody else does a record say that they are competent.
    """
    return tuple(
        each for each in record.job.people if each.duty is Duty.CERTIFIES and each.name.strip()
    )


def live_answer(record: Record, person: str | None, now: datetime) -> LiveGate | None:
    """Return the answer to the question before the live tests that holds; None: it is to be asked.

    A later answer of the same person that isolation was not understood takes it back. A dead test
    taken or entered since asks again: what may go live can have changed.
    """
    given = [each for each in record.live_gate if each.by == person and each.at <= now]
    last = max(given, key=lambda each: each.at, default=None)
    if last is None or not last.isolation_understood or not holds(last.at, last.by, person, now):
        return None
    changed = any(
        last.at < _entered(each) <= now
        for each in record.readings
        if each.slot.stage is not Stage.LIVE
        and isinstance(each.taken, Figure | Tick)
        and each.slot != PUT_BACK
    )
    return None if changed else last


def unread(
    record: Record, slot: Slot, keys: Sequence[str], person: str | None, now: datetime
) -> tuple[str, ...]:
    """Return which cautions a person has to read before a reading.

    Args:
        record: The job.
        slot: What is going to be taken.
        keys: The cautions that stand before it, in order.
        person: Id of who takes it.
        now: When.
    Returns:
        The keys of those that were not read, in order. What was read before the installation was
        last live doesn't count before a dead test; the caution of a test that takes an earth off is
        read before that very test, and again after the earth was back.
    """
    since = _known_since(record, slot, now)
    lifts = slot.quantity in LIFTS_AN_EARTH
    read = {
        each.key
        for each in record.cautions_read
        if holds(each.at, each.by, person, now)
        and (since is None or each.at >= since)
        and (not lifts or each.before.quantity is slot.quantity)
    }
    return tuple(key for key in keys if key not in read)


def _known_since(record: Record, slot: Slot, now: datetime) -> datetime | None:
    """Return the moment before which nothing that was read counts for this slot any more.

    A reading that is still to come was entered with a clock that stood ahead: no caution could ever
    be read after it.
    """
    found: list[Reading] = []
    if slot.stage is not Stage.LIVE:
        found += _real(each for each in record.readings if each.slot.stage is Stage.LIVE)
    for question, tests in EARTHS.items():
        if slot in tests:
            found += _real(record.taken(question))
    return max((each.at for each in found if each.at <= now), default=None)


def _real(readings: Iterable[Reading]) -> list[Reading]:
    return [each for each in readings if isinstance(each.taken, Figure | Tick)]


def _entered(reading: Reading) -> datetime:
    return reading.from_notes or reading.at
