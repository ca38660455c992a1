"""Keys typed while a dialog is opening: they wait, and then go into the dialog."""

from __future__ import annotations

from typing import Any

from textual import events
from textual.app import App, ScreenError
from textual.screen import Screen
from textual.worker import Worker

_LOOK = 0.01
"""Seconds between two looks at whether the dialog is there."""
_MOST_LOOKS = 200


class KeysAhead:
    """Holds keys from the one that opens a dialog until the dialog can take them."""

    def __init__(self, app: App[Any]) -> None:
        """Hold nothing yet.

        Args:
            app: Gets the keys again, in the order in which they were typed.
        """
        self._app = app
        self._held: list[events.Key] = []
        self._waiting = False
        self._worker: Worker[Any] | None = None
        self._from: Screen[Any] | None = None

    def begin(self, worker: Worker[Any] | None = None) -> None:
        """Hold keys from now on.

        Args:
            worker: What opens the dialog; if it ends without one, the keys go where they would.
        """
        if not self._waiting:
            self._waiting, self._worker, self._from = True, worker, self._app.screen
            self._look(_MOST_LOOKS)

    def holds(self, event: events.Key, screen: Screen[Any] | None = None) -> bool:
        """Take a key that belongs to a dialog; False if it can go on.

        Args:
            event: The key.
            screen: Whose entry it has come to; None if it has just been typed.
        """
        try:
            top = self._app.screen
        except ScreenError:
            return False  # the program is only starting
        if not self._waiting and (screen in (None, top)) and (top.is_mounted or screen is top):
            return False
        if not self._waiting and top.is_mounted:
            self._app.post_message(events.Key(event.key, event.character))
            return True
        self.begin()
        self._held.append(event)
        return True

    def _look(self, left: int) -> None:
        top = self._app.screen
        opened = top is not self._from and top.is_mounted
        ended = self._worker is not None and self._worker.is_finished
        here = self._worker is None and top is self._from and top.is_mounted
        if opened or ended or here or not left:
            self._give_back()
        else:
            self._app.set_timer(_LOOK, lambda: self._look(left - 1))

    def _give_back(self) -> None:
        held = sorted(self._held, key=lambda each: each.time)
        self._held, self._waiting, self._worker, self._from = [], False, None, None
        for each in held:
            self._app.post_message(events.Key(each.key, each.character))
