"""Saves what was accepted here when the file it stood in was taken away or changed underneath."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

from records.disk import PRIVATE, private_folder, write_whole
from records.errors import CannotOpen
from records.store.container import Container, from_image
from records.store.copies import copies_folder
from records.store.private_copy import followed
from records.store.showing import file_name


class Aside:
    """The record as it was here, in memory and, once there was need, in a file of its own."""

    def __init__(self) -> None:
        self._kept: tuple[bytes, Path] | None = None

    def keep(self, path: Path, image: bytes, digests: tuple[bytes | None, ...]) -> Container | None:
        """Put the image of a record file beside its path, or where copies are kept.

        Args:
            path: Where the record file was.
            image: Its bytes as they were held here; none if they could not be had.
            digests: Last digests that it may have; any other is not what was accepted here.
        Returns:
            The image as a container, for looking; None if it is not whole any more.
        """
        if not image:
            return None
        try:
            held = from_image(path, image)
            last = followed(held).digest
        except CannotOpen:
            return None
        if last not in digests:
            held.close()
            return None
        if self._kept is None or self._kept[0] != last:
            self._kept = _written(path, image, last)
        return held

    @property
    def said(self) -> str:
        """Where it is, as a sentence; empty if it is nowhere."""
        if self._kept is None:
            return ""
        return f" All that was accepted here is kept in {file_name(self._kept[1])}."


def _written(path: Path, image: bytes, last: bytes) -> tuple[bytes, Path] | None:
    now = f"{datetime.now():%Y-%m-%d %H.%M.%S}"
    name = f"{path.stem[:80]} as it was here {now} {os.urandom(2).hex()}.farboard"
    for folder in (path.absolute().parent, copies_folder()):
        try:
            if folder == copies_folder():
                private_folder(folder)
            write_whole(folder / name, image, mode=PRIVATE, new=True)
        except OSError:
            continue
        return last, folder / name
    return None
