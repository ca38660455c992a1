"""Puts a finished document on disk: all of it, or nothing and a sentence why."""

from __future__ import annotations

import os
import secrets
from pathlib import Path

from records.errors import CannotWrite

SUFFIX = ".docx"


def checked_place(out: Path) -> Path:
    """Return where a document is to go, links followed, if a document can go there.

    Raises:
        CannotWrite: If the name doesn't end in .docx, the folder is missing, or something that
            is no file stands there.
    """
    if out.suffix.lower() != SUFFIX:
        raise CannotWrite(f"“{out.name}”: the schedule is a {SUFFIX} file; call it “{_name(out)}”.")
    place = Path(os.path.realpath(out))
    if place.is_dir():
        raise CannotWrite(f"“{out}” is a folder: give the name of a file.")
    if place.exists() and not place.is_file():
        raise CannotWrite(f"“{out}” is not a file that a document can be put in.")
    if not place.parent.is_dir():
        raise CannotWrite(f"There is no folder “{place.parent}”: make it first, or choose another.")
    if place.exists() and not os.access(place, os.W_OK):
        raise CannotWrite(f"“{out}” may not be changed: choose another name.")
    return place


def save(document: bytes, place: Path) -> None:
    """Write a document beside its place, then put it there in one step.

    Raises:
        CannotWrite: If that can't be done; what stood there before still does.
    """
    beside = place.with_name(f".farboard-{secrets.token_hex(6)}{SUFFIX}")
    try:
        with beside.open("xb") as file:
            file.write(document)
            file.flush()
            os.fsync(file.fileno())
        if place.exists():
            beside.chmod(place.stat().st_mode & 0o777)
        beside.replace(place)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise CannotWrite(
            f"The schedule could not be written to “{place}”: {error.strerror or error}. "
            "Close it if a word processor has it open, or choose another folder."
        ) from error


def _name(out: Path) -> str:
    return f"{out.stem or 'schedule'}{SUFFIX}"
