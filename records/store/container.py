"""The record file as an SQLite database: one table, to which rows are only ever added."""

from __future__ import annotations

import os
import sqlite3
import sys
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from urllib.parse import quote

from records.disk import knows_locks
from records.errors import CannotOpen, CannotWrite, LookOnly, NotWritten
from records.store.damage import Damaged
from records.store.heading import APPLICATION, FORMAT, check_heading
from records.store.journal_files import check_beside, has_unfinished_write, journal_of
from records.store.showing import file_name, shown

_TABLE = """CREATE TABLE change (
    number INTEGER PRIMARY KEY,
    body TEXT NOT NULL,
    digest BLOB NOT NULL
) STRICT"""
_SETTINGS = (
    "cell_size_check = ON",
    "fullfsync = ON",  # on a Mac, a plain fsync stops in the drive's own memory
    "locking_mode = EXCLUSIVE",
    "synchronous = EXTRA",  # the folder too is on disk before a change counts
)
ENGINE_ERRORS = (sqlite3.Error, UnicodeError, MemoryError)
"""What the engine's binding raises on a damaged file: its own errors, a message that is no text,
and a page count that no memory could hold."""
_LIMITS = {
    sqlite3.SQLITE_LIMIT_LENGTH: 64 * 1024 * 1024,  # bytes of the longest change
    sqlite3.SQLITE_LIMIT_SQL_LENGTH: 10_000,
    sqlite3.SQLITE_LIMIT_COLUMN: 20,
    sqlite3.SQLITE_LIMIT_EXPR_DEPTH: 20,
    sqlite3.SQLITE_LIMIT_COMPOUND_SELECT: 2,
    sqlite3.SQLITE_LIMIT_ATTACHED: 1,  # to make a file again takes one; a stranger's gets none
    sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH: 1,
}
"""What no record comes near, and what a file made to do harm may want."""
_DEFENSIVE, _VIEWS, _TRIGGERS = 1010, 1015, 1003
"""Settings of a connection (SQLite documentation, "Database Connection Configuration Options");
Python can set them from 3.12 on. Before, the one table that a file may hold does as much."""

_NO_LOCKS = {
    sqlite3.SQLITE_PROTOCOL,
    sqlite3.SQLITE_IOERR_LOCK,
    sqlite3.SQLITE_IOERR_RDLOCK,
    sqlite3.SQLITE_IOERR_UNLOCK,
    sqlite3.SQLITE_IOERR_CHECKRESERVEDLOCK,
}

_Id = tuple[int, int]
_held: dict[_Id, Container] = {}
"""Files this process has open for writing. POSIX drops all locks of a process on a file as soon
as the process closes *any* handle on it, so such a file must never be opened a second time."""


class Container:
    """An open record file; closing it leaves nothing beside it."""

    def __init__(self, path: Path, link: sqlite3.Connection, file_id: _Id | None) -> None:
        self.path = path
        self.link = link
        self._id = file_id
        self._seen = _stamp(path)
        if file_id is not None:
            _held[file_id] = self

    def rows(self) -> Iterator[tuple[str, bytes]]:
        """Return the body and the digest of each change, the oldest first.

        Raises:
            CannotOpen: If the file is damaged.
        """
        try:
            for number, body, digest in self.link.execute(
                "SELECT number, body, digest FROM change ORDER BY number"
            ):
                if not (isinstance(body, str) and isinstance(digest, bytes)):
                    raise Damaged(self.path, f"is damaged at change {number}")
                yield body, digest
        except ENGINE_ERRORS as error:
            raise Damaged(self.path, f"is damaged ({engine_says(error)})") from None

    def append(self, number: int, body: str, digest: bytes) -> None:
        """Put one change on disk; when this returns, it is there for good.

        Raises:
            CannotWrite: If it could not be put on disk; the file is as it was before.
        """
        try:
            self.link.execute("BEGIN IMMEDIATE")
            self.link.execute("INSERT INTO change VALUES (?, ?, ?)", (number, body, digest))
            self.link.execute("COMMIT")
        except ENGINE_ERRORS as error:
            with suppress(*ENGINE_ERRORS):
                self.link.execute("ROLLBACK")
            raise NotWritten(
                f"{self.name}: this could not be put on disk ({engine_says(error)}), so it has "
                "not been accepted. Free some space or fix the disk, then give it again."
            ) from None
        self._seen = _stamp(self.path)

    def settle(self) -> None:
        """Have the engine take over what a crash left beside the file, to clear it at closing.

        Raises:
            LookOnly: If the file turns out not to be writable.
        """
        if not journal_of(self.path).exists():
            return
        try:
            self.link.execute(f"PRAGMA user_version = {FORMAT}")  # says nothing new, but is a write
        except ENGINE_ERRORS as error:
            raise LookOnly(
                f"{self.name} can't be written ({engine_says(error)}); open it to look."
            ) from None
        self._seen = _stamp(self.path)

    def is_as_left(self) -> bool:
        """Say whether the file under this path is still the one last written here."""
        return _stamp(self.path) == self._seen

    def image(self) -> bytes:
        """Return the bytes of the file as they are held here; none if that can't be had."""
        try:
            return bytes(self.link.serialize())
        except ENGINE_ERRORS:
            return b""

    def close(self) -> None:
        """Let go of the file."""
        if self._id is not None:
            _held.pop(self._id, None)
        self.link.close()

    @property
    def name(self) -> str:
        """The path, fit to be shown."""
        return file_name(self.path)


def create(path: Path, rows: Sequence[tuple[str, bytes]], *, mode: int = 0o666) -> Container:
    """Make a new record file.

    Args:
        path: Where; there must be nothing yet.
        rows: The body and the digest of each change, from the first one on.
        mode: Who may do what with it, as far as is usual for new files.
    Raises:
        CannotWrite: If there is something under this path already, or the disk doesn't take it.
    """
    name = file_name(path)
    try:
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, mode))
    except FileExistsError:
        raise CannotWrite(f"{name} is there already, and nothing is overwritten.") from None
    except FileNotFoundError:
        raise CannotWrite(f"There is no folder {file_name(path.parent)}.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise NotWritten(f"{name} can't be made here ({reason}).") from None
    link = None
    try:
        link = _connect(path)
        link.execute("BEGIN EXCLUSIVE")
        link.execute(f"PRAGMA application_id = {APPLICATION}")
        link.execute(f"PRAGMA user_version = {FORMAT}")
        link.execute(_TABLE)
        for number, (body, digest) in enumerate(rows, start=1):
            link.execute("INSERT INTO change VALUES (?, ?, ?)", (number, body, digest))
        link.execute("COMMIT")
    except ENGINE_ERRORS as error:
        if link is not None:
            link.close()
        with suppress(OSError):
            path.unlink()
        raise NotWritten(f"{name} could not be written ({engine_says(error)}).") from None
    return Container(path, link, _file_id(path))


def open_to_write(path: Path) -> Container:
    """Open a record file so that changes can be added to it by nobody else.

    Raises:
        LookOnly: If it is in use elsewhere, or may only be read.
        CannotOpen: If it is no whole record file.
    """
    name = file_name(path)
    if _file_id(path) in _held:
        raise LookOnly(_in_use(name))
    check_beside(path)
    unfinished = has_unfinished_write(path)
    check_heading(path, shown=path, unfinished=unfinished)
    if not os.access(path, os.W_OK) or not os.access(path.absolute().parent, os.W_OK):
        raise LookOnly(
            f"{name} can't be written: the file, its folder or the disk allows reading only. "
            "Open it to look only, or copy it to a place where you may write."
        )
    link = None
    try:
        link = _connect(path)
        link.execute("BEGIN EXCLUSIVE")
        link.execute("COMMIT")
        check_inside(link, name)
    except CannotOpen:
        if link is not None:
            link.close()
        raise
    except ENGINE_ERRORS as error:
        if link is not None:
            link.close()
        if "locked" in str(error) and knows_locks(path):
            raise LookOnly(_in_use(name)) from None
        if "readonly" in str(error):
            raise LookOnly(f"{name} can't be written; open it to look only.") from None
        if "locked" in str(error) or getattr(error, "sqlite_errorcode", None) in _NO_LOCKS:
            raise LookOnly(
                f"{name} can't be held against others where it lies: its disk or share has no "
                "locks. Copy it to a disk of this computer, or open it to look only."
            ) from None
        raise Damaged(path, f"is damaged ({engine_says(error)})") from None
    return Container(path, link, _file_id(path))


def check_inside(link: sqlite3.Connection, name: str) -> None:
    """Refuse a database that is not whole, or holds anything but the one table of changes.

    Raises:
        CannotOpen: With a sentence that says what is wrong.
        sqlite3.Error: If the engine can make nothing of it.
    """
    # Its names too: the rows of a schema can be made to say one thing and mean another.
    holds = link.execute("SELECT type, name, tbl_name, sql FROM sqlite_schema LIMIT 2").fetchall()
    if holds != [("table", "change", "change", _TABLE)]:
        raise CannotOpen(f"{name} is not a Farboard record, or its inner order is damaged.")
    found = link.execute("PRAGMA integrity_check(1)").fetchone()[0]
    if found != "ok":
        what = str(found).splitlines()[-1]  # over it stands which database, as if there were more
        raise Damaged(name, f"is damaged ({shown(what, 200)})")


def held_here(path: Path) -> Container | None:
    """Return the container through which this process writes to that file, if it does."""
    return _held.get(_file_id(path))


def connect_privately(path: Path | None) -> sqlite3.Connection:
    """Open a database that is nobody else's: a private copy, or one in memory."""
    if path is not None:
        return _connect(path)
    return _guarded(sqlite3.connect(":memory:", check_same_thread=False))


def from_image(path: Path, image: bytes) -> Container:
    """Return a container in memory that holds the bytes of a record file.

    Raises:
        CannotOpen: If they are no whole record file.
    """
    link = connect_privately(None)
    try:
        link.deserialize(image)
        check_inside(link, file_name(path))
    except ENGINE_ERRORS as error:
        link.close()
        raise Damaged(path, f"is damaged ({engine_says(error)})") from None
    except CannotOpen:
        link.close()
        raise
    return Container(path, link, None)


def _connect(path: Path) -> sqlite3.Connection:
    link = sqlite3.connect(
        f"file:{quote(os.fsencode(path.absolute()))}?mode=rw",
        uri=True,
        timeout=0.25,
        isolation_level=None,
        check_same_thread=False,
    )
    try:
        _guarded(link)
        for setting in _SETTINGS:
            link.execute(f"PRAGMA {setting}")
    except ENGINE_ERRORS:
        link.close()
        raise
    return link


def _guarded(link: sqlite3.Connection) -> sqlite3.Connection:
    for limit, most in _LIMITS.items():
        link.setlimit(limit, most)
    if sys.version_info >= (3, 12):
        link.setconfig(_DEFENSIVE, True)
        link.setconfig(_VIEWS, False)
        link.setconfig(_TRIGGERS, False)
    link.execute("PRAGMA trusted_schema = OFF")
    return link


def engine_says(error: BaseException) -> str:
    """Return what the engine says of a file, fit to be shown: it may quote the file's bytes."""
    return shown(str(error).partition("\n")[0], 120) or "nothing more is known of why"


def _file_id(path: Path) -> _Id:
    found = path.stat()
    return found.st_dev, found.st_ino


def _stamp(path: Path) -> tuple[int, ...] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    # The last can't be set back by a program that keeps the times of what it restores.
    return found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns, found.st_ctime_ns


def _in_use(name: str) -> str:
    return (
        f"{name} is open in another window or program. "
        "Close it there, or open it here to look only."
    )
