"""JSON as strangers write it, read with its limits: no endless numbers, nothing piled up.

`1e999` and NaN are no JSON that a record can hold (RFC 8259, section 6), yet Python's reader takes
them. Lists and groups are counted before anything looks at what they hold: a check of the model
keeps a note of each fault, and a million of them fill any memory.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from math import isinf
from typing import Any

from records.model.kinds import MOST_IN_LIST

MOST_VALUES = 2_000_000
"""Values in a record; one with all the readings it may have stays under this."""
_DEEPEST = 20
_MOST_FIELDS = 60
_MOST_DIGITS = 20

Path = tuple[str | int, ...]


class Unfit(ValueError):
    """A JSON text holds what no record can hold; the message says what, without where."""

    def __init__(self, message: str, path: Path = ()) -> None:
        super().__init__(message)
        self.path = path
        """Where it stands."""


class _Bad:
    """Stands in the place of a number that is none."""


def parsed(text: str, pairs: Callable[[list[tuple[str, Any]]], Any] | None = None) -> Any:
    """Return what a JSON text says.

    Args:
        text: The text.
        pairs: What makes a group of its names and values; None: a dictionary.
    Raises:
        Unfit: If it holds NaN, infinity or a number beyond any reading; or too many values.
        ValueError: If it is no JSON.
        RecursionError: If it is nested too deep.
    """
    if text.count(",") > MOST_VALUES:
        raise Unfit(f"This holds more than {MOST_VALUES:,} values: too many for a record.")
    found: list[str] = []

    def bad(word: str) -> Any:
        found.append(word)
        return _Bad()

    def number(digits: str) -> Any:
        value = float(digits)
        return bad(digits) if isinf(value) else value

    def whole(digits: str) -> Any:
        return bad(digits) if len(digits) > _MOST_DIGITS else int(digits)

    doc = json.loads(
        text, object_pairs_hook=pairs, parse_constant=bad, parse_float=number, parse_int=whole
    )
    if found:
        word = found[0]
        if word.lstrip("-")[:1].isdigit():
            what = f"The number {word[:40]} is too large for any reading."
        else:
            what = f"{word} is no value that a record can hold; leave the field empty (null)."
        raise Unfit(what, _place_of_bad(doc))
    return doc


def check_shape(doc: dict[str, Any], limits: Mapping[tuple[str, ...], int]) -> int:
    """Refuse a record as JSON that is nested deeper or piled up higher than any record.

    Args:
        doc: The record.
        limits: How many entries its lists may have, by the names that lead to them.
    Returns:
        How many values it has.
    Raises:
        Unfit: With the place.
    """
    left = MOST_VALUES
    rest: list[tuple[Any, Path]] = [(doc, ())]
    while rest:
        value, path = rest.pop()
        left -= 1
        if left < 0:
            raise Unfit(f"This holds more than {MOST_VALUES:,} values: too many for a record.")
        if type(value) is dict:
            if len(value) > _MOST_FIELDS:
                raise Unfit(f"this has {len(value):,} fields; no group has that many.", path)
            rest += [(each, (*path, name)) for name, each in value.items()]
        elif type(value) is list:
            names = tuple(each for each in path if isinstance(each, str))
            most = limits.get(names, MOST_IN_LIST)
            if len(value) > most:
                raise Unfit(f"this has too many entries; {most:,} is the most.", path)
            rest += [(each, (*path, at)) for at, each in enumerate(value)]
        else:
            continue
        if len(path) > _DEEPEST:
            raise Unfit("This JSON is nested too deep to be a record.")
    return MOST_VALUES - left


def words(path: Sequence[str | int]) -> str:
    """Return a place as a JSON Pointer (RFC 6901) that is short enough to read."""
    text = "".join(f"/{part}" for part in path)
    return text if len(text) <= 100 else f"{text[:99]}…"


def _place_of_bad(doc: Any) -> Path:
    rest: list[tuple[Any, Path]] = [(doc, ())]
    while rest:
        value, path = rest.pop()
        if isinstance(value, _Bad):
            return path
        if isinstance(value, dict):
            rest += [(each, (*path, name)) for name, each in reversed(value.items())]
        elif isinstance(value, list):
            rest += [(each, (*path, at)) for at, each in reversed(list(enumerate(value)))]
    return ()
