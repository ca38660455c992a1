"""Disks that are full, fail or change underneath: said, and nothing accepted is lost."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from records.errors import CannotWrite
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.store.conftest import reading, small_record

LONG = "x" * 1900


def fill(file: RecordFile) -> int:
    """Change the record until the disk takes no more; return how often it did."""
    for number in range(10_000):
        before, mark = file.record, file.fingerprint
        try:
            file.change(put("/job/description", f"{number} {LONG}"))
        except CannotWrite as error:
            message = str(error)
            break
    assert "could not be put on disk" in message
    assert "has not been accepted" in message
    assert file.record is before
    assert file.fingerprint == mark
    return number


def test_a_full_disk_keeps_what_was_accepted_and_goes_on_when_there_is_room(path: Path) -> None:
    """SQLite answers SQLITE_FULL past its own limit of pages as it does on a full disk."""
    with RecordFile.create(path, small_record()) as file:
        link = file._container.link
        link.execute("PRAGMA max_page_count = 20")
        accepted = fill(file)
        assert accepted > 5
        kept = file.record
        # The next change opens the file again, without the limit: there is room again.
        file.change(append("/readings", reading(1)))
        assert file.record.job == kept.job
    with RecordFile.open(path) as again:
        assert again.record.job.description.startswith(f"{accepted - 1} ")
        assert len(again.record.readings) == 1


def test_a_file_that_may_not_grow(path: Path) -> None:
    """The system's own limit (RLIMIT_FSIZE) makes write() fail in the middle of a transaction."""
    with RecordFile.create(path, small_record()) as file:
        old = resource.getrlimit(resource.RLIMIT_FSIZE)
        handler = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        try:
            resource.setrlimit(resource.RLIMIT_FSIZE, (64 * 1024, old[1]))
            accepted = fill(file)
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, old)
            signal.signal(signal.SIGXFSZ, handler)
        kept = file.record
    with RecordFile.open(path) as again:
        assert again.record == kept
        assert again.record.job.description.startswith(f"{accepted - 1} ")


class FailingLink:
    """Stands before the real connection and fails at COMMIT, as after a failing fsync."""

    def __init__(self, link: sqlite3.Connection, gets_through: bool) -> None:
        self.link, self.gets_through = link, gets_through

    def execute(self, statement: str, values: tuple[object, ...] = ()) -> sqlite3.Cursor:
        if statement == "COMMIT":
            self.link.execute("COMMIT" if self.gets_through else "ROLLBACK")
            raise sqlite3.OperationalError("disk I/O error")
        return self.link.execute(statement, values)

    def serialize(self) -> bytes:
        return self.link.serialize()

    def close(self) -> None:
        self.link.close()


@pytest.mark.parametrize("gets_through", [False, True])
def test_after_a_failing_sync_the_file_decides_what_was_kept(
    path: Path, gets_through: bool
) -> None:
    with RecordFile.create(path, small_record()) as file:
        file._container.link = FailingLink(file._container.link, gets_through)  # type: ignore[assignment]
        with pytest.raises(CannotWrite, match="disk I/O error"):
            file.change(put("/job/place", "first try"))
        assert file.record == small_record()

        file.change(put("/job/reference", "second"))
        assert file.record.job.reference == "second"
        assert file.record.job.place == ("first try" if gets_through else "")
        after = file.record
    with RecordFile.open(path) as again:
        assert again.record == after


def test_a_file_restored_underneath_is_noticed_before_the_next_write(
    path: Path, tmp_path: Path
) -> None:
    backup = tmp_path / "backup"
    with RecordFile.create(path, small_record()) as file:
        shutil.copy(path, backup)
        file.change(put("/job/place", "x"))
        os.replace(backup, path)
        old = path.read_bytes()

        with pytest.raises(CannotWrite, match="changed by something else"):
            file.change(put("/job/place", "y"))

        assert path.read_bytes() == old
        assert file.record.job.place == "x"
        assert len(list(file.history())) == 2
    kept = next(each for each in tmp_path.iterdir() if "as it was here" in each.name)
    with RecordFile.open(kept) as aside:
        assert aside.record.job.place == "x"


def test_a_file_that_was_only_moved_by_a_copy_goes_on(path: Path, tmp_path: Path) -> None:
    """A program that keeps folders in step may put the very same file in its own place."""
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "x"))
        shutil.copy(path, tmp_path / "same")
        os.replace(tmp_path / "same", path)

        file.change(put("/job/place", "y"))
    with RecordFile.open(path) as again:
        assert again.record.job.place == "y"


def test_a_file_that_is_gone_is_said_and_the_record_can_still_be_seen(path: Path) -> None:
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "x"))
        right, whole = file.record, path.read_bytes()
        path.unlink()
        for _ in range(2):
            with pytest.raises(CannotWrite, match=r"There is no file .* is kept in"):
                file.change(put("/job/place", "y"))
        assert file.record == right
        (kept,) = path.parent.iterdir()
        assert kept.read_bytes() == whole
        kept.rename(path)

        file.change(put("/job/place", "y"))  # it is back, and goes on
    with RecordFile.open(path) as again:
        assert again.record.job.place == "y"


def test_a_file_written_over_in_place_is_noticed_and_what_was_here_is_kept(
    path: Path, tmp_path: Path
) -> None:
    """A program that keeps folders in step may write another version into the same file."""
    other = tmp_path / "other"
    RecordFile.create(other).close()
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "x"))
        before = path.stat()
        path.write_bytes(other.read_bytes().ljust(before.st_size, b"\0"))
        os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))

        with pytest.raises(CannotWrite):
            file.change(put("/job/place", "y"))

        assert path.read_bytes().startswith(other.read_bytes())
        assert file.record.job.place == "x"


@pytest.mark.usefixtures("own_data")
def test_with_its_folder_gone_what_was_accepted_goes_where_copies_are_kept(
    tmp_path: Path,
) -> None:
    """As when a memory stick is pulled out."""
    stick = tmp_path / "stick"
    stick.mkdir()
    with RecordFile.create(stick / "job.farboard", small_record()) as file:
        file.change(put("/job/place", "x"))
        shutil.rmtree(stick)
        with pytest.raises(CannotWrite, match=r"is kept in .*copies"):
            file.change(put("/job/place", "y"))
    (kept,) = (tmp_path / "data" / "farboard" / "copies").iterdir()
    with RecordFile.open(kept) as again:
        assert again.record.job.place == "x"


def test_what_is_opened_to_look_is_never_written(path: Path) -> None:
    RecordFile.create(path, small_record()).close()
    before = path.read_bytes()
    with RecordFile.open(path, read_only=True) as file:
        for act in (lambda: file.change(put("/job/place", "x")), file.undo, file.redo):
            with pytest.raises(CannotWrite, match="look only"):
                act()
        assert file.read_only
    assert path.read_bytes() == before
    assert os.listdir(path.parent) == [path.name]


def test_a_temporary_folder_without_room_is_not_blamed_on_the_record(path: Path) -> None:
    """A record is copied before it is read: where the copy has no room, the record is whole."""
    RecordFile.create(path, small_record()).close()
    code = (
        "import resource, signal, sys; from pathlib import Path\n"
        "from records.errors import CannotOpen; from records.store.private_copy import look\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (2048, 2048))\n"
        "try: look(Path(sys.argv[1]))\n"
        "except CannotOpen as error: print(error)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True
    )

    assert "no room" in done.stdout
    assert "TMPDIR" in done.stdout
    assert "can't be read" not in done.stdout
