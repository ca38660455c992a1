"""Hand over: what is complete, what is missing, and the document for the certifier."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from records import terms
from records.days import moment_words
from records.errors import FarboardError
from records.model.record import Record
from records.taking.hand_over import StepState, limitations, states, suggested, target
from records.taking.how_left import asks
from records.text import printable
from tui import keys
from tui.dialogs.questions import Question, Questions
from tui.dialogs.yes_no import YesNo
from tui.look import Tone, style
from tui.steps.leaving import ask_first
from tui.steps.step import Step
from tui.widgets.reading_lines import ReadingLines, Row

if TYPE_CHECKING:
    from records.judgement.design_changed_since import Then

_HELP = """What is complete and what is missing, step by step. Below it, what a reader has to \
know: readings not taken, values from notes, live tests begun too early.

Enter writes the document: a schedule for the certifying electrician, to be opened in any word \
processor. It can be written at any time; what is missing is shown as missing. It carries the \
fingerprint of the record as it is at that moment.

It is an installer's test record, not a certificate. The certifier inspects, tests what they want \
to test, decides, and signs their own papers."""

_WHAT = (
    "The document is an installer's test record for the certifying electrician. It certifies "
    "nothing, and nobody's signature is filled in."
)


class HandOver(Step):
    """Shows how complete the record is, and writes the schedule."""

    step = terms.Step.HAND_OVER
    STEP_TITLE = "Hand over"
    HELP = _HELP
    KEYS = keys.HAND_OVER
    CSS_PATH = "hand_over.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "write", "Write", show=False, tooltip="Write the document"),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._writing = False

    def compose_body(self) -> ComposeResult:
        """Compose the summary and the key that writes."""
        with VerticalScroll(id="hand-over"):
            yield ReadingLines(label_width=4, id="hand-over-lines")
        yield Static("", id="hand-over-written", markup=False)
        yield Static(_KEYS, id="hand-over-keys")

    def on_mount(self) -> None:
        """Show the frame first, then the summary."""
        super().on_mount()
        self.query_one("#hand-over").focus()
        self.call_after_refresh(self.record_changed)

    def record_changed(self) -> None:
        """Work out the summary again."""
        session = self.session
        rows = [*_rows(session.record, states(session.progress)), ("", ""), ("", _WHAT)]
        self.query_one("#hand-over-lines", ReadingLines).show(rows)

    @work(exclusive=True, group="ask where")
    async def action_write(self) -> None:
        """Ask where to, and write the document there."""
        if self._writing:
            self.tell("The document is being written; this takes a moment.", "warn")
            return
        session = self.session
        if not session.read_only and asks(session.record):
            ask_first(self.app, session, self.action_write)
            return
        beside = session.file.path.absolute()
        answers = await self.app.push_screen_wait(
            Questions(
                "Write the schedule",
                [Question("File", suggested(beside).name)],
                words=f"A bare name lies beside the record, in {printable(str(beside.parent))}.",
                check=lambda given: target(given[0], beside),
                drafts=session.drafts,
            )
        )
        if answers is None:
            return
        out = target(answers[0], beside)
        if out.exists() and not await self.app.push_screen_wait(_overwrite(out)):
            self.tell("Nothing was written; what was there is as it was.")
            return
        self._writing = True
        self._say(f"Writing {printable(out.name)} …", "plain")
        from records.store.design_history import designs

        now, then = datetime.now().astimezone(), designs(session.file.history())
        self._write(session.record, out, session.fingerprint, now, then)

    @work(thread=True, exclusive=True, exit_on_error=False, group="write")
    def _write(
        self, record: Record, out: Path, fingerprint: str, made: datetime, then: Sequence[Then]
    ) -> None:
        # Loading what knows word processors takes longer than writing: both are kept off the keys.
        try:
            from records.document.schedule import write_schedule

            write_schedule(record, out, fingerprint=fingerprint, made=made, then=then)
        except (FarboardError, OSError) as error:
            self.app.call_from_thread(self._written, f"The document was not written: {error}", "")
        else:
            where = f"Written: {out} ({out.stat().st_size / 1000:.0f} kB)."
            self.app.call_from_thread(self._written, where, fingerprint)

    def _written(self, words: str, fingerprint: str) -> None:
        self._writing = False
        tone: Tone = "good" if fingerprint else "bad"
        if self.is_attached:
            self._say(f"{words} Fingerprint {fingerprint}." if fingerprint else words, tone)
        screen = self.app.screen
        if isinstance(screen, Step):  # somebody may have gone on meanwhile
            screen.tell(
                "The schedule is written." if fingerprint and screen is self else words, tone
            )

    def _say(self, words: str, tone: Tone) -> None:
        for line in self.query("#hand-over-written").results(Static):  # none once it is left
            line.update(Content.styled(words, style(tone)))


def _rows(record: Record, steps: tuple[StepState, ...]) -> Iterator[Row]:
    for each in steps:
        tone: Tone = "good" if each.is_complete else "bad" if each.standing.open else "plain"
        yield (
            f" {each.standing.state.mark}",
            Content.assemble((each.step.value, "bold"), "  ", (each.words, style(tone))),
        )
        for need in each.standing.needs:
            yield "  ", Content(f"– {need}")
    found = limitations(record)
    yield "", ""
    yield "", Content.styled("What a reader has to know", "bold $primary")
    if not found:
        yield "  ", "Nothing beside what the readings and their verdicts say."
    for limit in found:
        yield " •", limit


def _overwrite(out: Path) -> YesNo:
    changed = datetime.fromtimestamp(out.stat().st_mtime).astimezone()
    return YesNo(
        "Replace the document that is there?",
        [f"{out}", f"It was written on {moment_words(changed)}. What anybody added to it goes."],
        yes="replace it",
        no="keep it",
    )


_KEYS = Content.assemble(
    ("Enter", "bold $primary"), " writes the document   ", ("↑ ↓", "bold $primary"), " scroll"
)
