"""A record opened through a symbolic link: the file that it leads to is what counts, always."""

from __future__ import annotations

import os
import random
import shutil
import signal
import stat
from pathlib import Path

import pytest

from records.errors import CannotWrite, LookOnly
from records.store.edits import append, put
from records.store.file import RecordFile
from records.store.rescue import rescued
from tests.store.conftest import reading, small_record
from tests.store.test_crash import writing
from tests.store.test_journal_files import FIXTURES, crashed


@pytest.fixture
def real(tmp_path: Path) -> Path:
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick" / "job.farboard"


@pytest.fixture
def link(tmp_path: Path, real: Path) -> Path:
    (tmp_path / "desk").mkdir()
    path = tmp_path / "desk" / "link.farboard"
    path.symlink_to(real)
    return path


def test_a_write_that_was_cut_off_is_taken_back_through_a_link(real: Path, link: Path) -> None:
    crashed(real)
    assert len(rescued(link).fingerprints) == 5
    with RecordFile.open(link, read_only=True) as file:
        assert file.record.job.place == "accepted"
    with RecordFile.open(link) as file:
        assert len(file.record.readings) == 3
        file.change(put("/job/place", "goes on"))
    assert os.listdir(real.parent) == [real.name]
    assert link.is_symlink()
    with RecordFile.open(real) as file:
        assert file.record.job.place == "goes on"


@pytest.mark.slow
def test_killed_while_writing_through_a_link_nothing_announced_is_lost(
    real: Path, link: Path
) -> None:
    RecordFile.create(real, small_record()).close()
    chance = random.Random(5)
    for _ in range(4):
        with writing(link) as child:
            assert child.stdout is not None
            assert child.stdout.readline() == "open\n"
            announced = 0
            for _ in range(chance.randrange(1, 9)):
                announced = int(child.stdout.readline())
            os.kill(child.pid, signal.SIGKILL)
            announced = max([announced, *map(int, child.stdout.read().split())])
        with RecordFile.open(link) as file:
            assert announced <= len(file.record.readings) <= announced + 1
        assert os.listdir(real.parent) == [real.name]
        assert os.listdir(link.parent) == [link.name]


def test_an_older_form_is_brought_up_where_the_link_leads(real: Path, link: Path) -> None:
    shutil.copy(FIXTURES / "format-1.farboard", real)
    real.chmod(0o640)
    with RecordFile.open(link) as file:
        file.change(put("/job/place", "after"))
    assert link.is_symlink()
    assert [each.name for each in link.parent.iterdir()] == [link.name]
    assert len(list(real.parent.glob("job older form *"))) == 1
    for each in real.parent.iterdir():
        assert stat.S_IMODE(each.stat().st_mode) == 0o640
    with RecordFile.open(real, read_only=True) as file:
        assert file.record.job.place == "after"


def test_a_link_that_leads_nowhere_is_not_written_through(real: Path, link: Path) -> None:
    with pytest.raises(CannotWrite, match="is there already"):
        RecordFile.create(link, small_record())
    assert not real.exists()


def test_two_ways_to_one_file_share_its_lock(real: Path, link: Path) -> None:
    with RecordFile.create(real, small_record()) as file:
        with pytest.raises(LookOnly):
            RecordFile.open(link)
        file.change(append("/readings", reading(1)))
        with RecordFile.open(link, read_only=True) as looked:
            assert looked.record == file.record
