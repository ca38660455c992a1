"""Small pictures of photographs, kept in the record: the schedule shows them wherever it is."""

from __future__ import annotations

import base64
import io
import warnings
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

_LONGEST = 320
"""Pixels of the longer side."""
_QUALITIES = (60, 40, 25)
MOST = 30_000
"""Bytes of one: what a record carries for each photograph."""
_PIXELS = 120_000_000
"""Pixels of a photograph; what claims more is no photograph."""


def thumbnail(data: bytes) -> str | None:
    """Return a small picture as base64 of a JPEG; None if the photograph can't be read as one.

    It is turned upright and has none of the photograph's other data: where it was taken, by whom.

    Args:
        data: The photograph, as it lies on disk.
    """
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(data)) as opened:
                if opened.width * opened.height > _PIXELS:
                    return None
                opened.draft("RGB", (_LONGEST, _LONGEST))
                picture = ImageOps.exif_transpose(opened).convert("RGB")
    except (
        OSError,
        ValueError,
        SyntaxError,
        MemoryError,
        UnidentifiedImageError,
        Image.DecompressionBombError,
        Image.DecompressionBombWarning,
    ):
        return None
    picture.thumbnail((_LONGEST, _LONGEST))
    return _encoded(picture)


def _encoded(picture: Image) -> str | None:
    for quality in _QUALITIES:
        out = io.BytesIO()
        picture.save(out, "JPEG", quality=quality, optimize=True)
        if out.tell() <= MOST:
            return base64.b64encode(out.getvalue()).decode()
    return None


def checked(small: str) -> tuple[str, int, int] | None:
    """Return a small picture written again, with its width and height; None if it is none.

    A record may come from anywhere: what goes into a document is what could be read as a picture.
    """
    from PIL import Image

    try:
        with Image.open(io.BytesIO(base64.b64decode(small, validate=True))) as opened:
            if opened.format != "JPEG" or max(opened.size) > _LONGEST:
                return None
            again, (wide, high) = _encoded(opened.convert("RGB")), opened.size
    except (OSError, ValueError, SyntaxError, MemoryError):
        return None
    return None if again is None else (again, wide, high)
