"""Which heads and feet a document prints, and on which of its pages one is missing.

A part that no section asks for is not on paper, and a section may ask for another head on its first
page or on every second one, which may be empty.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_STRICT = "http://purl.oclc.org/ooxml/officeDocument/relationships"
_PARTS = {"headerReference": "head", "footerReference": "foot"}
_PAGES = {"default": "pages", "first": "first page", "even": "even pages"}


@dataclass(slots=True)
class Section:
    """What a section says of its heads and feet."""

    first: bool = False
    """Its first page has a head and a foot of its own."""
    asked: dict[tuple[str, str], str] = field(default_factory=dict)
    """The id of the part, by head or foot and by kind of page."""

    def take(self, local: str, given: dict[str, str]) -> None:
        """Take an element of the section; attributes of its own namespace by their bare names."""
        if local == "titlePg":
            self.first = given.get("val", "1") not in ("0", "false", "off")
        elif local in _PARTS:
            number = given.get(f"{_OFFICE} id", given.get(f"{_STRICT} id", ""))
            self.asked[_PARTS[local], given.get("type", "default")] = number


@dataclass(frozen=True, slots=True)
class Edge:
    """The head or the foot of some pages."""

    part: str
    """head or foot"""
    pages: str
    target: str
    """Name of the part that is printed there; empty: nothing is."""

    @property
    def place(self) -> str:
        """Where it is, in words."""
        return f"{self.part} of the {self.pages}"


def edges(sections: Sequence[Section], targets: dict[str, str], *, even: bool) -> Iterator[Edge]:
    """Yield each head and foot that a document prints; a section goes on with that before it.

    Args:
        sections: In their order.
        targets: The parts by the ids of their relations, as named in them.
        even: Whether even pages have their own.
    """
    known: dict[tuple[str, str], str] = {}
    for section in sections:
        known |= section.asked
        kinds = ["default", *(["first"] if section.first else []), *(["even"] if even else [])]
        for part in _PARTS.values():
            for kind in kinds:
                target = targets.get(known.get((part, kind), ""), "")
                yield Edge(
                    part, _PAGES[kind], posixpath.normpath(f"word/{target}") if target else ""
                )
