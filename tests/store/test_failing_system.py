"""The system itself refuses: syncs, writes and room fail; what was accepted stays, and no more."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from records.errors import CannotWrite
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.store.conftest import reading, small_record

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    ("error", "calls"),
    [
        ("EIO", ["fsync", "fdatasync"]),
        ("EIO", ["pwrite64"]),
        ("ENOSPC", ["pwrite64"]),
        ("EDQUOT", ["pwrite64"]),
        ("EIO", ["fsync", "fdatasync", "pwrite64", "unlink", "unlinkat"]),
    ],
)
def test_what_the_system_refuses_is_not_accepted_and_nothing_accepted_is_lost(
    path: Path, error: str, calls: list[str]
) -> None:
    RecordFile.create(path, small_record()).close()

    out = subprocess.run(
        [sys.executable, "-m", "tests.store.failing_system", str(path), error, *calls],
        check=False,
        cwd=ROOT,
        env={**os.environ, "XDG_DATA_HOME": str(path.parent / "data")},
        capture_output=True,
        text=True,
    )

    assert out.stderr == ""
    first, *refused, last = out.stdout.splitlines()
    assert first == "accepted 5"
    assert len(refused) == 2
    assert all(line.startswith("refused") and line.endswith(".") for line in refused)
    assert last == "record - 5"
    with RecordFile.open(path) as file:
        assert len(file.record.readings) == 5
        # A write whose sync failed may have got through; it was the first or the second, whole.
        assert file.record.job.place in ("", "first", "second")
        file.change(put("/job/place", "the disk was mended"))
    assert [each for each in os.listdir(path.parent) if each.endswith("-journal")] == []


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """Return a folder on a disk of 192 kB; where none can be mounted, one with a like limit."""
    folder = tmp_path / "small disk"
    folder.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=192k", "none", str(folder)]
    mounted = os.geteuid() == 0 and subprocess.run(mount, check=False, capture_output=True)
    yield folder
    if mounted and mounted.returncode == 0:
        subprocess.run(["umount", str(folder)], check=True)


def test_a_disk_that_runs_full_in_the_middle_of_the_work(small_disk: Path) -> None:
    path, filler = small_disk / "job.farboard", small_disk / "other things"
    with RecordFile.create(path, small_record()) as file:
        if not os.path.ismount(small_disk):
            file._container.link.execute("PRAGMA max_page_count = 30")
        filler.write_bytes(bytes(32768))
        accepted, refused = 0, []
        for number in range(1, 400):
            long = "x" * 1500
            try:
                file.change([*append("/readings", reading(number)), *put("/job/place", long)])
                file.change(put("/job/place", f"{number}"))
                accepted = number
            except CannotWrite as error:
                refused.append(str(error))
                break
        assert accepted > 3
        assert "could not be put on disk" in refused[0]
        assert "full" in refused[0]
        kept = file.record
        filler.unlink()
        if kept.job.place != "made room":
            file.change(put("/job/place", "made room"))
    with RecordFile.open(path) as again:
        assert again.record.readings == kept.readings
        assert again.record.job.place == "made room"
    assert os.listdir(small_disk) == [path.name]


def fill(path: Path) -> None:
    """Write until the disk takes no more."""
    with suppress(OSError), path.open("wb", 0) as file:
        while True:
            file.write(bytes(4096))


def test_a_file_is_not_half_made_where_there_is_no_room(small_disk: Path) -> None:
    if os.path.ismount(small_disk):
        fill(small_disk / "other things")
    else:
        small_disk.chmod(0o500)
    with pytest.raises(CannotWrite):
        RecordFile.create(small_disk / "job.farboard", small_record())
    assert not (small_disk / "job.farboard").exists()


def test_a_share_without_locks_is_said_and_the_record_can_be_looked_at(path: Path) -> None:
    """As some network shares answer every lock with ENOLCK."""
    RecordFile.create(path, small_record()).close()
    before = path.read_bytes()
    code = f"""
import errno
from pathlib import Path
from records.errors import LookOnly
from records.store.file import RecordFile
from tests.store.failing_system import fail
path = Path({str(path)!r})
RecordFile.open(path, read_only=True).close()
fail(["fcntl"], errno.ENOLCK)
try:
    RecordFile.open(path)
except LookOnly as error:
    print(error)
"""
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert "has no locks" in done.stdout, done
    assert path.read_bytes() == before
