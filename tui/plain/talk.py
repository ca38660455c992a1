"""Lines out and lines in. No cursor is moved and no colour set; nothing is
wrapped here: what prints knows how wide the terminal is, if it is one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TextIO

from records.store.showing import shown
from tui.plain.typed_ahead import dropped

LONGEST = 4000
"""Characters of an answer; more is no answer, but something piped in by mistake."""


class Talk:
    """Somebody to talk with, line by line."""

    def __init__(self, source: TextIO, say: Callable[[str], None], *, echo: bool) -> None:
        """Take the two ends.

        Args:
            source: Where answers come from.
            say: Prints a text as it stands, without a line end.
            echo: Whether to print each answer too: where it is piped, nobody sees it otherwise.
        """
        self._source, self._say, self._echo = source, say, echo

    def say(self, *lines: str) -> None:
        """Print lines; empty ones are left out."""
        for line in lines:
            if line:
                self._say(f"{line}\n")

    def ask(self, prompt: str, *, read_first: bool = False) -> str | None:
        """Return the next answer without blanks at its ends; None if no more come.

        Args:
            prompt: What stands before the answer.
            read_first: Whether it answers a text that has to be read: what somebody typed in a
                terminal before that text was there is dropped, and said to be.
        """
        if read_first and dropped(self._source):
            self.say("What was typed before this was here is not taken. Read it, then answer.")
        self._say(f"{prompt}: ")
        line = self._source.readline(LONGEST)
        text = line
        while len(text) == LONGEST and not text.endswith("\n"):
            text = self._source.readline(LONGEST)  # the rest of it belongs to no other question
        if not line:
            self._say("\n")
            return None
        if self._echo or not text.endswith("\n"):
            self._say(f"{shown(line.strip())}\n")
        return line.strip()
