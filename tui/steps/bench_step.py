"""The bench: one reading at a time in the safe order, judged while it is typed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.types import CSSPathType

from records.drafts import draft_key
from records.errors import FarboardError
from records.expected.results import Result
from records.interlock.may_take import Lock, Refusal
from records.judgement.review_types import Judged
from records.judgement.wording import Taken, in_full, said
from records.model.reading import Figure, Place, Quantity, Slot, Tick
from records.taking.card import Card, card, changed_since, how
from records.taking.cautions import Caution
from records.taking.desk import Desk
from records.taking.figures import behind
from records.taking.interlock import next_to_take
from records.taking.lower_voltage import JOINED
from records.taking.queue import Entry, Queue, queue
from records.taking.sitting import Sitting
from records.terms import Stage
from tui.steps.step import Step
from tui.widgets.bench_card import BenchCard
from tui.widgets.message_line import Said
from tui.widgets.reading_card import GO_ON, aim_rows, card_rows, caution_rows
from tui.widgets.reading_field import ReadingField
from tui.widgets.reading_grid import ReadingGrid
from tui.widgets.reading_lines import ReadingLines, Row
from tui.widgets.reading_queue import ReadingQueue
from tui.widgets.reading_words import around_words, keys_line, progress_line
from tui.widgets.verdict import sentence, tone_of
from tui.widgets.words import Words


class BenchStep(Step):
    """What the three stages with readings share; see `ReadingField` for how a value is typed."""

    stage: ClassVar[Stage]
    CSS_PATH: ClassVar[CSSPathType | None] = ["reading_field.tcss", "bench_step.tcss"]

    def __init__(self) -> None:
        super().__init__()
        self._queue = Queue(())
        self._at = 0
        self._again = False
        self._refused = False

    def compose_body(self) -> ComposeResult:
        """Compose progress, queue, card and field."""
        yield Words(id="bench-progress")
        with Container(id="bench"):
            yield ReadingQueue(id="bench-queue")
            yield ReadingGrid(id="bench-grid")
            yield BenchCard(id="bench-card")
            yield ReadingLines(id="bench-aim")
            yield ReadingField(self, id="bench-field")
            yield Words(id="bench-keys")

    def on_mount(self) -> None:
        """Show the frame first, then work out the queue."""
        super().on_mount()
        self.field.focus()
        self.call_after_refresh(self.begin)

    def begin(self) -> None:
        """Go to where the person was, or to the first reading that is still to test."""
        self._rebuild()
        found = self.desk.interlock
        at = self._queue.index(found.earth.slot if found.earth else self.sitting.slot)
        self.enter(next_to_take(self._queue, found) or 0 if at is None else at)

    @property
    def desk(self) -> Desk:
        """Where readings of this stage are put on record."""
        return Desk(self.session, self.stage)

    @property
    def sitting(self) -> Sitting:
        """What the person settled for this stage."""
        return self.desk.sitting

    @property
    def field(self) -> ReadingField:
        """Where the value is typed."""
        return self.query_one("#bench-field", ReadingField)

    @property
    def card(self) -> BenchCard:
        """What there is to know before the reading in hand."""
        return self.query_one(BenchCard)

    @property
    def entry(self) -> Entry | None:
        """The reading in hand."""
        entries = self._queue.entries
        return entries[self._at] if self._at < len(entries) else None

    # What the field asks for.

    def take(self, taken: Figure | Tick) -> None:
        """Put a reading on disk, say what it means, and go on."""
        entry, why = self.entry, self.closed()
        if entry is None or why:
            self.refuse(why)
            return
        if self.caution() is not None:
            self.pass_on()
            self.refuse(f"{self.field.text} waits in its field: read the caution, then Enter.")
            return
        stop = self.desk.refusal(entry.slot, taken)
        if stop is not None and stop.lock is Lock.EARTH:
            self.enter(self._queue.index(stop.first) or self._at)
        if stop is not None:
            self.refuse(stop.words)
            return
        self.accept(taken)

    def accept(self, taken: Taken) -> None:
        """Write what was taken for the reading in hand; keep it in the field if that fails."""
        entry = self.entry
        if entry is None:
            return
        again, self._again = self._again, False
        beside = self.desk.beside(entry.slot, taken)
        try:
            taken = self.desk.take(entry.slot, taken)
        except FarboardError as error:
            self._again = again
            self.show_all()  # what was typed stands there still
            self.refuse(str(error))
            return
        self.session.drafts.pop(draft_key(entry.slot), None)
        self._go_on(entry.slot, taken, beside, again=again)

    def _go_on(self, slot: Slot, taken: Taken, beside: str, *, again: bool) -> None:
        at = self._queue.index(slot) or 0
        entry = self._queue.entries[at]
        test = entry.measurement
        # Within: one line, so that nothing jumps. Else all of it: this is where it must be read.
        why = entry.judged.why if entry.judged and entry.is_bad else ""
        verdict = entry.verdict
        told = "" if said(taken, test).casefold() in why.casefold() else in_full(taken, test)
        value = told if told.startswith(verdict.value) else f"{verdict.value}. {told}".strip(". ")
        words = f"{entry.place}, {test.symbol}: {value}. {why}".strip()
        following = next_to_take(self._queue, self.desk.interlock, at)
        if again and not self._must_go(following):
            following = self._queue.next_bad_alike(at) or following
        self.enter(at if following is None else following)
        done = "" if following is not None else " Everything of this stage has something entered."
        self.query_one("#said", Said).say(words + beside + done, tone_of(verdict), verdict.mark)

    def _must_go(self, at: int | None) -> bool:
        """Whether what comes next is owed before anything else: an earth, or a live failure."""
        found = self.desk.interlock
        slot = None if at is None else self._queue.entries[at].slot
        owed = [found.earth.slot] if found.earth is not None else []
        return slot in (*owed, *(each.slot for each in found.failures if each.everywhere))

    def pass_on(self) -> None:
        """Go on from a reading that is there; Enter in an empty field accepts nothing."""
        entry, caution = self.entry, self.caution()
        if entry is None:
            return
        if caution is not None:
            if not self.card.read_on(+1):  # what has not been on the screen has not been read
                self.read(caution, entry)
        elif self.session.read_only and entry.is_open:
            self.refuse(self.closed())
        elif entry.is_open or self._again:
            wanted = "y or n" if entry.measurement.is_check else "what the meter shows"
            self.refuse(f"Nothing is typed. Type {wanted}; c if it can't be taken; ↓ passes by.")
        else:
            following = next_to_take(self._queue, self.desk.interlock, self._at)
            if following is None:
                self.tell("Everything of this stage has something entered.", "good")
            else:
                self.enter(following)

    def read(self, caution: Caution, entry: Entry) -> None:
        """Record that a caution was read, and go on to the reading that it stands before."""
        try:
            self.desk.has_read(caution, entry.slot)
        except FarboardError as error:
            self.refuse(str(error))
            return
        self.enter(self._at)

    def stop(self) -> Refusal | None:
        """Return why the reading in hand may not be taken now; None if it may, or is not due."""
        entry = self.entry
        if entry is None or (not entry.is_open and not self._again) or self.session.read_only:
            return None
        return self.desk.refusal(entry.slot)

    def closed(self) -> str:
        """Return why nothing can be typed for the reading in hand; empty if it can."""
        entry = self.entry
        if entry is None:
            return "There is no reading to take here: enter feed, board and circuits first."
        if self.session.read_only:
            return "This record is open for reading only: nothing can be entered."
        stop = self.stop()
        if stop is not None and stop.lock is Lock.CAUTION:
            return ""  # what is typed waits in the field; `take` asks for the caution first
        if not entry.is_open and not self._again:
            return "This was taken already. Press a to test it again; Enter goes to the next."
        if self.desk.instead(entry.slot) is not None:
            return JOINED
        # While the earth is off a figure is refused when it is taken, and kept: it stands there.
        return stop.words if stop is not None and stop.lock is not Lock.EARTH else ""

    def echo(self, taken: Figure | Tick) -> str:
        """Return how a value for the reading in hand is understood."""
        return self.desk.echo(self.entry.slot, taken) if self.entry is not None else ""

    def trial(self, taken: Figure | Tick, *, whole: bool) -> Sequence[Judged]:
        """Return what the reading in hand would mean by itself, or among all the others."""
        entry = self.entry
        if entry is None or self.closed() or self.caution() is not None:
            return ()
        return self.desk.trial(entry.slot, taken, whole=whole)

    def typed(self, text: str) -> None:
        """Keep what stands in the field, so that nothing can lose it."""
        if self.entry is None:
            return
        self._make_room(typing=bool(text))
        if self._refused:
            self._refused = False
            self.tell("")
        key = draft_key(self.entry.slot)
        if text:
            self.session.drafts[key] = text
        else:
            self.session.drafts.pop(key, None)

    def refuse(self, why: str) -> None:
        """Say why something was not taken; it is said until the next key."""
        self.tell(why, "warn")
        self._refused = True

    def key(self, key: str) -> bool:
        """Move about."""
        moves = {
            "up": self._at - 1,
            "shift+tab": self._at - 1,
            "down": self._at + 1,
            "tab": self._at + 1,
            "pageup": self._queue.next_group(self._at, -1) if self._queue.entries else 0,
            "pagedown": self._queue.next_group(self._at, 1) if self._queue.entries else 0,
        }
        if key == "escape" and self.field.text:
            if self.entry is not None:
                self.session.drafts.pop(draft_key(self.entry.slot), None)
            self._refused = False
            self.tell("")
            self.show_all()
            return True
        if key == "escape" and self._again:
            self._again = False
            self.enter(self._at)
            return True
        if self.sitting.grid and key in ("up", "down", "left", "right"):
            found = self.query_one(ReadingGrid).beside(self._at, key)
            self.enter(found if found is not None else self._at)
            return True
        if key not in moves:
            return False
        by = {"pagedown": +1, "pageup": -1}.get(key, 0)
        if by and self.caution() is not None and self.card.read_on(by):
            return True
        if 0 <= moves[key] < len(self._queue.entries):
            self.enter(moves[key])
        return True

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field."""
        return character == "?"

    def paste(self, text: str) -> None:
        """Take a pasted column."""
        self.refuse(f"{len(text.splitlines())} lines were pasted: none was taken.")

    # What is on the screen.

    def caution(self) -> Caution | None:
        """Return what must be read before the reading in hand; None if all was."""
        entry, stop = self.entry, self.stop()
        if entry is None or stop is None or stop.lock is not Lock.CAUTION:
            return None
        return self.desk.unread(entry.slot)

    def enter(self, at: int) -> None:
        """Take an entry of the queue in hand."""
        if at != self._at:
            self._again = False
        self._at = at
        entry = self.entry
        self.sitting.slot = entry.slot if entry else None
        self.show_all()

    def record_changed(self) -> None:
        """Work out the queue again and stay where the person is."""
        slot = self.sitting.slot
        self._rebuild()
        found = self._queue.index(slot)
        self._at = min(self._at, max(len(self._queue.entries) - 1, 0)) if found is None else found
        self.show_all()

    def turned(self, slot: Slot | None) -> None:
        """Stand on the reading that was taken back or made again."""
        at = self._queue.index(slot)
        if at is not None:
            self.enter(at)

    def _rebuild(self) -> None:
        self._queue = queue(
            self.session.record,
            self.session.review,
            self.stage,
            self.sitting.order,
            self.sitting.more,
        )

    def show_all(self) -> None:
        """Bring progress, queue, card and field up to date."""
        entry, caution = self.entry, self.caution()
        self._dress({
            "-caution": caution is not None,
            "-grid": self.sitting.grid,
            "-owed": self.desk.interlock.earth is not None,
        })  # fmt: skip
        self._show_progress()
        if self.sitting.grid:
            self.query_one(ReadingGrid).show(self._queue, self._at)
        else:
            self.query_one(ReadingQueue).show(self._queue, self._at)
        if entry is None:
            self.card.show([("", self.closed())], "PageDown")
            return
        expected = self.session.expected.meter.get(entry.slot)
        since, meter = changed_since(self.session, entry), self.desk.meter(entry.slot)
        tested = self.desk.as_tested(entry)
        shown = card(self.session.record, tested, expected, self.desk.now(), since, meter)
        if caution is not None:
            self.card.show(caution_rows(caution), "PageDown, Enter")
        else:
            self.card.show(self._card_rows(entry, shown), "w has all")
        around = around_words(
            self.session.record, self.sitting, entry, self.session.person, self.session.notes_of
        )
        self.query_one("#bench-aim", ReadingLines).show([] if caution else aim_rows(shown, around))
        draft = "" if self.closed() else self.session.drafts.get(draft_key(entry.slot), "")
        standing = self._standing(entry)
        self._make_room(typing=bool(draft), judged=bool(standing.plain))
        self.field.show(entry.measurement, draft, GO_ON if caution else standing)
        self.query_one("#bench-keys", Words).update(self.keys_words(entry))

    def keys_words(self, entry: Entry) -> Content:
        """Return the keys that act on the reading in hand."""
        return keys_line(entry, self.sitting, self._again)

    def _dress(self, classes: Mapping[str, bool]) -> None:
        # The rules of a whole screen are gone through for each change of its classes: at most once.
        before = self.classes
        for name, wanted in classes.items():
            self.set_class(wanted, name, update=False)
        if self.classes != before:
            self.update_node_styles()

    def _make_room(self, *, typing: bool, judged: bool | None = None) -> None:
        # On the parts that give way, not on the screen: these are gone through with every reading.
        self.card.make_room(typing=typing, judged=judged)
        if judged is not None:
            self.field.set_class(judged, "-judged")

    def _card_rows(self, entry: Entry, shown: Card) -> list[Row]:
        warnings = [shown.leads] if shown.leads else []
        stop = self.stop()
        earth = self.desk.interlock.earth
        if earth is not None:
            warnings.append(earth.question)
        elif stop is not None and stop.lock is not Lock.CAUTION:
            warnings.append(stop.words)
        due = entry.is_open or self._again
        return card_rows(shown, warnings=warnings, brief=self.sitting.grid, due=due)

    def _standing(self, entry: Entry) -> Content:
        if entry.is_open or self._again:
            return Content("")
        lines = [sentence(each) for each in entry.lines if each is entry.own or each.is_finding]
        if entry.is_bad and entry.judged and entry.judged.next_check:
            # First of all: a small window has three lines here, and the verdict stands in the list.
            lines.insert(0, Content(f"Do next: {entry.judged.next_check}"))
        return Content("\n").join(lines)

    def _show_progress(self) -> None:
        standing = self.session.progress[self.step]
        self.query_one("#bench-progress", Words).update(
            progress_line(standing, self.sitting.order), layout=False
        )

    @on(ReadingQueue.Clicked)
    @on(ReadingGrid.Clicked)
    def _clicked(self, event: ReadingQueue.Clicked | ReadingGrid.Clicked) -> None:
        self.enter(event.index)
        self.field.focus()

    def figures(self) -> Sequence[tuple[str, Result]]:
        """Return the expectation of the reading in hand, then what follows for its place."""
        entry = self.entry
        return () if entry is None else behind(self.session.record, self.session.expected, entry)

    def pictured(self) -> tuple[Place | None, Quantity | None]:
        """Return where the reading in hand is taken, and what it is."""
        slot = self.entry.slot if self.entry is not None else None
        return (None, None) if slot is None else (slot.place, slot.quantity)

    def help_in_focus(self) -> str:
        """Return how the reading in hand is taken."""
        entry = self.entry
        if entry is None:
            return ""
        return how(self.desk.as_tested(entry).measurement, self.desk.meter(entry.slot))
