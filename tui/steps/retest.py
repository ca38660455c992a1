"""A reading taken again from the review: shows what the bench asks for, and hands on what is typed.

What may be taken, and what a value does, is decided by `records.taking.bench`.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from records.errors import FarboardError
from records.judgement.review_types import Judged, slots_of
from records.model.reading import Figure, Slot, Tick
from records.taking.act_names import REVIEW
from records.taking.bench import Bench
from records.taking.finding_text import slot_name
from records.taking.outcome import Outcome
from records.taking.prompt import Ask
from tui.dialogs.pick import Pick
from tui.dialogs.yes_no import YesNo
from tui.widgets.reading_field import ReadingField

if TYPE_CHECKING:
    from tui.steps.step import Step

TESTING = "-testing"
"""Class of the screen while a re-test is typed: the field shows."""


class Retest:
    """Does what the field asks of the screen it stands on; closed until a re-test is begun."""

    def __init__(
        self,
        step: Step,
        *,
        left: Callable[[], None],
        taking: Callable[[], Callable[[Outcome], None]],
    ) -> None:
        """Stand closed.

        Args:
            step: The screen.
            left: Called once the field is left.
            taking: Called before a reading is taken; what it returns, once that is on disk.
        """
        self._step, self._left, self._taking = step, left, taking
        self._bench: Bench | None = None
        self._refused = False

    @property
    def _field(self) -> ReadingField:
        return self._step.query_one(ReadingField)

    async def begin(self, current: Judged) -> None:
        """Open the field for a reading of a verdict, or say why it can't be taken again here."""
        slots = slots_of(current)
        if not slots:
            why = "This is about the design, not a reading: press g to go there."
            self._step.tell(why, "warn")
            return
        slot = await self._which(slots)
        if slot is None:
            return
        bench = Bench(self._step.session, slot.stage, REVIEW, only=slot)
        bench.begin()
        try:
            bench.check_begun()
        except FarboardError as error:
            self._step.tell(str(error), "warn")
            return
        if await self._all_read(bench):
            self._open(bench)

    async def _which(self, slots: Sequence[Slot]) -> Slot | None:
        if len(slots) == 1:
            return slots[0]
        record = self._step.session.record
        names = [(str(at), slot_name(record, each)) for at, each in enumerate(slots)]
        chosen = await self._step.app.push_screen_wait(Pick("Which reading?", names))
        return slots[int(chosen)] if chosen is not None else None

    async def _all_read(self, bench: Bench) -> bool:
        """Show each caution that comes first; False if one was not read."""
        while (caution := bench.must_read.caution) is not None:
            lines = [Content(f"• {line}") for line in caution.lines]
            asked = YesNo(
                caution.title,
                lines,
                yes="I have read this, go on",
                no="back",
                shown_to_end=bench.must_read.shown_to_end,
            )
            if not await self._step.app.push_screen_wait(asked):
                return False
            try:
                bench.must_read.read_caution()
            except FarboardError as error:
                self._step.tell(str(error), "bad")
                return False
        return True

    def _open(self, bench: Bench) -> None:
        entry = bench.entry
        if entry is None:
            return
        self._step.tell("")
        self._bench = bench
        self._step.add_class(TESTING)
        first = bench.desk.first(entry.slot)
        name = slot_name(bench.session.record, entry.slot)
        how = f"{name}. First: {first} Enter takes it, Esc leaves."
        self._field.show(entry.measurement, bench.draft, Content(how))
        self._field.focus()

    def look_again(self) -> None:
        """Follow a change of the record; close the field if the reading can't be taken any more."""
        bench = self._bench
        if bench is not None:
            bench.look_again()
            if bench.entry is None:
                self.leave()

    def leave(self) -> None:
        """Close the field; what was typed is there the next time."""
        if self._bench is not None:
            self._bench = None
            self._step.remove_class(TESTING)
            self._left()

    # What the field asks for.

    def take(self, taken: Figure | Tick) -> None:
        """Put the reading on disk and say what it means."""
        bench = self._bench
        if bench is None:
            return
        if bench.prompt.kind is Ask.CAUTION:  # it was read too long ago
            self._step.run_worker(self._read_again(bench))
            return
        then = self._taking()
        try:
            outcome = bench.take(taken)
        except FarboardError as error:
            self._step.tell(str(error), "bad")
            return
        self.leave()
        then(outcome)

    async def _read_again(self, bench: Bench) -> None:
        if await self._all_read(bench):
            self.refuse(f"{self._field.text} waits in its field: Enter takes it.")

    def echo(self, taken: Figure | Tick) -> str:
        """Return how a value for the re-test is understood."""
        entry = self._bench.entry if self._bench is not None else None
        if self._bench is None or entry is None:
            return ""
        return self._bench.desk.echo(entry.slot, taken)

    def trial(self, taken: Figure | Tick, *, whole: bool) -> Sequence[Judged]:
        """Return what the re-test would mean."""
        return () if self._bench is None else self._bench.trial(taken, whole=whole)

    def pass_on(self) -> None:
        """Say that nothing was typed."""
        self.refuse("Nothing is typed: type what the meter shows, or Esc to leave it.")

    def key(self, key: str) -> bool:
        """Leave the field on Esc and on the arrows."""
        bench = self._bench
        if key == "escape" and self._refused and bench is not None and bench.entry is not None:
            bench.keep_draft("")
            self._refused = False
            self._step.tell("")
            self._field.show(bench.entry.measurement)
        elif key in ("escape", "up", "down"):
            self.leave()
        return key in ("escape", "up", "down", "tab", "shift+tab")

    def command(self, character: str) -> bool:
        """Know no letters."""
        return False

    def closed(self) -> str:
        """Return why nothing can be typed; empty if it can."""
        return "Press a to test again." if self._bench is None else self._bench.prompt.closed

    def paste(self, text: str) -> None:
        """Refuse a column: there is one field here."""
        self.refuse(f"{len(text.strip().splitlines())} lines were pasted, and this takes one.")

    def refuse(self, why: str) -> None:
        """Say why something was not taken."""
        self._step.tell(why, "warn")
        self._refused = bool(self._field.text)

    def typed(self, text: str) -> None:
        """Keep what stands in the field."""
        self._refused = False
        if self._bench is not None:
            self._bench.keep_draft(text)
