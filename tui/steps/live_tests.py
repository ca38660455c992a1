"""Live tests, behind a plain question on safe isolation and the state of the dead tests."""

from __future__ import annotations

from collections.abc import Callable

from textual import work
from textual.content import Content

from records import terms
from records.errors import FarboardError
from records.interlock.may_take import Lock
from records.judgement.wording import Taken
from records.taking.card import Card
from records.taking.cautions import GATE, HELP
from records.taking.exceptions import exception
from records.taking.live_question import NO, YES, LiveQuestion, live_question
from records.taking.queue import Entry
from tui import keys
from tui.dialogs.questions import Question, Questions
from tui.dialogs.yes_no import YesNo
from tui.look import style
from tui.steps.bench_acts import Bench
from tui.steps.leaving import ask_first
from tui.widgets.reading_lines import Row
from tui.widgets.reading_words import looking_keys

_HELP = """Live tests are live work. They come after every dead test is satisfactory, in the safe \
order: polarity at the origin; Ze, if anybody takes it, with the whole installation isolated, and \
the earth put back; the feed on with the main switch off: polarity, voltages, Zdb, fault currents; \
then one circuit at a time: Zs, RCDs, and what operates.

Low can be wrong too: Zs below Zdb, or a fraction of an ohm on an earth electrode. Voltage where \
there should be none: stop, leave it off, call the network operator.

The question before them holds for one person and four hours. It names which circuits may go live, \
and which stay locked off. If the answer is no, the step is locked. You can look at it and go past \
it with F3 and F4. Enter asks again."""


_LOOKING = ("w", "m")
"""Letters that only look."""
LOCKED = "Locked: nothing is taken live before the question on safety is answered. Enter asks it."


class LiveTests(Bench):
    """Readings while the board is live."""

    step = terms.Step.LIVE_TESTS
    stage = terms.Stage.LIVE
    STEP_TITLE = "Live tests"
    HELP = f"{_HELP}\n\n{HELP}\n\n{keys.LETTERS}"
    KEYS = (*keys.BENCH, *keys.EXCEPTION, *keys.BENCH_LISTS)  # nothing live is an insulation test

    def begin(self) -> None:
        """Ask first; no answer, or no, locks the step and records nothing."""
        super().begin()
        if not self.session.read_only and self._locked and self.sitting.refused != self._said:
            self._ask()  # asked once: who walks past is not held up again

    @property
    def _locked(self) -> bool:
        """Whether nothing live may be taken now; while the earth is off, that is answered first."""
        if self.session.read_only:
            return False
        found = self.desk.interlock
        return found.earth is None and found.locked is not None

    @property
    def _said(self) -> tuple[str, ...]:
        found = self.desk.interlock
        return (found.person or "", *live_question(found).lines)

    @work
    async def _ask(self) -> None:
        question = live_question(self.desk.interlock)
        if await self.app.push_screen_wait(_question(question)) and self._on_record():
            self.sitting.refused = None
            self.tell("")
            super().begin()
        else:
            self.sitting.refused = self._said
            super().begin()

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

    def closed(self) -> str:
        """Return why nothing can be typed: first of all that the step is locked."""
        return LOCKED if self._locked and self.entry is not None else super().closed()

    def accept(self, taken: Taken) -> None:
        """Take nothing while the step is locked, whichever way it comes."""
        if self._locked:
            self.refuse(LOCKED)
        else:
            super().accept(taken)

    def _acts(self) -> dict[str, tuple[str, Callable[[], object]]]:
        acts = super()._acts()
        if self._locked:
            return {key: acts[key] for key in _LOOKING}
        return {**acts, "e": ("Exception: who certifies lets it be tested", self._exception)}

    @work
    async def _exception(self) -> None:
        """Ask who certifies and why a circuit is tested live in spite of its dead tests."""
        entry, stop = self.entry, self.stop()
        circuit = entry.slot.place.circuit if entry is not None else None
        if entry is None or circuit is None or stop is None or stop.lock is not Lock.CIRCUIT:
            self.refuse("Nothing is locked off here: an exception is for a circuit that is.")
            return
        desk = self.desk
        answers = await self.app.push_screen_wait(
            Questions(
                f"{entry.place}: tested live all the same",
                [Question("Who decides it (who certifies, by id or name)"), Question("Why")],
                words=f"{stop.words} The schedule prints who decided it, and why.",
                check=lambda given: exception(desk.interlock, circuit, *given),
                drafts=self.session.drafts,
            )
        )
        if answers is None:
            return
        try:
            desk.except_circuit(circuit, *answers)
        except FarboardError as error:
            self.refuse(str(error))
            return
        self.enter(self._at)

    def keys_words(self, entry: Entry) -> Content:
        """Return the keys for the reading in hand; those that look, while the step is locked."""
        return looking_keys() if self._locked else super().keys_words(entry)

    def _card_rows(self, entry: Entry, shown: Card) -> list[Row]:
        rows = super()._card_rows(entry, shown)
        return [("", Content.styled(f"! {LOCKED}", style("warn"))), *rows] if self._locked else rows

    def _on_record(self) -> bool:
        try:
            self.desk.open_live()
        except FarboardError as error:
            self.refuse(str(error))
            return False
        return True


def _question(question: LiveQuestion) -> YesNo:
    bad = [Content(each) for each in question.bad]
    if bad:
        bad[0] = Content.styled(question.bad[0], style("bad"))
    good = [Content.styled(each, style("good")) for each in question.good]
    if not question.can_be_yes:
        return YesNo(question.title, bad, yes="", no="back, leave it locked")
    blocks = [*bad, *(Content(each) for each in GATE), *good]
    return YesNo(question.title, blocks, yes=YES, no=NO)
