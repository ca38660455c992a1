"""Rows that SQLite itself wrote, found again without it: of every length, on whichever page.

What holds is the database engine's own file (SQLite documentation, "Database File Format").
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from records.store.salvage import changes_in

TABLE = "CREATE TABLE change (number INTEGER PRIMARY KEY, body TEXT NOT NULL, digest BLOB NOT NULL)"
ROUND_A_BYTE = (1, 2, 60, 126, 127, 128, 129, 255, 256)
ROUND_A_PAGE = tuple(range(4020, 4110, 3))
ROUND_TWO_PAGES = tuple(range(8100, 8210, 7))
# Lengths whose second byte in the file begins a new count of 128: 0x81 0x80 0x00 is 16384.
LONG = (16383 - 40, 16384 - 40, 16384, 16400, 16511, 20_000, 40_000)


def rows_of(lengths: tuple[int, ...]) -> list[tuple[str, bytes]]:
    return [
        (f"{number:03}{'x' * length}"[:length], bytes([number % 251] * 32))
        for number, length in enumerate(lengths, start=1)
    ]


def written(path: Path, rows: list[tuple[str, bytes]], page: int) -> bytes:
    """Return the bytes of a file into which the engine wrote the rows."""
    with closing(sqlite3.connect(path)) as link:
        link.execute(f"PRAGMA page_size = {page}")
        link.execute(TABLE)
        link.executemany("INSERT INTO change (body, digest) VALUES (?, ?)", rows)
        link.commit()
    return path.read_bytes()


@pytest.mark.parametrize("page", [512, 1024, 4096, 32768])
@pytest.mark.parametrize("lengths", [ROUND_A_BYTE, ROUND_A_PAGE, ROUND_TWO_PAGES, LONG])
def test_a_row_of_any_length_is_found_whole(
    tmp_path: Path, lengths: tuple[int, ...], page: int
) -> None:
    rows = rows_of(lengths)
    file = written(tmp_path / "rows.db", rows, page)
    found = set(changes_in(file))

    assert set(rows) <= found


def test_bytes_of_a_page_that_is_no_leaf_give_nothing(tmp_path: Path) -> None:
    rows = rows_of(ROUND_A_BYTE)
    file = bytearray(written(tmp_path / "rows.db", rows, 4096))
    assert file[4096] == 0x0D  # the leaf with all the rows
    file[4096] = 0x05

    assert not set(rows) & set(changes_in(bytes(file)))


def test_a_row_of_two_columns_or_with_another_digest_is_no_change(tmp_path: Path) -> None:
    path = tmp_path / "other.db"
    with closing(sqlite3.connect(path)) as link:
        link.execute("CREATE TABLE other (number INTEGER PRIMARY KEY, body TEXT)")
        link.execute("INSERT INTO other (body) VALUES (?)", ("x" * 100,))
        link.execute(TABLE)
        link.execute("INSERT INTO change (body, digest) VALUES (?, ?)", ("y" * 50, b"z" * 31))
        link.commit()

    assert list(changes_in(path.read_bytes())) == []
