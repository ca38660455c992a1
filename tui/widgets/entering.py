"""What is typed into a field: understood, echoed, or refused with a sentence."""

from __future__ import annotations

from datetime import date

from records.days import day_words, read_day
from records.errors import BadQuantity, FarboardError
from records.terms import Sign
from records.text import checked_text
from records.typed import read_typed
from records.units import Unit
from tui.widgets.rows import Field, Kind, Option


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
        return read_day(text.strip())
    if field.kind is Kind.COUNT:
        return _count(text)
    return read_typed(text, field.unit).value


def echo(field: Field, text: str) -> str:
    """Return how the text typed so far is understood, in full; the unit while there is none."""
    if field.kind in (Kind.TEXT, Kind.CHOICE, Kind.YES_NO):
        return ""
    if not text.strip():
        return "like 5/3/26" if field.kind is Kind.DATE else field.unit.value
    try:
        value = read_field(field, text)
    except FarboardError:
        return "…"
    if isinstance(value, date):
        return f"= {day_words(value)}"
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


def _count(text: str) -> int:
    typed = read_typed(text, Unit.NUMBER)
    if typed.sign is not Sign.EQUAL or not typed.value.is_integer():
        raise BadQuantity(f"“{text.strip()[:40]}” is not a whole number: type one like 2.")
    return int(typed.value)
