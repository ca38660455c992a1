"""Small pictures inside a document: drawn where a template prints them, each a part of the file."""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Mapping
from typing import Any

_EMU = 36_000
"""English metric units in a millimetre (ECMA-376)."""
_NAMES = (
    'xmlns:wp="http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing" '
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:pic="http://schemas.openxmlformats.org/drawingml/2006/picture" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
)
_PICTURE = "http://schemas.openxmlformats.org/drawingml/2006/picture"
_EMBED = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}embed"
_BLIP = "{http://schemas.openxmlformats.org/drawingml/2006/main}blip"
_INSIDE = "data:"
"""Begins what stands for a picture until the file has a part for it."""
_IN_TEXT = re.compile(r'r:embed="data:([A-Za-z0-9+/=]+)"')


def photo_xml(value: Mapping[str, Any]) -> str:
    """Return the drawing of a small picture, its bytes still inside.

    Args:
        value: Its JPEG in base64, the words that stand for it, its size in mm.
    """
    from markupsafe import escape

    wide, high = (round(float(value[each]) * _EMU) for each in ("wide", "high"))
    said = escape(str(value["words"]))
    size = f'cx="{wide}" cy="{high}"'
    return (
        f'<w:drawing><wp:inline {_NAMES}><wp:extent {size}/><wp:docPr id="1" name="Photograph" '
        f'descr="{said}"/><wp:cNvGraphicFramePr/><a:graphic>'
        f'<a:graphicData uri="{_PICTURE}"><pic:pic><pic:nvPicPr>'
        f'<pic:cNvPr id="1" name="Photograph"/><pic:cNvPicPr/></pic:nvPicPr><pic:blipFill>'
        f'<a:blip r:embed="{_INSIDE}{value["photo"]}"/><a:stretch><a:fillRect/></a:stretch>'
        f'</pic:blipFill><pic:spPr><a:xfrm><a:off x="0" y="0"/><a:ext {size}/></a:xfrm>'
        f'<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></pic:spPr></pic:pic></a:graphicData>'
        f"</a:graphic></wp:inline></w:drawing>"
    )


def put_photos(document: Any) -> None:
    """Give each small picture its part in the file, and its drawing the name of that part."""
    parts = document.part
    for blip in parts.element.iter(_BLIP):
        inside = blip.get(_EMBED, "")
        if inside.startswith(_INSIDE):
            blip.set(_EMBED, _part(parts, inside.removeprefix(_INSIDE)))


def photos_put(xml: str, document: Any) -> str:
    """Return the text of a body with the names of its small pictures' parts; see `put_photos`."""
    return _IN_TEXT.sub(lambda found: f'r:embed="{_part(document.part, found[1])}"', xml)


def _part(parts: Any, picture: str) -> str:
    data = base64.b64decode(picture, validate=True)
    name: str = parts.get_or_add_image(io.BytesIO(data))[0]
    return name
