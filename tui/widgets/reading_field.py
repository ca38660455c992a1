"""One reading being typed: how it is understood, and what it would mean, before it counts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Input, Static
from textual.widgets.input import Selection

from records.errors import FarboardError
from records.judgement.review_types import Judged
from records.model.measurements import Measurement
from records.model.reading import Figure, Tick
from records.taking.leads import fitted
from records.taking.typed_reading import understand
from tui.look import style
from tui.widgets.cut import Cut
from tui.widgets.reading_entry import ReadingEntry
from tui.widgets.verdict import sentence

PAUSE = 0.12
"""Seconds of quiet after a key before the verdict is worked out: no key waits for it."""
LONGER = 0.35
"""Seconds more before the reading is held against all the others, which takes longer."""


class Taker(Protocol):
    """What a field asks of the screen it stands on.

    These are calls, not messages: a message is read only after the next keys of a quick typist,
    which would then land in the wrong field.
    """

    def take(self, taken: Figure | Tick) -> None:
        """Take a reading that was accepted with Enter."""

    def pass_on(self) -> None:
        """Act on Enter with nothing typed."""

    def key(self, key: str) -> bool:
        """Act on a key that moves; False if it has no use here."""

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field; False if it begins a value, or means nothing."""

    def closed(self) -> str:
        """Return why nothing can be typed here now; empty if it can."""

    def paste(self, text: str) -> None:
        """Take a pasted column, or refuse it aloud."""

    def refuse(self, why: str) -> None:
        """Say why something was not taken."""

    def typed(self, text: str) -> None:
        """Keep what stands in the field, though it is not accepted."""

    def echo(self, taken: Figure | Tick) -> str:
        """Return how a value is understood, in full."""

    def trial(self, taken: Figure | Tick, *, whole: bool) -> Sequence[Judged]:
        """Return what a reading would mean by itself, or among all the others."""


class ReadingField(Vertical):
    """The field, its echo, and the verdict under it."""

    def __init__(self, taker: Taker, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._taker = taker
        self._test: Measurement | None = None
        self._standing: Content = Content("")
        self._pause: Timer | None = None
        self._entry = ReadingEntry(self)
        self._echo = Static("", id="reading-echo", markup=False)
        self._verdict = Cut(id="reading-verdict")

    def compose(self) -> ComposeResult:
        """Compose the line of the field, and the verdict under it."""
        with Horizontal(id="reading-line"):
            yield Static("Reading ▸", id="reading-label", markup=False)
            yield self._entry
            yield self._echo
        yield self._verdict

    @property
    def text(self) -> str:
        """What stands in the field, not accepted yet."""
        return self._entry.value

    def show(self, test: Measurement, text: str = "", standing: Content | None = None) -> None:
        """Stand ready for a measurement.

        Args:
            test: What is measured.
            text: What was typed here before and not accepted.
            standing: What to say under the field while nothing is typed.
        """
        self._test = test
        self._standing = standing or Content("")
        with self.prevent(Input.Changed):
            self._entry.value = text
        self._entry.cursor_position = len(text)
        self._speak()

    def select_text(self) -> None:
        """Have what is typed next take the place of what stands in the field."""
        self._entry.selection = Selection(0, len(self._entry.value))

    def on_resize(self) -> None:
        """Echo what fits now."""
        self.call_after_refresh(lambda: self._echo.update(self._echoed(), layout=False))

    def focus(self, scroll_visible: bool = True) -> ReadingField:
        """Put the cursor into the field."""
        self._entry.focus(scroll_visible)
        return self

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self._taker.typed(self.text)
        self._speak()

    def key(self, key: str) -> bool:
        """Accept on Enter; leave the rest to the screen."""
        if key in ("left", "right", "home", "end", "space") and self.text:
            return False
        if key != "enter":
            return self._taker.key(key)
        if not self.text.strip():
            self._taker.pass_on()
            return True
        try:
            self._taker.take(self._understood())
        except FarboardError as error:
            self._taker.refuse(str(error))
        return True

    def offer(self, character: str) -> bool:
        """Say whether a character may be typed; a letter in an empty field may be a command."""
        if not self.text and self._taker.command(character):
            return False
        why = self._taker.closed()
        if why:
            self._taker.refuse(why)
        return not why

    def paste(self, text: str) -> None:
        """Hand on a pasted column."""
        self._taker.paste(text)

    def refuse_paste(self, why: str) -> None:
        """Say why a paste was not taken."""
        self._taker.refuse(why)

    def _understood(self) -> Figure | Tick:
        if self._test is None:
            raise FarboardError("There is nothing to take here.")
        return understand(self.text, self._test)

    def _speak(self) -> None:
        if self._pause is not None:
            self._pause.stop()
        self._echo.update(self._echoed(), layout=False)  # one line: nothing moves for it
        if self.text.strip():
            self._pause = self.set_timer(PAUSE, lambda: self._judge(whole=False))
        else:
            self._verdict.update(self._standing)

    def _echoed(self) -> Content:
        test = self._test
        if test is None:
            return Content("")
        if not self.text.strip():
            hint = "y correct · n not correct" if test.is_check else test.unit.value
            return Content.styled(hint, style("dim"))
        try:
            words = self._taker.echo(self._understood())
            words = words if " = " in words else f"= {words}"
            room = self._echo.content_size.width or len(words)  # none before the first layout
            return Content.styled(fitted(words, room), "bold")
        except FarboardError:
            return Content.styled("…", style("dim"))

    def _judge(self, *, whole: bool) -> None:
        try:
            lines = self._taker.trial(self._understood(), whole=whole)
        except FarboardError as error:
            self._verdict.update(Content.styled(str(error), style("dim")))
            return
        self._verdict.update(Content("\n").join(sentence(each) for each in lines))
        if not whole:
            self._pause = self.set_timer(LONGER, lambda: self._judge(whole=True))
