"""How the wizard is typed into: bytes that are no UTF-8 are refused aloud and end nothing."""

from __future__ import annotations

import codecs
import sys
from collections.abc import Callable
from functools import partial
from typing import Any

from textual import events
from textual.app import App
from textual.driver import Driver
from textual.message import Message

UNDECODABLE = (
    "Your terminal sent a sign that is not UTF-8, so it was not taken. Set the terminal to UTF-8, "
    "or write it in plain letters."
)
_MAKER = "getincrementaldecoder"
_REPLACED = "\N{REPLACEMENT CHARACTER}"


class Undecodable(Message):
    """Something was typed that can't be read as text."""


def taking_any_bytes(driver: type[Driver]) -> type[Driver]:
    """Return a driver that goes on where what is typed is no UTF-8.

    Args:
        driver: One that would end with a trace.
    """
    # Textual makes its decoder in the middle of the loop that reads; only the name it is called by
    # can be put right from outside.
    for each in driver.__mro__:
        module = sys.modules[each.__module__]
        if hasattr(module, _MAKER):
            setattr(module, _MAKER, _lenient)

    class Taking(driver):  # type: ignore[misc, valid-type]
        """Keeps what can't be read from every field."""

        def process_message(self, message: Message) -> None:
            """Pass on what was typed, if it is text."""
            app: App[Any] = self._app
            if _REPLACED in _text(message):
                app.post_message(Undecodable())
            else:
                super().process_message(message)

    return Taking


def _lenient(name: str) -> Callable[[], codecs.IncrementalDecoder]:
    return partial(codecs.getincrementaldecoder(name), errors="replace")


def _text(message: Message) -> str:
    if isinstance(message, events.Key):
        return message.character or ""
    return message.text if isinstance(message, events.Paste) else ""
