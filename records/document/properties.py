"""Named texts in the custom properties of a document, which a word processor keeps when it saves.

ISO/IEC 29500-1, section 15.2.12.2, from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from records.document.xml_reader import Reader

PART = "docProps/custom.xml"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006"
_PROPERTIES = f"{_OFFICE}/custom-properties"
_TYPES = f"{_OFFICE}/docPropsVTypes"
_RELATION = f"{_OFFICE}/relationships/custom-properties"
_CONTENT = "application/vnd.openxmlformats-officedocument.custom-properties+xml"
_FORM = "{D5CDD505-2E9C-101B-9397-08002B2CF9AE}"
"""Stands before every custom property of any document (from memory)."""


def put_properties(document: Any, values: Mapping[str, str]) -> None:
    """Put named texts into the properties of a document; one of the same name is replaced.

    Args:
        document: As python-docx has it open.
        values: Names and texts.
    """
    from docx.opc import oxml
    from docx.opc.packuri import PackURI
    from docx.opc.part import Part

    xml: Any = oxml  # its types say less than it takes
    package = document.part.package
    known = [each.target_part for each in package.rels.values() if each.reltype == _RELATION]
    blank = f'<Properties xmlns="{_PROPERTIES}" xmlns:vt="{_TYPES}"/>'
    held: Any = xml.parse_xml(known[0].blob if known else blank.encode())
    for each in list(held):
        if each.get("name") in values:
            held.remove(each)
    first = max((int(each.get("pid", "1")) for each in held), default=1) + 1
    for number, (name, text) in enumerate(values.items(), start=first):
        one = held.makeelement(
            f"{{{_PROPERTIES}}}property", {"fmtid": _FORM, "pid": str(number), "name": name}
        )
        value = one.makeelement(f"{{{_TYPES}}}lpwstr")
        value.text = text
        one.append(value)
        held.append(one)
    if known:
        known[0]._blob = xml.serialize_part_xml(held)
    else:
        part = Part(PackURI(f"/{PART}"), _CONTENT, xml.serialize_part_xml(held), package)
        package.relate_to(part, _RELATION)


def properties_in(reader: Reader) -> dict[str, str]:
    """Return the named texts in the properties of a document; of one name, the first.

    Raises:
        KeyError: If it has none.
        ValueError, expat.ExpatError: As `Reader.read`.
    """
    found: dict[str, list[str]] = {}
    texts: list[str] = []

    def start(name: str, given: dict[str, str]) -> None:
        nonlocal texts
        if name.endswith(" property"):
            texts = []
            found.setdefault(given.get("name", ""), texts)

    def text(data: str) -> None:
        texts.append(data)

    reader.read(PART, start, lambda _: None, text)
    return {name: "".join(each).strip() for name, each in found.items()}
