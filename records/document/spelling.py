"""The symbols and words of a schedule that are spelt out at its end: those that occur in it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from records.document.ink import is_value, words
from records.glossary import OURS, TRADE, Term

_OF_THE_SCREEN = {"walk", "rail", "bench"}
"""Words for what stands on the screen: on paper they mean what they mean to everybody."""
_WITH_MARKS = {"within", "outside", "unlikely", "not taken", "finding", "certifier"}
"""Words that part 1 and the meaning of the marks explain already."""
_HEADINGS = "r1 rn r2 R1+R2 Zs RCD Ib In Iz ΔU Ipf L-N L-E feed board origin before covering"
"""What stands in headings of tables, whatever the record."""


def spelt_out(context: Mapping[str, Any]) -> list[dict[str, str]]:
    """Return the terms that occur in what a schedule is filled with, each with its meaning."""
    said = " ".join((_HEADINGS, *_texts(context)))
    return [
        {"term": each.word, "meaning": each.meaning.rstrip(".")}
        for each in TRADE + OURS
        if each.word not in _OF_THE_SCREEN | _WITH_MARKS and _occurs(each, said)
    ]


def _occurs(term: Term, said: str) -> bool:
    names = (each for each in re.split(r", | \(|\)", term.word) if each)
    return any(re.search(rf"(?<![\w+-]){re.escape(each)}(?!\w|\+\w)", said) for each in names)


def _texts(value: Any) -> Iterator[str]:
    if is_value(value):
        yield words(value)
    elif isinstance(value, Mapping):
        for each in value.values():
            yield from _texts(each)
    elif isinstance(value, list):
        for each in value:
            yield from _texts(each)
