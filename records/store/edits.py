"""Changes to a record, as JSON Patch operations (RFC 6902)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pydantic_core import to_jsonable_python

from records.store.patch import Op
from records.terms import Word


def put(pointer: str, value: Any) -> list[Op]:
    """Return the change that sets what stands at `pointer`, such as `/job/place`.

    Args:
        pointer: A JSON Pointer (RFC 6901) to something that is there.
        value: What JSON has, a date, a time, a term, or a piece of a record.
    """
    return [{"op": "replace", "path": pointer, "value": _json(value)}]


def append(pointer: str, value: Any) -> list[Op]:
    """Return the change that adds `value` at the end of the list at `pointer`."""
    return [{"op": "add", "path": f"{pointer}/-", "value": _json(value)}]


def insert(pointer: str, value: Any) -> list[Op]:
    """Return the change that puts `value` into a list at `pointer`, such as `/circuits/2`; what
    stands there and after it moves on."""
    return [{"op": "add", "path": pointer, "value": to_jsonable_python(value)}]


def swap(entries: str, values: Sequence[Any], one: int, other: int) -> list[Op]:
    """Return the change by which two entries of a list change places.

    Args:
        entries: Pointer of the list, such as `/circuits/0/points`.
        values: What stands in it.
        one: Number of an entry.
        other: Number of the entry that it changes places with.
    """
    turned = list(values)
    turned[one], turned[other] = turned[other], turned[one]
    return put(entries, turned)


def take_out(pointer: str) -> list[Op]:
    """Return the change that takes out the entry at `pointer`, such as `/circuits/2`."""
    return [{"op": "remove", "path": pointer}]


def _json(value: Any) -> Any:
    return value.code if isinstance(value, Word) else to_jsonable_python(value)
