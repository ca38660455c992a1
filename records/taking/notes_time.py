"""When a reading was taken that is entered later, from notes."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

from records.errors import BadQuantity

_WHEN = re.compile(r"(?:(\d{4})-(\d{1,2})-(\d{1,2})[ T]+)?(\d{1,2})[:.h](\d{2})")


def read_when(text: str, now: datetime) -> datetime:
    """Return the moment in `text`: `14:30` is the latest such time, `2026-03-20 14:30` a day.

    Args:
        text: As typed.
        now: The present moment with its time zone; the result has the same zone.
    Raises:
        BadQuantity: If it is no time, or lies in the future; the message says what would be right.
    """
    plain = text.strip()
    example = "type a time such as 14:30, or a day and time such as 2026-03-20 14:30"
    match = _WHEN.fullmatch(plain)
    if match is None:
        raise BadQuantity(f"“{plain[:40]}” is no time: {example}.")
    year, month, day, hour, minute = (int(each) if each else None for each in match.groups())
    try:
        when = now.replace(
            year=year or now.year,
            month=month or now.month,
            day=day or now.day,
            hour=hour or 0,
            minute=minute or 0,
            second=0,
            microsecond=0,
        )
    except ValueError:
        raise BadQuantity(f"“{plain[:40]}” is not in the calendar: {example}.") from None
    if when > now and year is None:
        when -= timedelta(days=1)  # ten at night, noted, entered after midnight
    if when > now:
        raise BadQuantity(f"{when:%Y-%m-%d %H:%M} is still to come: {example}.")
    return when
