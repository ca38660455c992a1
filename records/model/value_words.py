"""A value of a field in the words of a person: with its unit, a choice by its words."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from typing import Annotated, Any, get_args, get_origin

from pydantic.fields import FieldInfo

from records.days import day_words
from records.model.kinds import In
from records.terms import Word

NOT_SAID = "not said"


def value_words(value: Any, field: FieldInfo | None) -> str:
    """Return what a field holds, in words.

    Args:
        value: As the record or its JSON has it: a choice may be its code, a day its ISO form.
        field: What the model says about it, if it knows it.
    """
    if value is None or value in ("", ()):
        return NOT_SAID
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        unit = next((rule.unit.value for rule in rules_of(field) if isinstance(rule, In)), "")
        return f"{value:.12g} {unit}".strip()
    if isinstance(value, date):
        return day_words(value)
    if not isinstance(value, str):
        return "several fields"
    if date in kinds_of(field):
        with suppress(ValueError):  # a damaged record may say anything
            return day_words(date.fromisoformat(value))
    words = (kind.known().get(value) for kind in kinds_of(field) if issubclass(kind, Word))
    return str(next(filter(None, words), value))


def kinds_of(field: FieldInfo | None) -> Iterator[type[Any]]:
    """Yield the classes that a field's type is, or is one of."""
    if field is not None:
        for kind in (field.annotation, *get_args(field.annotation)):
            inner = get_args(kind)[0] if get_origin(kind) is Annotated else kind
            if isinstance(inner, type):
                yield inner


def rules_of(field: FieldInfo | None) -> Iterator[Any]:
    """Yield what the type of a field says beside its kind: its unit, its bounds."""
    if field is not None:
        yield from field.metadata
        yield from _inner(field.annotation)


def _inner(annotation: Any) -> Iterator[Any]:
    if get_origin(annotation) is Annotated:
        for each in get_args(annotation)[1:]:
            yield from each.metadata if isinstance(each, FieldInfo) else (each,)
    for each in get_args(annotation):
        yield from _inner(each)
