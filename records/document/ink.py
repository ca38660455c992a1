"""Values that print as more than plain text: looks, links, places that links lead to, drawings.

In a context they are mappings of texts, so that a context can be sent to another process; while a
template is filled they are texts that know how they print. A template reaches their words only.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import count
from typing import Any

from records.document.photo_parts import photo_xml

Segment = dict[str, str]
"""A text (`t`), its character style (`look`), where it leads (`to`), its own name (`at`)."""
Value = str | dict[str, Any]
"""What a context holds where a template prints: a text, or a mapping that this module reads."""
Part = str | Segment

_SEGMENTS, _SHAPES = {"ink"}, {"shapes", "words"}
_PHOTO = {"photo", "words", "wide", "high"}
_ANCHOR = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,39}")
_IDS = re.compile(r'(<w:bookmark(?:Start|End) w:id=")(\d+)(?=")')
_DRAWINGS = re.compile(r'(<wp:docPr id=")\d+(?=")')
_EMPTY = re.compile(r"<w:r(?: [^>]*)?>(?:<w:rPr>(?:(?!</w:rPr>).)*</w:rPr>)?<w:t[^>]*></w:t></w:r>")
_SPECIAL = re.compile(r"[&<>\"'{}\r\n\t]")
_OPEN, _CLOSE = "</w:t></w:r>", '<w:r><w:t xml:space="preserve">'


def look(text: str, style: str) -> Segment:
    """Return a text in a character style of the template."""
    return {"t": text, "look": style}


def link(text: str, to: str, style: str = "Link") -> Segment:
    """Return a text that leads to a bookmark."""
    return {"t": text, "look": style, "to": anchor(to)}


def mark(text: str, name: str, style: str = "") -> Segment:
    """Return a text that links can lead to."""
    return {"t": text, "look": style, "at": anchor(name)}


def anchor(name: str) -> str:
    """Return a name that a bookmark can have: letters, digits and _, 40 at most."""
    found = re.sub(r"[^A-Za-z0-9]+", "_", name)[:40]
    return found if _ANCHOR.fullmatch(found) else f"x_{found}"[:40]


def ink(*parts: Part | Iterable[Part]) -> Value:
    """Return a value of a context from texts and segments; a plain text if that is all."""
    flat: list[Part] = []
    for each in parts:
        flat.extend([each] if isinstance(each, str | dict) else each)
    kept = [each for each in flat if each]
    if all(isinstance(each, str) for each in kept):
        return "".join(each for each in kept if isinstance(each, str))
    return {"ink": [{"t": each} if isinstance(each, str) else each for each in kept]}


def words(value: Value) -> str:
    """Return the words of a value."""
    if isinstance(value, str):
        return value
    return "".join(each["t"] for each in value["ink"]) if "ink" in value else str(value["words"])


def is_value(value: object) -> bool:
    """Return whether something in a context prints as one value."""
    if isinstance(value, dict):
        return value.keys() in (_SEGMENTS, _SHAPES, _PHOTO)
    return isinstance(value, str)


class Ink(str):
    """The words of a value, which prints with its looks and links where a template asks for it."""

    __slots__ = ("_xml",)
    _xml: str


def with_ink(value: Any) -> Any:
    """Return a context in which what prints as more than text is an `Ink`."""
    if isinstance(value, dict):
        if is_value(value):
            found = Ink(words(value))
            found._xml = _printing(value)
            return found
        return {name: with_ink(each) for name, each in value.items()}
    if isinstance(value, list):
        return [with_ink(each) for each in value]
    return value


def _printing(value: dict[str, Any]) -> str:
    if "ink" in value:
        return _segments(value["ink"])
    shapes = photo_xml(value) if "photo" in value else value["shapes"]
    return f"<w:r>{shapes}</w:r>"


def printed(value: object) -> object:
    """Return what a template prints for a value, inside the text of a run: never markup of its own.

    A line break or tab in a text becomes one on paper.
    """
    from markupsafe import Markup

    if isinstance(value, Ink):
        return Markup(_braced(f"{_OPEN}{value._xml}{_CLOSE}"))
    if isinstance(value, Markup):  # a filter made it, and it may hold text of a record
        value = value.unescape()
    return Markup(_text(str(value)))


def tidied(xml: str) -> str:
    """Return the XML of a filled part without the empty runs, bookmarks and drawings numbered."""
    numbers: dict[str, str] = {}
    drawings = count(1)

    def numbered(found: re.Match[str]) -> str:
        return found.group(1) + numbers.setdefault(found.group(2), str(len(numbers) + 1))

    tidy = _IDS.sub(numbered, _EMPTY.sub("", xml))
    return _DRAWINGS.sub(lambda found: f"{found.group(1)}{next(drawings)}", tidy)


def _segments(segments: Iterable[Segment]) -> str:
    return "".join(map(_segment, segments))


def _segment(it: Segment) -> str:
    style = f'<w:rPr><w:rStyle w:val="{it["look"]}"/></w:rPr>' if it.get("look") else ""
    run = f'<w:r>{style}<w:t xml:space="preserve">{_text(it["t"])}</w:t></w:r>'
    if to := it.get("to"):
        return f'<w:hyperlink w:anchor="{to}" w:history="1">{run}</w:hyperlink>'
    if name := it.get("at"):
        number = _number(name)
        start = f'<w:bookmarkStart w:id="{number}" w:name="{name}"/>'
        return f'{start}{run}<w:bookmarkEnd w:id="{number}"/>'
    return run


def _number(name: str) -> int:
    """Return a number that only this name has, until `tidied` gives short ones."""
    return int.from_bytes(name.encode(), "big")


def _text(text: str) -> str:
    from markupsafe import escape

    if _SPECIAL.search(text) is None:  # most are plain: filling 60 circuits takes 5 % less
        return text
    broken = str(escape(text)).replace("\r\n", "\n").replace("\r", "\n")
    broken = broken.replace("\n", '</w:t><w:br/><w:t xml:space="preserve">')
    return _braced(broken.replace("\t", '</w:t><w:tab/><w:t xml:space="preserve">'))


def _braced(xml: str) -> str:
    # docxtpl turns {_{ and the like into {{ after filling; as references braces stay as typed.
    return xml.replace("{", "&#123;").replace("}", "&#125;")
