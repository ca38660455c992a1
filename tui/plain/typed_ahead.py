"""What somebody typed in a terminal before a question was there: it is no answer to it."""

from __future__ import annotations

from typing import TextIO


def dropped(source: TextIO) -> bool:
    """Drop what was typed and not read yet; return whether there was any.

    Nothing is dropped from a pipe, where answers are written first, nor where a system has no such
    terminals.
    """
    try:
        import select
        import termios

        if not source.isatty() or not select.select([source], [], [], 0)[0]:
            return False
        termios.tcflush(source, termios.TCIFLUSH)
    except (ImportError, OSError, ValueError):
        return False
    return True
