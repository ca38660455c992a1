"""Where in a template a name or some words stand: a mistake in it is answered with its place."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator

from records.document.paragraphs import pages
from records.document.story import Paragraph

_TAG = re.compile(r"\{[{%].*?[%}]\}")
_MOST = 3
_LONGEST = 80


def place_of_name(template: bytes, name: str) -> str:
    """Return where a template's tags use a name, as ` (under “Heading”, in “text”)`; or nothing."""
    word = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)")
    return _said(
        each
        for each in _paragraphs(template)
        if any(word.search(tag) for tag in _TAG.findall(each.plain))
    )


def place_of_words(template: bytes, words: str) -> str:
    """Return where some words stand in a template, in the same way; or nothing."""
    sought = " ".join(words.split())
    return _said(each for each in _paragraphs(template) if sought and sought in each.plain)


def _paragraphs(template: bytes) -> Iterator[Paragraph]:
    try:
        found = pages(io.BytesIO(template))
    except Exception:  # the template is being refused already; its place is more than is owed
        return
    yield from found.body
    yield from found.margins


def _said(found: Iterator[Paragraph]) -> str:
    spots = [_spot(each) for _, each in zip(range(_MOST), found, strict=False)]
    return f" ({'; '.join(spots)})" if spots else ""


def _spot(it: Paragraph) -> str:
    text = it.plain if len(it.plain) <= _LONGEST else f"{it.plain[: _LONGEST - 1]}…"
    place = _TAG.sub("", it.place).strip(" ·")
    under = f"under “{place[:_LONGEST]}”, " if place and place != it.plain else ""
    return f"{under}in “{text}”"
