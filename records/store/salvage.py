"""Finds changes in the bytes of a damaged record file, without the database engine.

Each change carries a digest over itself and the one before, so that it proves itself wherever it
is found: nothing of the file's inner order needs to be trusted.

Source: SQLite documentation, "Database File Format", sections 1.6 "B-tree Pages" and 2.1 "Record
Format"; "Rollback Journal" in section 3.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

from records.store.journal_files import JOURNAL_MAGIC

Row = tuple[str, bytes]
_LEAF = 0x0D
_DIGEST = 32
_BODY = re.compile(rb'\{"at":"')


def changes_in(file: bytes, journal: bytes = b"") -> Iterator[Row]:
    """Yield whatever may be a change and its digest, in no order, some of it twice.

    Args:
        file: The bytes of the file.
        journal: Those of the journal beside it, which holds pages as they were before a write.
    """
    size = _page_size(file)
    yield from _by_pages(file, size)
    yield from _by_text(file)
    if journal.startswith(JOURNAL_MAGIC):
        # A record of a journal is a page number, the page, and a checksum, after one sector.
        for at in range(512, len(journal) - size, size + 8):
            page = journal[at + 4 : at + 4 + size]
            yield from _on_page(file, page, 0, size)


def _page_size(file: bytes) -> int:
    said = int.from_bytes(file[16:18])
    return said if 512 <= said <= 32768 and said & (said - 1) == 0 else 4096


def _by_pages(file: bytes, size: int) -> Iterator[Row]:
    for at in range(0, len(file), size):
        yield from _on_page(file, file[at : at + size], 100 if at == 0 else 0, size)


def _on_page(file: bytes, page: bytes, start: int, size: int) -> Iterator[Row]:
    """Yield the changes whose cells a leaf page points to; a long one goes on on other pages."""
    if page[start : start + 1] != bytes([_LEAF]):
        return
    count = int.from_bytes(page[start + 3 : start + 5])
    for number in range(min(count, size // 4)):
        pointer = start + 8 + 2 * number
        row = _cell(file, page, int.from_bytes(page[pointer : pointer + 2]), size)
        if row is not None:
            yield row


def _cell(file: bytes, page: bytes, at: int, size: int) -> Row | None:
    length, at = _number(page, at)
    _, at = _number(page, at)
    if not _DIGEST < length <= len(file):
        return None
    here = _local(length, size)
    payload = page[at : at + here]
    if here < length:
        payload += _overflow(file, page[at + here : at + here + 4], length - here, size)
    if len(payload) != length:
        return None
    # The heading of the row: its own length, then the types of number (held as NULL), body, digest.
    after, at = _number(payload, 0)
    types = []
    while at < after <= len(payload):
        kind, at = _number(payload, at)
        types.append(kind)
    if len(types) != 3 or types[1] < 13 or types[2] != 12 + 2 * _DIGEST:
        return None
    start = after + (0 if types[0] == 0 else length - after - (types[1] - 13) // 2 - _DIGEST)
    return _row(payload[start : start + (types[1] - 13) // 2], payload[-_DIGEST:])


def _local(length: int, size: int) -> int:
    """Return how many bytes of a row stand in its cell (section 1.6)."""
    least = (size - 12) * 32 // 255 - 23
    if length <= size - 35:
        return length
    some = least + (length - least) % (size - 4)
    return some if some <= size - 35 else least


def _overflow(file: bytes, first: bytes, length: int, size: int) -> bytes:
    found, following = b"", int.from_bytes(first)
    for _ in range(length // (size - 4) + 1):
        page = file[(following - 1) * size : following * size] if following else b""
        found += page[4 : 4 + length - len(found)]
        following = int.from_bytes(page[:4])
        if len(found) >= length:
            break
    return found


def _by_text(file: bytes) -> Iterator[Row]:
    """Yield the changes that stand in one piece, though nothing points to them any more."""
    decoder = json.JSONDecoder()
    for found in _BODY.finditer(file):
        piece = file[found.start() : found.start() + 65536].decode("latin-1")
        try:
            _, end = decoder.raw_decode(piece)
        except (ValueError, RecursionError):
            continue
        end += found.start()
        row = _row(file[found.start() : end], file[end : end + _DIGEST])
        if row is not None:
            yield row


def _row(body: bytes, digest: bytes) -> Row | None:
    try:
        return (body.decode(), digest) if len(digest) == _DIGEST else None
    except UnicodeDecodeError:
        return None


def _number(data: bytes, at: int) -> tuple[int, int]:
    """Return the number of variable length that stands at a place, and the place after it."""
    value = 0
    for count, byte in enumerate(data[at : at + 9], start=1):
        if count == 9:
            return (value << 8) | byte, at + 9
        value = (value << 7) | (byte & 0x7F)
        if byte < 0x80:
            return value, at + count
    return 0, len(data)
