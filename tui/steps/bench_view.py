"""The bench on a screen: it shows where a person stands there, and hands on what is typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.types import CSSPathType

from records.errors import FarboardError
from records.expected.results import Result
from records.judgement.review_types import Judged
from records.model.reading import Figure, Place, Quantity, Tick
from records.taking.act_names import KEYS
from records.taking.bench import Bench
from records.taking.in_hand import (
    card_in_hand,
    circumstances,
    figures_in_hand,
    how_in_hand,
    warnings,
)
from records.taking.outcome import Outcome
from records.taking.prompt import Ask, Prompt
from records.terms import Stage
from tui.look import Tone
from tui.steps.step import Step
from tui.widgets.bench_card import BenchCard, Face
from tui.widgets.message_line import Said
from tui.widgets.reading_card import GO_ON, aim_rows, card_rows, caution_rows
from tui.widgets.reading_field import ReadingField
from tui.widgets.reading_grid import ReadingGrid
from tui.widgets.reading_queue import ReadingQueue
from tui.widgets.reading_words import keys_line, looking_keys, progress_line
from tui.widgets.verdict import standing_words
from tui.widgets.words import Words

_STEPS = {"up": -1, "shift+tab": -1, "down": +1, "tab": +1}
_PAGES = {"pageup": -1, "pagedown": +1}
_ARROWS = {"up": (-1, 0), "down": (1, 0), "left": (0, -1), "right": (0, 1)}


class BenchView(Step):
    """What the three stages with readings share; see `ReadingField` for how a value is typed."""

    stage: ClassVar[Stage]
    CSS_PATH: ClassVar[CSSPathType | None] = ["reading_field.tcss", "bench_step.tcss"]
    AUTO_FOCUS: ClassVar[str | None] = ""
    """The field takes keys once it is seen which reading they are for."""

    def __init__(self) -> None:
        super().__init__()
        self._bench: Bench | None = None
        self._begun = False
        self._refused = False

    @property
    def bench(self) -> Bench:
        """Where the person stands, and all that an act does."""
        if self._bench is None:
            self._bench = Bench(self.session, self.stage, KEYS)
            self._bench.begin()
        return self._bench

    def compose_body(self) -> ComposeResult:
        """Compose progress, queue, card and field."""
        yield Words(id="bench-progress")
        with Container(id="bench"):
            yield ReadingQueue(id="bench-queue")
            yield ReadingGrid(id="bench-grid")
            yield BenchCard(self.shown_to_end, id="bench-card")
            yield ReadingField(self, id="bench-field")

    def on_mount(self) -> None:
        """Show the frame first, then work out the queue."""
        super().on_mount()
        self.call_after_refresh(self.begin)

    def begin(self) -> None:
        """Show where the person was, or the first reading that is still to test."""
        self.show_all()
        self.field.focus()
        self._begun = True

    @property
    def is_ready(self) -> bool:
        """Whether it is seen which reading a key is for; until then keys wait."""
        return super().is_ready and self._begun

    @property
    def field(self) -> ReadingField:
        """Where the value is typed."""
        return self.query_one("#bench-field", ReadingField)

    @property
    def card(self) -> BenchCard:
        """What there is to know before the reading in hand."""
        return self.query_one(BenchCard)

    def act(self, does: Callable[[], Outcome | None]) -> bool:
        """Do something at the bench, show how it stands then and say what came of it.

        Args:
            does: The act.
        Returns:
            Whether it was done.
        """
        try:
            outcome = does()
        except FarboardError as error:
            self.show_all()  # what was typed is there still
            self.refuse(str(error))
            return False
        self.show_all()
        if outcome is not None and outcome.words:
            line = self.query_one("#said", Said)
            line.say(outcome.words, outcome.tone, outcome.mark or None)
        return True

    # What the field asks for.

    def take(self, taken: Figure | Tick) -> None:
        """Put a reading on disk, say what it means, and go on."""
        if self.bench.prompt.kind is Ask.CAUTION:
            self.pass_on()
            is_read = self.bench.prompt.kind is not Ask.CAUTION
            then = "Enter takes it" if is_read else "read the caution, then Enter"
            self.refuse(f"{self.field.text} waits in its field: {then}.")
            self.field.select_text()  # another figure takes its place, and is not joined to it
        else:
            self.act(lambda: self.bench.take(taken))

    def pass_on(self) -> None:
        """Go on from a reading that is there; Enter in an empty field accepts nothing."""
        if self.bench.prompt.kind is not Ask.CAUTION:
            self.act(self.bench.go_on)
        elif not self.card.read_on(+1):  # what has not been on the screen has not been read
            self.act(self.bench.must_read.read_caution)

    def shown_to_end(self) -> None:
        """Know that the end of the card is on the screen."""
        self.bench.must_read.shown_to_end()

    def closed(self) -> str:
        """Return why nothing can be typed for the reading in hand; empty if it can."""
        return self.bench.prompt.closed

    def echo(self, taken: Figure | Tick) -> str:
        """Return how a value for the reading in hand is understood."""
        entry = self.bench.entry
        return self.bench.desk.echo(entry.slot, taken) if entry is not None else ""

    def trial(self, taken: Figure | Tick, *, whole: bool) -> Sequence[Judged]:
        """Return what the reading in hand would mean by itself, or among all the others."""
        return self.bench.trial(taken, whole=whole)

    def typed(self, text: str) -> None:
        """Keep what is in the field, so that nothing can lose it."""
        self.card.while_typing(bool(text))
        self._forget_refusal()
        self.bench.keep_draft(text)

    def refuse(self, why: str) -> None:
        """Say why something was not taken; it is said until the next key."""
        self.tell(why, "warn")
        self._refused = True

    def _forget_refusal(self) -> None:
        if self._refused:
            self._refused = False
            self.tell("")

    def key(self, key: str) -> bool:
        """Move about."""
        bench = self.bench
        if key == "escape":
            return self._clear()
        if bench.desk.settings.grid and key in _ARROWS:
            bench.position.step_in_grid(*_ARROWS[key])
        elif key in _STEPS:
            self.act(lambda: bench.step(_STEPS[key]))
            return True
        elif key in _PAGES:
            if bench.prompt.kind is Ask.CAUTION and self.card.read_on(_PAGES[key]):
                return True
            bench.position.step_group(_PAGES[key])
        else:
            return False
        self.show_all()
        return True

    def _clear(self) -> bool:
        """Clear what is typed, or leave a retest; False if there is neither."""
        if self.field.text:
            self.bench.keep_draft("")
            self._refused = False
            self.tell("")
        elif not self.bench.leave_retest():
            return False
        self.show_all()
        return True

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field."""
        return character == "?"

    def paste(self, text: str) -> None:
        """Take a pasted column."""
        self.refuse(f"{len(text.splitlines())} lines were pasted: none was taken.")

    # What is on the screen.

    def record_changed(self) -> None:
        """Follow a change of the record, and stay where the person is."""
        self.bench.look_again()
        self.show_all()

    def action_undo(self) -> None:
        """Take the last change back."""
        self.act(self.bench.undo)

    def action_redo(self) -> None:
        """Make the change again that was taken back."""
        self.act(self.bench.redo)

    def show_all(self) -> None:
        """Bring progress, queue, card and field up to date."""
        bench, now = self.bench, self.bench.prompt
        grid, at, caution = bench.desk.settings.grid, bench.position.at, now.caution
        self._dress({"-caution": caution is not None, "-grid": grid})
        progress = progress_line(bench.standing, bench.desk.settings.order)
        self.query_one("#bench-progress", Words).update(progress, layout=False)
        if grid:
            self.query_one(ReadingGrid).show(bench.queue, at)
        else:
            self.query_one(ReadingQueue).show(bench.queue, at)
        entry, draft = bench.entry, bench.draft
        self.card.show(self._face(now), typing=bool(draft))
        if entry is not None:
            standing = (
                GO_ON if caution else None if bench.position.is_due else standing_words(entry)
            )
            around = [] if caution else [("by", " · ".join(circumstances(bench)))]
            keys = self.keys_words(now)
            self.field.show(entry.measurement, draft, standing, around=around, keys=keys)

    def _face(self, now: Prompt) -> Face:
        """Return what the card says of the reading in hand, or the caution before it."""
        card, bench = card_in_hand(self.bench), self.bench
        if card is None:
            return Face([("", now.why)], more="PageDown")
        earth_off = bench.desk.interlock.earth is not None
        if now.caution is not None:
            edge: Tone = "bad" if earth_off else "warn"
            return Face(caution_rows(now.caution), more="PageDown, Enter", tone=edge)
        unsafe = [*filter(None, [card.leads]), *warnings(bench, now)]
        rows = card_rows(
            card, warnings=unsafe, brief=bench.desk.settings.grid, due=bench.position.is_due
        )
        edge = "bad" if earth_off else "plain"
        return Face(rows, aim_rows(card), 1 + len(unsafe), "w has all", edge)

    def keys_words(self, now: Prompt) -> Content:
        """Return the keys that act on the reading in hand."""
        entry = self.bench.entry
        if entry is None or now.kind is Ask.LOCKED:
            return looking_keys()
        return keys_line(entry, self.bench.desk.settings, self.bench.position.again)

    def _dress(self, classes: Mapping[str, bool]) -> None:
        # On the bench alone, and at most once: all in it has its rules matched again for a class.
        part = self.query_one("#bench")
        before = part.classes
        for name, wanted in classes.items():
            part.set_class(wanted, name, update=False)
        if part.classes != before:
            part.update_node_styles()

    @on(ReadingQueue.Clicked)
    @on(ReadingGrid.Clicked)
    def _clicked(self, event: ReadingQueue.Clicked | ReadingGrid.Clicked) -> None:
        self.bench.enter(event.index)
        self.show_all()
        self.field.focus()

    def figures(self) -> Sequence[tuple[str, Result]]:
        """Return the expectation of the reading in hand, then what follows for its place."""
        return figures_in_hand(self.bench)

    def pictured(self) -> tuple[Place | None, Quantity | None]:
        """Return where the reading in hand is taken, and what it is."""
        slot = self.bench.entry.slot if self.bench.entry is not None else None
        return (None, None) if slot is None else (slot.place, slot.quantity)

    def help_in_focus(self) -> str:
        """Return how the reading in hand is taken."""
        return how_in_hand(self.bench)
