"""The drawn rows of a form, of which a key changes one or two: only those are painted again."""

from __future__ import annotations

from collections.abc import Callable

from textual.content import Content
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.visual import Visual
from textual.widget import Widget

from tui.widgets.drawing import Drawing


class Lines(Widget):
    """Lines of a form, as high as there are of them."""

    def __init__(self, draw: Callable[[int], Drawing]) -> None:
        """Make the lines.

        Args:
            draw: Draws the rows in a width. It is called when the width is first known, so that
                no form is ever painted in another.
        """
        super().__init__()
        self._draw = draw
        self.drawing = Drawing()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Return how many lines the form has in this width."""
        if not self.drawing.lines:
            self.drawing = self._draw(width)
        return max(len(self.drawing.lines), 1)

    def show(self, drawing: Drawing) -> None:
        """Show a drawing in place of the one shown."""
        before, self.drawing = self.drawing.lines, drawing
        now = drawing.lines
        self.styles.height = max(len(now), 1)
        if len(before) != len(now):
            self.refresh()
            return
        # Contents compare by their words alone; a bar that moves changes colours only.
        changed = [
            Region(0, line, self.size.width, 1)
            for line, (old, new) in enumerate(zip(before, now, strict=True))
            if old.plain != new.plain or old.spans != new.spans
        ]
        if changed:
            self.refresh(*changed)

    def render(self) -> Content:
        """Return all lines: what is selected by the mouse is taken from these."""
        return Content("\n").join(self.drawing.lines)

    def render_line(self, y: int) -> Strip:
        """Return one line as it is painted."""
        lines = self.drawing.lines
        if self.text_selection is not None or not 0 <= y < len(lines):
            return super().render_line(y)
        return Visual.to_strips(self, lines[y], self.size.width, 1, self.visual_style)[0]
