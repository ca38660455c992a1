"""When a reading was taken, as spreadsheets write it: they like to turn dates round."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

from records.errors import BadQuantity
from records.store.showing import shown

_TIME = r"[ T]+(\d{1,2})[:.](\d{2})(?:[:.](\d{2})(?:\.\d+)?)?"
_YEAR_FIRST = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})" + _TIME)
_YEAR_LAST = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})" + _TIME)
_RIGHT = "write day and time as 2026-03-20 14:30"


def moments(text: str) -> tuple[datetime, ...]:
    """Return every moment that a text could mean, on this machine's clock; none if it is no time.

    `20/03/2026 14:30` is one moment, `04/03/2026 14:30` two: in some countries the month is first.
    """
    plain = text.strip()
    if first := _YEAR_FIRST.fullmatch(plain):
        year, month, day = first.group(1, 2, 3)
        orders = [(year, month, day)]
        clock = first.group(4, 5, 6)
    elif last := _YEAR_LAST.fullmatch(plain):
        one, two, year = last.group(1, 2, 3)
        orders = [(year, two, one), (year, one, two)]
        clock = last.group(4, 5, 6)
    else:
        return ()
    found = (_moment(*order, *clock) for order in orders)
    return tuple(dict.fromkeys(each for each in found if each is not None))


def one_moment(text: str, now: datetime) -> datetime:
    """Return the moment that a text means.

    Args:
        text: As it stands in the cell.
        now: The present moment; nothing was taken after it.
    Raises:
        BadQuantity: If it is no time, could be two, or is still to come.
    """
    found = moments(text)
    if not found:
        raise BadQuantity(f"“taken at” says “{shown(text)}”, which is no day and time: {_RIGHT}.")
    if len(found) > 1:
        said = " or ".join(f"{each:%d %B}" for each in found)
        raise BadQuantity(f"“taken at” says “{shown(text)}”, which could be {said}: {_RIGHT}.")
    if found[0] > now + timedelta(minutes=1):
        raise BadQuantity(f"“taken at” says “{shown(text)}”, which is still to come: {_RIGHT}.")
    return found[0]


def _moment(
    year: str, month: str, day: str, hour: str, minute: str, second: str | None
) -> datetime | None:
    try:
        return datetime(
            int(year), int(month), int(day), int(hour), int(minute), int(second or 0)
        ).astimezone()
    except (ValueError, OverflowError, OSError):
        return None
