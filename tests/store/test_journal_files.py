"""What a stranger may lay beside a record file: the engine never gets to act on it.

How a journal names a super-journal, and that SQLite deletes that file once the journal was rolled
back: SQLite documentation, "Atomic Commit In SQLite", section 5, and the comment before
`readSuperJournal` in its source (from memory).
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from records.errors import CannotOpen
from records.store.edits import append, put
from records.store.file import RecordFile
from records.store.rescue import rescue, rescued
from tests.store.conftest import reading, small_record
from tests.store.test_crash import half_a_write

FIXTURES = Path(__file__).parents[2] / "fixtures"
MAGIC = bytes.fromhex("d9d505f920a163d7")
PRECIOUS = "not to be lost\n"


def crashed(path: Path) -> None:
    """Make a record file as a crash in the middle of a write leaves it, its journal beside it."""
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "accepted"))
        for number in range(1, 4):
            file.change(append("/readings", reading(number)))
        link = half_a_write(file)
        half, journal = path.read_bytes(), Path(f"{path}-journal").read_bytes()
        link.execute("ROLLBACK")
    path.write_bytes(half)
    Path(f"{path}-journal").write_bytes(journal)


def naming(victim: Path) -> bytes:
    """Return the end of a journal that names a super-journal."""
    name = os.fsencode(victim)
    after_the_lock = 0x40000000 // 4096 + 1
    numbers = len(name).to_bytes(4) + (sum(name) & 0xFFFFFFFF).to_bytes(4)
    return after_the_lock.to_bytes(4) + name + numbers + MAGIC


@pytest.fixture
def victim(tmp_path: Path) -> Path:
    path = tmp_path / "precious.txt"
    path.write_text(PRECIOUS)
    return path


def test_the_engine_does_delete_what_a_journal_names(path: Path, victim: Path) -> None:
    """Without this, the tests below would say nothing."""
    crashed(path)
    with Path(f"{path}-journal").open("ab") as journal:
        journal.write(naming(victim))
    link = sqlite3.connect(path)
    link.execute("SELECT count(*) FROM change").fetchone()
    link.close()
    assert not victim.exists()


LOOKING: dict[str, Callable[[Path], object]] = {
    "look": lambda path: RecordFile.open(path, read_only=True),
    "look at a state": lambda path: RecordFile.open(path, at=1),
    "write": RecordFile.open,
}


@pytest.mark.parametrize("way", LOOKING)
def test_looking_at_a_record_deletes_no_other_file(path: Path, victim: Path, way: str) -> None:
    crashed(path)
    with Path(f"{path}-journal").open("ab") as journal:
        journal.write(naming(victim))
    before = sorted(os.listdir(path.parent))

    with pytest.raises(CannotOpen, match=r"names another file.*farboard rescue"):
        LOOKING[way](path)

    assert victim.read_text() == PRECIOUS
    assert sorted(os.listdir(path.parent)) == before


def test_what_was_accepted_is_brought_out_all_the_same(
    path: Path, victim: Path, tmp_path: Path
) -> None:
    crashed(path)
    with Path(f"{path}-journal").open("ab") as journal:
        journal.write(naming(victim))

    found = rescue(path, tmp_path / "out.farboard")

    assert "names another file" in found.trouble
    with RecordFile.open(tmp_path / "out.farboard") as file:
        assert file.record.job.place == "accepted"
        assert len(file.record.readings) == 3
    assert victim.read_text() == PRECIOUS


def test_a_file_of_an_older_form_is_as_safe(path: Path, victim: Path) -> None:
    shutil.copy(FIXTURES / "format-1.farboard", path)
    old = path.read_bytes()
    link = sqlite3.connect(path)
    link.execute("PRAGMA cache_spill = 1")
    link.execute("PRAGMA cache_size = 1")
    link.execute("BEGIN IMMEDIATE")
    for number in range(1000, 3000):
        link.execute("INSERT INTO change VALUES (?, ?, x'00')", (number, "half " * 100))
    half, journal = path.read_bytes(), Path(f"{path}-journal").read_bytes()
    link.close()
    assert half != old
    path.write_bytes(half)
    Path(f"{path}-journal").write_bytes(journal + naming(victim))

    for way in LOOKING.values():
        with pytest.raises(CannotOpen, match="names another file"):
            way(path)
    assert victim.read_text() == PRECIOUS

    Path(f"{path}-journal").write_bytes(journal)  # and one that a crash left is taken back
    with RecordFile.open(path, read_only=True) as file:
        assert file.record.job.reference
    with RecordFile.open(path) as file:
        assert "older form" in file.remark
    (kept,) = path.parent.glob("*older form*")
    assert len(kept.read_bytes()) == len(old)


@pytest.mark.parametrize("kind", ["symbolic", "hard"])
def test_a_journal_that_is_a_link_is_not_written_through(
    path: Path, victim: Path, kind: str
) -> None:
    """An engine that holds a file for itself empties the journal's head in place."""
    RecordFile.create(path, small_record()).close()
    journal = Path(f"{path}-journal")
    if kind == "symbolic":
        journal.symlink_to(victim)
    else:
        journal.hardlink_to(victim)

    for way in LOOKING.values():
        with pytest.raises(CannotOpen, match=r"is a link or no ordinary file\. Move"):
            way(path)

    assert victim.read_text() == PRECIOUS
    journal.unlink()
    with RecordFile.open(path) as file:
        file.change(put("/job/place", "goes on"))


def test_a_link_to_nothing_is_not_written_through_either(path: Path, tmp_path: Path) -> None:
    RecordFile.create(path, small_record()).close()
    Path(f"{path}-journal").symlink_to(tmp_path / "not there yet")
    with pytest.raises(CannotOpen, match="is a link"):
        RecordFile.open(path)
    assert not (tmp_path / "not there yet").exists()


def test_a_pipe_beside_a_record_is_not_waited_for(path: Path) -> None:
    RecordFile.create(path, small_record()).close()
    os.mkfifo(f"{path}-journal")
    for way in LOOKING.values():
        with pytest.raises(CannotOpen, match="no ordinary file"):
            way(path)
    assert rescued(path).fingerprints


def test_a_write_ahead_log_adds_nothing_to_a_record(path: Path) -> None:
    """The engine reads a log that lies beside a file even if the file's heading speaks of none."""
    RecordFile.create(path, small_record()).close()
    whole = path.read_bytes()
    other = path.with_name("other")
    shutil.copy(path, other)
    link = sqlite3.connect(other)
    link.execute("PRAGMA journal_mode = WAL")
    link.execute("INSERT INTO change VALUES (2, 'foreign', x'00')")
    link.commit()
    log = Path(f"{other}-wal").read_bytes()
    link.close()
    assert b"foreign" in log
    Path(f"{path}-wal").write_bytes(log)

    for way in LOOKING.values():
        with pytest.raises(CannotOpen, match=r"-wal, which is no file that Farboard makes"):
            way(path)

    assert path.read_bytes() == whole
    assert Path(f"{path}-wal").read_bytes() == log


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE sqlite_schema SET name = 'other'",
        "UPDATE sqlite_schema SET tbl_name = 'other'",
        "INSERT INTO sqlite_schema VALUES ('trigger', 't', 'change', 0, "
        "'CREATE TRIGGER t AFTER INSERT ON change BEGIN SELECT 1; END')",
        "INSERT INTO sqlite_schema VALUES ('table', 'v', 'v', 0, "
        "'CREATE VIRTUAL TABLE v USING fts5(words)')",
        "INSERT INTO sqlite_schema VALUES ('view', 'v', 'v', 0, "
        "'CREATE VIEW v AS SELECT load_extension(1)')",
    ],
)
def test_a_schema_that_says_one_thing_and_means_another(path: Path, statement: str) -> None:
    RecordFile.create(path, small_record()).close()
    link = sqlite3.connect(path)
    link.execute("PRAGMA writable_schema = ON")
    link.execute(statement)
    link.commit()
    link.close()
    for way in LOOKING.values():
        with pytest.raises(CannotOpen):
            way(path)
