"""A photograph from one line: `photo photos/north.jpg before the boards`."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from records.disk import read_ordinary
from records.document.thumbnails import thumbnail
from records.errors import BadPlace
from records.model.fabric import Surface
from records.model.record import Record
from records.places.line import Understood, understood
from records.places.words import groups
from records.store.edits import append
from records.store.photos import MOST, inside, photo_of


def understood_here(
    record: Record, surface: Surface | None, line: str, folder: Path, today: date | None = None
) -> Understood:
    """Return what a line means on a surface; a photograph is looked for in the record's folder.

    Args:
        record: The job.
        surface: The surface in hand; None if there is none yet.
        line: As typed.
        folder: Of the record.
        today: The day on which it is entered; None: it isn't said.
    Raises:
        BadPlace: If it can't be understood, or can't be so.
    """
    parts = groups(line)
    words = parts[0] if parts else ()
    if len(words) < 1 or words[0].low != "photo":
        return understood(record, surface, line, today)
    if surface is None or len(words) < 2:
        raise BadPlace("Type the name of the file, such as: photo photos/north.jpg the north wall.")
    note = line.partition(words[1].text)[2].strip(' "')
    photo = photo_of(folder, words[1].text, note)
    small = thumbnail(read_ordinary(inside(folder, words[1].text), MOST))
    photo = photo.model_copy(update={"small": small})
    at = [each.id for each in record.fabric.surfaces].index(surface.id)
    echo = f"{surface.name or surface.id}: photograph {photo.file}, {photo.size} bytes"
    if small is None:
        echo = f"{echo}. It can't be shown small in the schedule: it will be named there"
    return Understood(tuple(append(f"/fabric/surfaces/{at}/photos", photo)), echo)
