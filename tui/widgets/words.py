"""Text that has the screen laid out again only when it takes another number of lines."""

from __future__ import annotations

from textual.visual import VisualType
from textual.widgets import Static

from tui.widgets.content_lines import looks_same
from tui.widgets.still import Still


class Words(Still, Static):
    """Plain text, never markup.

    A screen laid out again costs several times what the text itself costs, and most of what changes
    with a key is as high as before.
    """

    def __init__(self, text: VisualType = "", *, id: str | None = None) -> None:
        super().__init__(text, id=id, markup=False)
        self._known: tuple[int, int] = (0, 0)
        """Width and lines of the text as it was laid out last."""

    def update(self, content: VisualType = "", *, layout: bool = True) -> None:
        """Show another text.

        Args:
            content: The text.
            layout: Whether it may take another number of lines; False: it certainly doesn't.
        """
        before, shown = self._known, self.content
        if before[0] and looks_same(content, shown):
            return
        super().update(content, layout=False)
        self._known = self._lines()
        if layout and (self._known != before or not before[0]):
            self.refresh(layout=True)

    def _lines(self) -> tuple[int, int]:
        width = self.content_size.width
        return width, self.visual.get_height(self.styles.get_rules(), width) if width else 0
