"""Lines of words that one widget draws: a key that changes some of them has only those painted."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from textual.content import Content
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.style import Style

from tui.widgets.still import Still


def looks_same(one: object, other: object) -> bool:
    """Whether two contents have the same words in the same looks.

    They compare by their words alone, and a bar that moves changes colours only.
    """
    return one is other or (
        isinstance(one, Content)
        and isinstance(other, Content)
        and one.plain == other.plain
        and one.spans == other.spans
    )


class ContentLines(Still):
    """Lines one under another, none of them longer than the widget is wide.

    Each widget on a screen is asked for its lines with every paint, whatever changed: what only
    says something is drawn by as few of them as can be.
    """

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._shown: Sequence[Content] = ()

    def put(self, lines: Sequence[Content]) -> None:
        """Show other lines; as many as before, or somebody lays the screen out again."""
        before, self._shown = self._shown, lines
        if len(before) != len(lines):
            self.refresh()
            return
        changed = [
            Region(0, at, self.content_size.width, 1)
            for at, (old, new) in enumerate(zip(before, lines, strict=True))
            if not looks_same(old, new)
        ]
        if changed:
            self.refresh(*changed)

    def render(self) -> Content:
        """Return all lines: what is selected by the mouse is taken from these."""
        return Content("\n").join(self._shown)

    def render_line(self, y: int) -> Strip:
        """Return one line as it is painted."""
        lines = self._shown
        if self.text_selection is not None or not 0 <= y < len(lines):
            return super().render_line(y)
        return _strip(lines[y], self.visual_style, y)


def _strip(line: Content, look: Style, y: int) -> Strip:
    """Return a line as it is painted, each part with its place, from which the mouse selects.

    `Visual.to_strips` breaks a line again that fits already: 59 µs, where this takes 14
    (`tests/bench/lines.py`), and a move at the bench paints some ten of them.
    """
    parts, x = [], 0
    for text, style in line.render(look, end=""):
        parts.append(Segment(text, (look + style).rich_style_with_offset(x, y)))
        x += len(text)
    return Strip(parts, line.cell_length)


class FittedLines(ContentLines):
    """Lines for a room that the style sheet gives: what changes in it lays nothing out."""

    _room = Size(0, 0)
    """The room that the lines were laid out for."""

    def laid_out(self, room: Size) -> list[Content]:
        """Return what to show in a room: no more lines than it has."""
        raise NotImplementedError

    def in_another_room(self) -> None:
        """Act on a room of another size, before the lines are laid out for it."""

    def renew(self) -> None:
        """Show what there is to show now, in this same paint."""
        if self._room:
            self.put(self.laid_out(self._room))

    def render(self) -> Content:
        """Return all lines."""
        self._fit()
        return super().render()

    def render_line(self, y: int) -> Strip:
        """Return one line; the first to be asked for in another room has all laid out for it."""
        self._fit()
        return super().render_line(y)

    def _fit(self) -> None:
        if self._room != self.content_size:
            self._room = self.content_size
            self.in_another_room()
            self._shown = self.laid_out(self._room) if self._room else ()
