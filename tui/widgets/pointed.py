"""A list whose current line has a pointer: a ground of its own is not seen with few colours."""

from __future__ import annotations

from rich.segment import Segment
from textual.strip import Strip
from textual.widgets import OptionList

POINTER = "▸"


class Pointed(OptionList):
    """Lines of one row each that begin with a blank, where the pointer stands."""

    def render_line(self, y: int) -> Strip:
        """Return a line, with the pointer in its first cell if it is the current one."""
        strip = super().render_line(y)
        if self.scroll_offset.y + y != self.highlighted:
            return strip
        style = next((part.style for part in strip), None)
        return Strip.join([Strip([Segment(POINTER, style)], 1), strip.crop(1)])
