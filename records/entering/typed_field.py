"""What is typed into a field: understood, echoed, or refused with a sentence."""

from __future__ import annotations

import re
from datetime import date
from typing import TYPE_CHECKING

from records.days import day_words, read_day
from records.entering.field import Field, Kind, Option, Several
from records.errors import BadQuantity, FarboardError
from records.terms import Sign
from records.text import checked_text
from records.typed import read_typed
from records.units import Unit

if TYPE_CHECKING:
    from records.shorthand.line import Scope

_IN_AMPERES = 1000.0
_LEAST = 2
"""Letters from which shorthand is looked for: one alone is the beginning of an answer."""


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
    try:
        if field.kind is Kind.COUNT:
            return _count(text)
        value = read_typed(text, field.unit).value
    except BadQuantity:
        meant = meanings(field, text)
        if len(meant) == 1:
            return meant[0]
        raise
    if field.pointer.endswith("/breaking") and value >= _IN_AMPERES:
        return value / 1000  # the number in the box on the label
    return value


def echo(field: Field, text: str) -> str:
    """Return how the text typed so far is understood, in full; the unit while there is none."""
    if field.say is not None:
        return field.say(text)
    if field.kind in (Kind.TEXT, Kind.CHOICE, Kind.YES_NO):
        return ""
    if not text.strip():
        return "like 5 Mar" if field.kind is Kind.DATE else field.unit.value
    try:
        value = read_field(field, text)
    except FarboardError:
        return "…"
    if isinstance(value, Several):
        return f"= {value.words}"
    if isinstance(value, date):
        return f"= {day_words(value)}"
    if isinstance(value, float):
        return f"= {value:.12g} {field.unit.value}".rstrip()
    return f"= {value}"


def offered(field: Field, typed: str) -> tuple[Option, ...]:
    """Return the answers of a choice that fit what is typed, those that begin with it first.

    Shorthand of the trade counts, and may answer more than its own field: `C16 rcbo`.
    """
    short = _short_options(field, typed)
    words = typed.casefold().split()
    # From the beginning of a word on: a 0 or an e found anywhere would pick what nobody meant.
    begins = [re.compile(rf"(?<![^\W_]){re.escape(word)}") for word in words]
    fit = [
        each
        for each in field.options
        if all(word.search(f"{each.label} {each.note}".casefold()) for word in begins)
    ]
    start = typed.casefold().strip()

    def far(label: str) -> tuple[bool, bool]:
        # The whole answer before its beginnings: “A” is type A, not AC.
        return label != start, not label.startswith(start)

    fit.sort(key=lambda each: far(each.label.casefold()))
    if not fit:
        bare = _letters(typed)
        fit = [each for each in field.options if bare and _letters(each.label).startswith(bare)]
    known = [each.value for each in short]
    return (*short, *(each for each in fit if each.value not in known))


def meanings(field: Field, typed: str) -> tuple[Several, ...]:
    """Return what shorthand can mean in a field: one if it is clear, several if it must be asked.

    None if a word of it is not understood, or it doesn't say what the field asks for.
    """
    from records.shorthand.line import all_meanings  # needed only once something is typed
    from records.shorthand.slot_words import echo_of

    scope, slot = _scope(field.pointer)
    if scope is None or len(typed.strip()) < _LEAST:
        return ()
    return tuple(
        Several(line.values, line.implied, echo_of(line.values))
        for line in all_meanings(typed, scope)
        if slot in line.values
    )


def _short_options(field: Field, typed: str) -> tuple[Option, ...]:
    found: list[Option] = []
    slot = _scope(field.pointer)[1]
    own = {each.value: each for each in field.options}
    for each in meanings(field, typed):
        value = each.values[slot]
        more = each.values.keys() - each.implied - {slot, "family", "curve"}
        found.append(Option(each.words, each) if more or value not in own else own[value])
    return tuple(found)


def _scope(pointer: str) -> tuple[Scope | None, str]:
    """Return what a field is about for shorthand, and the slot that it fills."""
    from records.shorthand.line import Scope
    from records.shorthand.vocabulary import FIELD_SLOTS

    *_, owner, name = ("", *pointer.split("/"))
    if owner in ("device", "rcd"):
        return Scope.DEVICE, FIELD_SLOTS.get(f"{owner}/{name}", name)
    if "/runs/" in pointer:
        return Scope.RUN, name
    if pointer.startswith("/circuits/") and name in ("use", "form", "fuse"):
        return Scope.CIRCUIT, name
    return None, name


def _letters(text: str) -> str:
    return "".join(each for each in text.casefold() if each.isalnum())


def _count(text: str) -> int:
    typed = read_typed(text, Unit.NUMBER)
    if typed.sign is not Sign.EQUAL or not typed.value.is_integer():
        raise BadQuantity(f"“{text.strip()[:40]}” is not a whole number: type one like 2.")
    return int(typed.value)
