"""What there is to know before a reading is taken, in the lines that there are for it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from textual import events
from textual.content import Content
from textual.geometry import Size

from tui.look import Tone, style
from tui.widgets.content_lines import FittedLines
from tui.widgets.cut import cut_lines
from tui.widgets.reading_lines import Row, row_lines

_NOTCH = 3
"""Lines that a turn of the mouse's wheel goes on."""


@dataclass(frozen=True, slots=True)
class Face:
    """What a card says."""

    rows: Sequence[Row] = ()
    """What to read; those that find no room are reached by a key."""
    aim: Sequence[Row] = ()
    """What the meter should show and must not pass: under the rows, always in sight."""
    least: int = 1
    """How many of the first rows have to be in sight too, if the window allows it."""
    more: str = ""
    """Which key shows what finds no room."""
    tone: Tone = "plain"
    """How the upper edge looks."""


class BenchCard(FittedLines):
    """Rows to read over what to aim at; the upper edge says if there are more of them."""

    def __init__(self, shown_to_end: Callable[[], None], *, id: str | None = None) -> None:
        """Prepare an empty card.

        Args:
            shown_to_end: Called once the last row of what is shown was on the screen.
            id: For the style.
        """
        super().__init__(id=id)
        self._shown_to_end = shown_to_end
        self._painted = False
        self._face = Face()
        self._typing = False
        self._top = self._last_top = self._page = 0
        self._aim_is_cut = False
        self._least: int | None = None

    def show(self, face: Face, *, typing: bool) -> None:
        """Show something else, from its first row on."""
        self._face, self._typing, self._top = face, typing, 0
        self._give_room()
        self.renew()
        self._wait_for_paint()

    def while_typing(self, typing: bool) -> None:
        """Name the key for more or don't: while something is typed, letters are part of it."""
        if typing != self._typing:
            self._typing = typing
            if self._shown:
                self.put([self._edge(self.content_size.width), *self._shown[1:]])

    def read_on(self, by: int) -> bool:
        """Scroll by a page, down (1) or up (-1); False if there is no more.

        A page that has not been painted yet is not left.
        """
        if by > 0 and not self._painted:
            return True
        return self._scroll(by * max(self._page - 1, 1))

    def _scroll(self, by: int) -> bool:
        top = min(max(self._top + by, 0), self._last_top)
        if top == self._top:
            return False
        self._top = top
        self.renew()
        self._wait_for_paint()
        return True

    def laid_out(self, room: Size) -> list[Content]:
        """Return the edge, the rows from where they were scrolled to, and the aim under them."""
        face, inside = self._face, max(room.height - 1, 0)
        rows = row_lines(face.rows, room.width)
        # The first line names the reading: it stays, however low the window is.
        aim = _each_begun(face.aim, room.width, max(inside - 1, 0))
        self._aim_is_cut = len(aim) < len(row_lines(face.aim, room.width))
        self._page = max(inside - len(aim), 0)
        self._last_top = max(len(rows) - self._page, 0)
        self._top = min(self._top, self._last_top)
        seen = rows[self._top : self._top + self._page]
        blank = [Content("")] * (self._page - len(seen))
        return [self._edge(room.width), *seen, *blank, *aim][: room.height]

    def _edge(self, width: int) -> Content:
        tone = self._face.tone
        look = style(tone) if tone != "plain" else "$rule"
        rule = "─" if tone == "plain" else "━"
        if self._top >= self._last_top and not self._aim_is_cut:
            return Content.styled(rule * width, look)
        more = "more" if self._typing else f"more: {self._face.more}"
        words = Content.styled(f" {more} ", "$primary")
        left = max(width - words.cell_length - 1, 0)
        return Content.assemble((rule * left, look), words, (rule, look))

    def _give_room(self) -> None:
        """Be higher than the style sheet says while what must be in sight needs it."""
        face, width, least = self._face, self.content_size.width, None
        if width and face.least > 1 and not self.screen.has_class("-low"):
            must = (*face.rows[: face.least], *face.aim)
            least = min(1 + len(row_lines(must, width)), self.screen.size.height // 2 + 1)
        if self._least != least:
            self._least = self.styles.min_height = least

    def _wait_for_paint(self) -> None:
        self._painted = False
        self.call_after_refresh(self._paint)

    def _paint(self) -> None:
        self._painted = True
        if self._page and self._top >= self._last_top:
            self._shown_to_end()

    def on_resize(self) -> None:
        """Look whether the end is in sight now."""
        self._give_room()
        self._wait_for_paint()

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """Go on in the rows."""
        event.stop()
        self._scroll(_NOTCH)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """Go back in the rows."""
        event.stop()
        self._scroll(-_NOTCH)


def _each_begun(rows: Sequence[Row], width: int, height: int) -> list[Content]:
    """Return rows in no more lines than there are: the longest is cut first, none left out.

    Each begins with what matters most in it: a figure, a limit.
    """
    parts = [row_lines([each], width) for each in rows]
    left = [len(each) for each in parts]
    while sum(left) > max(height, len(left)):
        longest = max(range(len(left)), key=lambda at: (left[at], at))
        left[longest] -= 1
    kept = [cut_lines(part, width, high) for part, high in zip(parts, left, strict=True)]
    return [line for part in kept for line in part][-height:] if height else []
