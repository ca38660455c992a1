"""Text in lines that fit the terminal, wide letters counted as they are drawn."""

from __future__ import annotations

WIDTH = 80


def wrapped(text: str, *, indent: str = "", first: str | None = None) -> list[str]:
    """Return `text` in lines of at most 80 columns, broken between words where possible.

    Args:
        text: One paragraph.
        indent: What each line begins with.
        first: What the first line begins with instead.
    """
    from rich.cells import cell_len, split_text  # knows how wide a letter is drawn

    lines: list[str] = []
    line = indent if first is None else first
    empty = True
    for word in text.split():
        gap = "" if empty else " "
        if not empty and cell_len(line) + 1 + cell_len(word) > WIDTH:
            lines.append(line)
            line, gap = indent, ""
        rest = word
        while cell_len(line) + len(gap) + cell_len(rest) > WIDTH:
            part, rest = split_text(rest, WIDTH - cell_len(line))
            lines.append(line + part)
            line = indent
        line, empty = line + gap + rest, False
    return [*lines, line.rstrip()]
