"""One reading being typed: how it is understood, and what it would mean, before it counts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from textual.app import ComposeResult
from textual.content import Content
from textual.geometry import Size
from textual.timer import Timer
from textual.widgets.input import Selection

from records.errors import FarboardError
from records.judgement.review_types import Judged
from records.model.measurements import Measurement
from records.model.reading import Figure, Tick
from records.taking.leads import fitted
from records.taking.typed_reading import understand
from tui.look import style
from tui.widgets.below_field import below_field
from tui.widgets.content_lines import FittedLines
from tui.widgets.reading_entry import ReadingEntry
from tui.widgets.reading_lines import Row, row_lines, wrap
from tui.widgets.verdict import sentence

PAUSE = 0.12
"""Seconds of quiet after a key before the verdict is worked out: no key waits for it."""
LONGER = 0.35
"""Seconds more before the reading is held against all the others, which takes longer."""
_LABEL = "Reading ▸"
_ENTRY = 15
"""Cells that the first line leaves for the entry, with one after it; its style says how wide."""


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


class ReadingField(FittedLines):
    """The field, its echo, and under it the verdict; it draws all of it but the entry."""

    def __init__(self, taker: Taker, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._taker = taker
        self._test: Measurement | None = None
        self._standing = self._words = Content("")
        self._around: list[Row] = []
        self._keys = Content("")
        self._broken: dict[int, tuple[list[Content], list[Content]]] = {}
        """Circumstances and keys as lines, by their width: neither changes with what is typed."""
        self._pause: Timer | None = None
        self._entry = ReadingEntry(self)

    def compose(self) -> ComposeResult:
        """Compose the entry, for which the first line leaves a gap."""
        yield self._entry

    @property
    def text(self) -> str:
        """What stands in the field, not accepted yet."""
        return self._entry.value

    def show(
        self,
        test: Measurement,
        text: str = "",
        standing: Content | None = None,
        *,
        around: Sequence[Row] = (),
        keys: Content | None = None,
    ) -> None:
        """Stand ready for a measurement.

        Args:
            test: What is measured.
            text: What was typed here before and not accepted.
            standing: What to say under the field while nothing is typed.
            around: By whom it is taken, and with what.
            keys: What letters do while nothing is typed.
        """
        self._test, self._standing = test, standing or Content("")
        self._words = self._standing
        keys = keys or Content("")
        if (list(around), keys.plain) != (self._around, self._keys.plain):
            self._around, self._keys, self._broken = list(around), keys, {}
        self._entry.stand(text)
        self._speak()

    def select_text(self) -> None:
        """Have what is typed next take the place of what stands in the field."""
        self._entry.selection = Selection(0, len(self._entry.value))

    def laid_out(self, room: Size) -> list[Content]:
        """Return the line of the field, and what stands under it."""
        first = Content.assemble((_LABEL, "bold $primary"), " " * _ENTRY, self._echoed(room.width))
        ground = Content.assemble(first, " " * max(room.width - first.cell_length, 0))
        around, keys = self._still(room.width)
        below = below_field(
            wrap(self._words, room.width) if self._words.plain else (),
            around,
            keys,
            room.width,
            room.height - 1,
            typing=bool(self.text.strip()),
        )
        return [ground.stylize("on $surface"), *below]

    def _still(self, width: int) -> tuple[list[Content], list[Content]]:
        if width not in self._broken:
            keys = wrap(self._keys, width) if self._keys.plain else []
            self._broken = {width: (row_lines(self._around, width), keys)}
        return self._broken[width]

    def focus(self, scroll_visible: bool = True) -> ReadingField:
        """Put the cursor into the field."""
        self._entry.focus(scroll_visible)
        return self

    def typed(self) -> None:
        """Follow what is typed, in the same paint as the character itself."""
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
        if self.text.strip():
            self._pause = self.set_timer(PAUSE, lambda: self._judge(whole=False))
        else:
            self._words = self._standing
        self.renew()

    def _echoed(self, width: int) -> Content:
        test = self._test
        if test is None:
            return Content("")
        if not self.text.strip():
            hint = "y correct · n not correct" if test.is_check else test.unit.value
            return Content.styled(hint, style("dim"))
        try:
            words = self._taker.echo(self._understood())
            words = words if " = " in words else f"= {words}"
            return Content.styled(fitted(words, width - len(_LABEL) - _ENTRY), "bold")
        except FarboardError:
            return Content.styled("…", style("dim"))

    def _judge(self, *, whole: bool) -> None:
        try:
            lines = self._taker.trial(self._understood(), whole=whole)
        except FarboardError as error:
            self._say(Content.styled(str(error), style("dim")))
            return
        self._say(Content("\n").join(sentence(each) for each in lines))
        if not whole:
            self._pause = self.set_timer(LONGER, lambda: self._judge(whole=True))

    def _say(self, words: Content) -> None:
        self._words = words
        self.renew()
