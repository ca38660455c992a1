"""Documents and templates that a stranger made to use up time and memory: seconds, not minutes."""

from __future__ import annotations

import os
import resource
import signal
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from records.demo import demo_record
from records.document.mark import marks_in
from records.document.schedule import write_schedule
from records.errors import BadTemplate, CannotOpen
from tests.document import job

pytestmark = pytest.mark.slow

W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'
MARK = f"<w:p><w:r><w:t>{job.FINGERPRINT}</w:t></w:r></w:p>"
ROOT = Path(__file__).parents[2]


def packed(path: Path, body: str | bytes, way: int = zipfile.ZIP_DEFLATED, **more: str) -> Path:
    with zipfile.ZipFile(path, "w", way) as archive:
        archive.writestr("word/document.xml", body)
        for name, text in more.items():
            archive.writestr(f"word/{name}.xml", text)
    return path


def within(body: str) -> str:
    return f"<w:document {W}>{body}</w:document>"


BOMBS = {
    "paragraphs in paragraphs": within("<w:p>" * 3000 + "<w:t>x</w:t>" * 9000 + "</w:p>" * 3000),
    "deep": within("<w:p>" * 200_000 + "</w:p>" * 200_000),
    "many": within("<w:p/>" * 3_000_000),
    "long": within(f"<w:p><w:t>{'x' * 90_000_000}</w:t></w:p>"),
    "entities": f'<!DOCTYPE d [<!ENTITY a "{"x" * 99}">]>' + within("<w:p/>"),
    "entities in UTF-16": (f'<!DOCTYPE d [<!ENTITY a "x">]>{within("<w:p/>")}').encode("utf-16"),
}


@pytest.mark.parametrize("body", BOMBS.values(), ids=BOMBS)
def test_what_grows_when_it_is_read_is_refused(tmp_path: Path, body: str | bytes) -> None:
    """In a process of its own that may have 300 MB and 20 s of the processor."""
    path = packed(tmp_path / "bomb.docx", body)
    code = f"""
import sys
from pathlib import Path
from records.document.mark import marks_in
from records.errors import CannotOpen
try:
    marks_in(Path({str(path)!r}))
except CannotOpen:
    print("refused")
"""

    def bounded() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (300 * 1024**2,) * 2)
        resource.setrlimit(resource.RLIMIT_CPU, (20, 20))

    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        preexec_fn=bounded,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stdout == "refused\n", done.stderr[-500:]


def test_many_headers_and_ways_of_packing_are_refused(tmp_path: Path) -> None:
    header = f"<w:hdr {W}>{MARK}</w:hdr>"
    few = {f"header{n}": header for n in range(9)}
    many = {f"header{n}": header for n in range(300)}
    assert marks_in(packed(tmp_path / "a.docx", within(""), **few)).all == (job.FINGERPRINT,)
    with pytest.raises(CannotOpen, match="too many"):
        marks_in(packed(tmp_path / "b.docx", within(""), **many))
    for way in (zipfile.ZIP_LZMA, zipfile.ZIP_BZIP2):
        with pytest.raises(CannotOpen):
            marks_in(packed(tmp_path / "c.docx", within(MARK), way))


def test_a_fingerprint_in_a_text_box_inside_a_paragraph_is_found(tmp_path: Path) -> None:
    body = within(f"<w:p><w:r><w:t>before </w:t>{MARK}<w:t> after</w:t></w:r></w:p>")
    assert marks_in(packed(tmp_path / "a.docx", body)).all == (job.FINGERPRINT,)


@pytest.mark.parametrize("what", ["pipe.docx", "/dev/zero"])
def test_only_ordinary_files_are_opened(tmp_path: Path, what: str) -> None:
    os.mkfifo(tmp_path / "pipe.docx")
    path = tmp_path / what if not what.startswith("/") else Path(what)
    signal.alarm(30)
    try:
        with pytest.raises(CannotOpen, match="no ordinary file"):
            marks_in(path)
        with pytest.raises(BadTemplate, match="no ordinary file"):
            write_schedule(
                demo_record(),
                tmp_path / "out.docx",
                fingerprint=job.FINGERPRINT,
                made=job.MADE,
                template=path,
            )
    finally:
        signal.alarm(0)
