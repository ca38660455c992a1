"""Lines on a terminal break between words, at whatever width it has; in a pipe nothing is cut."""

from __future__ import annotations

import fcntl
import io
import os
import pty
import struct
import subprocess
import sys
import termios
from pathlib import Path

import pytest

from records.store.file import RecordFile
from tests.commands.conftest import ROOT
from tests.taking.job import small_job
from tui.commands.lines import fitted, room, wrapped

pytestmark = pytest.mark.slow

_PLAIN = {"PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", "TERM": "dumb", "NO_COLOR": "1"}


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.farboard"
    RecordFile.create(path, small_job(), by="Wren Oakes").close()
    return path


def on_terminal(folder: Path, columns: int, *words: str, typed: str = "") -> str:
    """Return what `farboard WORDS` prints on a terminal of that width, errors too."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    with subprocess.Popen(
        [sys.executable, "-m", "tui", *words],
        cwd=folder,
        stdin=subprocess.PIPE,
        stdout=theirs,
        stderr=theirs,
        env={**os.environ, **_PLAIN},
    ) as child:
        os.close(theirs)
        assert child.stdin is not None
        child.stdin.write(typed.encode())
        child.stdin.close()
        said = b""
        try:
            while more := os.read(ours, 65536):
                said += more
        except OSError:  # the other end is closed: all is said
            pass
        child.wait(timeout=60)
    os.close(ours)
    return said.decode().replace("\r\n", "\n")


@pytest.mark.parametrize("columns", [80, 47])
@pytest.mark.parametrize(
    ("words", "typed"),
    [
        (("bench", "job.farboard", "--plain", "--stage", "dead"), "ok\nok\nshow\n?\n0.3\nwhy\n"),
        (("bench", "job.farboard", "--plain", "--by", "Nobody at all of that name"), ""),
        (("check", "job.farboard"), ""),
        (("check", "worn.farboard"), ""),
        (("readings", "job.farboard", "-o", "job.farboard"), ""),
    ],
)
def test_no_word_is_broken_at_the_edge(
    job: Path, columns: int, words: tuple[str, ...], typed: str
) -> None:
    worn = job.with_name("worn.farboard")
    worn.write_bytes(job.read_bytes()[:-3000])
    before = job.read_bytes()
    narrow = on_terminal(job.parent, columns, *words, typed=typed)
    job.write_bytes(before)
    wide = on_terminal(job.parent, 4000, *words, typed=typed)

    assert len(narrow.split()) > 5
    assert [each for each in narrow.split("\n") if len(each) > columns] == []
    assert narrow.split() == wide.split()


def test_what_goes_elsewhere_stays_a_line_a_thought() -> None:
    long = "word " * 40
    assert room(io.StringIO()) is None
    assert room(None) is None
    assert fitted(long, io.StringIO()) == long


def test_a_width_can_be_given() -> None:
    assert wrapped("one two three", width=7) == ["one two", "three"]
