"""What is typed into a field: understood, echoed, or refused with a sentence."""

from __future__ import annotations

import re
from contextlib import suppress
from datetime import date

from records.errors import BadQuantity, FarboardError
from records.terms import Sign
from records.text import checked_text
from records.typed import read_typed
from records.units import Unit
from tui.widgets.rows import Field, Kind, Option

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


def read_field(field: Field, text: str) -> object:
    """Return the value that `text` gives a field; an empty text gives what an empty field means.

    Raises:
        BadQuantity: If it is no figure, count or day of the kind asked for.
        BadText: If it has characters that can't be shown or printed.
    """
    if not text.strip():
        return field.default
    if field.kind is Kind.TEXT:
        return checked_text(text)
    if field.kind is Kind.DATE:
        return _day(text.strip())
    if field.kind is Kind.COUNT:
        return _count(text)
    return read_typed(text, field.unit).value


def echo(field: Field, text: str) -> str:
    """Return how the text typed so far is understood, in full; the unit while there is none."""
    if field.kind in (Kind.TEXT, Kind.CHOICE, Kind.YES_NO):
        return ""
    if not text.strip():
        return "as 2026-03-20" if field.kind is Kind.DATE else field.unit.value
    try:
        value = read_field(field, text)
    except FarboardError:
        return "…"
    if isinstance(value, date):
        return f"= {_spelled(value)}"
    if isinstance(value, float):
        return f"= {value:.12g} {field.unit.value}".rstrip()
    return f"= {value}"


def offered(field: Field, typed: str) -> tuple[Option, ...]:
    """Return the answers of a choice that have every word typed, those that begin with it first."""
    words = typed.casefold().split()
    fit = [
        each
        for each in field.options
        if all(word in f"{each.label} {each.note}".casefold() for word in words)
    ]
    start = typed.casefold().strip()

    def far(label: str) -> tuple[bool, bool]:
        # The whole answer before its beginnings: “A” is type A, not AC.
        return label != start, not label.startswith(start)

    return tuple(sorted(fit, key=lambda each: far(each.label.casefold())))


def _day(text: str) -> date:
    found = _days(text.casefold())
    if len(found) == 1:
        return found[0]
    if found:
        said = " or ".join(_spelled(each) for each in found)
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


def _spelled(day: date) -> str:
    return f"{day.day} {_MONTHS[day.month - 1].capitalize()} {day.year}"


def _count(text: str) -> int:
    typed = read_typed(text, Unit.NUMBER)
    if typed.sign is not Sign.EQUAL or not typed.value.is_integer():
        raise BadQuantity(f"“{text.strip()[:40]}” is not a whole number: type one like 2.")
    return int(typed.value)
