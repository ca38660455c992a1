"""Live tests, behind a plain question on safe isolation and the state of the dead tests."""

from __future__ import annotations

from textual import work
from textual.content import Content

from records import terms
from records.errors import FarboardError
from records.judgement.progress import before_live
from tui.bench.safety import GATE
from tui.dialogs.yes_no import YesNo
from tui.look import style
from tui.steps.bench_acts import Bench

_HELP = """Live tests are live work. They come after every dead test is right, in the safe order: \
Ze with the whole installation isolated, the earth put back, polarity before any circuit is \
switched on, then loop, fault current, RCDs, and what operates.

Low can be wrong too: a loop below the board's own, or a fraction of an ohm on an earth electrode. \
Voltage where there should be none, or a tingle: stop, leave it off, call the network operator.

Enter accepts and goes on. ↑ ↓ pass readings by, PageUp and PageDown go to the tests before and \
after. In an empty field: c could not be taken, x not needed, a test again, t note or remedy, \
w why, o others that nobody has to take, m what is missing, in the order one walks. F5 order, \
F7 who and meter, F8 from notes, F9 grid."""


class LiveTests(Bench):
    """Readings while the board is live."""

    step = terms.Step.LIVE_TESTS
    stage = terms.Stage.LIVE
    STEP_TITLE = "Live tests"
    HELP = _HELP

    def begin(self) -> None:
        """Ask first; no answer, or no, leads back to the dead tests and records nothing."""
        self._ask()

    @work
    async def _ask(self) -> None:
        found = before_live(self.session.record, self.session.review)
        if self.session.read_only or self.sitting.gate == found:
            super().begin()
            return
        if await self.app.push_screen_wait(_question(found)) and self._on_record(found):
            super().begin()
        else:
            self.farboard.go(terms.Step.DEAD_TESTS)

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
        no="no, go back",
    )
