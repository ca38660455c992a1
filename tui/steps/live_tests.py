"""Live tests, behind a plain question on safe isolation and the state of the dead tests."""

from __future__ import annotations

from collections.abc import Callable

from textual import work
from textual.content import Content

from records import terms
from records.taking.cautions import GATE
from records.taking.live_question import NO, YES, LiveQuestion
from records.taking.stage_help import stage_help
from tui import keys
from tui.dialogs.questions import Question
from tui.dialogs.yes_no import YesNo
from tui.look import style
from tui.steps.bench_step import Act, BenchStep
from tui.steps.leaving import ask_first

_HOW = (
    "If the answer is no, the step is locked. You can look at it and go past it with F3 and F4. "
    "Enter asks again."
)
_LOOKING = ("w", "m")
"""Letters that only look."""


class LiveTests(BenchStep):
    """Readings while the board is live."""

    step = terms.Step.LIVE_TESTS
    stage = terms.Stage.LIVE
    STEP_TITLE = "Live tests"
    HELP = f"{stage_help(terms.Stage.LIVE, _HOW)}\n\n{keys.LETTERS}"
    KEYS = (*keys.BENCH, *keys.EXCEPTION, *keys.BENCH_LISTS)  # nothing live is an insulation test

    def begin(self) -> None:
        """Ask first; no answer, or no, locks the step and records nothing."""
        super().begin()
        if self.bench.must_read.asks_live:
            self._ask()  # asked once: who walks past is not held up again

    @property
    def _locked(self) -> bool:
        return self.bench.prompt.only_looks

    @work
    async def _ask(self) -> None:
        must_read = self.bench.must_read
        question = must_read.ask_live()
        yes = await self.app.push_screen_wait(_dialog(question, must_read.shown_to_end))
        self.tell(self.open_words(), "warn")
        if not self.act(lambda: must_read.answer_live(yes=bool(yes))):
            must_read.answer_live(yes=False)
            self.show_all()

    def may_leave(self) -> bool:
        """Ask how the installation is left, over the step that comes next."""
        self.app.call_later(ask_first, self.app, self.session, lambda: None)
        return super().may_leave()

    def pass_on(self) -> None:
        """Ask again while the step is locked."""
        if self._locked:
            self._ask()
        else:
            super().pass_on()

    def letters(self) -> dict[str, Act]:
        """Return what letters do in an empty field: they only look while the step is locked."""
        letters = super().letters()
        if self._locked:
            return {key: letters[key] for key in _LOOKING}
        return {**letters, "e": ("Exception: who certifies lets it be tested", self._exception)}

    @work
    async def _exception(self) -> None:
        """Ask who certifies and why a circuit is tested live in spite of its dead tests."""
        conditions, entry = self.bench.conditions, self.bench.entry
        if entry is None or not self._allowed(conditions.locked_circuit):
            return
        answers = await self._asked(
            f"{entry.place}: tested live all the same",
            Question("Who decides it (who certifies, by id or name)"),
            Question("Why"),
            words=f"{self.bench.prompt.why} The schedule prints who decided it, and why.",
            check=lambda given: conditions.check_exception(*given),
        )
        if answers is not None:
            self.act(lambda: conditions.exception(*answers))


def _dialog(question: LiveQuestion, shown_to_end: Callable[[], None]) -> YesNo:
    bad = [Content(each) for each in question.bad]
    if bad:
        bad[0] = Content.styled(question.bad[0], style("bad"))
    good = [Content.styled(each, style("good")) for each in question.good]
    if not question.can_be_yes:
        return YesNo(question.title, bad, yes="", no="back, leave it locked")
    blocks = [*bad, *(Content(each) for each in GATE), *good]
    return YesNo(question.title, blocks, yes=YES, no=NO, shown_to_end=shown_to_end)
