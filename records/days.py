"""Days and times as people type them, day first, and as they are shown."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import date, datetime, time, timedelta

from records.errors import BadQuantity
from records.habits import HABITS, DayOrder

_MONTHS = tuple(
    "january february march april may june july august september october november december".split()
)
_RIGHT = {
    DayOrder.DAY_FIRST: "Type day, month and year, like 5/3/26 or 5 Mar 2026.",
    DayOrder.MONTH_FIRST: "Type month, day and year, like 3/5/26 or Mar 5 2026.",
}
_RIGHT_TIME = "Type a time, like 14:30, or a day and a time, like 5 Mar 14:30."
_CLOCK = (
    r"(?P<hour>\d{1,2})[:.h](?P<minute>\d{2})(?:[:.](?P<second>\d{2})(?:\.\d+)?)?"
    r"\s*(?P<half>am|pm)?"
)
_DAY_THEN_CLOCK = rf"(?P<day>.*?[^\s,])(?:\s*,\s*|\s+|(?<=\d)t){_CLOCK}"
_CLOCK_THEN_DAY = rf"{_CLOCK}(?:\s*,\s*|\s+)(?P<day>\S.*)"
"""Made ready when a time is typed: to do it at once held the first screen up."""
_LATEST_YEAR = 20
"""Years ahead that two digits may stand for: a calibration runs out next year, not in 2080."""


def read_day(text: str, today: date | None = None, order: DayOrder | None = None) -> date:
    """Return the day that a text means: `5/3/26` is 5 March 2026, unless the person has the habit
    of writing the month first, and so is ISO 8601's writing.

    Without a year it is the nearest such day that is not in the future.

    Args:
        text: As typed.
        today: The present day; None: this machine's.
        order: How figures are written; None: as the person is used to, else the other way.
    Raises:
        BadQuantity: If it is no day; the message says what would be right.
    """
    day = _day(text, today or date.today(), order)
    if day is None:
        raise BadQuantity(f"“{text.strip()[:40]}” is not a day. {_RIGHT[HABITS.dates]}")
    return day


def read_moment(text: str, now: datetime, order: DayOrder | None = None) -> datetime:
    """Return the moment that a text means, by the clock on the wall: it has no zone.

    A time alone, such as `14:30`, is the latest such time.

    Args:
        text: As typed: a time, or a day and a time in either order.
        now: The present moment.
        order: As in `read_day`.
    Raises:
        BadQuantity: If it is no time; the message says what would be right.
    """
    plain, wall = text.strip().casefold(), now.replace(tzinfo=None)
    refusal = BadQuantity(f"“{text.strip()[:40]}” is not a day and time. {_RIGHT_TIME}")
    day = ""
    clock = re.fullmatch(_CLOCK, plain, re.ASCII)
    if clock is None and (last := re.fullmatch(_DAY_THEN_CLOCK, plain, re.ASCII)):
        day, clock = last["day"], last
    if clock is None and (first := re.fullmatch(_CLOCK_THEN_DAY, plain, re.ASCII)):
        day, clock = first["day"], first
    if clock is None:
        raise refusal
    hour, minute, second, half = clock.group("hour", "minute", "second", "half")
    at = _clock(hour, minute, second, half)
    found = _day(day, wall.date(), order) if day else wall.date()
    if at is None or found is None:
        raise refusal
    moment = datetime.combine(found, at)
    # Ten at night, noted, entered after midnight.
    return moment if day or moment <= wall else moment - timedelta(days=1)


def read_stamp(text: str, now: datetime) -> datetime:
    """Return the moment that a text means, with its zone: that of this computer if it has none.

    A day alone is its first moment.

    Args:
        text: As typed: as for `read_moment`, a day alone, or as ISO 8601 has it.
        now: The present moment, with its zone.
    Raises:
        BadQuantity: If it is no moment; the message says what would be right.
    """
    found = None
    with suppress(ValueError):
        found = datetime.fromisoformat(text.strip())
    if found is None:
        with suppress(BadQuantity):
            found = read_moment(text, now)
    if found is None:
        found = datetime.combine(read_day(text, now.date()), time())
    try:
        return found if found.tzinfo else found.astimezone()
    except (OverflowError, ValueError, OSError):  # before the clocks of this computer began
        raise BadQuantity(f"“{text.strip()[:40]}” is not a day and time of ours.") from None


def day_words(day: date) -> str:
    """Return a day as it is shown: `5 Mar 2026`."""
    return f"{day.day} {_MONTHS[day.month - 1][:3].capitalize()} {day.year}"


def moment_words(moment: datetime) -> str:
    """Return a day and time as they are shown: `5 Mar 2026 14:05`."""
    return f"{day_words(moment)} {moment:%H:%M}"


def _clock(hour: str, minute: str, second: str | None, half: str | None) -> time | None:
    number = int(hour)
    if half is not None:
        if not 1 <= number <= 12:
            return None
        number = number % 12 + (12 if half == "pm" else 0)
    try:
        return time(number, int(minute), int(second or 0))
    except ValueError:
        return None


def _day(text: str, today: date, order: DayOrder | None) -> date | None:
    plain = text.strip().casefold()
    if plain in ("today", "yesterday"):
        return today - timedelta(days=plain == "yesterday")
    plain = re.sub(r"(?<=\d)(?:st|nd|rd|th)\b", "", plain)
    plain = re.sub(r"(?<=\d)(?=[a-z])|(?<=[a-z])(?=\d)", " ", plain)
    parts = re.split(r"\s*[-/.,]\s*|\s+", plain.removesuffix("."))
    if not all(re.fullmatch(r"\d{1,2}|\d{4}|[a-z]+", each, re.ASCII) for each in parts):
        return None
    if len(parts) == 2:
        return _without_year(parts, today, order)
    if len(parts) != 3:
        return None
    if len(parts[0]) == 4 and parts[0].isdigit():
        return _made(parts[0], parts[1], parts[2])
    year = _year(parts[2], today)
    return _named_or_ordered(parts[:2], year, order) if year else None


def _named_or_ordered(parts: list[str], year: str, order: DayOrder | None) -> date | None:
    """Return the day of two parts: figures in the order said, or in the first that makes one."""
    one, two = parts
    if not one.isdigit() or not two.isdigit():
        return _made(year, one, two) if two.isdigit() else _made(year, two, one)
    pairs = {DayOrder.DAY_FIRST: (two, one), DayOrder.MONTH_FIRST: (one, two)}
    likely = sorted(pairs, key=lambda each: each is not HABITS.dates)
    found = (_made(year, *pairs[each]) for each in likely if order in (None, each))
    return next((each for each in found if each is not None), None)


def _without_year(pair: list[str], today: date, order: DayOrder | None) -> date | None:
    if any(len(each) == 4 and each.isdigit() for each in pair):
        return None
    # Eight years back there was a 29 February, whatever the century.
    for back in range(9):
        day = _named_or_ordered(pair, str(today.year - back), order)
        if day is not None and day <= today:
            return day
    return None


def _year(text: str, today: date) -> str | None:
    if not text.isdigit():
        return None
    if len(text) == 4:
        return text
    year = today.year // 100 * 100 + int(text)
    return str(year - 100 if year > today.year + _LATEST_YEAR else year) if len(text) == 2 else None


def _made(year: str, month: str, day: str) -> date | None:
    number = int(month) if month.isdigit() else _month(month)
    with suppress(ValueError):  # no such day
        return date(int(year), number, int(day)) if day.isdigit() and len(day) < 3 else None
    return None


def _month(name: str) -> int:
    """Return the number of a month by its name or the first three letters of it; 0 for none."""
    if name == "sept":
        return 9
    return next((at for at, each in enumerate(_MONTHS, start=1) if name in (each, each[:3])), 0)
