"""Taking the last change back and making it again: what is said of it, and where it was."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.model.certifier import all_counted
from records.model.reading import Slot
from records.model.record import Record
from records.session import Session
from records.taking.outcome import Outcome


@dataclass(frozen=True, slots=True)
class Turned:
    """What came of it."""

    outcome: Outcome
    done: bool
    """Whether anything changed."""
    slot: Slot | None = None
    """Where a person stands after it; None if it changed no reading."""


def undo(session: Session) -> Turned:
    """Take the last change back.

    Raises:
        FarboardError: If it may not be taken back, or that could not be put on disk.
    """
    return _turn(session, session.undo, "Taken back", "There is nothing to take back.")


def redo(session: Session) -> Turned:
    """Make the change again that was taken back.

    Raises:
        FarboardError: If it may not be made again, or that could not be put on disk.
    """
    return _turn(session, session.redo, "Made again", "There is nothing to make again.")


def _turn(session: Session, act: Callable[[], bool], word: str, nothing: str) -> Turned:
    from records.store.difference_words import difference

    before = session.record
    if not act():
        return Turned(Outcome(nothing), False)
    words = f"{word}: {difference(before, session.record)}."
    return Turned(Outcome(words, "good"), True, changed_slot(before, session.record))


def changed_slot(before: Record, after: Record) -> Slot | None:
    """Return where a person stands after an undo or a redo; None if it changed no reading.

    After several readings were taken back: at the first of them, which is to be taken next. After
    several were made again: at the last. Whoever took them.
    """
    one, other = (
        {each.id: each for each in all_counted(record).readings} for record in (before, after)
    )
    gone = sorted(one.keys() - other.keys(), key=_count)
    back = sorted(other.keys() - one.keys(), key=_count)
    if gone:
        return one[gone[0]].slot
    return other[back[-1]].slot if back else None


def _count(id: str) -> int:
    return int(id[1:])
