"""The fingerprint in a document: put where programs look, and read back from all its pages.

Beside what is printed on the pages, it stands in a custom property of the file, which a word
processor keeps when it saves the document again.
"""

from __future__ import annotations

import re
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from records.document.foreign import foreign
from records.document.making import Making, making
from records.document.properties import PART, properties_in, put_properties
from records.document.xml_reader import Reader
from records.errors import CannotOpen

_NAME = "Farboard fingerprint"
_MARK = re.compile(r"(?<![0-9A-Z-])[0-9A-F]{4}(?:-[0-9A-F]{4}){3}(?![0-9A-Z-])")
_W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_MARGIN = re.compile(r"word/(?:header|footer)\d*\.xml")
_MOST_MARGINS = 200


@dataclass(frozen=True, slots=True)
class Marks:
    """The fingerprints that a document carries."""

    inside: str | None
    """In the file's properties."""
    margins: tuple[str, ...]
    """At the head or foot of pages, each once."""
    body: tuple[str, ...]
    """Elsewhere on the pages, each once; a serial number may look the same."""
    making: Making | None = None
    """What the document says of its own making."""

    @property
    def all(self) -> tuple[str, ...]:
        """Those that say which record this is from, each once: more than one is a bad sign."""
        sure = (*((self.inside,) if self.inside else ()), *self.margins)
        return tuple(dict.fromkeys(sure or self.body))


def put_mark(document: Any, fingerprint: str) -> None:
    """Put the fingerprint into the properties of a document; one already there is replaced.

    Args:
        document: As python-docx has it open.
        fingerprint: In readable groups; anything else is no fingerprint and is left out.
    """
    if _MARK.fullmatch(fingerprint):
        put_properties(document, {_NAME: fingerprint})


def marks_in(path: Path) -> Marks:
    """Return the fingerprints in a document; it is not written to.

    Raises:
        CannotOpen: If it can't be read as a .docx document.
    """
    with foreign(path) as file, zipfile.ZipFile(file) as archive:
        names = archive.namelist()
        if "word/document.xml" not in names:
            raise CannotOpen(f"“{path.name}” is a zip archive, but no .docx document.")
        margins = [name for name in names if _MARGIN.fullmatch(name)]
        if len(margins) > _MOST_MARGINS:
            raise CannotOpen(f"“{path.name}” has too many headers and footers for a schedule.")
        reader = Reader(archive)
        found = [each for name in margins for each in _printed(reader, name)]
        body = _printed(reader, "word/document.xml")
        properties = properties_in(reader) if PART in names else {}
        inside = _MARK.search(properties.get(_NAME, ""))
        return Marks(
            inside.group() if inside else None,
            tuple(dict.fromkeys(found)),
            tuple(dict.fromkeys(body)),
            making(properties),
        )


def _printed(reader: Reader, part: str) -> list[str]:
    """Return the fingerprints in a part of the pages, each as it stands in one paragraph."""
    open_paragraphs: list[list[str]] = []
    found: list[str] = []
    inside = False

    def start(name: str, _: dict[str, str]) -> None:
        nonlocal inside
        inside = name == f"{_W} t"
        if name == f"{_W} p":
            open_paragraphs.append([])

    def end(name: str) -> None:
        nonlocal inside
        inside = False
        if name == f"{_W} p":
            found.extend(_MARK.findall("".join(open_paragraphs.pop())))

    def text(data: str) -> None:
        if inside and open_paragraphs:
            open_paragraphs[-1].append(data)

    reader.read(part, start, end, text)
    return found
