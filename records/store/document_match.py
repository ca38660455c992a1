"""Whether a document belongs to a record: by the fingerprint that it carries."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from records.errors import BadRecord
from records.store.file import RecordFile
from records.store.history_text import HistoryLine, history_lines
from records.store.showing import shown

_TYPED = re.compile(r"[0-9A-F]{16}")


class Standing(StrEnum):
    """How a document stands to a record."""

    SAME = "same record"
    GONE_ON = "the record has gone on since"
    OTHER = "not this record"


@dataclass(frozen=True, slots=True)
class Belonging:
    """What a fingerprint says about a record."""

    standing: Standing
    number: int | None = None
    """The change after which the record had that fingerprint."""
    later: tuple[HistoryLine, ...] = ()
    """What was changed after that."""
    alike: bool = False
    """Whether the record, for all the changes, says again what it said then."""


def belonging(file: RecordFile, mark: str) -> Belonging:
    """Return how a document with the fingerprint `mark` stands to an opened record.

    Raises:
        CannotOpen: If the file can't be read again.
    """
    marks = file.fingerprints()
    if mark not in marks:
        return Belonging(Standing.OTHER)
    number = marks.index(mark) + 1
    if number == len(marks):
        return Belonging(Standing.SAME, number, alike=True)
    later = tuple(each for each in history_lines(file.history()) if each.change.number > number)
    with RecordFile.open(file.path, at=number) as then:
        alike = then.record == file.record
    return Belonging(Standing.GONE_ON, number, later, alike)


def typed_fingerprint(text: str) -> str | None:
    """Return the fingerprint that somebody typed off a page; None if this is none.

    Small letters, blanks and other dashes will do: `3f2a 91bc 07de 55aa`.

    Raises:
        BadRecord: If it is nearly one, so that it must be a slip.
    """
    bare = re.sub(r"[\s\-‐‑–—_]", "", text).upper()
    if _TYPED.fullmatch(bare):
        return "-".join(bare[at : at + 4] for at in range(0, 16, 4))
    groups = re.split(r"[\s\-‐‑–—_]+", text.strip())
    if len(groups) == 4 and all(len(each) <= 5 and each.isalnum() for each in groups):
        raise BadRecord(
            f"“{shown(text)}” is no fingerprint. That is four groups of four, of 0 to 9 and A to "
            "F, such as 3F2A-91BC-07DE-55AA."
        )
    return None
