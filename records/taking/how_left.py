"""How the installation is left after live work: asked, put on record, and said at hand-over."""

from __future__ import annotations

from datetime import datetime

from records.model.certifier import all_counted
from records.model.reading import Figure, Left, Tick
from records.model.record import Record
from records.session import Session
from records.store.edits import append
from records.taking.desk import Desk
from records.terms import Stage
from records.text import NOTE_LENGTH, checked_text

TITLE = "Is it off and locked off now?"
BLOCKS = (
    "It is not for use before the certificate.",
    "Off and locked off means: feed off at the house, locked, a notice on it. Earths and bonds "
    "back and tight, every link out, every cover on.",
    "Whoever comes next relies on this answer. It is in the record and in the schedule.",
)
YES, NO = "off and locked off, all of that", "no, it stays live"
KEY = "Who has the key?"
WHY = "Why does it stay live, and who knows?"
NOT_SAID = "How it was left after the live tests was not said. Take it for live."


def asks(record: Record) -> bool:
    """Return whether something was read live since somebody last said how it was left."""
    live = [
        each.from_notes or each.at
        for each in all_counted(record).readings
        if each.slot.stage is Stage.LIVE and isinstance(each.taken, Figure | Tick)
    ]
    said = max((each.at for each in record.left), default=None)
    return bool(live) and (said is None or max(live) > said)


def left_now(off: bool, words: str, by: str | None, now: datetime) -> Left:
    """Return what goes on record.

    Args:
        off: Whether it is off and locked off.
        words: Who has the key, or why it stays live; may be empty.
        by: Id of who says so.
        now: The moment.
    """
    return Left(at=now, by=by, off=off, words=words)


def leave(session: Session, desk: Desk, *, off: bool, words: str) -> None:
    """Put on record how it is left.

    Args:
        session: The opened record.
        desk: The stage, with who takes its readings.
        off: Whether it is off and locked off.
        words: Who has the key, or why it stays live; may be empty.
    Raises:
        FarboardError: If it could not be put on disk, or can't be printed.
    """
    by = desk.settings.by(session.record, session.person)
    made = left_now(off, checked_text(words, NOTE_LENGTH), by, desk.now())
    session.change(append("/left", made))


def left_words(record: Record) -> str:
    """Return how it stands now, in a sentence; empty if nothing was ever live."""
    if asks(record):
        return NOT_SAID
    if not record.left:
        return ""
    last = max(record.left, key=lambda each: each.at)
    return f"{answer_words(last)} Not for use before the certificate."


def answer_words(left: Left) -> str:
    """Return one answer in a sentence."""
    if left.off:
        key = f" Key: {left.words.rstrip('.')}." if left.words else ""
        return f"Left off and locked off; earths back, links out, covers on.{key}"
    why = f" {left.words.rstrip('.')}." if left.words else " No reason was given."
    return f"LEFT LIVE.{why}"
