"""Review: findings first, the worst first; each with its ground, and what to do about it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.types import CSSPathType
from textual.widgets import OptionList, Static

from records import terms
from records.errors import BadText, FarboardError
from records.expected.results import Result
from records.interlock.may_take import Lock
from records.judgement.review_types import Judged, slots_of
from records.judgement.todo.progress import step_of
from records.judgement.trust import mark_of
from records.model.reading import Figure, Place, Quantity, Slot, Tick
from records.model.slots import measured_by
from records.taking.desk import Desk, desk_for
from records.taking.finding_text import (
    Paragraph,
    Show,
    detail,
    listed,
    slot_name,
    tests_after,
    would_mend,
)
from records.taking.typed_work import Work
from records.terms import Verdict, WorkKind
from tui import keys
from tui.dialogs.pick import Pick
from tui.dialogs.questions import Answers, Question, Questions
from tui.dialogs.reader import Reader
from tui.dialogs.yes_no import YesNo
from tui.look import verdict_style
from tui.steps.from_notes import ask_notes
from tui.steps.step import Step
from tui.widgets.message_line import Said
from tui.widgets.reading_field import ReadingField
from tui.widgets.reading_lines import ReadingLines
from tui.widgets.review_words import counts_line, keys_of_list, nothing_to_show
from tui.widgets.verdict import tone_of
from tui.widgets.verdict_list import VerdictList

_HELP = """What somebody must deal with comes first, the worst on top: outside, then unlikely, \
near the limit, and what is not taken. A blank is never a pass, and near the limit is not a pass \
either: the certifier decides.

For each: the reading, what was expected, the limit and its source, likely causes, and what to do \
next. Set-up errors are more common than faults in the cable."""


class Review(Step):
    """Lists verdicts; takes remedies and re-tests."""

    step = terms.Step.REVIEW
    STEP_TITLE = "Review"
    HELP = _HELP
    KEYS = keys.REVIEW
    CSS_PATH: ClassVar[CSSPathType | None] = ["reading_field.tcss", "review.tcss"]
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("r", "remedy", "Remedy", show=False, tooltip="Record what was done about it"),
        Binding("d", "decide", "To decide", show=False, tooltip="Pass it to the certifier, noted"),
        Binding("a", "again", "Test again", show=False, tooltip="Take the reading again, here"),
        Binding("g", "go_there", "Go there", show=False, tooltip="To the bench or the design"),
        Binding("l", "notes", "From notes", show=False, tooltip="Entered later, from notes"),
        Binding("f", "filter", "Filter", show=False, tooltip="Findings, problems, put right …"),
        Binding("escape", "close_field", "Close", show=False),
        Binding("ctrl+down", "scroll_detail(1)", "Scroll", show=False),
        Binding("ctrl+up", "scroll_detail(-1)", "Scroll", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._show = Show.FINDINGS
        self._key: str | None = None
        self._slot: Slot | None = None
        self._refused = False

    def compose_body(self) -> ComposeResult:
        """Compose counts, list, detail, and the field for a re-test."""
        yield Static("", id="review-counts", markup=False)
        with Container(id="review"):
            yield VerdictList(id="review-list")
            with VerticalScroll(id="review-detail", can_focus=False):
                yield ReadingLines(label_width=13, id="review-lines")
            yield ReadingField(self, id="review-field")
        yield Static("", id="review-keys", markup=False)

    def on_mount(self) -> None:
        """Show the frame first, then work out the review."""
        super().on_mount()
        self.listing.focus()
        left = self.session.places.get(self.step)
        if isinstance(left, tuple):
            self._show, self._key = left
        self.call_after_refresh(self.record_changed)

    @property
    def listing(self) -> VerdictList:
        """The list."""
        return self.query_one("#review-list", VerdictList)

    @property
    def field(self) -> ReadingField:
        """Where a re-test is typed; hidden while there is none."""
        return self.query_one("#review-field", ReadingField)

    def record_changed(self) -> None:
        """List the verdicts anew, and stay at the one in hand."""
        review = self.session.review
        lines = listed(review, self._show)
        self.query_one("#review-counts", Static).update(counts_line(review.findings))
        self.query_one("#review-keys", Static).update(keys_of_list(self._show))
        self.listing.show(self.session.record, lines, self._key)
        self._show_detail()

    @on(OptionList.OptionHighlighted)
    def _moved(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        current = self.listing.current
        if current is not None and current.key != self._key:
            self._key = current.key
            self.action_close_field()
            self._show_detail()

    def _show_detail(self) -> None:
        current = self.listing.current
        self._key = current.key if current else self._key
        self.session.places[self.step] = (self._show, self._key)
        lines = self.query_one("#review-lines", ReadingLines)
        if current is None:
            lines.show([("", nothing_to_show(self._show, bool(self.session.record.readings)))])
            return
        head = Content.assemble(
            Content.styled(
                f"{current.verdict.mark} {current.verdict.value}", verdict_style(current.verdict)
            ),
            f"{mark_of(current)}  {current.title}",
        )
        parts = self._parts(current)
        lines.show([("", head), *((each.label, each.text) for each in parts)])
        self.query_one("#review-detail", VerticalScroll).scroll_home(animate=False)

    def _parts(self, current: Judged) -> tuple[Paragraph, ...]:
        changed = self.session.anew.get(current.key, "")
        return detail(self.session.record, current._replace(anew=changed))

    # Keys of the list.

    @on(OptionList.OptionSelected)
    def _read_whole(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        current = self.listing.current
        if current is not None:
            record = self.session.record
            blocks = [
                Content.assemble((f"{part.label}: ", "bold $primary"), part.text)
                for part in (*self._parts(current), *would_mend(record, current))
            ]
            self.app.push_screen(Reader(current.title, blocks))

    def action_filter(self) -> None:
        """Show other verdicts."""
        self._show = self._show.next
        self.action_close_field()
        self.record_changed()

    def action_scroll_detail(self, by: int) -> None:
        """Scroll the text of the verdict in hand."""
        detail = self.query_one("#review-detail", VerticalScroll)
        detail.scroll_relative(y=by * max(detail.size.height - 1, 1), animate=False)

    @work
    async def action_remedy(self) -> None:
        """Record what was done about the verdict in hand: which kind of work, what, and when."""
        current = self._to_change()
        if current is None:
            return
        if "earlier tests again" in current.patterns and current.is_finding:
            words = "Say why they are not needed. The schedule prints it with your name."
            if await self._note(current, "Why?", words, to_decide=False):
                self.tell("On record: not needed, with your reason.", "good")
            return
        if not current.verdict.is_finding or current.verdict is Verdict.NOT_TAKEN:
            self.tell("There is nothing to put right here.", "warn")
            return
        kinds = [each for each in WorkKind if each is not WorkKind.MISREAD or slots_of(current)]
        named = [(each.value, each.words) for each in kinds]
        chosen = await self.app.push_screen_wait(Pick("What kind of work was it?", named))
        if chosen is not None:
            await self._work_done(current, WorkKind(chosen))

    async def _work_done(self, current: Judged, kind: WorkKind) -> None:
        desk = desk_for(self.session, current)
        wrong = kind is WorkKind.MISREAD
        asked = "Why was the first reading wrong?" if wrong else "What was done about it?"
        answers = await self.app.push_screen_wait(
            Questions(
                current.title, [Question(asked), Question("When? A time or a day; Enter: now")],
                words=f"{kind.words.capitalize()}. It stands in the schedule beside the reading, "
                "with your name.",
                check=lambda answers: _said_and_timed(desk, current, answers),
                drafts=self.session.drafts,
            )
        )  # fmt: skip
        if answers is None:
            return
        try:
            at = _timed(desk, current, answers)
            made = desk.remedy(current, answers[0], Work(kind, at))
        except FarboardError as error:
            self.tell(str(error), "bad")
            return
        again = "Press a to test again." if slots_of(current) else "The design decides the rest."
        repeat = tests_after(self.session.record, self.session.review, made)
        then = f" Then repeat {repeat}." if repeat else ""
        self.tell(f"On record. {again}{then}", "good")

    @work
    async def action_notes(self) -> None:
        """Enter re-tests that were taken earlier, or go back to taking them now."""
        await ask_notes(self)

    @work
    async def action_decide(self) -> None:
        """Pass the verdict in hand to the certifier to decide; it stays a finding."""
        current = self._to_change()
        if current is None:
            return
        if not current.is_finding:
            self.tell("There is nothing to decide here.", "warn")
            return
        words = "It stays a finding, marked “to decide by the certifier”, with your note beside it."
        if await self._note(current, "What must the certifier know?", words, to_decide=True):
            self.tell("On record: to decide by the certifier. It stays a finding.", "good")

    async def _note(self, current: Judged, asked: str, words: str, *, to_decide: bool) -> bool:
        """Ask for a few words and put them on record; False if they were not given or kept."""
        answers = await self.app.push_screen_wait(
            Questions(
                current.title, [Question(asked)], words=words, check=_said_something,
                drafts=self.session.drafts,
            )
        )  # fmt: skip
        if answers is None:
            return False
        desk = desk_for(self.session, current)
        try:
            desk.remedy(current, answers[0], to_decide=to_decide)
        except FarboardError as error:
            self.tell(str(error), "bad")
            return False
        return True

    @work
    async def action_again(self) -> None:
        """Take the reading of the verdict in hand again, here."""
        current = self._to_change()
        if current is None:
            return
        slots = slots_of(current)
        if not slots:
            self.tell("This is about the design, not a reading: press g to go there.", "warn")
            return
        slot: Slot | None = slots[0]
        if len(slots) > 1:
            names = [
                (str(at), slot_name(self.session.record, each)) for at, each in enumerate(slots)
            ]
            chosen = await self.app.push_screen_wait(Pick("Which reading?", names))
            slot = slots[int(chosen)] if chosen is not None else None
        if slot is None:
            return
        why = self._not_from_here(slot)
        if why:
            self.tell(why, "warn")
            return
        if not await self._warned(slot):
            return
        self.tell("")
        self._slot = slot
        self.add_class("-testing")
        first = Desk(self.session, slot.stage).first(slot)
        name = slot_name(self.session.record, slot)
        how = f"{name}. First: {first} Enter takes it, Esc leaves."
        self.field.show(measured_by(slot), self.session.drafts.get(self._draft, ""), Content(how))
        self.field.focus()

    async def _warned(self, slot: Slot) -> bool:
        """Show what has to be read before such a test, as the bench does; False if it was not."""
        desk = Desk(self.session, slot.stage)
        while (caution := desk.unread(slot)) is not None:
            lines = [Content(f"• {line}") for line in caution.lines]
            asked = YesNo(caution.title, lines, yes="I have read this, go on", no="back")
            if not await self.app.push_screen_wait(asked):
                return False
            try:
                desk.has_read(caution, slot)
            except FarboardError as error:
                self.tell(str(error), "bad")
                return False
        return True

    def action_go_there(self) -> None:
        """Go to the bench at this reading, or to the step of the design."""
        current = self.listing.current
        if current is None:
            return
        slots = slots_of(current)
        if slots:
            desk = Desk(self.session, slots[-1].stage)
            desk.sitting.slot = slots[-1]
        self.farboard.go(step_of(current))

    def action_close_field(self) -> None:
        """Leave the re-test; what was typed is there the next time."""
        if self._slot is not None:
            self._slot = None
            self.remove_class("-testing")
            self.listing.focus()

    def _to_change(self) -> Judged | None:
        if self.session.read_only:
            self.tell("This record is open for reading only: nothing can be entered.", "warn")
            return None
        return self.listing.current

    def _not_from_here(self, slot: Slot) -> str:
        stop = Desk(self.session, slot.stage).refusal(slot)
        if stop is None or stop.lock is Lock.CAUTION:
            return ""
        if stop.lock is Lock.ANSWER:
            return "Live tests are behind a question first: press g to go to the bench."
        if stop.lock is Lock.EARTH:
            return f"{stop.words} Press F6 and go to the live tests."
        return stop.words

    # What the field asks for.

    def take(self, taken: Figure | Tick) -> None:
        """Put a re-test on disk and say what it means."""
        slot = self._slot
        if slot is None:
            return
        draft = self.session.drafts.pop(self._draft, "")
        keys = [each.key for each in listed(self.session.review, self._show)]
        try:
            Desk(self.session, slot.stage).take(slot, taken)
        except FarboardError as error:
            if draft:
                self.session.drafts[self._draft] = draft
            self.tell(str(error), "bad")
            return
        self.action_close_field()
        self._to_next_bad(keys)
        own = next(iter(self.session.review.of(slot)), None)
        if own is not None:
            words = f"{own.title}: {own.verdict.value}. {own.why}"
            self.query_one("#said", Said).say(words, tone_of(own.verdict), own.verdict.mark)

    def _to_next_bad(self, keys: Sequence[str]) -> None:
        """Go to the next finding after the one that was tested again."""
        lines = listed(self.session.review, self._show)
        bad = {each.key for each in lines if each.is_finding}
        here = keys.index(self._key) if self._key in keys else -1
        following = next((key for key in keys[here + 1 :] if key in bad), None)
        if following is not None:
            self._key = following
            self.listing.show(self.session.record, lines, following)
            self._show_detail()

    def turned(self, slot: Slot | None) -> None:
        """Stand on the verdict of the reading that was taken back or made again."""
        lines = listed(self.session.review, self._show)
        found = next((each for each in lines if slot is not None and slot in slots_of(each)), None)
        if found is not None:
            self._key = found.key
            self.listing.show(self.session.record, lines, self._key)
            self._show_detail()

    def echo(self, taken: Figure | Tick) -> str:
        """Return how a value for the re-test is understood."""
        slot = self._slot
        return "" if slot is None else Desk(self.session, slot.stage).echo(slot, taken)

    def trial(self, taken: Figure | Tick, *, whole: bool) -> Sequence[Judged]:
        """Return what the re-test would mean."""
        slot = self._slot
        return (
            () if slot is None else Desk(self.session, slot.stage).trial(slot, taken, whole=whole)
        )

    def pass_on(self) -> None:
        """Say that nothing was typed."""
        self.refuse("Nothing is typed: type what the meter shows, or Esc to leave it.")

    def key(self, key: str) -> bool:
        """Leave the field on Esc and on the arrows."""
        if key == "escape" and self._refused:
            self.session.drafts.pop(self._draft, None)
            self._refused = False
            self.tell("")
            if self._slot is not None:
                self.field.show(measured_by(self._slot))
        elif key in ("escape", "up", "down"):
            self.action_close_field()
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
        self.tell(why, "warn")
        self._refused = bool(self.field.text)

    def typed(self, text: str) -> None:
        """Keep what stands in the field."""
        self._refused = False
        if text:
            self.session.drafts[self._draft] = text
        else:
            self.session.drafts.pop(self._draft, None)

    @property
    def _draft(self) -> str:
        return f"review: {self._slot}"

    def pictured(self) -> tuple[Place | None, Quantity | None]:
        """Return what the verdict in hand is about."""
        current = self.listing.current
        if current is None:
            return None, None
        slots = slots_of(current)
        return current.place, slots[0].quantity if slots else None

    def figures(self) -> Sequence[tuple[str, Result]]:
        """Return the figure behind the verdict in hand."""
        current = self.listing.current
        return [(current.title, current.expected)] if current and current.expected else []


def _said_and_timed(desk: Desk, current: Judged, answers: Answers) -> None:
    _said_something(answers)
    _timed(desk, current, answers)


def _timed(desk: Desk, current: Judged, answers: Answers) -> datetime:
    return desk.work(current, f"{WorkKind.OTHER.value}, {answers[1]}").at


def _said_something(answers: Answers) -> None:
    if len(answers[0]) < 3:
        raise BadText("Say it in a few words.")
