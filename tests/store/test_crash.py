"""Killed at any moment, a writer leaves a whole file with every value that it had announced."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from records.errors import CannotOpen, LookOnly
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.store.conftest import reading, small_record

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
KILLS = 15


def half_a_write(file: RecordFile) -> sqlite3.Connection:
    """Begin a write so large that a part of it is in the file before it is finished."""
    link = file._container.link
    link.execute("PRAGMA cache_spill = 1")
    link.execute("BEGIN IMMEDIATE")
    for number in range(1000, 4000):
        link.execute("INSERT INTO change VALUES (?, ?, x'00')", (number, "half a change " * 50))
    return link


@contextmanager
def writing(path: Path) -> Iterator[subprocess.Popen[str]]:
    """Run a writer on the file; it is killed at the end."""
    command = [sys.executable, "-m", "tests.store.writer", str(path)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as child:
        try:
            yield child
        finally:
            child.kill()


def test_every_announced_value_survives_kill_9(path: Path) -> None:
    RecordFile.create(path, small_record()).close()
    chance = random.Random(3)
    for _ in range(KILLS):
        with writing(path) as child:
            assert child.stdout is not None
            assert child.stdout.readline() == "open\n"
            announced = 0
            for _ in range(chance.randrange(1, 12)):
                announced = int(child.stdout.readline())
            os.kill(child.pid, signal.SIGKILL)
            announced = max([announced, *map(int, child.stdout.read().split())])
        with RecordFile.open(path) as file:
            values = [each.taken.value for each in file.record.readings]
        assert values[:announced] == [n / 1000 for n in range(1, announced + 1)]
        assert len(values) <= announced + 1
        assert os.listdir(path.parent) == [path.name]


def test_a_write_that_was_cut_off_is_taken_back(path: Path) -> None:
    """A journal left behind by a crash belongs to the file until it was rolled back.

    SQLite documentation, "Atomic Commit In SQLite", section 4.
    """
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "accepted"))
        link = half_a_write(file)
        half, journal = path.read_bytes(), Path(f"{path}-journal").read_bytes()
        link.execute("ROLLBACK")
        before = file.record
    path.write_bytes(half)
    Path(f"{path}-journal").write_bytes(journal)
    assert b"half a change" in half

    with RecordFile.open(path, read_only=True) as looked:
        assert looked.record == before
    assert path.read_bytes() == half
    with RecordFile.open(path) as file:
        assert file.record == before
        file.change(put("/job/place", "goes on"))
    assert os.listdir(path.parent) == [path.name]


def test_a_journal_of_another_file_is_not_rolled_back_into_this_one(
    path: Path, tmp_path: Path
) -> None:
    with RecordFile.create(tmp_path / "other", small_record()) as other:
        for number in range(1, 80):
            other.change(append("/readings", reading(number, 0.5)))
        link = half_a_write(other)
        journal = Path(f"{other.path}-journal").read_bytes()
        link.execute("ROLLBACK")
    with RecordFile.create(path, small_record()) as file:
        for number in range(1, 40):
            file.change(append("/readings", reading(number)))
    whole = path.read_bytes()
    Path(f"{path}-journal").write_bytes(journal)

    with pytest.raises(CannotOpen):
        RecordFile.open(path)

    assert path.read_bytes() == whole


def test_a_second_opener_is_told_and_can_look(path: Path) -> None:
    RecordFile.create(path, small_record()).close()
    with writing(path) as child:
        assert child.stdout is not None
        assert child.stdout.readline() == "open\n"
        with pytest.raises(LookOnly, match="open in another window or program"):
            RecordFile.open(path)
        for _ in range(20):
            announced = int(child.stdout.readline())
            with RecordFile.open(path, read_only=True) as looked:
                assert len(looked.record.readings) >= announced
                assert len(list(looked.history())) == len(looked.record.readings) + 1
    with RecordFile.open(path) as file:  # the crash left no lock behind
        assert len(file.record.readings) >= announced


def test_a_second_opener_in_the_same_program_is_told_and_can_look(path: Path) -> None:
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "x"))
        for _ in range(2):
            with pytest.raises(LookOnly):
                RecordFile.open(path)
            with RecordFile.open(path, read_only=True) as looked:
                assert looked.record == file.record
                assert looked.fingerprint == file.fingerprint
        with writing(path) as child:  # the lock held all along
            assert child.stdout is not None
            assert child.stdout.read() == ""
            assert child.wait() != 0
        file.change(put("/job/place", "y"))
