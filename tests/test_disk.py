"""Files on disk: read only if they are ordinary ones, written whole, owners and modes kept."""

from __future__ import annotations

import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from records.disk import (
    PRIVATE,
    data_folder,
    open_ordinary,
    private_folder,
    read_ordinary,
    write_whole,
)

ROOT = Path(__file__).parents[1]


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@pytest.mark.parametrize("what", ["pipe", "/dev/zero", "/dev/null", "folder"])
def test_what_is_no_ordinary_file_is_neither_read_nor_waited_for(tmp_path: Path, what: str) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "folder").mkdir()
    path = tmp_path / what if not what.startswith("/") else Path(what)
    signal.alarm(20)
    try:
        with pytest.raises(OSError, match=r"ordinary|directory"):
            open_ordinary(path)
        with pytest.raises(OSError, match=r"ordinary|directory"):
            write_whole(path, b"x")
    finally:
        signal.alarm(0)
    assert what == "folder" or not stat.S_ISREG(path.stat().st_mode)


def test_a_file_is_read_up_to_its_limit_and_not_over(tmp_path: Path) -> None:
    path = tmp_path / "a"
    path.write_bytes(b"1234")
    assert read_ordinary(path, 4) == b"1234"
    with pytest.raises(OSError, match="larger than 3 bytes"):
        read_ordinary(path, 3)


def test_a_file_that_is_replaced_keeps_its_mode_and_a_link_stays_one(tmp_path: Path) -> None:
    real, link = tmp_path / "real", tmp_path / "link"
    real.write_text("old")
    real.chmod(0o640)
    link.symlink_to(real)
    write_whole(link, b"new")
    assert link.is_symlink()
    assert (real.read_text(), mode(real)) == ("new", 0o640)
    assert sorted(os.listdir(tmp_path)) == ["link", "real"]


def test_a_new_file_never_replaces_one_that_is_there(tmp_path: Path) -> None:
    path = tmp_path / "a"
    write_whole(path, b"first", new=True)
    (tmp_path / "dangling").symlink_to(tmp_path / "nowhere")
    for each in (path, tmp_path / "dangling"):
        with pytest.raises(FileExistsError):
            write_whole(each, b"second", new=True)
    assert path.read_bytes() == b"first"
    assert sorted(os.listdir(tmp_path)) == ["a", "dangling"]


def test_what_is_private_is_private_whatever_it_was(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    folder.mkdir(mode=0o755)
    path = folder / "draft"
    path.write_text("old")
    path.chmod(0o644)
    private_folder(folder)
    write_whole(path, b"new", mode=PRIVATE)
    assert (mode(folder), mode(path)) == (0o700, 0o600)


def test_a_disk_that_fails_in_the_middle_leaves_what_was_there(tmp_path: Path) -> None:
    """The system's own limit on the size of a file makes write() fail."""
    path = tmp_path / "a"
    path.write_bytes(b"old")
    code = f"""
import resource, signal, sys
from pathlib import Path
from records.disk import write_whole
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))
try:
    write_whole(Path({str(path)!r}), bytes(100_000))
except OSError as error:
    print(error.strerror)
"""
    out = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, check=True, capture_output=True, text=True
    )
    assert out.stdout == "File too large\n"
    assert path.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["a"]


def test_without_a_home_nothing_is_put_into_a_folder_called_tilde(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import pwd

    def nobody(_: int) -> None:
        raise KeyError("no such user")

    monkeypatch.delenv("HOME", raising=False)
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    monkeypatch.setattr(pwd, "getpwuid", nobody)
    monkeypatch.chdir(tmp_path)
    folder = data_folder()
    assert folder.is_absolute()
    assert "~" not in str(folder)
    assert str(os.getuid()) in folder.name
