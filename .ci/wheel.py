"""Builds the wheel, installs it into an empty environment, and uses it away from the source.

The demo is opened in a pseudo-terminal of 80 by 24 and left by its key, as a person would.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import struct
import subprocess
import sys
import tempfile
import termios
import time
import venv
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LEAVE = b"\x11"
"""Ctrl+Q."""
ANSWERS = [("off and locked off", b"y"), ("Who has the key", b"The fitter\r")]
"""What is asked of somebody who leaves a job with live readings, and what is said to it."""
_ESCAPES = re.compile(rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)|[()][0-9A-Z]|.)")
_PATIENCE = 60.0


def main() -> None:
    """Build, install, run; any failure ends this with a non-zero exit code."""
    with tempfile.TemporaryDirectory(prefix="farboard-wheel-") as name:
        folder = Path(name)
        empty = folder / "empty"
        venv.create(empty, with_pip=True)
        wheel = built(empty, folder / "dist")
        command = installed(wheel, empty)
        away = folder / "somewhere else"
        away.mkdir()
        use(command, away)
    print("The wheel installs into an empty environment, and the demo and the check run from it.")


def built(empty: Path, out: Path) -> Path:
    """Return the wheel, made with an environment's pip, after a look at what is in it."""
    pip = [empty / "bin" / "python", "-m", "pip", "--disable-pip-version-check"]
    subprocess.run([*pip, "wheel", "-q", "--no-deps", "-w", out, ROOT], check=True)
    (wheel,) = out.glob("farboard-*.whl")
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    tops = {name.split("/")[0] for name in names}
    expect(tops - {"records", "tui"} == {tops_dist(tops)}, f"The wheel holds {sorted(tops)}")
    for suffix in (".tcss", ".toml", ".json", ".docx"):
        source = {
            path.relative_to(ROOT).as_posix()
            for part in ("records", "tui")
            for path in (ROOT / part).rglob(f"*{suffix}")
        }
        missing = source - set(names)
        expect(not missing, f"The wheel lacks {sorted(missing)}")
    return wheel


def tops_dist(tops: set[str]) -> str:
    """Return the one folder of the wheel that says what it is."""
    return next(top for top in tops if top.endswith(".dist-info"))


def installed(wheel: Path, folder: Path) -> Path:
    """Return the command `farboard` of an environment, with the wheel in it and what it needs."""
    python = folder / "bin" / "python"
    subprocess.run(
        [python, "-m", "pip", "--disable-pip-version-check", "install", "-q", wheel], check=True
    )
    return folder / "bin" / "farboard"


def use(command: Path, away: Path) -> None:
    """Run the demo in a terminal, then the check and the schedule on the file it made."""
    env = {
        name: value
        for name, value in os.environ.items()
        if name not in ("PYTHONPATH", "VIRTUAL_ENV", "NO_COLOR")
    }
    env |= {"TERM": "xterm-256color", "COLUMNS": "80", "LINES": "24", "HOME": str(away)}
    env |= {"LANG": "C.UTF-8", "XDG_DATA_HOME": str(away / "data")}
    env |= {f"XDG_{kind}_HOME": str(away / kind.lower()) for kind in ("STATE", "CONFIG")}

    help_text = subprocess.run(
        [command, "--help"], check=True, cwd=away, env=env, capture_output=True, text=True
    ).stdout
    expect("Commands:" in help_text, "farboard --help lists no commands")

    status, screen = in_terminal([str(command), "demo"], away, env, until="Loom shed")
    expect(
        "not a certificate" in screen, f"The wizard doesn't say what it is not:\n{screen[-3000:]}"
    )
    expect(status == 0, f"farboard demo ended with {status}:\n{screen[-3000:]}")
    shed = away / "loom-shed.farboard"
    expect(shed.is_file(), "farboard demo left no file")
    expect([path.name for path in away.glob("*.farboard*")] == [shed.name], "Side files were left")

    checked = subprocess.run(
        [command, "check", shed], check=False, cwd=away, env=env, capture_output=True, text=True
    )
    expect(checked.returncode == 1, f"farboard check: {checked.returncode} {checked.stderr}")
    expect("outside" in checked.stdout, "farboard check finds nothing in the demo")
    expect("unlikely" in checked.stdout, "farboard check finds nothing unlikely in the demo")

    subprocess.run([command, "schedule", shed, "-o", "shed.docx"], check=True, cwd=away, env=env)
    expect(zipfile.is_zipfile(away / "shed.docx"), "farboard schedule made no document")


def in_terminal(words: list[str], cwd: Path, env: dict[str, str], until: str) -> tuple[int, str]:
    """Run a program in a terminal of 80 by 24 until it shows a text, then leave it by its key.

    Returns:
        The exit code, and all text that was shown, without the codes between.
    """
    child, end = pty.fork()
    if child == 0:
        os.chdir(cwd)
        os.execve(words[0], words, env)
    fcntl.ioctl(end, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    seen, left, asked, limit = b"", False, [*ANSWERS], time.monotonic() + _PATIENCE
    try:
        while time.monotonic() < limit:
            if select.select([end], [], [], 0.2)[0]:
                try:
                    part = os.read(end, 65536)
                except OSError:  # the other side is closed: the program has ended
                    break
                if not part:
                    break
                seen += part
            elif not left and until in plain(seen):
                os.write(end, LEAVE)
                left = True
            elif left and asked and asked[0][0] in plain(seen):
                os.write(end, asked.pop(0)[1])
        else:
            os.kill(child, 9)
    finally:
        _, status = os.waitpid(child, 0)
        os.close(end)
    return os.waitstatus_to_exitcode(status), plain(seen)


def plain(seen: bytes) -> str:
    """Return what was sent to a terminal without its control codes."""
    return _ESCAPES.sub(b" ", seen).decode(errors="replace")


def expect(holds: bool, otherwise: str) -> None:
    """End the run with a sentence unless something holds."""
    if not holds:
        sys.exit(otherwise)


main()
