"""The photographs beside a record: by name, with what they show and what they are known by."""

from __future__ import annotations

from records.document.words import joined
from records.judgement.fabric.legs import surface_name
from records.model.fabric import Photo
from records.model.record import Record

Line = dict[str, str]
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
        }
        for surface in record.fabric.surfaces
        for each in surface.photos
    ]


def _known(it: Photo) -> str:
    digest = f"SHA-256 {it.sha256[:_DIGITS]}" if it.sha256 else "SHA-256 not given"
    return joined((f"{it.size} bytes" if it.size else "", digest))
