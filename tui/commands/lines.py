"""Text in lines that fit the terminal, wide letters counted as they are drawn."""

from __future__ import annotations

import os
import sys
from typing import IO, Any

WIDTH = 80
_LEAST = 24
"""Columns under which a line is let run on: indents would leave no room for words."""


def room(stream: IO[Any] | None) -> int | None:
    """Return how many columns the terminal has that a stream goes to; None if it is none."""
    try:
        if stream is None or not stream.isatty():
            return None
        return max(_LEAST, os.get_terminal_size(stream.fileno()).columns or WIDTH)
    except (OSError, ValueError):
        return None


def fitted(text: str, stream: IO[Any] | None) -> str:
    """Return a text so that a terminal breaks no word of it; elsewhere as it is, a line a thought.

    Args:
        text: One or several lines.
        stream: Where it goes.
    """
    width = room(stream)
    if width is None:
        return text
    from rich.cells import cell_len

    return "\n".join(
        part
        for line in text.split("\n")
        for part in ([line] if cell_len(line) <= width else wrapped(line, width=width))
    )


def wrapped(
    text: str, *, indent: str = "", first: str | None = None, width: int | None = None
) -> list[str]:
    """Return `text` in lines of at most 80 columns, broken between words where possible.

    Args:
        text: One paragraph.
        indent: What each line begins with.
        first: What the first line begins with instead.
        width: Columns that there are; None: 80, or what a narrower terminal has.
    """
    from rich.cells import cell_len, split_text  # knows how wide a letter is drawn

    if width is None:
        width = min(WIDTH, room(sys.stdout) or WIDTH)
    lines: list[str] = []
    line = indent if first is None else first
    empty = True
    for word in text.split():
        gap = "" if empty else " "
        if not empty and cell_len(line) + 1 + cell_len(word) > width:
            lines.append(line)
            line, gap = indent, ""
        rest = word
        while cell_len(line) + len(gap) + cell_len(rest) > width:
            part, rest = split_text(rest, width - cell_len(line))
            lines.append(line + part)
            line = indent
        line, empty = line + gap + rest, False
    return [*lines, line.rstrip()]
