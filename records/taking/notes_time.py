"""When a reading was taken that is entered later, from notes."""

from __future__ import annotations

from datetime import datetime

from records.days import moment_words, read_moment
from records.errors import BadQuantity
from records.session import Session
from records.taking.act_names import ActNames
from records.taking.outcome import Outcome
from records.text import checked_text


def read_when(text: str, now: datetime) -> datetime:
    """Return the moment in `text`: `14:30` is the latest such time, `20 Nov 14:30` of that day.

    Args:
        text: As typed.
        now: The present moment with its time zone; the result has the same zone.
    Raises:
        BadQuantity: If it is no time, or lies in the future; the message says what would be right.
    """
    when = read_moment(text, now).replace(tzinfo=now.tzinfo)
    if when > now:
        raise BadQuantity(
            f"{moment_words(when)} is still to come. Type when the readings were taken."
        )
    return when


def begin_notes(session: Session, text: str, now: datetime, names: ActNames) -> Outcome:
    """Enter readings from notes of a time from here on, at every stage.

    Raises:
        BadQuantity: If it is no time, or is still to come.
    """
    session.notes_of = read_when(checked_text(text), now)
    return Outcome(
        f"From notes of {moment_words(session.notes_of)}. Both times go on record: when it was "
        f"taken, and when it was entered. {names.now} ends it.",
        "good",
    )


def end_notes(session: Session) -> Outcome:
    """Take readings now again."""
    session.notes_of = None
    return Outcome("Readings count as taken now again.")
