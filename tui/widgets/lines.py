"""The drawn rows of a form, of which a key changes one or two: only those are painted again."""

from __future__ import annotations

from collections.abc import Callable

from textual.geometry import Size

from tui.widgets.content_lines import ContentLines
from tui.widgets.drawing import Drawing


class Lines(ContentLines):
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
            self.put(self.drawing.lines)
        return max(len(self.drawing.lines), 1)

    def show(self, drawing: Drawing) -> None:
        """Show a drawing in place of the one shown."""
        self.drawing = drawing
        self.styles.height = max(len(drawing.lines), 1)
        self.put(drawing.lines)
