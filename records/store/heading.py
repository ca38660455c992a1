"""What the first 100 bytes of a file say, before anything is trusted to a database engine.

Source: the SQLite database file format, section 1.3 "The Database Header" (sqlite.org/fileformat2).
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

from records.disk import open_ordinary
from records.errors import CannotOpen
from records.store.damage import Damaged
from records.store.showing import file_name

APPLICATION = 0x46424431
"""`FBD1`: marks an SQLite file as a Farboard record."""
FORMAT = 3
"""The newest form of the file that this Farboard knows."""

LARGEST = 512 * 1024 * 1024
"""Bytes; no record comes near."""
_MAGIC = b"SQLite format 3\0"


def check_is_file(path: Path) -> None:
    """Refuse what is no file at all.

    Raises:
        CannotOpen: With a sentence that says what is wrong.
    """
    name = file_name(path)
    try:
        found = path.stat()
    except FileNotFoundError:
        raise CannotOpen(
            f"There is no file {name}: check the name and the folder. “farboard” alone begins a "
            "new record."
        ) from None
    except NotADirectoryError:
        raise CannotOpen(f"There is no file {name}: a part of that path is no folder.") from None
    except PermissionError:
        raise CannotOpen(f"You have no permission to get at {name}.") from None
    except (OSError, ValueError) as error:
        raise CannotOpen(f"{name} can't be opened: {_reason(error)}.") from None
    if stat.S_ISDIR(found.st_mode):
        raise CannotOpen(f"{name} is a folder; name the record file in it.")
    if not stat.S_ISREG(found.st_mode):
        raise CannotOpen(f"{name} is no ordinary file, so it can't be a record.")
    if found.st_size > LARGEST:
        raise CannotOpen(f"{name} is too large to be a record ({found.st_size:,} bytes).")


def check_heading(path: Path, *, shown: Path, unfinished: bool, older: bool = False) -> None:
    """Refuse a file that is no record, is cut short, or is of a newer form.

    Args:
        path: The file, or a copy of it.
        shown: The path that the person knows.
        unfinished: Whether a write was interrupted, so that the length means nothing yet.
        older: Whether to let an older form pass; it may be one that can be brought to this one.
    Raises:
        CannotOpen: With a sentence that says what is wrong.
    """
    name = file_name(shown)
    try:
        with open_ordinary(path) as file:
            head = file.read(100)
            length = os.fstat(file.fileno()).st_size
    except PermissionError:
        raise CannotOpen(f"You have no permission to read {name}.") from None
    except OSError as error:
        raise CannotOpen(f"{name} can't be read: {_reason(error)}.") from None
    if not head:
        raise CannotOpen(f"{name} is empty: nothing was ever written to it.")
    if not head.startswith(_MAGIC[: len(head)]):
        raise CannotOpen(f"{name} is not a Farboard record{_guess(head)}.")
    if len(head) < 100:
        raise CannotOpen(
            f"{name} was cut short: only {length:,} bytes are there. Copy it again from where it "
            "came from."
        )
    if int.from_bytes(head[68:72]) != APPLICATION:
        raise CannotOpen(f"{name} is a database of another program, not a Farboard record.")
    version = int.from_bytes(head[60:64])
    if version > FORMAT or (version < FORMAT and not older):
        raise CannotOpen(
            f"{name} is of form {version}; this Farboard reads form {FORMAT}. "
            "If a newer Farboard wrote it, install that one to open it."
        )
    # Where the two counters differ, the length beside them is of another time, and the engine
    # would put it right by itself: in a file that is opened only to see whether it is whole.
    if head[18:20] != b"\x01\x01" or (head[24:28] != head[92:96] and not unfinished):
        raise Damaged(shown, "is damaged: its heading is not what Farboard writes")
    page = int.from_bytes(head[16:18])
    whole = int.from_bytes(head[28:32]) * (65536 if page == 1 else page)
    if length < whole and not unfinished:
        raise Damaged(
            shown,
            f"was cut short: {length:,} of {whole:,} bytes are there. If it was copied, copy it "
            "again from where it came from",
        )


def _guess(head: bytes) -> str:
    if head.lstrip(b"\xef\xbb\xbf \t\r\n").startswith((b"{", b"[")):
        return "; it looks like JSON, which “farboard import” makes a record of"
    if head.startswith(b"PK"):
        return "; it looks like a document or a zip archive"
    return ""


def _reason(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()
