"""Photographs beside a record: named from its folder, known again by size and SHA-256."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath, PureWindowsPath

from records.disk import read_ordinary
from records.errors import BadPlace
from records.model.fabric import Photo
from records.model.record import Record

MOST = 60_000_000
"""Bytes of a photograph."""
_DEVICE = re.compile(r"(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])( *\..*)?", re.IGNORECASE)
"""What some computers take for a device, whatever comes after a point."""
_KINDS = (".jpg", ".jpeg", ".png", ".webp", ".heic")


def photo_of(folder: Path, name: str, note: str = "") -> Photo:
    """Return a photograph with its size and SHA-256, for a surface.

    Args:
        folder: Of the record.
        name: Of the file, from there, such as `photos/north.jpg`.
        note: What it shows.
    Raises:
        BadPlace: If it isn't in that folder or below, isn't there, or is no picture.
    """
    path = inside(folder, name)
    if path.suffix.lower() not in _KINDS:
        raise BadPlace(f"{name}: a photograph ends in {', '.join(_KINDS)}.")
    try:
        data = read_ordinary(path, MOST)
    except OSError as error:
        raise BadPlace(
            f"{name} can't be read ({error.strerror or error}). Put it beside the record, and type "
            "its name from there."
        ) from None
    tidy = PurePosixPath(*PureWindowsPath(name).parts).as_posix()
    return Photo(file=tidy, note=note, size=len(data), sha256=hashlib.sha256(data).hexdigest())


def inside(folder: Path, name: str) -> Path:
    """Return where a file lies that is named from the folder of a record.

    Raises:
        BadPlace: If the name climbs out of that folder, by itself or by a link.
    """
    named = PureWindowsPath(name)
    parts = named.parts
    if not parts or named.drive or name.startswith(("/", "\\", "~")) or ".." in parts:
        raise BadPlace(f"{name}: name it from the record's folder, such as photos/north.jpg.")
    for part in parts:
        if _DEVICE.fullmatch(part) or ":" in part or part.endswith((" ", ".")):
            raise BadPlace(
                f"{name}: “{part}” is no name that every computer can keep. Call it north.jpg, say."
            )
    path = folder.joinpath(*parts)
    try:
        home = folder.resolve()
        if not path.resolve().is_relative_to(home):
            raise BadPlace(f"{name} leads out of the record's folder. Copy it beside the record.")
    except OSError as error:
        raise BadPlace(f"{name} can't be looked for: {error.strerror or error}.") from None
    return path


def photo_troubles(record: Record, folder: Path) -> Iterator[str]:
    """Yield a sentence for each photograph that is missing, changed, or named out of the folder."""
    for surface in record.fabric.surfaces:
        for photo in surface.photos:
            where = f"Photograph {photo.file} of {surface.name or surface.id}"
            try:
                now = photo_of(folder, photo.file)
            except BadPlace as error:
                yield f"{where}: {error}"
                continue
            if photo.sha256 is not None and now.sha256 != photo.sha256:
                yield f"{where} was changed since: it has {now.size} bytes, {photo.size} then."
