"""What is shown while a record is being opened."""

from __future__ import annotations

from pathlib import Path

from textual.app import ComposeResult
from textual.screen import Screen
from textual.widgets import Static

from tui.widgets.head import Head


class Opening(Screen[None]):
    """One line in the middle."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self._name = "".join(each if each.isprintable() else "�" for each in path.name)

    def compose(self) -> ComposeResult:
        """Compose the line."""
        yield Head(id="head")
        yield Static(f"Opening {self._name} …", id="opening", markup=False)
