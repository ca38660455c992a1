"""Dated copies of record files in the user's data folder: one at each opening for writing."""

from __future__ import annotations

import os
import re
from contextlib import suppress
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import Protocol

from records.disk import PRIVATE, data_folder, private_folder, write_whole

KEPT = 10
_NAME = re.compile(r"\d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d(?: (\d{1,9}))? [0-9A-F-]{19}\.farboard")


def copies_folder() -> Path:
    """Return where this system keeps a person's data, and in it the copies."""
    return data_folder() / "copies"


class Opened(Protocol):
    """What a copy needs of an opened record file."""

    @property
    def path(self) -> Path:
        """Where it lies."""

    @property
    def fingerprint(self) -> str:
        """Its last digest."""

    def image(self) -> bytes:
        """Return its bytes as they stand."""


class Copies:
    """The folder of copies, one folder in it for each record file by its path.

    They are a second net: where they can't be written, work goes on without them.
    """

    def __init__(self, folder: Path | None = None) -> None:
        """Point at the folder; None: where this system keeps a person's data."""
        self.folder = copies_folder() if folder is None else folder

    def of(self, path: Path) -> list[Path]:
        """Return the copies kept of a record file, the oldest first."""
        try:
            names = [each.name for each in self._place(path).iterdir()]
        except OSError:
            return []
        place = self._place(path)
        return [place / each for each in sorted(filter(_NAME.fullmatch, names), key=_turn)]

    def keep(self, file: Opened, now: datetime | None = None) -> Path | None:
        """Keep a copy of an opened record file, and of the older ones the last ten in all.

        A file that hasn't changed since the last copy is not copied again: ten openings without
        an entry would push every older state out.

        Args:
            file: The record file; opened for writing.
            now: The date that the copy carries; None for the clock's.
        Returns:
            Where the copy is; None if it could not be written.
        """
        before = self.of(file.path)
        if before and before[-1].stem.endswith(file.fingerprint):
            return before[-1]
        now = (now or datetime.now(UTC)).astimezone(UTC)
        place = self._place(file.path)
        number = _turn(before[-1].name)[0] + 1 if before else 1
        copy = place / f"{now:%Y-%m-%d %H.%M.%S} {number} {file.fingerprint}.farboard"
        try:
            private_folder(self.folder)
            private_folder(place)
            write_whole(copy, file.image(), mode=PRIVATE, new=True)
        except OSError:
            return None
        for each in self.of(file.path)[:-KEPT]:
            with suppress(OSError):  # one too many does no harm
                each.unlink()
        return copy

    def _place(self, path: Path) -> Path:
        path = Path(os.path.realpath(path))
        short = sha256(os.fsencode(path)).hexdigest()[:8]
        stem = "".join(char if char.isalnum() else "_" for char in path.stem)[:40]
        return self.folder / f"{stem} {short}"


def _turn(name: str) -> tuple[int, str]:
    """Return by what copies are sorted: their number, for a clock may be set back.

    Those of an earlier Farboard have none; they come first, by their date.
    """
    found = _NAME.fullmatch(name)
    return (int(found[1] or 0) if found else 0), name
