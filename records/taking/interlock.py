"""The one question before anything goes on record: may this be taken now, by this person?

`records.interlock` decides; here the cautions and the opened record are put to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from records.errors import FarboardError
from records.interlock.dead_tests import circuit_words
from records.interlock.may_take import Interlock, Lock, Refusal
from records.judgement.wording import Taken
from records.model.certifier import all_counted
from records.model.measurements import Measurement
from records.model.reading import LiveException, LiveGate, Reading, Slot
from records.model.record import Record
from records.model.slots import measured_by
from records.taking.cautions import Caution, before
from records.taking.families import family
from records.taking.queue import Queue

if TYPE_CHECKING:
    from records.session import Session


class NotNow(FarboardError):
    """Something may not be taken now; `refusal` says why and what comes first."""

    def __init__(self, refusal: Refusal) -> None:
        self.refusal = refusal
        super().__init__(refusal.words)


def interlock(session: Session, person: str | None, now: datetime) -> Interlock:
    """Return what one person may take in an opened record now.

    Args:
        session: The opened record.
        person: Id of who takes it.
        now: The present moment.
    """
    record, verdicts = session.counted
    return Interlock(record, verdicts, person, now)


def refusal(found: Interlock, slot: Slot, taken: Taken | None = None) -> Refusal | None:
    """Return why something may not be entered now; None if it may.

    Args:
        found: What may be taken.
        slot: Where.
        taken: What is to be entered; None for any true reading.
    """
    return found.refusal(slot, taken, [each.key for each in cautions(slot, measured_by(slot))])


def unread(found: Interlock, slot: Slot) -> Caution | None:
    """Return the next caution that has to be read before a reading; None if all were."""
    known = {each.key: each for each in cautions(slot, measured_by(slot))}
    left = found.unread(slot, tuple(known))
    return known[left[0]] if left else None


def cautions(slot: Slot, test: Measurement) -> tuple[Caution, ...]:
    """Return the cautions that stand before a reading, in order."""
    return before(slot.stage, family(test))


_ELSEWHERE = (Lock.CIRCUIT, Lock.POLARITY, Lock.LOAD)
"""Locks of one reading, where others may be taken all the same."""


def next_to_take(queue: Queue, found: Interlock, after: int = -1) -> int | None:
    """Return where a person goes after a reading: to what is owed, else to what may be taken.

    Args:
        queue: The readings of a stage.
        found: What may be taken.
        after: Where the person stands; -1 before the first.
    Returns:
        The question that is owed, or the live test that failed, if this stage has it; else the next
        open reading that isn't locked off; else the next open one; None if there is none.
    """
    owed = queue.index(found.earth.slot) if found.earth is not None else None
    if owed is not None:
        return owed
    failed = [each for each in found.failures if each.everywhere]
    wrong = queue.index(failed[0].slot) if failed and found.locked is None else None
    if wrong is not None:
        return wrong
    count = len(queue.entries)
    order: tuple[int, ...] = (*range(after + 1, count), *range(after + 1))
    for at in order:
        if at < count and queue.entries[at].is_open:
            stop = refusal(found, queue.entries[at].slot)
            if stop is None or stop.lock not in _ELSEWHERE:
                return at
    left: int | None = queue.next_open(after)
    return left


def check(session: Session, slot: Slot, taken: Taken, person: str | None, now: datetime) -> None:
    """Refuse what may not be entered now.

    Raises:
        NotNow: If it may not.
    """
    found = refusal(interlock(session, person, now), slot, taken)
    if found is not None:
        raise NotNow(found)


def check_next(
    session: Session, grown: Record, made: Reading, person: str | None, now: datetime
) -> None:
    """Refuse a reading that may not be entered after others that are not on disk yet.

    Args:
        session: The opened record.
        grown: The record with those others.
        made: The reading.
        person: Id of who takes it.
        now: The present moment.
    Raises:
        NotNow: If it may not.
    """
    whole, verdicts = session.counted
    if grown is not session.record:
        whole = all_counted(grown)
        from records.judgement.review import review  # all rules; the bench stands before

        verdicts = review(whole, session.expected).verdicts
    found = refusal(Interlock(whole, verdicts, person, now), made.slot, made.taken)
    if found is not None:
        raise NotNow(found)


def answered(found: Interlock, exceptions: Sequence[LiveException] = ()) -> LiveGate:
    """Return the answer that a person gives to the question before the live tests.

    Args:
        found: What may be taken.
        exceptions: Circuits that are tested live in spite of their dead tests.
    Raises:
        NotNow: If nothing may go live, whatever is answered.
    """
    stop = found.stops_live
    if stop is not None:
        raise NotNow(stop)
    excepted = {each.circuit for each in exceptions}
    return LiveGate(
        at=found.now,
        by=found.person,
        isolation_understood=True,
        may_go_live=found.dead.may_go_live,
        locked_off=tuple(
            circuit_words(found.record, id, tests)
            for id, tests in found.dead.circuits.items()
            if tests and id not in excepted
        ),
        exceptions=tuple(exceptions),
    )
