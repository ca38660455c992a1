"""Live tests, behind a plain question on safe isolation and the state of the dead tests."""

from __future__ import annotations

from collections.abc import Callable

from textual import work
from textual.content import Content

from records import terms
from records.errors import FarboardError
from records.judgement.todo.progress import before_live
from records.judgement.wording import Taken
from records.taking.card import Card
from records.taking.cautions import GATE, HELP, Caution
from records.taking.queue import Entry
from tui import keys
from tui.dialogs.yes_no import YesNo
from tui.look import style
from tui.steps.bench_acts import Bench
from tui.steps.leaving import ask_first
from tui.widgets.reading_lines import Row
from tui.widgets.reading_words import looking_keys

_HELP = """Live tests are live work. They come after every dead test is right, in the safe order: \
polarity at the origin; Ze, if anybody takes it, with the whole installation isolated, and the \
earth put back; the feed on with the main switch off: polarity, voltages, Zdb, fault currents; \
then one circuit at a time: Zs, RCDs, and what operates.

Low can be wrong too: a loop below the board's own, or a fraction of an ohm on an earth electrode. \
Voltage where there should be none: stop, leave it off, call the network operator.

The question that stands before them is asked once. Answered with no it costs nothing: the step is \
locked, to be looked at and walked past with F3 and F4, and Enter asks again."""


_LOOKING = ("w", "m")
"""Letters that only look."""
LOCKED = "Locked: nothing is taken live before the question on safety is answered. Enter asks it."


class LiveTests(Bench):
    """Readings while the board is live."""

    step = terms.Step.LIVE_TESTS
    stage = terms.Stage.LIVE
    STEP_TITLE = "Live tests"
    HELP = f"{_HELP}\n\n{HELP}\n\n{keys.LETTERS}"
    KEYS = (*keys.BENCH, *keys.BENCH_LISTS)  # nothing live is an insulation test

    def __init__(self) -> None:
        super().__init__()
        self._locked = False

    def begin(self) -> None:
        """Ask first; no answer, or no, locks the step and records nothing."""
        found = before_live(self.session.record, self.session.review)
        if self.session.read_only or self.sitting.gate == found:
            super().begin()
        elif self.sitting.refused == found:
            self._lock()  # asked once: who walks past is not held up again
        else:
            self._ask(found)

    @work
    async def _ask(self, found: tuple[str, ...]) -> None:
        if await self.app.push_screen_wait(_question(found)) and self._on_record(found):
            self._locked = False
            self.sitting.refused = None
            self.tell("")
            super().begin()
        else:
            self.sitting.refused = found
            self._lock()

    def may_leave(self) -> bool:
        """Ask how the installation is left, over the step that comes next."""
        self.app.call_later(ask_first, self.app, self.session, lambda: None)
        return super().may_leave()

    def _lock(self) -> None:
        """Show what there is to take, and take nothing."""
        self._locked = True
        super().begin()

    def pass_on(self) -> None:
        """Ask again while the step is locked."""
        if self._locked:
            self._ask(before_live(self.session.record, self.session.review))
        else:
            super().pass_on()

    def closed(self) -> str:
        """Return why nothing can be typed: first of all that the step is locked."""
        return LOCKED if self._locked and self.entry is not None else super().closed()

    def caution(self) -> Caution | None:
        """Return what must be read first; nothing where nothing can be taken."""
        return None if self._locked else super().caution()

    def accept(self, taken: Taken) -> None:
        """Take nothing while the step is locked, whichever way it comes."""
        if self._locked:
            self.refuse(LOCKED)
        else:
            super().accept(taken)

    def _acts(self) -> dict[str, tuple[str, Callable[[], object]]]:
        acts = super()._acts()
        return {key: acts[key] for key in _LOOKING} if self._locked else acts

    def keys_words(self, entry: Entry) -> Content:
        """Return the keys for the reading in hand; those that look, while the step is locked."""
        return looking_keys() if self._locked else super().keys_words(entry)

    def _card_rows(self, entry: Entry, shown: Card) -> list[Row]:
        rows = super()._card_rows(entry, shown)
        return [("", Content.styled(f"! {LOCKED}", style("warn"))), *rows] if self._locked else rows

    def _on_record(self, found: tuple[str, ...]) -> bool:
        try:
            self.desk.open_live(found)
        except FarboardError as error:
            self.refuse(str(error))
            return False
        return True


def _question(found: tuple[str, ...]) -> YesNo:
    blocks = [Content(each) for each in GATE]
    if not found:
        blocks.append(Content.styled("✓ Every dead test is taken and right.", style("good")))
    else:
        blocks[:0] = [
            Content.styled("The dead tests are not all right. This is open:", style("bad")),
            Content("\n").join(Content(each) for each in found),
            Content("You can go on all the same; record and schedule then say that you did."),
        ]
    return YesNo(
        "Is the installation safe to test live, and are you competent to do it?",
        blocks,
        yes="go on in spite of that" if found else "yes, go on",
        no="no, leave it locked",
    )
