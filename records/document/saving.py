"""Puts a finished document on disk: all of it, or nothing and a sentence why."""

from __future__ import annotations

import os
from pathlib import Path

from records.disk import write_whole
from records.errors import CannotWrite, NotWritten

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
    """Write a document: all of it, or nothing.

    Raises:
        NotWritten: If that can't be done; what stood there before still does.
    """
    try:
        write_whole(place, document)
    except OSError as error:
        raise NotWritten(
            f"The schedule could not be written to “{place}”: {error.strerror or error}. "
            "Close it if a word processor has it open, or choose another folder."
        ) from error


def _name(out: Path) -> str:
    return f"{out.stem or 'schedule'}{SUFFIX}"
