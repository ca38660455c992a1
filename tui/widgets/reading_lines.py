"""Labelled paragraphs: the label at the left, the text beside it, wrapped under itself."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from tui.look import style

Row = tuple[str, Content | str]
"""Label and text; a row without a label runs over the whole width."""
LABEL_WIDTH = 9


def row_lines(
    rows: Sequence[Row],
    width: int,
    label_width: int = LABEL_WIDTH,
    label_style: str = style("dim"),
) -> list[Content]:
    """Return rows as lines of a width.

    Args:
        rows: What to say.
        width: Cells in a line; under twelve it is taken as twelve.
        label_width: Cells for the label and the blank after it.
        label_style: How labels look.
    """
    lines: list[Content] = []
    for label, words in rows:
        if isinstance(words, str):
            lines += _broken_text(label, words, max(width, 12), label_width, label_style)
        else:
            lines += _broken(label, words, max(width, 12), label_width, label_style)
    return lines


def _broken(
    label: str, words: Content, width: int, label_width: int, label_style: str
) -> list[Content]:
    indent = label_width if label else 0
    lines = wrap(words, width - indent)
    if not label:
        return lines
    head = Content.styled(f"{label[: indent - 1]:<{indent}}", label_style)
    return [Content.assemble(" " * indent if at else head, line) for at, line in enumerate(lines)]


@lru_cache(maxsize=256)
def _broken_text(
    label: str, words: str, width: int, label_width: int, label_style: str
) -> tuple[Content, ...]:
    """Remembered, since most of how a reading is taken is the same for the next one."""
    return tuple(_broken(label, Content(words), width, label_width, label_style))


def wrap(words: Content, width: int) -> list[Content]:
    """Return words in lines of a width; a line break in them is one, and a blank line stays."""
    parts = words.split("\n", allow_blank=True) if "\n" in words.plain else [words]
    return [
        line
        for part in parts
        for line in ([part] if part.cell_length <= width else part.wrap(width))
    ]


class ReadingLines(Widget):
    """Rows of words that are read, not filled."""

    def __init__(
        self,
        rows: Sequence[Row] = (),
        *,
        label_width: int = LABEL_WIDTH,
        label_style: str = style("dim"),
        id: str | None = None,
        classes: str | None = None,
    ) -> None:
        super().__init__(id=id, classes=classes)
        self._label_width, self._label_style = label_width, label_style
        self._rows = tuple(rows)
        self._laid_out: tuple[int, list[Content]] | None = None

    def show(self, rows: Sequence[Row]) -> None:
        """Show these rows in place of what was shown."""
        before, width = self._laid_out, self.size.width
        self._rows, self._laid_out = tuple(rows), None
        as_high = (
            before is not None and before[0] == width and len(before[1]) == len(self._lines(width))
        )
        self.refresh(layout=not as_high)  # laying out costs more than the words themselves

    @property
    def text(self) -> str:
        """All that is shown, one row a line."""
        return "\n".join(f"{label} {_content(words).plain}".strip() for label, words in self._rows)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Return how many lines the rows take at this width."""
        return len(self._lines(width))

    def render(self) -> Content:
        """Return the rows, wrapped to the width there is."""
        return Content("\n").join(self._lines(self.size.width))

    def _lines(self, width: int) -> list[Content]:
        if self._laid_out is None or self._laid_out[0] != width:
            lines = row_lines(self._rows, width, self._label_width, self._label_style)
            self._laid_out = (width, lines)
        return self._laid_out[1]


def _content(words: Content | str) -> Content:
    return words if isinstance(words, Content) else Content(words)
