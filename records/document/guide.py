"""A guide to every name that a template may use, made from what schedules are filled with.

Each line is a comment for the one who edits the template: it is left out when a schedule is filled.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from records.document.ink import is_value, words

_LONGEST = 60
_HOW = (
    "GUIDE. Grey lines like this one are left out when a schedule is written; delete them if you "
    "like.",
    "A name prints where it is between two pairs of curly brackets.",
    "A list is gone through row by row. The first row of the table has the tag “%tr for it in "
    "circuits %” in curly brackets. The last one has “%tr endfor %”. In between it.number prints "
    "the number of each. Paragraphs the same with %p. Copy a table of this template to begin with.",
    "What stands in brackets is an example, from the demo job.",
)


def guide(contexts: Iterable[Mapping[str, Any]]) -> list[str]:
    """Return the guide, line by line: how it is used, then each name with an example.

    Args:
        contexts: What some schedules are filled with: of names that one lacks, another may have.
    """
    found: dict[str, str] = {}
    for each in contexts:
        for name, example in _names(each, ""):
            if not found.get(name):
                found[name] = example
    return [*_HOW, *(f"{name}{f' ({text})' if text else ''}" for name, text in found.items())]


def _names(value: Any, name: str) -> Iterator[tuple[str, str]]:
    if is_value(value):
        yield name, _example(words(value))
    elif isinstance(value, Mapping):
        for each, inside in value.items():
            yield from _names(inside, f"{name}.{each}" if name else each)
    elif isinstance(value, list):
        yield f"{name}, a list", ""
        for each in value:
            yield from _names(each, f"{name} › it")
    else:
        yield name, _example(str(value))


def _example(text: str) -> str:
    plain = " ".join("".join(" " if each in "{}#%" else each for each in text).split())
    return plain if len(plain) <= _LONGEST else f"{plain[: _LONGEST - 1]}…"
