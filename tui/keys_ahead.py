"""Keys typed while a dialog is opening: they wait, and then go into the dialog."""

from __future__ import annotations

from typing import Any

from textual import events
from textual.app import App, ScreenError
from textual.screen import Screen
from textual.worker import Worker

from tui.left_screens import LeftAnyTime

_LOOK = 0.01
"""Seconds between two looks at whether the dialog is there."""
_MOST_LOOKS = 200
_LOOKS_FOR_DIALOG = 30


class KeysAhead:
    """Holds keys from the one that opens a dialog until the dialog can take them."""

    opening: frozenset[str] = frozenset()
    """Keys that open a dialog wherever they act."""

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
        self._patient = 0
        self._since = 0.0
        self._on_their_way: list[events.Key] = []
        """Keys that were held and are posted once more."""

    def begin(self, worker: Worker[Any] | None = None, *, looks: int = 0) -> None:
        """Hold keys from now on.

        Args:
            worker: What opens the dialog; if it ends without one, the keys go where they would.
            looks: How often to look for the dialog before the keys go where they would.
        """
        if not self._waiting:
            self._waiting, self._worker, self._from = True, worker, self._app.screen
            self._patient = looks
            self._look(_MOST_LOOKS)

    def expect_dialog(self, event: events.Key) -> None:
        """Hold what is typed after a key that opens a dialog: the key is still on its way."""
        if event.key in self.opening:
            self._since = event.time
            self.begin(looks=_LOOKS_FOR_DIALOG)

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
        if screen is not None and event.time <= self._since:
            return False  # typed before the key that opens a dialog, or that key itself
        if screen is None:
            if any(each is event for each in self._on_their_way):
                self._on_their_way.remove(event)
            elif self._on_their_way and not self._waiting:  # those before it have not come yet
                self._again(event)
                return True
        if not self._waiting and (screen in (None, top)) and (_is_ready(top) or screen is top):
            return False
        if not self._waiting and _is_ready(top):
            self._again(event)
            return True
        self.begin()
        self._held.append(event)
        return True

    def _look(self, left: int) -> None:
        try:
            top = self._app.screen
        except ScreenError:
            return  # the program has ended meanwhile
        opened = top is not self._from and _is_ready(top)
        ended = self._worker is not None and self._worker.is_finished
        self._patient -= 1
        waits = self._worker is not None or self._patient > 0
        here = not waits and top is self._from and _is_ready(top)
        if opened or ended or here or not left:
            self._give_back()
        else:
            self._app.set_timer(_LOOK, lambda: self._look(left - 1))

    def _give_back(self) -> None:
        held = sorted(self._held, key=lambda each: each.time)
        self._held, self._waiting, self._worker, self._from = [], False, None, None
        for each in held:
            self._again(each)

    def _again(self, event: events.Key) -> None:
        again = events.Key(event.key, event.character)
        self._on_their_way.append(again)
        self._app.post_message(again)


def _is_ready(screen: Screen[Any]) -> bool:
    return screen.is_ready if isinstance(screen, LeftAnyTime) else screen.is_mounted
