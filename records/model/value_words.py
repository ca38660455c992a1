"""A value of a field in the words of a person: with its unit, a choice by its words."""

from __future__ import annotations

from contextlib import suppress
from datetime import date
from typing import Any

from pydantic.fields import FieldInfo

from records.days import day_words
from records.model.field_types import kinds_of, rules_of
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
