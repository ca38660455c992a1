"""The wizard in a real terminal, ended from outside: nothing lost, the screen restored."""

from __future__ import annotations

import os
import platform
import select
import signal
import stat
import sys
import time
from pathlib import Path

import pytest

from records.store.file import RecordFile
from tests.bench.terminal import Terminal
from tui.local_state import Kept

pytestmark = pytest.mark.slow

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
        terminal.read_until_quiet(quiet=0.05, limit=5)


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
    while time.monotonic() < end:
        if os.waitpid(terminal.pid, os.WNOHANG)[0]:
            return written
        time.sleep(0.01)
    os.kill(terminal.pid, signal.SIGKILL)
    os.waitpid(terminal.pid, 0)
    raise AssertionError(f"it went on: {written[-2000:]!r}")


def _is_python(pid: int) -> None:
    """Wait until the new program has taken over from the copy of this one that starts it.

    That copy notes a signal as pytest would, and forgets it as it turns into the new program.
    """
    words = Path(f"/proc/{pid}/cmdline")
    end = time.monotonic() + _PATIENCE
    while words.exists() and b"main()" not in words.read_bytes() and time.monotonic() < end:
        time.sleep(0.001)


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


@pytest.mark.parametrize("each", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_told_to_stop_at_any_moment_of_opening_it_keeps_the_draft(
    tmp_path: Path, each: signal.Signals
) -> None:
    path, kept = tmp_path / "job.farboard", tmp_path / "data" / "farboard"
    RecordFile.create(path).close()
    for tenths in (0, 4, 8):
        Kept(kept).keep_drafts(path, {"/job/place": "Half a pl"})
        code = f"import os; os.environ['XDG_STATE_HOME'] = {str(kept.parent)!r}\n"
        code += "import sys; from tui.commands import main"
        terminal = Terminal([sys.executable, "-c", f"{code}; main()", str(path)])
        _is_python(terminal.pid)
        end = time.monotonic() + tenths / 10
        while (left := end - time.monotonic()) > 0:
            terminal.read_until_quiet(quiet=min(left, 0.05), limit=left)
        os.kill(terminal.pid, each)
        written = b"".join(part for _, part in terminal.chunks) + _ended(terminal)
        os.close(terminal.fd)

        assert Kept(kept).drafts(path) == {"/job/place": "Half a pl"}
        assert b"of its own" not in written
        assert tenths == 0 or b"Traceback" not in written  # at 0, Python itself is only starting
        assert written.count(b"\x1b[?1049h") == written.count(_ALTERNATE_SCREEN_OFF)
        assert sorted(os.listdir(tmp_path)) == ["data", "job.farboard"]


@pytest.mark.parametrize("sent", [b"ac\xe9e", b"\x1b[200~caf\xe9\x1b[201~ace"])
def test_a_byte_that_is_no_text_is_refused_and_nothing_typed_is_lost(
    tmp_path: Path, sent: bytes
) -> None:
    """As from a terminal set to ISO 8859-1 (Latin-1)."""
    path = tmp_path / "job.farboard"
    terminal = _wizard(path, tmp_path / "kept")
    _type(terminal, b"J-5\r", "J-5 is on disk")
    _type(terminal, b"Half a pl", "Half a pl")
    # What 0xE9 begins could go on: it is seen with the next sign that it doesn't.
    _type(terminal, sent, "is not UTF-8")
    _type(terminal, b"\r", "Half a place is on disk")
    os.kill(terminal.pid, signal.SIGTERM)
    written = _ended(terminal)
    os.close(terminal.fd)

    assert b"Traceback" not in written
    with RecordFile.open(path) as file:
        assert file.record.job.place == "Half a place"


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

    assert "has crashed" in written
    assert "Traceback" not in written
    (report,) = (kept / "crashes").iterdir()
    assert report.name in " ".join(written.split())
    said = report.read_text()
    assert "builtins.KeyError\n" in said
    assert "fails" in said
    python = f"Python {platform.python_version()}"
    for word in ("farboard", python, "TERM=", "Last steps", "JobStep"):
        assert word in said
    for entered in ("planted", "J-5", "Half a pl", str(tmp_path)):
        assert entered not in said
    assert stat.S_IMODE(report.stat().st_mode) == 0o600
    assert stat.S_IMODE(report.parent.stat().st_mode) == 0o700
    assert Kept(kept).drafts(path) == {"/job/place": "Half a pl"}
    with RecordFile.open(path) as file:
        assert file.record.job.reference == "J-5"
