"""Pictures on their way into a document: plain values in a context, drawings once printed."""

from __future__ import annotations

import base64
import binascii
import io
from typing import Any

_KEYS = {"png", "alt", "width"}


class Picture(str):
    """The words of a picture, which prints the picture itself where a template asks for it.

    A template reaches nothing but its words: what it is drawn from has a name that the sandbox
    refuses.
    """

    __slots__ = ("_png", "_width")
    _png: bytes
    _width: float


def with_pictures(value: Any) -> Any:
    """Return a context in which each mapping of a PNG, words and a width [mm] is a picture.

    Raises:
        ValueError: If such a mapping holds no picture.
    """
    if isinstance(value, dict):
        if value.keys() == _KEYS:
            return _picture(value)
        return {name: with_pictures(each) for name, each in value.items()}
    if isinstance(value, list):
        return [with_pictures(each) for each in value]
    return value


def drawn(picture: Picture, part: Any) -> str:
    """Return a picture as XML that stands in a run, and put its file into a part of the document.

    Args:
        picture: What to print.
        part: The part of the document (body, head or foot) that is being filled.
    """
    from docx.shared import Mm

    inline = part.new_pic_inline(io.BytesIO(picture._png), width=Mm(picture._width))
    inline.docPr.set("descr", str(picture))
    inline.graphic.graphicData.pic.nvPicPr.cNvPr.set("descr", str(picture))
    return (
        f'</w:t></w:r><w:r><w:drawing>{inline.xml}</w:drawing></w:r><w:r><w:t xml:space="preserve">'
    )


def _picture(value: dict[str, str]) -> Picture:
    try:
        found = Picture(value["alt"])
        found._png = base64.b64decode(value["png"], validate=True)
        found._width = float(value["width"])
    except (binascii.Error, TypeError, ValueError) as error:
        raise ValueError("A picture is a PNG in base64, its words, and a width in mm.") from error
    return found
