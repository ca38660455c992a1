"""The paragraphs of a document as they are said on its pages, each with its place.

What word processors change when they save is left out: runs split or joined, kinds of blanks,
empty paragraphs, page numbers. What can't be seen on the page isn't said: hidden, struck, white or
tiny text, deleted text, a drawing's stand-in for older programs.
"""

from __future__ import annotations

import re
import zipfile
from dataclasses import dataclass, replace
from typing import IO

from records.document.story import OWN_END, OWN_START, Paragraph, Story
from records.document.unsaid import Styles, W
from records.document.xml_reader import Reader

__all__ = ["Pages", "Paragraph", "pages"]

_MARGIN = re.compile(r"word/(?:header|footer)\d*\.xml")
_ASIDE = re.compile(r"word/(?:footnotes|endnotes|comments)\d*\.xml")
_BODY, _STYLES = "word/document.xml", "word/styles.xml"


@dataclass(frozen=True, slots=True)
class Pages:
    """What a document says on its pages."""

    body: tuple[Paragraph, ...]
    margins: tuple[Paragraph, ...]
    """At the heads and feet of pages, each text once."""
    aside: tuple[Paragraph, ...]
    """Footnotes, endnotes and comments."""
    drawings: int
    """Drawings and pictures in it."""


def pages(file: IO[bytes]) -> Pages:
    """Return what a document says; it is read piece by piece, with a bound on all it unpacks to.

    Args:
        file: A .docx file, open.
    Raises:
        Exception: Whatever a stranger's file does to zip and XML readers.
    """
    with zipfile.ZipFile(file) as archive:
        names = sorted(archive.namelist())
        reader = Reader(archive)
        styles = _styles(reader) if _STYLES in names else Styles()
        body = _story(reader, _BODY, styles)
        margins = [_story(reader, each, styles) for each in names if _MARGIN.fullmatch(each)]
        aside = [_story(reader, each, styles) for each in names if _ASIDE.fullmatch(each)]
    once = {each.text: each for story in margins for each in story.paragraphs}
    return Pages(
        tuple(body.paragraphs),
        tuple(replace(each, place="head or foot of the pages") for each in once.values()),
        tuple(
            replace(each, place="note or comment") for story in aside for each in story.paragraphs
        ),
        sum(each.drawings for each in (body, *margins, *aside)),
    )


def _story(reader: Reader, part: str, styles: Styles) -> Story:
    story = Story(styles)
    reader.read(part, story.start, story.end, story.text)
    return story


def _styles(reader: Reader) -> Styles:
    styles, inside = Styles(), list[str]()

    def start(name: str, given: dict[str, str]) -> None:
        space, _, local = name.rpartition(" ")
        if space == W:
            styles.start(local, given, inside)
        inside.append(local)

    def end(_: str) -> None:
        inside.pop()

    reader.read(_STYLES, start, end, lambda _: None)
    return styles


def added_in(place: Paragraph, said: Paragraph) -> str | None:
    """Return what was written in a certifier's place; None if the text round it was changed.

    Args:
        place: As the record gives it, with the marks of its bookmarks in its text.
        said: The same place in the document.
    """
    before, _, rest = place.text.partition(OWN_START)
    after = rest.rpartition(OWN_END)[2].strip()
    before, text = before.strip(), said.plain
    whole = len(text) >= len(before) + len(after)
    if not (whole and text.startswith(before) and text.endswith(after)):
        return None
    return text[len(before) : len(text) - len(after)].strip()
