"""Brings a record file of an older form to the present one: on a copy, never in the file itself."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from pathlib import Path

from records.disk import mode_of, open_ordinary, write_whole
from records.errors import BadRecord, CannotOpen, LookOnly
from records.store import heading
from records.store.container import (
    ENGINE_ERRORS,
    connect_privately,
    engine_says,
    from_image,
)
from records.store.damage import Damaged
from records.store.journal_files import check_beside, has_unfinished_write
from records.store.private_copy import followed, private_copy
from records.store.showing import file_name
from records.store.state import read

Step = Callable[[sqlite3.Connection], None]


def _as_they_are(_: sqlite3.Connection) -> None:
    """Bring a form to the next one where that only has more to say."""


STEPS: dict[int, Step] = {1: _as_they_are, 2: _as_they_are}
"""What makes a file of one form a file of the next, by the form it starts from.

The changes and their digests stay word for word; only how they are kept may differ. Whoever raises
`heading.FORMAT` adds a step here, and a file to `fixtures/`. A form is raised also where a file
only says more: an older Farboard would take it for damaged.
"""


def is_older(path: Path) -> bool:
    """Say whether a file is a record of a form from which steps lead to the present one.

    Never to be asked of a file that is open for writing here: it would let go of the lock on it.
    """
    try:
        with open_ordinary(path) as file:
            head = file.read(100)
    except OSError:
        return False
    version = _form(head)
    ours = len(head) == 100 and int.from_bytes(head[68:72]) == heading.APPLICATION
    steps = range(version, heading.FORMAT)
    return ours and len(steps) > 0 and all(each in STEPS for each in steps)


def migrated(path: Path) -> bytes:
    """Return the bytes of a file of the present form that holds what an older file holds.

    Raises:
        CannotOpen: If the older file is damaged.
    """
    with private_copy(path, older=True) as link:
        older = bytes(link.serialize())
    return _brought(older, path)


def migrate(path: Path) -> Path:
    """Put a file of the present form in the place of an older one, which stays beside it.

    Returns:
        Where the older file is now.
    Raises:
        CannotOpen: If it is damaged; nothing is touched.
        LookOnly: If it is in use, or the folder can't be written.
    """
    now = f"{datetime.now():%Y-%m-%d %H.%M.%S}"
    old = path.with_name(f"{path.stem[:80]} older form {now} {os.urandom(2).hex()}.farboard")
    check_beside(path)
    if has_unfinished_write(path):
        migrated(path)  # if taking the unfinished write back gives no record, leave it alone
    try:
        with closing(connect_privately(path)) as link:
            link.execute("BEGIN EXCLUSIVE")  # held until the new file is in its place
            older = bytes(link.serialize())
            image = _brought(older, path)
            _keep(path, old, older)
            write_whole(path, image)
    except ENGINE_ERRORS as error:
        raise _look_only(path, engine_says(error)) from None
    except OSError as error:
        old.unlink(missing_ok=True)
        raise _look_only(path, error.strerror) from None
    return old


def migrated_words(path: Path, old: Path) -> str:
    """Return what a person has to know of a file that was brought to the present form."""
    return (
        f"{file_name(path.name)} was of an older form and is now of form {heading.FORMAT}, with "
        f"all that was in it. As it was, it lies beside it: {file_name(old.name)}"
    )


def _brought(older: bytes, path: Path) -> bytes:
    with closing(connect_privately(None)) as link:
        try:
            link.deserialize(older)
            for form in range(_form(older), heading.FORMAT):
                STEPS[form](link)
                link.execute(f"PRAGMA user_version = {form + 1}")
                link.commit()
            link.execute("VACUUM")
            image = bytes(link.serialize())
        except ENGINE_ERRORS as error:
            raise Damaged(
                path, f"has an older format, and is damaged ({engine_says(error)})"
            ) from None
    with closing(from_image(path, image)) as held:
        try:
            read(followed(held).doc)
        except BadRecord as error:
            raise CannotOpen(f"The record in {file_name(path)} can't be read. {error}") from None
    return image


def _form(head: bytes) -> int:
    return int.from_bytes(head[60:64])


def _keep(path: Path, old: Path, older: bytes) -> None:
    try:
        os.link(path, old)  # at no moment is there neither the one nor the other
    except OSError:  # not every disk has links
        write_whole(old, older, mode=mode_of(path), new=True)


def _look_only(path: Path, why: object) -> LookOnly:
    return LookOnly(
        f"{file_name(path)} has an older format, and a copy of it can't be brought to the "
        f"present one ({why}). Open it to look, or copy it to where you may write."
    )
