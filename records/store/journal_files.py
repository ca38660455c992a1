"""What lies beside a record file: the journal of a write that was cut off, and nothing else.

A database engine trusts what lies there. It would delete another file that a journal names, write
into one that a journal is a link to, and read pages from a write-ahead log; none of these is ever
Farboard's, so each is refused before the engine sees it.

Source: SQLite documentation, "Database File Format", section 3 "The Rollback Journal"; the name of
a super-journal at its end is from "Atomic Commit In SQLite", section 5, and from memory in detail:
page number, name, length, checksum, and the eight bytes that a journal begins with.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from records.disk import open_ordinary
from records.errors import CannotOpen
from records.store.damage import Damaged
from records.store.showing import file_name

JOURNAL_MAGIC = b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7"


def journal_of(path: Path) -> Path:
    """Return where the journal of a file lies, if it has one."""
    return Path(f"{path}-journal")


def has_unfinished_write(path: Path) -> bool:
    """Say whether a write to the file was interrupted, which the next opening takes back."""
    try:
        with open_ordinary(journal_of(path)) as journal:
            return journal.read(1) not in (b"", b"\0")
    except (OSError, ValueError):
        return False


def check_beside(path: Path, *, known: Path | None = None) -> None:
    """Refuse what lies beside a file and would have the engine do harm.

    Args:
        path: The file, links followed, or a copy of it.
        known: The path that the person knows; None: the same.
    Raises:
        CannotOpen: With a sentence that says what is wrong.
    """
    known = path if known is None else known
    if os.path.lexists(f"{path}-wal"):
        raise CannotOpen(_refused(known, "-wal", "is no file that Farboard makes"))
    journal = journal_of(path)
    try:
        found = journal.lstat()
    except (OSError, ValueError):
        return
    if not stat.S_ISREG(found.st_mode) or found.st_nlink > 1:
        raise CannotOpen(_refused(known, "-journal", "is a link or no ordinary file"))
    if _names_another(journal):
        raise Damaged(known, "has a journal beside it that names another file, to be deleted")


def _names_another(journal: Path) -> bool:
    try:
        with open_ordinary(journal) as file:
            length = file.seek(0, os.SEEK_END)
            file.seek(max(0, length - len(JOURNAL_MAGIC)))
            return length > len(JOURNAL_MAGIC) and file.read() == JOURNAL_MAGIC
    except OSError:
        return False


def _refused(path: Path, ending: str, why: str) -> str:
    beside = file_name(f"{path.name}{ending}")
    return (
        f"Beside {file_name(path)} lies {beside}, which {why}. Move {beside} to another folder, "
        "then open the record again."
    )
