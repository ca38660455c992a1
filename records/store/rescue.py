"""Brings out of a damaged record file everything that stands before the damage."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from records.disk import mode_of, read_ordinary, resolved, write_whole
from records.errors import BadRecord, CannotOpen, NotWritten
from records.store import container as files
from records.store.canonical import NOTHING_BEFORE, digest, fingerprint
from records.store.chain import BrokenChain, Fold, read_change
from records.store.container import held_here
from records.store.damage import bare
from records.store.heading import APPLICATION, FORMAT, LARGEST, check_is_file
from records.store.journal_files import journal_of
from records.store.private_copy import look
from records.store.salvage import Row, changes_in
from records.store.showing import file_name
from records.store.state import read
from records.store.unproved import NothingProved, Unproved, as_json, unproved

_Link = tuple[bytes, Row | None, Any]
"""The digest of a change, the change, and what it follows from."""


@dataclass(frozen=True, slots=True)
class Rescued:
    """What could be read of a record file."""

    rows: tuple[Row, ...]
    """The changes that follow from one another, from the first one on."""
    fingerprints: tuple[str, ...]
    """What the fingerprint was after each of them."""
    later: int
    """How many changes there are after the damaged one, which can't be put on what is missing."""
    unproved: tuple[Unproved, ...]
    """Those that can be read; they are in no record that is brought out."""
    trouble: str
    """What is wrong with the file; empty if it is whole."""


def rescued(path: Path) -> Rescued:
    """Return what can be read of a record file; the file is not written to.

    Raises:
        NothingProved: If its first change can't be read.
        CannotOpen: If it is none, or of a newer form.
    """
    path = resolved(Path(path))
    check_is_file(path)
    trouble = ""
    try:
        private, _ = look(path)
    except CannotOpen as error:
        trouble = bare(error)
        found = _found(path)
    else:
        try:
            found = list(private.rows())
        finally:
            private.close()
    return _chained(path, found, trouble)


def rescue(path: Path, out: Path) -> Rescued:
    """Make a new record file of what can be read of a damaged one.

    The changes stay word for word what they were, and so do their fingerprints: documents made
    before the damage still belong to the new file.

    Args:
        path: The damaged file; it is not written to.
        out: The new one; there must be nothing yet.
    Raises:
        CannotOpen: If nothing can be read.
        CannotWrite: If the new file can't be made.
    """
    found = rescued(path)
    files.create(Path(out), found.rows, mode=mode_of(Path(path))).close()
    return found


def keep_unproved(found: Sequence[Unproved], path: Path, out: Path) -> Path:
    """Write changes that are not proved to a file of their own; return where.

    Args:
        found: The changes.
        path: The damaged file, whose mode the new one gets.
        out: The record that was brought out, or would have been: the file lies beside it.
    Raises:
        NotWritten: If it can't be written.
    """
    place = out.with_name(f"{out.stem[:80]} not proved.json")
    try:
        write_whole(place, as_json(found).encode(), mode=mode_of(path), new=True)
    except OSError as error:
        raise NotWritten(f"{file_name(place)} can't be written: {error.strerror}.") from None
    return place


def _found(path: Path) -> list[Row]:
    if held_here(path) is not None:  # reading it would let go of the lock on it
        raise CannotOpen(f"{file_name(path)} is open here; close it first.")
    try:
        data = read_ordinary(path, LARGEST)
        beside = b""
        with suppress(OSError):
            beside = read_ordinary(journal_of(path), LARGEST)
    except OSError as error:
        raise CannotOpen(f"{file_name(path)} can't be read: {error.strerror}.") from None
    version = int.from_bytes(data[60:64])
    if int.from_bytes(data[68:72]) == APPLICATION and FORMAT < version < 100:
        raise CannotOpen(
            f"{file_name(path)} is of form {version}, which a newer Farboard wrote: rescue it with "
            "that one."
        )
    return list(changes_in(data, beside))


def _chained(path: Path, found: list[Row], trouble: str) -> Rescued:
    """Follow the chain as far as it is there, one digest after the other."""
    numbered: dict[int, list[Row]] = {}
    for row in dict.fromkeys(found):
        number = _number(row[0])
        if number is not None:
            numbered.setdefault(number, []).append(row)
    fold, rows = Fold(), []
    for row in _longest(numbered):
        try:
            fold.take(*row)
        except BrokenChain:
            break
        rows.append(row)
    name = file_name(path)
    if not rows:
        raise NothingProved(
            f"Nothing can be brought out of {name}. {trouble or 'It holds no change.'}",
            unproved(numbered, 0),
        )
    try:
        read(fold.doc)
    except BadRecord as error:
        raise CannotOpen(f"What can be read of {name} makes no record. {error}") from None
    marks = tuple(fingerprint(said) for _, said in rows)
    later = sum(1 for number in numbered if number > len(rows) + 1)
    return Rescued(tuple(rows), marks, later, unproved(numbered, len(rows)), trouble)


def _number(body: str) -> int | None:
    try:
        number = read_change(body).number
    except BrokenChain:
        return None
    return number if type(number) is int else None


def _longest(numbered: dict[int, list[Row]]) -> list[Row]:
    """Return the longest chain of changes that follow from one another by their digests.

    A write that was taken back may have left a change in unused space: then two follow from one.
    """
    tips: list[_Link] = [(NOTHING_BEFORE, None, None)]
    number = 1
    while True:
        following: list[_Link] = [
            (row[1], row, tip)
            for tip in tips
            for row in numbered.get(number, ())
            if digest(tip[0], row[0]) == row[1]
        ]
        if not following:
            break
        tips, number = following, number + 1
    rows: list[Row] = []
    at: Any = tips[0]
    while at is not None and at[1] is not None:
        rows.append(at[1])
        at = at[2]
    return rows[::-1]
