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
from dataclasses import dataclass

import pyte

_QUERIES = {
    b"\x1b[6n": b"\x1b[1;1R",
    b"\x1b[c": b"\x1b[?62;22c",
    b"\x1b[?2026$p": b"\x1b[?2026;2$y",
    b"\x1b[?2048$p": b"\x1b[?2048;0$y",
}


@dataclass(frozen=True, slots=True)
class Repaint:
    """The answer to a key [s]: to the first change that can be seen, and to the last one."""

    first: float
    last: float


class Terminal:
    """A child process in a pty; what it writes is stamped as read and replayed afterwards."""

    def __init__(self, command: Sequence[str], columns: int = 80, lines: int = 24) -> None:
        self.size = columns, lines
        self.started = time.perf_counter()
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.environ.update(TERM="xterm-256color", COLORTERM="truecolor")
            # A person's Python keeps what it has compiled; the floor's modules all are.
            for name in ("NO_COLOR", "PYTHONDONTWRITEBYTECODE"):
                os.environ.pop(name, None)
            # What was begun in the background ignores these two, and hands that on.
            for each in (signal.SIGINT, signal.SIGHUP):
                signal.signal(each, signal.SIG_DFL)
            os.execvp(command[0], list(command))
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        self.chunks: list[tuple[float, bytes]] = []
        self._screen = pyte.Screen(columns, lines)
        self._replay = pyte.ByteStream(self._screen)

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

    @property
    def words(self) -> str:
        """What the screen holds after all that was replayed."""
        return "\n".join(self._screen.display)

    def when_shown(self, text: str) -> float | None:
        """Return the seconds from the start to the chunk after which the screen holds `text`."""
        return self.times_shown([text]).get(text)

    def times_shown(self, texts: Sequence[str]) -> dict[str, float]:
        """Return of each text that was shown what `when_shown` does of one."""
        found: dict[str, float] = {}
        for at, data in self._taken():
            self._replay.feed(data)
            words = self.words
            found |= {each: at - self.started for each in texts if each in words} | found
        return found

    def screens(self) -> list[str]:
        """Return what the screen held after each chunk that came since it was asked last."""
        found = [self.words]
        for _, data in self._taken():
            self._replay.feed(data)
            found.append(self.words)
        return found

    def press(self, keys: bytes) -> float:
        """Write keys; return when, from the start [s]."""
        os.write(self.fd, keys)
        return time.perf_counter() - self.started

    def key(self, keys: bytes, quiet: float = 0.15, limit: float = 2.0) -> Repaint | None:
        """Write keys; return how long the answer took, or None if the screen stayed as it was."""
        before = self._seen()
        sent = time.perf_counter()
        os.write(self.fd, keys)
        self.read_until_quiet(quiet, limit)
        first = last = None
        for at, data in self._taken():
            self._replay.feed(data)
            seen = self._seen()
            if seen != before:
                first, last, before = first or at, at, seen
        return Repaint(first - sent, last - sent) if first and last else None

    def _taken(self) -> list[tuple[float, bytes]]:
        chunks, self.chunks = self.chunks, []
        return chunks

    def _seen(self) -> tuple[str, int, int]:
        return self.words, self._screen.cursor.x, self._screen.cursor.y

    def close(self) -> None:
        """End the program."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.fd)
