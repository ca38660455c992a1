"""The bench line by line in a terminal: keys, signals, what was typed too early."""

from __future__ import annotations

import os
import pty
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.commands.conftest import ROOT
from tests.commands.plainly import figures, record_of

pytestmark = pytest.mark.slow

_WITH_KEYS = (
    "import fcntl, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0)\n"  # Ctrl-C reaches it
    # What was begun in the background ignores it, and hands that on.
    "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)\n"
    "from tui.commands import main; main()"
)


@contextmanager
def terminal(job: Path) -> Iterator[tuple[int, subprocess.Popen[bytes]]]:
    """Run the line bench in a real terminal; what it prints is read from the number given."""
    ours, theirs = pty.openpty()
    child = subprocess.Popen(
        [sys.executable, "-c", _WITH_KEYS, "bench", str(job), "--plain", "--stage", "dead"],
        cwd=ROOT,
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        start_new_session=True,
        env={**os.environ, "PYTHONUTF8": "1", "TERM": "dumb"},
    )
    os.close(theirs)
    try:
        yield ours, child
    finally:
        if child.poll() is None:
            child.kill()
        child.wait()
        os.close(ours)


def until(ours: int, words: str) -> str:
    """Return what was printed up to and with some words."""
    text = b""
    end = time.monotonic() + 60
    while words.encode() not in text:
        ready, _, _ = select.select([ours], [], [], max(0.0, end - time.monotonic()))
        assert ready, f"“{words}” did not come:\n{text.decode(errors='replace')}"
        try:
            more = os.read(ours, 1)  # no further: what follows is for the next call
        except OSError:
            more = b""
        assert more, f"It ended before “{words}”:\n{text.decode(errors='replace')}"
        text += more
    return text.decode(errors="replace")


def past_cautions(ours: int) -> None:
    """Read the two cautions before the first reading, each once it is there."""
    for _ in range(2):
        until(ours, "ok: ")
        os.write(ours, b"ok\n")


def test_what_was_typed_before_a_caution_was_there_does_not_answer_it(job: Path) -> None:
    with terminal(job) as (ours, _):
        until(ours, "ok: ")
        os.write(ours, b"ok\nok\n.09\n")
        until(ours, "What was typed before this was here is not taken.")
        until(ours, "ok: ")
        os.write(ours, b"ok\n")
        until(ours, "R1+R2 in Ω: ")
    assert len(record_of(job).cautions_read) == 2
    assert figures(job) == []


def test_in_a_terminal_a_bad_value_is_kept_only_when_told_so(job: Path) -> None:
    with terminal(job) as (ours, child):
        past_cautions(ours)
        until(ours, "R1+R2 in Ω: ")
        os.write(ours, b"3\n")
        text = until(ours, "keep, or another answer: ")
        assert "3.00 Ω is not kept yet. It would be outside" in text
        os.write(ours, b"0.09\n")
        until(ours, "Kept. Feed, R1+R2: 0.09 Ω.")
        until(ours, "earthing conductor in Ω: ")
        os.write(ours, b"9\n")
        until(ours, "keep, or another answer: ")
        os.write(ours, b"keep\n")
        until(ours, "Kept. Board, earthing conductor: 9.00 Ω.")
        os.write(ours, b"quit\n")
        assert "\x1b" not in until(ours, "is on disk.")
        assert child.wait(timeout=30) == 0
    assert figures(job) == [("R1+R2", 0.09), ("earthing conductor", 9.0)]


@pytest.mark.parametrize(("key", "code"), [(b"\x03", 130), (b"\x04", 0)])
def test_ctrl_c_and_ctrl_d_leave_cleanly(job: Path, key: bytes, code: int) -> None:
    with terminal(job) as (ours, child):
        past_cautions(ours)
        until(ours, "R1+R2 in Ω: ")
        os.write(ours, b"0.09\n")
        until(ours, "earthing conductor in Ω: ")
        os.write(ours, key)
        text = until(ours, "is on disk.")
        assert "Traceback" not in text
        assert child.wait(timeout=30) == code
    assert figures(job) == [("R1+R2", 0.09)]


def test_a_signal_to_end_loses_nothing_that_was_kept(job: Path) -> None:
    with terminal(job) as (ours, child):
        past_cautions(ours)
        until(ours, "R1+R2 in Ω: ")
        os.write(ours, b"0.09\n")
        until(ours, "Kept. ")
        child.send_signal(signal.SIGTERM)
        child.wait(timeout=30)
    assert figures(job) == [("R1+R2", 0.09)]


def test_the_line_bench_loads_no_screen() -> None:
    code = "import tui.plain.bench, sys; print('textual' in sys.modules, 'rich' in sys.modules)"
    out = subprocess.run(
        [sys.executable, "-c", code], check=True, cwd=ROOT, capture_output=True, text=True
    )
    assert out.stdout == "False False\n"
