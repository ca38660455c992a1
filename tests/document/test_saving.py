"""The file appears whole, or not at all and with a sentence why."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from records.document.saving import checked_place, save
from records.errors import CannotWrite


def test_a_document_replaces_the_one_before_and_leaves_nothing_else(tmp_path: Path):
    out = tmp_path / "sheet.docx"
    out.write_bytes(b"old")
    out.chmod(0o640)

    save(b"new", checked_place(out))

    assert out.read_bytes() == b"new"
    assert out.stat().st_mode & 0o777 == 0o640
    assert list(tmp_path.iterdir()) == [out]


def test_a_link_stays_a_link(tmp_path: Path):
    there = tmp_path / "there.docx"
    there.write_bytes(b"old")
    link = tmp_path / "link.docx"
    link.symlink_to(there)

    save(b"new", checked_place(link))

    assert link.is_symlink()
    assert there.read_bytes() == b"new"


@pytest.mark.parametrize("name", ["job.farboard", "sheet", "sheet.pdf", "sheet.doc", "x.docx.bak"])
def test_only_a_name_in_docx_is_written_so_that_no_record_is_lost(tmp_path: Path, name: str):
    with pytest.raises(CannotWrite, match=r"call it “.+\.docx”"):
        checked_place(tmp_path / name)


def test_a_folder_in_its_place_or_none_at_all_is_refused(tmp_path: Path):
    (tmp_path / "folder.docx").mkdir()

    with pytest.raises(CannotWrite, match="is a folder"):
        checked_place(tmp_path / "folder.docx")
    with pytest.raises(CannotWrite, match="There is no folder"):
        checked_place(tmp_path / "nowhere" / "sheet.docx")


def test_a_pipe_is_refused(tmp_path: Path):
    os.mkfifo(tmp_path / "pipe.docx")

    with pytest.raises(CannotWrite, match="not a file"):
        checked_place(tmp_path / "pipe.docx")


def test_a_full_disk_leaves_the_old_document_and_no_half_of_the_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    out = tmp_path / "sheet.docx"
    out.write_bytes(b"old")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite, match="No space left on device"):
        save(b"new", out)

    assert out.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [out]


def test_a_file_or_folder_without_the_right_to_write_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    out = tmp_path / "sheet.docx"
    out.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda _path, right: right != os.W_OK)
    with pytest.raises(CannotWrite, match="may not be changed"):
        checked_place(out)

    def refused(*_: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied", str(out))

    monkeypatch.setattr(os, "open", refused)
    with pytest.raises(CannotWrite, match="Permission denied"):
        save(b"new", tmp_path / "new.docx")
    assert [each.name for each in tmp_path.iterdir()] == ["sheet.docx"]
