"""The photographs beside a record: by name, with what they show and what they are known by."""

from __future__ import annotations

from records.document.ink import Value
from records.document.thumbnails import checked
from records.document.words import joined
from records.judgement.fabric.legs import surface_name
from records.model.fabric import Photo
from records.model.record import Record

Line = dict[str, Value]
_WIDE = 32.0
"""mm of the longer side of a small picture."""
_DIGITS = 16
"""Of a SHA-256, enough to tell a picture from any other that somebody has."""


def photos(record: Record) -> list[Line]:
    """Return a line for each photograph: its surface, its file, what it shows, its digest."""
    return [
        {
            "where": surface_name(surface),
            "file": each.file,
            "note": each.note,
            "known": _known(each),
            "picture": _picture(each),
        }
        for surface in record.fabric.surfaces
        for each in surface.photos
    ]


def _picture(it: Photo) -> Value:
    """Return the small picture of a photograph, or nothing where it has none that can be shown."""
    found = None if it.small is None else checked(it.small)
    if found is None:
        return ""
    small, *size = found
    scale = _WIDE / max(size)
    wide, high = (f"{each * scale:.1f}" for each in size)
    return {"photo": small, "words": it.note or it.file, "wide": wide, "high": high}


def _known(it: Photo) -> str:
    digest = f"SHA-256 {it.sha256[:_DIGITS]}" if it.sha256 else "SHA-256 not given"
    return joined((f"{it.size} bytes" if it.size else "", digest))
