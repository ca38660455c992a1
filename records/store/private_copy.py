"""Looking at a record file without a lock on it and without ever writing to it."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from copy import deepcopy
from io import RawIOBase
from pathlib import Path
from tempfile import TemporaryDirectory
from time import sleep

from records.disk import open_ordinary
from records.errors import CannotOpen
from records.store.chain import BrokenChain, Fold
from records.store.container import (
    ENGINE_ERRORS,
    Container,
    check_inside,
    connect_privately,
    engine_says,
    held_here,
)
from records.store.damage import Damaged
from records.store.heading import LARGEST, check_heading
from records.store.journal_files import check_beside, has_unfinished_write, journal_of
from records.store.showing import file_name

_TRIES = 5
_PIECE = 1024 * 1024


def look(path: Path, at: int | None = None) -> tuple[Container, Fold]:
    """Return a private copy of a record file, in memory, and what it folds into.

    Args:
        path: Which.
        at: The number of the change after which to look; None for the record as it stands.

    Somebody may be writing to the file meanwhile; a copy that was caught in the middle of a
    write doesn't hold together, and another one is taken.

    Raises:
        CannotOpen: If the file is no whole record file.
    """
    for _ in range(_TRIES):
        before = _moment(path)
        try:
            private = _private(path)
            return private, followed(private, at)
        except CannotOpen as error:
            failed = error
            if _moment(path) == before:
                break  # nobody was writing: the file really is so
            sleep(0.02)
    raise failed


def followed(container: Container, at: int | None = None) -> Fold:
    """Return what the chain in a container folds into; all of it is followed in any case.

    Args:
        container: The changes.
        at: The number of the change up to which to fold; None for the last one.
    Raises:
        CannotOpen: If the chain is not whole; the message says from which change on. Or if it
            has no such change.
    """
    fold, past = Fold(), None
    try:
        for body, said in container.rows():
            fold.take(body, said)
            if fold.number == at:
                past = deepcopy(fold)
    except BrokenChain as error:
        raise Damaged(container.path, f"is damaged: change {fold.number + 1} {error}") from None
    if not fold.number:
        raise CannotOpen(f"{container.name} holds no record.")
    if at is None:
        return fold
    if past is None:
        raise CannotOpen(
            f"{container.name} has changes 1 to {fold.number}, so there is no state {at} of it."
        )
    return past


def _moment(path: Path) -> tuple[int, int, bool] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size, has_unfinished_write(path)


def _private(path: Path) -> Container:
    memory = connect_privately(None)
    writer = held_here(path)
    if writer is not None:
        writer.link.backup(memory)
        return Container(path, memory, None)
    with private_copy(path) as link:
        link.backup(memory)
    return Container(path, memory, None)


@contextmanager
def private_copy(path: Path, *, older: bool = False) -> Iterator[sqlite3.Connection]:
    """Open a copy of a record file that nobody else gets at, an unfinished write taken back.

    Args:
        path: Which file; it must not be open for writing here.
        older: Whether an older form, and so another inner order, will do.
    Raises:
        CannotOpen: If the file is no whole record file.
    """
    name = file_name(path)
    check_beside(path)
    try:
        with TemporaryDirectory(prefix="farboard-") as folder:
            copy = Path(folder, "copy")
            # The journal first: it goes last, so it is never of an older state than the copy.
            if has_unfinished_write(path):
                _copy(journal_of(path), journal_of(copy))
            _copy(path, copy)
            check_beside(copy, known=path)
            unfinished = has_unfinished_write(copy)
            check_heading(copy, shown=path, unfinished=unfinished, older=older)
            with closing(connect_privately(copy)) as link:
                link.execute("SELECT count(*) FROM sqlite_schema").fetchone()
                if unfinished:  # what was taken back may have been the heading
                    check_heading(copy, shown=path, unfinished=False, older=older)
                if not older:
                    check_inside(link, name)
                yield link
    except ENGINE_ERRORS as error:
        raise Damaged(path, f"is damaged ({engine_says(error)})") from None
    except PermissionError:
        raise CannotOpen(f"You have no permission to read {name}.") from None
    except OSError as error:
        raise CannotOpen(f"{name} can't be read: {error.strerror}.") from None


def _copy(source: Path, to: Path) -> None:
    with open_ordinary(source) as given:
        try:
            with to.open("xb", buffering=0) as copy:
                left = LARGEST
                while piece := given.read(min(left, _PIECE) + 1):
                    left -= len(piece)
                    if left < 0:
                        raise CannotOpen(
                            f"{file_name(source)} can't be read: it is too large to be a record."
                        )
                    _write(copy, piece)
        except OSError as error:
            if error.errno not in _NO_ROOM:
                raise
            raise CannotOpen(
                f"{file_name(source)} is copied before it is read, and there is no room for that "
                f"in {to.parent.parent}: {error.strerror}. Free some, or name another folder in "
                "TMPDIR. The record itself is as it was."
            ) from None


def _write(copy: RawIOBase, piece: bytes) -> None:
    view = memoryview(piece)
    while view:
        view = view[copy.write(view) or 0 :]


_NO_ROOM = (errno.ENOSPC, errno.EFBIG, getattr(errno, "EDQUOT", errno.ENOSPC))
