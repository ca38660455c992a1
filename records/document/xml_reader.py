"""Reads the XML in a document that a stranger made: piece by piece, and never without end.

No tree is built, so that memory doesn't grow with what a part unpacks to; what it unpacks to, how
deep it is nested and how many elements it has are bounded. A document type, by which a few lines
could grow into billions, is refused in whatever encoding it stands.
"""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from xml.parsers import expat

MOST_BYTES = 64 * 1024**2
"""Of all parts together; those of a schedule with hundreds of readings have a tenth of it."""
_MOST_ELEMENTS = 1_000_000
_DEEPEST = 400
_PIECE = 64 * 1024
_PLAIN = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
"""How word processors pack; other ways may ask for any amount of memory."""


class Reader:
    """Reads parts of an archive; the bounds are for all of them together."""

    def __init__(self, archive: zipfile.ZipFile) -> None:
        self._archive = archive
        self._bytes = self._elements = self._depth = 0

    def read(
        self,
        part: str,
        start: Callable[[str, dict[str, str]], None],
        end: Callable[[str], None],
        text: Callable[[str], None],
    ) -> None:
        """Read a part.

        Args:
            part: Its name.
            start: Called for each element with its name, after its namespace and a blank, and its
                attributes.
            end: Called at the end of each.
            text: Called with what stands between.
        Raises:
            ValueError: If it is no document of a word processor, or larger than any schedule.
            expat.ExpatError: If it is no XML.
        """
        parser = expat.ParserCreate(namespace_separator=" ")
        self._depth = 0

        def started(name: str, attributes: dict[str, str]) -> None:
            self._elements += 1
            self._depth += 1
            if self._elements > _MOST_ELEMENTS or self._depth > _DEEPEST:
                raise ValueError("more elements, or nested deeper, than any schedule")
            start(name, attributes)

        def ended(name: str) -> None:
            self._depth -= 1
            end(name)

        def refused(*_: object) -> None:
            raise ValueError("a document type, which no word processor writes")

        parser.StartElementHandler = started
        parser.EndElementHandler = ended
        parser.CharacterDataHandler = text
        parser.StartDoctypeDeclHandler = refused
        entry = self._archive.getinfo(part)
        if entry.compress_type not in _PLAIN:
            raise ValueError("packed in a way that no word processor uses")
        with self._archive.open(entry) as file:
            while piece := file.read(_PIECE):
                self._bytes += len(piece)
                if self._bytes > MOST_BYTES:
                    raise ValueError("larger than any schedule")
                parser.Parse(piece, False)
        parser.Parse(b"", True)
