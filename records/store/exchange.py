"""A record as plain JSON (RFC 8259), for people and other programs."""

from __future__ import annotations

import json
from collections import Counter
from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from records.errors import BadRecord
from records.model.record import Record
from records.store.showing import shown
from records.store.state import plain, read
from records.store.strict_json import Unfit, parsed, words

LARGEST = 32 * 1024 * 1024
"""Characters; a record with all the readings it may have stays under this."""


def to_json(record: Record) -> str:
    """Return a record as JSON in the order of the model; equal records give equal text."""
    return json.dumps(plain(record), ensure_ascii=False, allow_nan=False, indent=2) + "\n"


def schema() -> str:
    """Return the JSON Schema (draft 2020-12) of what `to_json` gives and `from_json` reads.

    Each number names its unit. What no schema says stands in the messages of `from_json`: ids are
    unique in their list, and a reading belongs to a place that the record has.
    """
    said = Record.model_json_schema()
    about = {
        "$schema": GenerateJsonSchema.schema_dialect,
        "title": "Farboard record",
        "description": "Everything known about one job; no certificate.",
    }
    return json.dumps({**said, **about}, ensure_ascii=False, indent=2, sort_keys=True) + "\n"


def from_json(text: str) -> Record:
    """Return the record that a JSON text says.

    Raises:
        BadRecord: If it is no JSON, too large, nested too deep, names a field twice or holds
            what no record has. The message says what and where.
    """
    if len(text) > LARGEST:
        raise BadRecord(f"This is too large for a record: {len(text):,} of {LARGEST:,} characters.")
    try:
        doc = parsed(text.removeprefix("\ufeff"), _once)
    except json.JSONDecodeError as error:
        raise BadRecord(
            f"This is no JSON: line {error.lineno}, column {error.colno}: {error.msg}."
        ) from None
    except Unfit as error:
        at = f" It is at {shown(words(error.path), 120)}." if error.path else ""
        raise BadRecord(f"{error}{at}") from None
    except RecursionError:
        raise BadRecord("This JSON is nested too deep to be a record.") from None
    if not isinstance(doc, dict):
        raise BadRecord("This JSON is no record: a record is one object with job, origin, feed ….")
    return read(doc)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        count = Counter(name for name, _ in pairs)
        twice = next(name for name, times in count.items() if times > 1)
        raise BadRecord(f"This JSON names “{shown(twice)}” twice in one place; keep one of them.")
    return found
