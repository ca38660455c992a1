"""Review: findings first, the worst first; each with its ground, and what to do about it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.types import CSSPathType
from textual.widgets import OptionList, Static

from records import terms
from records.expected.results import Result
from records.judgement.review_types import Judged, slots_of
from records.judgement.todo.progress import step_of
from records.judgement.trust import mark_of
from records.model.reading import Place, Quantity, Slot
from records.taking.finding_text import (
    Paragraph,
    Show,
    detail,
    listed,
    next_finding,
    would_mend,
)
from records.taking.outcome import Outcome
from records.taking.position import stand_at
from tui import keys
from tui.dialogs.reader import Reader
from tui.look import verdict_style
from tui.steps.from_notes import ask_notes
from tui.steps.remedies import ask_decision, ask_remedy
from tui.steps.retest import Retest
from tui.steps.step import Step
from tui.widgets.message_line import Said
from tui.widgets.reading_field import ReadingField
from tui.widgets.reading_lines import ReadingLines
from tui.widgets.review_words import counts_line, keys_of_list, nothing_to_show
from tui.widgets.verdict_list import VerdictList

_HELP = """What somebody must deal with comes first, the worst on top. Outside, then unlikely, \
near the limit, not taken. A blank is never a pass, and near the limit is not a pass \
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
        Binding("shift+down", "scroll_detail(1)", "Scroll", show=False),
        Binding("shift+up", "scroll_detail(-1)", "Scroll", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._show = Show.FINDINGS
        self._key: str | None = None
        self._retest = Retest(self, left=self._to_list, taking=self._taking)

    def compose_body(self) -> ComposeResult:
        """Compose counts, list, detail, and the field for a re-test."""
        yield Static("", id="review-counts", markup=False)
        with Container(id="review"):
            yield VerdictList(id="review-list")
            with VerticalScroll(id="review-detail", can_focus=False):
                yield ReadingLines(label_width=13, id="review-lines")
            yield ReadingField(self._retest, id="review-field")
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
        """List the verdicts again, and stay at the one in hand."""
        review = self.session.review
        lines = listed(review, self._show)
        self.query_one("#review-counts", Static).update(counts_line(review.findings))
        self.query_one("#review-keys", Static).update(keys_of_list(self._show))
        self.listing.show(self.session.record, lines, self._key)
        self._show_detail()
        self._retest.look_again()

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
        changed = self.session.judged_again.get(current.key, "")
        return detail(self.session.record, current._replace(judged_again=changed))

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
    async def action_notes(self) -> None:
        """Enter re-tests that were taken earlier, or go back to taking them now."""
        await ask_notes(self)

    @work
    async def action_remedy(self) -> None:
        """Record what was done about the verdict in hand: which kind of work, what, and when."""
        current = self._to_change()
        if current is not None:
            await ask_remedy(self, current)

    @work
    async def action_decide(self) -> None:
        """Pass the verdict in hand to the certifier to decide; it stays a finding."""
        current = self._to_change()
        if current is not None:
            await ask_decision(self, current)

    @work
    async def action_again(self) -> None:
        """Take the reading of the verdict in hand again, here."""
        current = self._to_change()
        if current is not None:
            await self._retest.begin(current)

    def action_close_field(self) -> None:
        """Leave the re-test; what was typed is there the next time."""
        self._retest.leave()

    def action_go_there(self) -> None:
        """Go to the bench at this reading, or to the step of the design."""
        current = self.listing.current
        if current is None:
            return
        slots = slots_of(current)
        if slots:
            stand_at(self.session, slots[-1])
        self.farboard.go(step_of(current))

    def _to_change(self) -> Judged | None:
        if self.session.read_only:
            self.tell("This record is open for reading only: nothing can be entered.", "warn")
            return None
        return self.listing.current

    def _to_list(self) -> None:
        self.listing.focus()

    def _taking(self) -> Callable[[Outcome], None]:
        """Return what says what a re-test means and goes on to the finding after it."""
        before = [each.key for each in listed(self.session.review, self._show)]

        def taken(outcome: Outcome) -> None:
            following = next_finding(self.session.review, self._show, before, self._key)
            if following is not None:
                self._stand_on(following)
            line = self.query_one("#said", Said)
            line.say(outcome.words, outcome.tone, outcome.mark or None)

        return taken

    def _stand_on(self, key: str) -> None:
        """Stand on a verdict of the list."""
        self._key = key
        self.listing.show(self.session.record, listed(self.session.review, self._show), key)
        self._show_detail()

    def turned(self, slot: Slot | None) -> None:
        """Stand on the verdict of the reading that was taken back or made again."""
        lines = listed(self.session.review, self._show)
        found = next((each for each in lines if slot is not None and slot in slots_of(each)), None)
        if found is not None:
            self._stand_on(found.key)

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
