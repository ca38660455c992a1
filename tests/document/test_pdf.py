"""The PDF beside a schedule: by whatever LibreOffice is there, or a sentence and no half a file."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from records.document import pdf
from records.document.pdf import write_pdf
from records.errors import CannotWrite

MAKES = """#!/bin/sh
while [ "$1" != --outdir ]; do shift; done
printf '%%PDF-1.7 of ' > "$2/schedule.pdf"; /bin/cat "$3" >> "$2/schedule.pdf"
"""


@pytest.fixture
def office(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return where a stand-in for LibreOffice is found; nothing is there yet."""
    folder = tmp_path / "programs"
    folder.mkdir()
    monkeypatch.setenv("PATH", str(folder))
    monkeypatch.setattr(pdf, "_ELSEWHERE", ())
    return folder / "soffice"


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "--sheet.docx"
    path.write_text("words")
    return path


def put(path: Path, script: str) -> None:
    path.write_text(script)
    path.chmod(0o755)


def test_where_there_is_no_libreoffice_it_is_said_with_what_to_do(
    office: Path, sheet: Path, tmp_path: Path
) -> None:
    with pytest.raises(CannotWrite, match=r"no LibreOffice here.*save the \.docx as PDF"):
        write_pdf(sheet, tmp_path / "sheet.pdf")
    assert not (tmp_path / "sheet.pdf").exists()


def test_the_pdf_is_that_of_the_document_whatever_its_name(
    office: Path, sheet: Path, tmp_path: Path
) -> None:
    put(office, MAKES)
    write_pdf(sheet, tmp_path / "sheet.pdf")
    assert (tmp_path / "sheet.pdf").read_text() == "%PDF-1.7 of words"


@pytest.mark.parametrize("script", ["#!/bin/sh\nexit 0\n", "#!/bin/sh\nexit 77\n", "no program"])
def test_a_libreoffice_that_makes_none_leaves_what_stood_there(
    office: Path, sheet: Path, tmp_path: Path, script: str
) -> None:
    put(office, script)
    (tmp_path / "sheet.pdf").write_text("of last week")
    with pytest.raises(CannotWrite, match="made no PDF"):
        write_pdf(sheet, tmp_path / "sheet.pdf")
    assert (tmp_path / "sheet.pdf").read_text() == "of last week"


@pytest.mark.slow
def test_one_that_hangs_is_ended_with_what_it_started(
    office: Path, sheet: Path, tmp_path: Path
) -> None:
    put(office, f"#!/bin/sh\n/bin/sleep 60 & echo $! > '{tmp_path}/pid'\nwait\n")
    began = time.monotonic()
    with pytest.raises(CannotWrite, match="took more than 2 s"):
        write_pdf(sheet, tmp_path / "sheet.pdf", seconds=2)
    assert time.monotonic() - began < 30
    child = int((tmp_path / "pid").read_text())
    for _ in range(100):
        if not _runs(child):
            return
        time.sleep(0.1)
    raise AssertionError("what it started still runs")


def _runs(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    state = Path(f"/proc/{pid}/stat")
    return not state.exists() or state.read_text().rpartition(")")[2].split()[0] != "Z"
