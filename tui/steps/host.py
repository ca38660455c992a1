"""What a screen may ask of the app that shows it: the screens know no more of the app."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from records.terms import Step

if TYPE_CHECKING:
    from records.session import Session
    from tui.keys import Keys
    from tui.keys_ahead import KeysAhead
    from tui.local_state import Kept
    from tui.own_settings import OwnSettings


class Host(Protocol):
    """The app, as its screens see it."""

    keys_ahead: KeysAhead
    """Holds keys while a dialog is opening."""
    kept: Kept
    """What is remembered on this computer."""

    own: OwnSettings
    """The person's settings."""

    @property
    def session(self) -> Session:
        """The opened record."""

    @property
    def is_open(self) -> bool:
        """Whether a record is open: it is let go before the last screen is."""

    def open_later(self, path: Path, *, read_only: bool = False) -> None:
        """Open a record once the present screen is painted."""

    def create(self, path: Path) -> None:
        """Make a new record and open it."""

    def open_demo(self) -> None:
        """Open a copy of the demo job."""

    def go(self, step: Step) -> None:
        """Go to a step of the walk."""

    def choose_step(self) -> None:
        """Show the list of the steps."""

    def read(self, title: str, screen: str, field: str, keys: Keys) -> None:
        """Show the help."""

    def ask(self, title: str, wrong: Callable[[str], str], then: Callable[[str], None]) -> None:
        """Ask for a line of text, and do something with it."""

    async def action_leave(self) -> None:
        """Leave the program."""

    def action_close_record(self) -> None:
        """Go back to the start screen."""
