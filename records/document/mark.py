"""The fingerprint in a document: put where programs look, and read back from all its pages.

Beside what is printed on the pages, it stands in a custom property of the file (ISO/IEC 29500-1,
section 15.2.12.2, from memory), which a word processor keeps when it saves the document anew.
"""

from __future__ import annotations

import re
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from records.disk import open_ordinary
from records.document.xml_reader import Reader
from records.errors import CannotOpen

_NAME = "Farboard fingerprint"
_MARK = re.compile(r"(?<![0-9A-Z-])[0-9A-F]{4}(?:-[0-9A-F]{4}){3}(?![0-9A-Z-])")
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006"
_PROPERTIES = f"{_OFFICE}/custom-properties"
_TYPES = f"{_OFFICE}/docPropsVTypes"
_RELATION = f"{_OFFICE}/relationships/custom-properties"
_CONTENT = "application/vnd.openxmlformats-officedocument.custom-properties+xml"
_PART = "docProps/custom.xml"
_FORM = "{D5CDD505-2E9C-101B-9397-08002B2CF9AE}"
"""Stands before every custom property of any document (from memory)."""
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
    from docx.opc import oxml
    from docx.opc.packuri import PackURI
    from docx.opc.part import Part

    xml: Any = oxml  # its types say less than it takes
    if not _MARK.fullmatch(fingerprint):
        return
    package = document.part.package
    known = [each.target_part for each in package.rels.values() if each.reltype == _RELATION]
    blank = f'<Properties xmlns="{_PROPERTIES}" xmlns:vt="{_TYPES}"/>'
    held: Any = xml.parse_xml(known[0].blob if known else blank.encode())
    for each in list(held):
        if each.get("name") == _NAME:
            held.remove(each)
    number = max((int(each.get("pid", "1")) for each in held), default=1) + 1
    one = held.makeelement(
        f"{{{_PROPERTIES}}}property", {"fmtid": _FORM, "pid": str(number), "name": _NAME}
    )
    value = one.makeelement(f"{{{_TYPES}}}lpwstr")
    value.text = fingerprint
    one.append(value)
    held.append(one)
    if known:
        known[0]._blob = xml.serialize_part_xml(held)
    else:
        part = Part(PackURI(f"/{_PART}"), _CONTENT, xml.serialize_part_xml(held), package)
        package.relate_to(part, _RELATION)


def marks_in(path: Path) -> Marks:
    """Return the fingerprints in a document; it is not written to.

    Raises:
        CannotOpen: If it is no .docx document that can be read.
    """
    try:
        with open_ordinary(path) as file, zipfile.ZipFile(file) as archive:
            names = archive.namelist()
            if "word/document.xml" not in names:
                raise CannotOpen(f"“{path.name}” is a zip archive, but no .docx document.")
            margins = [name for name in names if _MARGIN.fullmatch(name)]
            if len(margins) > _MOST_MARGINS:
                raise CannotOpen(f"“{path.name}” has too many headers and footers for a schedule.")
            reader = Reader(archive)
            found = [each for name in margins for each in _printed(reader, name)]
            body = _printed(reader, "word/document.xml")
            return Marks(
                _property(reader) if _PART in names else None,
                tuple(dict.fromkeys(found)),
                tuple(dict.fromkeys(body)),
            )
    except FileNotFoundError:
        raise CannotOpen(f"There is no document “{path}”.") from None
    except IsADirectoryError:
        raise CannotOpen(f"“{path}” is a folder: name the document in it.") from None
    except OSError as error:
        raise CannotOpen(f"“{path}” can’t be read: {error.strerror or error}.") from None
    except CannotOpen:
        raise
    except Exception as error:  # whatever a stranger's file does to zip and XML readers
        raise CannotOpen(
            f"“{path.name}” is no .docx document that can be read. "
            "From another kind of file, type the fingerprint that stands at the foot of its pages."
        ) from error


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


def _property(reader: Reader) -> str | None:
    values: list[str] = []
    ours = False

    def start(name: str, given: dict[str, str]) -> None:
        nonlocal ours
        if name.endswith(" property"):
            ours = given.get("name") == _NAME

    def text(data: str) -> None:
        if ours:
            values.append(data)

    reader.read(_PART, start, lambda _: None, text)
    return next(iter(_MARK.findall("".join(values))), None)
