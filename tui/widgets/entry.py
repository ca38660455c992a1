"""The one input of a form. It takes text as it is, or refuses it aloud; it alters nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from textual import events
from textual.geometry import Size
from textual.reactive import Reactive
from textual.suggester import Suggester
from textual.widgets import Input
from textual.widgets.input import Selection

from records.errors import BadText
from records.text import checked_text


class Keys(Protocol):
    """What an entry asks of the form round it."""

    def key(self, key: str) -> bool:
        """Act on a key that is no text; False if the form has no use for it."""

    def offer(self, character: str) -> bool:
        """Say whether the entry may take this character where it stands."""

    def refuse_paste(self, why: str) -> None:
        """Say why a paste was not taken."""


class _Begun(Suggester):
    """Offers the first of some texts that begins as typed; none for one that is there whole."""

    def __init__(self, texts: Sequence[str]) -> None:
        super().__init__(use_cache=False, case_sensitive=False)
        self._texts = texts

    async def get_suggestion(self, value: str) -> str | None:
        """Return the rest for what is typed, which comes in small letters."""
        if any(each.casefold() == value for each in self._texts):
            return None
        return next((each for each in self._texts if each.casefold().startswith(value)), None)


class Entry(Input):
    """A single line of text that stands in a row of a form.

    The keys that accept and move are acted on here, in the order in which they were typed: a key
    binding is found only after the key has gone up to the app, by when the next characters would
    already stand in this row.
    """

    ACTED_ON = frozenset(
        ["enter", "up", "down", "tab", "shift+tab", "escape", "pageup", "pagedown", "space"]
    )
    virtual_size: Reactive[Size] = Reactive(Size(0, 0), layout=False)
    """An entry has the cells it was given: a key in it lays nothing out again."""

    def __init__(self, keys: Keys) -> None:
        super().__init__(compact=True, select_on_focus=False)
        self.cursor_blink = False
        self._keys = keys

    def fill(self, text: str, room: int = 0, *, select: bool = True) -> None:
        """Stand with this text, all selected, so that typing replaces it.

        Args:
            text: What to stand with.
            room: Cells there are for it: a longer text shows its beginning.
            select: False to go on typing at the end instead.
        """
        with self.prevent(Input.Changed):
            self.value = text
        start, end = (0 if select else len(text)), len(text)
        longer = select and len(text) >= room > 0
        self.selection = Selection(end, start) if longer else Selection(start, end)

    def suggest(self, texts: Sequence[str]) -> None:
        """Offer the rest of one of these while its beginning is typed; the right arrow takes it."""
        self.suggester = _Begun(texts) if texts else None

    def on_key(self, event: events.Key) -> None:
        """Give keys that are no text to the form first."""
        ahead = getattr(self.app, "keys_ahead", None)
        if ahead is not None and ahead.holds(event, self.screen):
            used = True
        elif event.key in self.ACTED_ON:
            used = self._keys.key(event.key)
        else:
            used = event.is_printable and not self._keys.offer(event.character or "")
            if used and event.key == "question_mark":
                self.app.simulate_key("f1")
        if used:
            event.stop()
            event.prevent_default()

    def on_paste(self, event: events.Paste) -> None:
        """Take one line of plain text; refuse all else, with the reason."""
        event.stop()
        event.prevent_default()
        text = event.text.strip("\r\n")
        lines = text.splitlines()
        if len(lines) > 1:
            why = f"{len(lines)} lines were pasted, and this takes one: none was taken."
            self._keys.refuse_paste(why)
            return
        try:
            text = checked_text(text)
        except BadText as error:
            self._keys.refuse_paste(f"Not taken from the paste: {error}")
            return
        if text and self._keys.offer(text):
            self.replace(text, *self.selection)
