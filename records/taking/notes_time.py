"""When a reading was taken that is entered later, from notes."""

from __future__ import annotations

from datetime import datetime

from records.days import moment_words, read_moment
from records.errors import BadQuantity


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
