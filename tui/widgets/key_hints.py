"""The line of keys in a dialog: each can be tapped, for whoever has no keyboard."""

from __future__ import annotations

from dataclasses import dataclass

from textual import events
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

_NAMES = {
    "↑": "up",
    "↓": "down",
    "←": "left",
    "→": "right",
    "Esc": "escape",
    "Enter": "enter",
    "Tab": "tab",
    "PageUp": "pageup",
    "PageDown": "pagedown",
    "?": "question_mark",
    "+": "plus",
    "-": "minus",
}
_BETWEEN = ("or", "and")


@dataclass(frozen=True, slots=True)
class Spot:
    """Some cells that stand for a key."""

    line: int
    start: int
    end: int
    key: str


def hints(text: str) -> list[tuple[list[tuple[str, str]], str]]:
    """Return the parts of a line such as `↑ ↓ move · Enter takes it`: keys, and what they do.

    Args:
        text: Parts between middle dots, each with its keys first.

    Returns:
        Of each part: the keys as they are written with their names, and the words after them.
    """
    parts = []
    for part in text.split(" · "):
        keys: list[tuple[str, str]] = []
        words = part.split()
        while words and (words[0] in _BETWEEN or _named(words[0])):
            word = words.pop(0)
            keys.append((word, _named(word)))
        parts.append((keys, " ".join(words)))
    return parts


def _named(word: str) -> str:
    bare = word.rstrip(",:") or word
    if bare in _NAMES:
        return _NAMES[bare]
    return bare.lower() if len(bare) == 1 or (bare[0] == "F" and bare[1:].isdigit()) else ""


class KeyHints(Widget):
    """Keys and what they do, over as many lines as it takes; a tap does what the key does."""

    ALLOW_SELECT = False
    DEFAULT_CSS = "KeyHints { height: auto; }"

    def __init__(self, text: str, *, id: str | None = None) -> None:
        """Prepare the line.

        Args:
            text: As in `hints`.
            id: The widget's id.
        """
        super().__init__(id=id)
        self._text = text
        self._spots: list[Spot] = []

    def show(self, text: str) -> None:
        """Show other keys."""
        self._text = text
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Return how many lines it takes."""
        return len(self._laid_out(width))

    def render(self) -> Content:
        """Return the lines."""
        return Content("\n").join(self._laid_out(self.size.width))

    def on_click(self, event: events.Click) -> None:
        """Do what the key under the pointer does."""
        event.stop()
        at = event.get_content_offset(self)
        for each in self._spots:
            if at is not None and each.line == at.y and each.start <= at.x < each.end and each.key:
                self.app.simulate_key(each.key)
                return

    @property
    def _tall(self) -> bool:
        return self.app.has_class("-touch")

    def _laid_out(self, width: int) -> list[Content]:
        """Return the lines, and know where in them the keys are."""
        tall, gap = (3, "  ") if self._tall else (1, " · ")
        ground = "on $panel" if self._tall else ""
        self._spots = []
        rows: list[list[Content]] = [[]]
        end = 0
        for keys, words in hints(self._text):
            pad = " " if self._tall else ""
            size = len(pad) * 2 + len(" ".join([*(each for each, _ in keys), words]).strip())
            if end and end + len(gap) + size > width:
                rows.append([])
                end = 0
            elif end:
                rows[-1].append(Content.styled(gap, "$quiet"))
                end += len(gap)
            first = next((name for _, name in keys if name), "")
            begin = end
            rows[-1].append(Content.styled(pad, ground))
            end += len(pad)
            for at, (written, name) in enumerate(keys):
                blank = " " if at < len(keys) - 1 or words else ""
                style = f"{'bold $primary' if name else '$quiet'} {ground}".strip()
                rows[-1].append(Content.styled(written + blank, style))
                stop = end + len(written) + len(blank)
                self._spot(len(rows) - 1, begin if at == 0 else end, stop, name or first, tall)
                end = stop
            rows[-1].append(Content.styled(words + pad, f"$quiet {ground}".strip()))
            self._spot(len(rows) - 1, end, end + len(words + pad), first, tall)
            end += len(words + pad)
        return [line for row in rows for line in _high(Content("").join(row), tall)]

    def _spot(self, row: int, start: int, end: int, key: str, tall: int) -> None:
        self._spots += [Spot(row * tall + line, start, end, key) for line in range(tall)]


def _high(line: Content, tall: int) -> list[Content]:
    """Return a row of keys with as much ground above and below as a finger needs."""
    if tall == 1:
        return [line]
    blank = Content(" " * line.cell_length, spans=list(line.spans))
    return [blank, line, blank]
