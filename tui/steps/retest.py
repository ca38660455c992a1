"""A reading taken again from the review: what comes first, the field it is typed in, the result."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from records.errors import FarboardError
from records.interlock.may_take import Lock
from records.judgement.review_types import Judged, slots_of
from records.model.reading import Figure, Slot, Tick
from records.model.slots import measured_by
from records.taking.desk import Desk
from records.taking.finding_text import slot_name
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
        self, step: Step, *, left: Callable[[], None], taking: Callable[[], Callable[[Slot], None]]
    ) -> None:
        """Stand closed.

        Args:
            step: The screen.
            left: Called once the field is left.
            taking: Called before a reading is taken; what it returns, once that is on disk.
        """
        self._step, self._left, self._taking = step, left, taking
        self._slot: Slot | None = None
        self._refused = False

    @property
    def _field(self) -> ReadingField:
        return self._step.query_one(ReadingField)

    @property
    def _drafts(self) -> dict[str, str]:
        return self._step.session.drafts

    @property
    def _draft(self) -> str:
        return f"review: {self._slot}"

    async def begin(self, current: Judged) -> None:
        """Open the field for a reading of a verdict, or say why it can't be taken again here."""
        step = self._step
        slots = slots_of(current)
        if not slots:
            step.tell("This is about the design, not a reading: press g to go there.", "warn")
            return
        slot = await self._which(slots)
        if slot is None:
            return
        why = self._not_from_here(slot)
        if why:
            step.tell(why, "warn")
            return
        if not await self._warned(slot):
            return
        step.tell("")
        self._slot = slot
        step.add_class(TESTING)
        first = Desk(step.session, slot.stage).first(slot)
        name = slot_name(step.session.record, slot)
        how = f"{name}. First: {first} Enter takes it, Esc leaves."
        self._field.show(measured_by(slot), self._drafts.get(self._draft, ""), Content(how))
        self._field.focus()

    async def _which(self, slots: Sequence[Slot]) -> Slot | None:
        if len(slots) == 1:
            return slots[0]
        record = self._step.session.record
        names = [(str(at), slot_name(record, each)) for at, each in enumerate(slots)]
        chosen = await self._step.app.push_screen_wait(Pick("Which reading?", names))
        return slots[int(chosen)] if chosen is not None else None

    def _not_from_here(self, slot: Slot) -> str:
        stop = Desk(self._step.session, slot.stage).refusal(slot)
        if stop is None or stop.lock is Lock.CAUTION:
            return ""
        if stop.lock is Lock.ANSWER:
            return "Live tests are behind a question first: press g to go to the bench."
        if stop.lock is Lock.EARTH:
            return f"{stop.words} Press F6 and go to the live tests."
        return stop.words

    async def _warned(self, slot: Slot) -> bool:
        """Show what has to be read before such a test, as the bench does; False if it was not."""
        desk = Desk(self._step.session, slot.stage)
        while (caution := desk.unread(slot)) is not None:
            lines = [Content(f"• {line}") for line in caution.lines]
            asked = YesNo(caution.title, lines, yes="I have read this, go on", no="back")
            if not await self._step.app.push_screen_wait(asked):
                return False
            try:
                desk.has_read(caution, slot)
            except FarboardError as error:
                self._step.tell(str(error), "bad")
                return False
        return True

    def leave(self) -> None:
        """Close the field; what was typed is there the next time."""
        if self._slot is not None:
            self._slot = None
            self._step.remove_class(TESTING)
            self._left()

    # What the field asks for.

    def take(self, taken: Figure | Tick) -> None:
        """Put the reading on disk and say what it means."""
        slot = self._slot
        if slot is None:
            return
        name, then = self._draft, self._taking()
        draft = self._drafts.pop(name, "")
        try:
            Desk(self._step.session, slot.stage).take(slot, taken)
        except FarboardError as error:
            if draft:
                self._drafts[name] = draft
            self._step.tell(str(error), "bad")
            return
        self.leave()
        then(slot)

    def echo(self, taken: Figure | Tick) -> str:
        """Return how a value for the re-test is understood."""
        slot = self._slot
        return "" if slot is None else Desk(self._step.session, slot.stage).echo(slot, taken)

    def trial(self, taken: Figure | Tick, *, whole: bool) -> Sequence[Judged]:
        """Return what the re-test would mean."""
        slot = self._slot
        if slot is None:
            return ()
        return Desk(self._step.session, slot.stage).trial(slot, taken, whole=whole)

    def pass_on(self) -> None:
        """Say that nothing was typed."""
        self.refuse("Nothing is typed: type what the meter shows, or Esc to leave it.")

    def key(self, key: str) -> bool:
        """Leave the field on Esc and on the arrows."""
        if key == "escape" and self._refused:
            self._drafts.pop(self._draft, None)
            self._refused = False
            self._step.tell("")
            if self._slot is not None:
                self._field.show(measured_by(self._slot))
        elif key in ("escape", "up", "down"):
            self.leave()
        return key in ("escape", "up", "down", "tab", "shift+tab")

    def command(self, character: str) -> bool:
        """Know no letters."""
        return False

    def closed(self) -> str:
        """Say that nothing can be typed while there is no re-test."""
        return "" if self._slot is not None else "Press a to test again."

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
        if text:
            self._drafts[self._draft] = text
        else:
            self._drafts.pop(self._draft, None)
