"""Lines on a terminal break between words, at whatever width it has; in a pipe nothing is cut."""

from __future__ import annotations

import fcntl
import io
import os
import pty
import struct
import sys
import termios
from contextlib import suppress
from pathlib import Path
from threading import Thread

import pytest

from tui.commands.lines import fitted, room, wrapped
from tui.commands.program import program


def on_terminal(monkeypatch: pytest.MonkeyPatch, columns: int, *words: str, typed: str = "") -> str:
    """Return what `farboard WORDS` prints on a terminal of that width, errors too."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    said = bytearray()

    def listen() -> None:
        with suppress(OSError):  # the other end is closed: all is said
            while more := os.read(ours, 65536):
                said.extend(more)

    listener = Thread(target=listen)
    listener.start()
    with os.fdopen(theirs, "w", encoding="utf-8") as out, monkeypatch.context() as patch:
        for name, stream in (("stdin", io.StringIO(typed)), ("stdout", out), ("stderr", out)):
            patch.setattr(sys, name, stream)
        for name, value in (("TERM", "dumb"), ("NO_COLOR", "1")):
            patch.setenv(name, value)
        with suppress(SystemExit):
            program.main([*words], prog_name="farboard")
    listener.join()
    os.close(ours)
    return said.decode().replace("\r\n", "\n")


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
    job: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], typed: str
) -> None:
    worn = job.with_name("worn.farboard")
    worn.write_bytes(job.read_bytes()[:-3000])
    monkeypatch.chdir(job.parent)
    before = job.read_bytes()
    wide = on_terminal(monkeypatch, 4000, *words, typed=typed)
    for columns in (80, 47):
        job.write_bytes(before)
        narrow = on_terminal(monkeypatch, columns, *words, typed=typed)
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
