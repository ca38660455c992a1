"""A program in a real terminal of a set size, with a clock on what it paints."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import termios
import time
from collections.abc import Sequence

import pyte

_QUERIES = {
    b"\x1b[6n": b"\x1b[1;1R",
    b"\x1b[c": b"\x1b[?62;22c",
    b"\x1b[?2026$p": b"\x1b[?2026;2$y",
    b"\x1b[?2048$p": b"\x1b[?2048;0$y",
}


class Terminal:
    """A child process in a pty; what it writes is stamped as read and replayed afterwards."""

    def __init__(self, command: Sequence[str], columns: int = 80, lines: int = 24) -> None:
        self.size = columns, lines
        self.started = time.perf_counter()
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.environ.update(TERM="xterm-256color", COLORTERM="truecolor")
            os.environ.pop("NO_COLOR", None)
            os.execvp(command[0], list(command))
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        self.chunks: list[tuple[float, bytes]] = []

    def read_until_quiet(self, quiet: float, limit: float) -> None:
        """Gather output until nothing has come for `quiet` seconds, or `limit` has passed."""
        end = time.perf_counter() + limit
        while time.perf_counter() < end:
            ready, _, _ = select.select([self.fd], [], [], quiet)
            if not ready:
                return
            try:
                data = os.read(self.fd, 65536)
            except OSError:
                return
            self.chunks.append((time.perf_counter(), data))
            for query, answer in _QUERIES.items():
                if query in data:
                    os.write(self.fd, answer)

    def when_shown(self, text: str) -> float | None:
        """Return the seconds from the start to the chunk after which the screen holds `text`."""
        screen = pyte.Screen(*self.size)
        stream = pyte.ByteStream(screen)
        for at, data in self.chunks:
            stream.feed(data)
            if text in "\n".join(screen.display):
                return at - self.started
        return None

    def key(self, keys: bytes, quiet: float = 0.15, limit: float = 2.0) -> float | None:
        """Write keys; return the seconds to the first chunk of the answer, or None without one."""
        self.chunks.clear()
        sent = time.perf_counter()
        os.write(self.fd, keys)
        self.read_until_quiet(quiet, limit)
        return self.chunks[0][0] - sent if self.chunks else None

    def close(self) -> None:
        """End the program."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.fd)
