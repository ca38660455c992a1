"""Text to read: help, or a message that needs more than one line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from tui.dialogs.dialog import Dialog

KEYS = (
    ("Enter", "accept what is typed, go on; open a list or a page"),
    ("↑ ↓ Tab", "move between fields, accepting what is typed"),
    ("Esc", "put the accepted value back; close a list; go up"),
    ("F1 or ?", "this help (? where you are not typing)"),
    ("F2", "the working of the figures, with its sources"),
    ("Ctrl+G", "pictures: the device's curve, the loop, the ring"),
    ("F3 F4", "the step before, the step after"),
    ("F6", "the list of steps"),
    ("F7 F8", "copy, take out (where there is a list)"),
    ("Ctrl+Z Ctrl+Y", "take the last change back; make it again"),
    ("Ctrl+P", "all commands, to be found by a word"),
    ("Ctrl+Q or F10", "leave; all that was accepted is on disk"),
)


class Reader(Dialog[None]):
    """Shows text; it scrolls by the arrows."""

    KEYS_LINE = "↑ ↓ scroll · Esc, Enter or F1 closes"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,f1,question_mark,f2,q", "close", show=False)
    ]

    def __init__(self, title: str, blocks: Sequence[Content]) -> None:
        """Prepare the text.

        Args:
            title: Over the text.
            blocks: Paragraphs.
        """
        super().__init__(title)
        self._blocks = blocks

    def compose_inside(self) -> ComposeResult:
        """Compose the text."""
        with VerticalScroll(id="dialog-scroll"):
            for block in self._blocks:
                yield Static(block, classes="block")

    def on_mount(self) -> None:
        """Let the arrows scroll."""
        self.set_focus(self.query_one("#dialog-scroll"))


def help_text(screen: str, field: str) -> list[Content]:
    """Return the help of a screen: the field in focus, the screen, the keys."""
    blocks = []
    if field:
        name, _, said = field.partition(": ")
        blocks.append(Content.assemble((f"{name}: ", "bold $primary"), said))
    blocks += [Content(each) for each in screen.split("\n\n") if each]
    wide = max(len(key) for key, _ in KEYS)
    keys = [Content.assemble((f"{key:<{wide}}  ", "bold $primary"), said) for key, said in KEYS]
    note = (
        "Mouse: click a field, an answer, a step. To mark text with the mouse, hold Shift. "
        "Farboard records and checks; it certifies nothing. Local rules and a competent person "
        "come first."
    )
    return [*blocks, Content("\n").join(keys), Content.styled(note, "$quiet")]
