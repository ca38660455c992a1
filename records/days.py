"""Days as people type them: read where they can mean one day only, spelled out where two."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import date

from records.errors import BadQuantity

_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_GAP = r"(?:\s*[-/.,]\s*|\s+)"
_YEAR_FIRST = rf"(\d{{4}}){_GAP}(\d{{1,2}}){_GAP}(\d{{1,2}})"
_YEAR_LAST = rf"(\d{{1,2}}){_GAP}(\d{{1,2}}){_GAP}(\d{{4}})"
_DAY_NAMED = rf"(\d{{1,2}})(?:st|nd|rd|th)?{_GAP}([a-z]+)\.?{_GAP}(\d{{4}})"
_NAME_FIRST = rf"([a-z]+)\.?{_GAP}(\d{{1,2}})(?:st|nd|rd|th)?{_GAP}(\d{{4}})"
_SHORT_YEAR = rf"\d{{1,2}}{_GAP}(?:\d{{1,2}}|[a-z]+){_GAP}\d{{2}}"
"""Made ready when a day is typed: to do it at once held the first screen up."""


def read_day(text: str) -> date:
    """Return the day that a text means.

    Raises:
        BadQuantity: If it is no day, or could be two; the message says what would be right.
    """
    found = _days(text.casefold())
    if len(found) == 1:
        return found[0]
    if found:
        said = " or ".join(spelled(each) for each in found)
        right = " or ".join(each.isoformat() for each in found)
        raise BadQuantity(f"“{text[:40]}” could be {said}: type {right}.")
    if re.fullmatch(_SHORT_YEAR, text.casefold(), re.ASCII):
        raise BadQuantity(f"“{text[:40]}”: type the year with four digits, like 2026-03-20.")
    raise BadQuantity(f"“{text[:40]}” is not a day: type year, month and day, like 2026-03-20.")


def _days(text: str) -> tuple[date, ...]:
    """Return every day that a text could mean: in some countries the month stands first."""
    orders: list[tuple[str, int, str]] = []
    if match := re.fullmatch(_YEAR_FIRST, text, re.ASCII):
        orders.append((match[1], int(match[2]), match[3]))
    elif match := re.fullmatch(_YEAR_LAST, text, re.ASCII):
        orders += [(match[3], int(match[2]), match[1]), (match[3], int(match[1]), match[2])]
    elif match := re.fullmatch(_DAY_NAMED, text, re.ASCII):
        orders.append((match[3], _month(match[2]), match[1]))
    elif match := re.fullmatch(_NAME_FIRST, text, re.ASCII):
        orders.append((match[3], _month(match[1]), match[2]))
    found = dict[date, None]()
    for year, month, day in orders:
        with suppress(ValueError):  # no such day
            found[date(int(year), month, int(day))] = None
    return tuple(found)


def _month(name: str) -> int:
    """Return the number of a month by its name or the first three letters of it; 0 for none."""
    if name == "sept":
        return 9
    return next((at for at, each in enumerate(_MONTHS, start=1) if name in (each, each[:3])), 0)


def spelled(day: date) -> str:
    """Return a day in full, such as `5 March 2026`."""
    return f"{day.day} {_MONTHS[day.month - 1].capitalize()} {day.year}"
