"""The paragraphs of a document as they are said on its pages, each with its place.

What word processors change when they save is left out: runs split or joined, kinds of blanks,
empty paragraphs, page numbers. What can't be seen on the page isn't said: hidden, struck, white or
tiny text, deleted text, a drawing's stand-in for older programs.
"""

from __future__ import annotations

import hashlib
import re
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import IO

from records.document.edges import Edge, edges
from records.document.hidden_text import Styles, W
from records.document.story import OWN_END, OWN_START, Paragraph, Story
from records.document.xml_reader import Reader

__all__ = ["Pages", "Paragraph", "pages"]

_ASIDE = re.compile(r"word/(?:footnotes|endnotes|comments)\d*\.xml")
_BODY, _STYLES = "word/document.xml", "word/styles.xml"
_RELATIONS, _SETTINGS = "word/_rels/document.xml.rels", "word/settings.xml"
_ABOUT = "docProps/core.xml"


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
    drawn: str = ""
    """Digest of form and place of what is drawn."""
    alternatives: frozenset[str] = frozenset()
    """What pictures are said to show."""
    about: tuple[Paragraph, ...] = ()
    """Title and subject."""
    edges: tuple[tuple[Edge, frozenset[str]], ...] = ()
    """Each head and foot that is printed, with what it says."""


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
        printed = [*_edges(reader, names, body)]
        margins = {
            each: _story(reader, each, styles)
            for each in dict.fromkeys(edge.target for edge in printed)
            if each in names
        }
        aside = [_story(reader, each, styles) for each in names if _ASIDE.fullmatch(each)]
        about = [*_about(reader)] if _ABOUT in names else []
    once = {each.text: each for story in margins.values() for each in story.paragraphs}
    stories = [body, *margins.values(), *aside]
    drawn = hashlib.sha256("\n".join(line for each in stories for line in each.drawn).encode())
    return Pages(
        tuple(body.paragraphs),
        tuple(replace(each, place="head or foot of the pages") for each in once.values()),
        tuple(
            replace(each, place="note or comment") for story in aside for each in story.paragraphs
        ),
        sum(each.drawings for each in stories),
        drawn.hexdigest(),
        frozenset().union(*(each.alternatives for each in stories)),
        tuple(about),
        tuple((each, _said(margins.get(each.target))) for each in printed),
    )


def _said(story: Story | None) -> frozenset[str]:
    return frozenset(each.plain for each in story.paragraphs) if story else frozenset()


def _edges(reader: Reader, names: Sequence[str], body: Story) -> Iterator[Edge]:
    targets: dict[str, str] = {}
    even: list[bool] = []

    def relation(_: str, given: dict[str, str]) -> None:
        targets[given.get("Id", "")] = given.get("Target", "").removeprefix("/word/")

    def setting(name: str, given: dict[str, str]) -> None:
        if name == f"{W} evenAndOddHeaders":
            even.append(given.get(f"{W} val", "1") not in ("0", "false", "off"))

    if _RELATIONS in names:
        reader.read(_RELATIONS, relation, _nothing, _nothing)
    if _SETTINGS in names:
        reader.read(_SETTINGS, setting, _nothing, _nothing)
    yield from edges(body.sections, targets, even=any(even))


def _about(reader: Reader) -> Iterator[Paragraph]:
    found: dict[str, str] = {}
    inside: list[str] = []

    def start(name: str, _: dict[str, str]) -> None:
        inside.append(name.rpartition(" ")[2])

    def text(data: str) -> None:
        if inside and inside[-1] in ("title", "subject"):
            found[inside[-1]] = found.get(inside[-1], "") + data

    def end(_: str) -> None:
        inside.pop()

    reader.read(_ABOUT, start, end, text)
    for name in ("title", "subject"):
        yield Paragraph(" ".join(found.get(name, "").split()), f"{name} of the document")


def _nothing(_: str) -> None:
    """Take no notice."""


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
