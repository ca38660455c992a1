"""Dated copies of record files in the user's data folder: one at each opening for writing."""

from __future__ import annotations

import os
import re
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import Protocol

KEPT = 10
_NAME = re.compile(r"\d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d(?: \d+)? ([0-9A-F-]{19})\.farboard")


def copies_folder() -> Path:
    """Return where this system keeps a person's data, and in it the copies."""
    from platformdirs import user_data_path

    return user_data_path("farboard", appauthor=False) / "copies"


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
            found = [each for each in self._place(path).iterdir() if _NAME.fullmatch(each.name)]
        except OSError:
            return []
        return sorted(found, key=lambda each: each.name)

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
        copy = place / f"{now:%Y-%m-%d %H.%M.%S} {file.fingerprint}.farboard"
        try:
            place.mkdir(parents=True, exist_ok=True)
            write_whole(copy, file.image())
            for each in self.of(file.path)[:-KEPT]:
                each.unlink()
        except OSError:
            return None
        return copy

    def _place(self, path: Path) -> Path:
        path = Path(os.path.realpath(path))
        short = sha256(os.fsencode(path)).hexdigest()[:8]
        stem = "".join(char if char.isalnum() else "_" for char in path.stem)[:40]
        return self.folder / f"{stem} {short}"


def write_whole(path: Path, data: bytes) -> None:
    """Write a file that is there whole or not at all.

    Raises:
        OSError: If it can't be written.
    """
    half = path.with_name(f".farboard-{os.urandom(6).hex()}")
    try:
        with half.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(half, path)
    finally:
        half.unlink(missing_ok=True)
