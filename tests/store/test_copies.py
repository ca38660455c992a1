"""Copies kept at each opening for writing: whole records, ten of them, never in the way."""

from __future__ import annotations

import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from records.store.copies import KEPT, Copies, copies_folder
from records.store.edits import put
from records.store.file import RecordFile
from tests.store.conftest import small_record

NOON = datetime(2026, 3, 20, 12, 0, tzinfo=UTC)


@pytest.fixture
def copies(tmp_path: Path) -> Copies:
    return Copies(tmp_path / "copies")


def test_a_copy_is_the_record_as_it_was_when_it_was_opened(
    path: Path, copies: Copies, file: RecordFile
) -> None:
    file.change(put("/job/place", "before"))
    before, mark = file.record, file.fingerprint
    kept = copies.keep(file, NOON)
    file.change(put("/job/place", "after"))

    assert kept is not None
    assert kept.name == f"2026-03-20 12.00.00 1 {mark}.farboard"
    with RecordFile.open(kept) as copy:
        assert (copy.record, copy.fingerprint) == (before, mark)
        assert len(list(copy.history())) == 2


def test_the_last_ten_are_kept(path: Path, copies: Copies) -> None:
    RecordFile.create(path, small_record()).close()
    marks = []
    for day in range(KEPT + 5):
        with RecordFile.open(path) as file:
            marks.append(file.fingerprint)
            copies.keep(file, NOON + timedelta(days=day))
            file.change(put("/job/place", f"day {day}"))

    kept = copies.of(path)

    assert [each.stem.split()[-1] for each in kept] == marks[-KEPT:]
    assert len(list(copies.folder.rglob("*.*"))) == KEPT


def test_an_opening_without_a_change_since_pushes_nothing_out(path: Path, copies: Copies) -> None:
    RecordFile.create(path, small_record()).close()
    for day in range(3):
        with RecordFile.open(path) as file:
            copies.keep(file, NOON + timedelta(days=day))
    assert len(copies.of(path)) == 1


def test_records_of_one_name_in_two_folders_have_their_own_copies(
    tmp_path: Path, copies: Copies
) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        with RecordFile.create(tmp_path / folder / "job.farboard") as file:
            copies.keep(file)
    assert len(copies.of(tmp_path / "a" / "job.farboard")) == 1
    assert len(copies.of(tmp_path / "b" / "job.farboard")) == 1


def test_the_lock_on_the_file_holds_while_and_after_it_is_copied(
    path: Path, copies: Copies, file: RecordFile
) -> None:
    """POSIX drops a process's locks on a file when any of its handles on it is closed."""
    import subprocess
    import sys

    copies.keep(file)
    code = (
        "import sqlite3, sys; link = sqlite3.connect(sys.argv[1], timeout=0)\n"
        "try: link.execute('BEGIN IMMEDIATE')\n"
        "except sqlite3.OperationalError as error: print(error)"
    )
    out = subprocess.run(
        [sys.executable, "-c", code, str(path)], check=True, capture_output=True, text=True
    )
    assert out.stdout == "database is locked\n"


def test_where_no_copy_can_be_written_work_goes_on(
    path: Path, tmp_path: Path, file: RecordFile
) -> None:
    (tmp_path / "a file").write_text("in the way")
    assert Copies(tmp_path / "a file" / "copies").keep(file) is None
    assert Copies(tmp_path / "a file" / "copies").of(path) == []
    file.change(put("/job/place", "x"))


def test_other_files_in_the_folder_are_left_alone(path: Path, copies: Copies) -> None:
    with RecordFile.create(path) as file:
        kept = copies.keep(file, NOON)
        assert kept is not None
        mine = kept.with_name("my own notes.txt")
        mine.write_text("mine")
        for day in range(1, 15):
            file.change(put("/job/place", f"{day}"))
            copies.keep(file, NOON + timedelta(days=day))
    assert mine.read_text() == "mine"


def test_they_lie_in_the_persons_own_data_folder(own_data: Path) -> None:
    assert copies_folder() == own_data / "farboard" / "copies"


@pytest.mark.parametrize("back", [timedelta(days=400), timedelta(days=20_000)])
def test_a_clock_that_was_set_back_never_has_the_newest_copy_removed(
    path: Path, copies: Copies, back: timedelta
) -> None:
    RecordFile.create(path, small_record()).close()
    marks = []
    for number in range(KEPT + 6):
        now = NOON + timedelta(days=number) - (back if number > 7 else timedelta())
        with RecordFile.open(path) as file:
            kept = copies.keep(file, now)
            marks.append(file.fingerprint)
            assert kept is not None
            assert kept.is_file()
            assert copies.of(path)[-1] == kept
            file.change(put("/job/place", f"opening {number}"))
    assert [each.stem.split()[-1] for each in copies.of(path)] == marks[-KEPT:]


def test_copies_of_an_earlier_farboard_go_first(path: Path, copies: Copies) -> None:
    with RecordFile.create(path, small_record()) as file:
        first = copies.keep(file, NOON)
        assert first is not None
        old = first.with_name(f"2030-01-01 12.00.00 {file.fingerprint}.farboard")
        first.rename(old)
        file.change(put("/job/place", "x"))
        second = copies.keep(file, NOON)
    assert copies.of(path) == [old, second]


def test_copies_are_their_owners_alone(path: Path, copies: Copies, file: RecordFile) -> None:
    copies.folder.mkdir(mode=0o755)
    kept = copies.keep(file)
    assert kept is not None
    for each, mode in ((copies.folder, 0o700), (kept.parent, 0o700), (kept, 0o600)):
        assert stat.S_IMODE(each.stat().st_mode) == mode
