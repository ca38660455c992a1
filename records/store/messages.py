"""What is wrong with a record and what would be right, in plain sentences."""

from __future__ import annotations

from typing import Any

import annotated_types as rules
from pydantic import ValidationError
from pydantic.fields import FieldInfo

from records.model.field_types import kinds_of, rules_of
from records.model.kinds import In
from records.store.pointer_words import Spot, spot
from records.store.showing import shown
from records.terms import Word

_FAULTS = 3
"""Faults told one by one; more are counted."""

_WANTED = {
    "float": "a number",
    "finite": "a number",
    "int": "a whole number",
    "bool": "true or false",
    "string": "text",
    "date": "a day, like 2026-03-20",
    "datetime": "a day and time with its zone, like 2026-03-20T14:05:00Z",
    "timezone": "a day and time with its zone, like 2026-03-20T14:05:00Z",
    "tuple": "a list",
    "list": "a list",
    "model": "a group of fields",
    "dict": "a group of fields",
    "enum": "one of",
    "literal": "",
}


def explained(error: ValidationError, doc: Any = None, below: tuple[str | int, ...] = ()) -> str:
    """Return what a validation found, one sentence for each of the first few faults.

    Args:
        error: What pydantic raised on a record.
        doc: The record as JSON, so that entries are called by their id.
        below: Where in the record what was validated stands; empty: all of it was.
    """
    faults = error.errors(include_url=False)
    said = [_sentence(spot((*below, *fault["loc"]), doc), fault) for fault in faults[:_FAULTS]]
    more = len(faults) - _FAULTS
    return " ".join(said) + (f" (And {more} more.)" if more > 0 else "")


def _sentence(where: Spot, fault: Any) -> str:
    kind, given, context = fault["type"], fault["input"], fault.get("ctx", {})
    if kind in ("value_error", "assertion_error"):
        said = str(context.get("error", fault["msg"]))
        return f"{where}: {said}" if where.words else said
    return f"{where}: {_fault(where, kind, given, context)}"


def _fault(where: Spot, kind: str, given: Any, context: dict[str, Any]) -> str:
    unit, least, most = _bounds(where.field)
    value = f"{given:,.10g}" if isinstance(given, float) else shown(given)
    if kind in ("greater_than", "greater_than_equal", "less_than", "less_than_equal"):
        reach = " and ".join(filter(None, (least, most)))
        return f"{value}{unit} is not possible; it must be {reach}{unit}."
    if kind == "missing":
        return "this is missing."
    if kind == "extra_forbidden":
        return "a record has no such field."
    if kind == "literal_error" and where.name == "format":
        return f"format {value} is not known to this Farboard; it reads formats 1 to 3."
    if kind == "string_pattern_mismatch":
        return f"“{value}” is no id; an id is a capital letter and up to 5 digits, like C2."
    if kind.startswith("union_tag"):
        return f"kind must be one of {context.get('expected_tags', 'those that are known')}."
    if kind in ("too_short", "string_too_short"):
        return f"“{value}” is too short; give at least {context['min_length']} characters."
    if kind in ("too_long", "string_too_long"):
        return f"this has too many entries; {context['max_length']} is the most."
    wanted = _WANTED.get(kind.partition("_")[0], "something else")
    if kind == "enum":
        wanted = f"one of: {'; '.join(_choices(where.field)) or context['expected']}"
    in_unit = f" in{unit}" if unit and wanted == "a number" else ""
    return f"{_quoted(given, value)} is not possible; it must be {wanted}{in_unit}."


def _quoted(given: Any, value: str) -> str:
    return f"“{value}”" if isinstance(given, str) else value


def _bounds(field: FieldInfo | None) -> tuple[str, str, str]:
    unit = least = most = ""
    for rule in rules_of(field):
        match rule:
            case In():
                unit = f" {rule.unit.value}"
            case rules.Gt():
                least = f"more than {rule.gt:,.10g}"
            case rules.Ge():
                least = f"at least {rule.ge:,.10g}"
            case rules.Lt():
                most = f"less than {rule.lt:,.10g}"
            case rules.Le():
                most = f"at most {rule.le:,.10g}"
    return unit, least, most


def _choices(field: FieldInfo | None) -> list[str]:
    return [choice.code for kind in kinds_of(field) if issubclass(kind, Word) for choice in kind]
