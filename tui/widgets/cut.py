"""Text of which no more is shown than finds room, with a sign where it goes on."""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content
from textual.strip import Strip
from textual.visual import Visual

from tui.widgets.words import Words

MORE = " …"


def cut(text: Content, width: int, height: int, sign: str = MORE) -> Content:
    """Return a text as far as there is room for it, ended between words by a sign if it goes on.

    Args:
        text: The text.
        width: Cells in a line.
        height: Lines.
        sign: What stands at the end of a text that goes on.
    """
    lines = text.wrap(max(width, 1))
    if len(lines) <= height:
        return text
    return Content("\n").join(cut_lines(lines, width, max(height, 1), sign))


def cut_lines(lines: list[Content], width: int, height: int, sign: str = MORE) -> list[Content]:
    """Return the first lines of a text, the last of them ended by a sign if it goes on.

    Args:
        lines: The text, broken to the width.
        width: Cells in a line.
        height: Lines that there are for it.
        sign: What stands at the end of a text that goes on.
    """
    if len(lines) <= height:
        return lines
    return [*lines[: height - 1], _ended(lines[height - 1], width, sign)] if height > 0 else []


def _ended(line: Content, width: int, sign: str) -> Content:
    kept = line.plain.rstrip()
    while " " in kept and cell_len(kept + sign) > width:
        kept = kept.rpartition(" ")[0]
    return Content.assemble(line[: len(kept.rstrip(" ,;:"))], sign)


class Cut(Words):
    """A text that may be longer than the lines its style allows."""

    def render_line(self, y: int) -> Strip:
        """Return a line as it is painted: the last one says if the text goes on."""
        text, (width, height) = self.content, self.content_size
        if y == height - 1 and isinstance(text, Content) and self.text_selection is None:
            lines = text.wrap(max(width, 1))
            if len(lines) > height:
                last = _ended(lines[y], width, MORE)
                return Visual.to_strips(self, last, width, 1, self.visual_style)[0]
        return super().render_line(y)
