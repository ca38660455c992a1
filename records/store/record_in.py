"""Reads a record from wherever it is: a record file, or exported JSON."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from records.disk import open_ordinary, read_ordinary
from records.errors import BadRecord, CannotOpen

if TYPE_CHECKING:
    from records.judgement.design_changed_since import Then
    from records.model.record import Record


class Found(NamedTuple):
    """A record, and the fingerprint of its file; "" for JSON, which has none."""

    record: Record
    fingerprint: str
    then: tuple[Then, ...] = ()
    """The designs that readings were entered under, if that was asked for."""


def record_in(path: Path, at: int | None = None, *, then: bool = False) -> Found:
    """Return the record in a record file or in exported JSON.

    Args:
        path: Where.
        at: The number of the change after which to look; None for the record as it stands.
        then: Whether to look up the designs that readings were entered under; JSON has none.
    Raises:
        FarboardError: If there is none; the message says what is wrong.
    """
    from records.store.file import RecordFile
    from records.store.heading import check_is_file
    from records.store.showing import file_name

    check_is_file(path)
    if _looks_like_json(path):
        if at is not None:
            raise CannotOpen(
                f"{file_name(path)} is JSON, which holds one state only: leave out --at."
            )
        return Found(json_record(path), "")
    with RecordFile.open(path, read_only=True, at=at) as file:
        if then:
            from records.store.design_history import designs

            return Found(file.record, file.fingerprint, designs(file.history()))
        return Found(file.record, file.fingerprint)


def json_record(path: Path) -> Record:
    """Return the record in a JSON file.

    Raises:
        CannotOpen: If the file can't be read.
        BadRecord: If it says no record.
    """
    from records.store.exchange import LARGEST, from_json
    from records.store.heading import check_is_file
    from records.store.showing import file_name

    name = file_name(path)
    check_is_file(path)
    try:
        return from_json(read_ordinary(path, 4 * LARGEST).decode("utf-8-sig"))
    except BadRecord as error:
        raise BadRecord(f"{name}: {error}") from None
    except UnicodeDecodeError:
        raise CannotOpen(f"{name} is not text in UTF-8, which JSON has to be (RFC 8259).") from None
    except OSError as error:
        raise CannotOpen(f"{name} can't be read: {error.strerror}.") from None


def _looks_like_json(path: Path) -> bool:
    try:
        with open_ordinary(path) as file:
            head = file.read(64)
    except OSError:
        return False
    return head.lstrip(b"\xef\xbb\xbf \t\r\n").startswith((b"{", b"["))
