"""Records made, opened or copied for a session: what loads the heavier half of the program."""

from __future__ import annotations

import tempfile
from pathlib import Path

from records.session import Session
from records.store.copies import Copies
from records.store.file import RecordFile


def opened(path: Path, read_only: bool, at: int | None, copies: Path) -> Session:
    """Return a session on a record file; to be written to, it is copied first.

    Args:
        path: The record file.
        read_only: Whether to look only.
        at: The number of the change after which to look; None: as it stands.
        copies: The folder of copies.
    Raises:
        LookOnly: If it can be looked at but not changed now.
        CannotOpen: If it can't be read.
    """
    file = RecordFile.open(path, read_only=read_only, at=at)
    if not file.read_only:
        Copies(copies).keep(file)
    return Session(file, at=at)


def created(path: Path) -> Session:
    """Return a session on a new, blank record.

    Raises:
        CannotWrite: If the file can't be made there.
    """
    return Session(RecordFile.create(path))


def demo() -> Session:
    """Return a session on a fresh copy of the demo job, in a folder for passing things.

    Raises:
        CannotWrite: If no such copy can be made.
    """
    from records.demo import demo_record

    folder = Path(tempfile.mkdtemp(prefix="farboard-demo-"))
    return Session(RecordFile.create(folder / "loom-shed-demo.farboard", demo_record()))
