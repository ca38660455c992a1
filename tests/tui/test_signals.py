"""The wizard in a real terminal, ended from outside: nothing lost, the screen restored."""

from __future__ import annotations

import os
import select
import signal
import sys
import time
from pathlib import Path

from records.store.file import RecordFile
from tests.bench.terminal import Terminal
from tui.local_state import Kept

CODE = """
import sys
from pathlib import Path
from tui.app import FarboardApp
from tui.local_state import Kept
FarboardApp(Path(sys.argv[1]), kept=Kept(Path(sys.argv[2]))).run()
"""
_PATIENCE = 60.0
"""Seconds after which a test gives up waiting; no measure of how fast it should be."""
_ALTERNATE_SCREEN_OFF = b"\x1b[?1049l"


def _wizard(path: Path, folder: Path) -> Terminal:
    RecordFile.create(path).close()
    terminal = Terminal([sys.executable, "-c", CODE, str(path), str(folder)])
    _until(terminal, "Reference")
    return terminal


def _until(terminal: Terminal, text: str) -> None:
    end = time.monotonic() + _PATIENCE
    while terminal.when_shown(text) is None:
        assert time.monotonic() < end, f"“{text}” was never shown:\n{terminal.chunks[-9:]}"
        terminal.read_until_quiet(quiet=0.2, limit=5)


def _ended(terminal: Terminal) -> bytes:
    """Return what is still written until the program has ended."""
    end, written = time.monotonic() + _PATIENCE, b""
    while time.monotonic() < end:
        if select.select([terminal.fd], [], [], 0.2)[0]:
            try:
                written += os.read(terminal.fd, 65536)
            except OSError:
                break
        elif os.waitpid(terminal.pid, os.WNOHANG)[0]:
            return written
    os.waitpid(terminal.pid, 0)
    return written


def _type(terminal: Terminal, keys: bytes, then: str) -> None:
    os.write(terminal.fd, keys)
    _until(terminal, then)


def test_sigterm_keeps_what_was_accepted_and_what_was_typed_and_restores_the_screen(
    tmp_path: Path,
) -> None:
    path = tmp_path / "job.farboard"
    terminal = _wizard(path, tmp_path / "kept")
    _type(terminal, b"J-5\r", "J-5 is on disk")
    _type(terminal, b"Half a pl", "Half a pl")
    os.kill(terminal.pid, signal.SIGTERM)
    written = _ended(terminal)
    os.close(terminal.fd)

    assert _ALTERNATE_SCREEN_OFF in written
    with RecordFile.open(path) as file:
        assert file.record.job.reference == "J-5"
        assert file.record.job.place == ""
    assert Kept(tmp_path / "kept").drafts(path) == {"/job/place": "Half a pl"}


def test_closing_the_window_keeps_what_was_accepted_and_what_was_typed(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    terminal = _wizard(path, tmp_path / "kept")
    _type(terminal, b"J-5\r", "J-5 is on disk")
    _type(terminal, b"Half a pl", "Half a pl")
    os.close(terminal.fd)
    _gone(terminal.pid)

    with RecordFile.open(path) as file:
        assert file.record.job.reference == "J-5"
    assert Kept(tmp_path / "kept").drafts(path) == {"/job/place": "Half a pl"}


def test_killed_outright_it_still_has_what_the_screen_said_was_on_disk(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    terminal = _wizard(path, tmp_path / "kept")
    _type(terminal, b"J-5\r", "J-5 is on disk")
    os.kill(terminal.pid, signal.SIGKILL)
    _ended(terminal)
    os.close(terminal.fd)

    with RecordFile.open(path) as file:
        assert file.record.job.reference == "J-5"


def _gone(pid: int) -> None:
    end = time.monotonic() + _PATIENCE
    while not os.waitpid(pid, os.WNOHANG)[0]:
        assert time.monotonic() < end, "the program never ended"
        time.sleep(0.05)


def test_a_fault_of_its_own_is_a_plain_message_and_nothing_is_lost(tmp_path: Path) -> None:
    path, kept = tmp_path / "job.farboard", tmp_path / "kept"
    RecordFile.create(path).close()
    broken = CODE.replace(
        "FarboardApp(",
        "from tui.steps.job import JobStep\n"
        "def fails(self): raise KeyError('planted')\n"
        "JobStep.action_working = fails\n"
        "FarboardApp(",
    )
    terminal = Terminal([sys.executable, "-c", broken, str(path), str(kept)])
    _until(terminal, "Reference")
    _type(terminal, b"J-5\r", "J-5 is on disk")
    _type(terminal, b"Half a pl", "Half a pl")
    os.write(terminal.fd, b"\x1bOQ")
    written = _ended(terminal).decode()
    os.close(terminal.fd)

    assert "met a fault of its own" in written
    assert "Traceback" not in written
    assert "planted" in (kept / "fault.txt").read_text()
    assert Kept(kept).drafts(path) == {"/job/place": "Half a pl"}
    with RecordFile.open(path) as file:
        assert file.record.job.reference == "J-5"
