"""The keys of the bench: each is an act of it, with a dialog where something has to be asked."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.worker import Worker

from records.errors import FarboardError
from records.model.reading import NotNeeded, NotTaken
from records.taking.column import fill, offer, offer_lines
from records.taking.finding_text import detail
from records.taking.in_hand import all_of_card, unsafe_here
from records.taking.outcome import ALL_DONE
from records.taking.still_to_test import missing
from records.taking.typed_reading import could_not
from tui import keys
from tui.dialogs.missing import Missing
from tui.dialogs.pick import Pick
from tui.dialogs.questions import Answers, Question, Questions
from tui.dialogs.reader import Reader
from tui.dialogs.yes_no import YesNo
from tui.look import style
from tui.steps.bench_view import BenchView
from tui.steps.from_notes import ask_notes
from tui.steps.step import Command

Act = tuple[str, Callable[[], object]]
"""What a letter does, in words, and the doing."""
_KIND = "Kind: device, joint, cable, point, earth, other, misread; then, with a comma, the day"


class BenchStep(BenchView):
    """The bench with its keys."""

    KEYS = (*keys.BENCH, *keys.VOLTAGE, *keys.BENCH_LISTS)
    OPEN_NAMED = 1  # the bench needs its lines
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "ctrl+o", "order", "Order of readings", show=False, tooltip="By test or by circuit"
        ),
        Binding(
            "f9", "grid", "Grid or list", show=False, tooltip="All readings of the stage at once"
        ),
    ]

    def letters(self) -> dict[str, Act]:
        """Return what letters do in an empty field."""
        return {
            "c": ("Could not be taken", self._could_not),
            "x": ("Not needed", self._not_needed),
            "a": ("Test again", lambda: self.act(self.bench.retest)),
            "t": ("Method, note or remedy", self._note),
            "w": ("Why: all about this reading", self._why),
            "v": ("Insulation at 250 V or 500 V", self._voltage),
            "p": ("Who takes the readings, with which instrument", self._kit),
            "l": ("Entered later: from notes of another time", self._notes),
            "o": ("Other readings that nobody has to take", self._other),
            "m": ("Still to test: what is left, by where you stand", self._missing),
        }

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field."""
        if character == "?":
            return True
        letters = self.letters()
        if self.bench.entry is None or character not in letters:
            return False
        opens = letters[character][1]()
        if isinstance(opens, Worker):
            self.farboard.keys_ahead.begin(opens)
        return True

    def commands(self) -> Iterable[Command]:
        """Yield what the palette offers here: the letters too, which a field with text swallows."""
        yield from super().commands()
        for letter, (name, act) in self.letters().items():
            yield name, f"For the reading in hand ({letter} in an empty field)", act

    def action_order(self) -> None:
        """Change between the two orders of work."""
        self.act(self.bench.conditions.turn_order)

    def action_grid(self) -> None:
        """Change between one by one and the grid."""
        self.act(self.bench.conditions.turn_grid)

    def paste(self, text: str) -> None:
        """Offer a pasted column to the next open fields, or refuse it aloud."""
        self._offer(text)

    def _allowed(self, check: Callable[[], object]) -> bool:
        """Return whether something can be done; if not, say why."""
        try:
            check()
        except FarboardError as error:
            self.refuse(str(error))
            return False
        return True

    async def _asked(
        self, title: str, *asked: Question, words: str = "", check: Callable[[Answers], object]
    ) -> Answers | None:
        """Return what was answered; None if the person left."""
        ask = Questions(title, asked, words=words, drafts=self.session.drafts, check=check)
        return await self.app.push_screen_wait(ask)

    @property
    def _reading_name(self) -> str:
        """How the reading in hand is called."""
        entry = self.bench.entry
        return f"{entry.place}, {entry.measurement.symbol}" if entry is not None else ""

    @work
    async def _could_not(self) -> None:
        bench = self.bench
        if not self._allowed(lambda: bench.check_reason(NotTaken(reason="not yet said"))):
            return
        words = "Why not? The certifier has to weigh it: locked room, live neighbour, no access …"
        asked = [Question("Reason")]
        if bench.may_be_elsewhere:
            asked.append(Question("Or: who certifies tested it (P3, where recorded)"))
            words += " A test that they recorded elsewhere counts instead."
        answers = await self._asked(
            f"Could not be taken: {self._reading_name}",
            *asked,
            words=words,
            check=lambda given: (
                bench.check_elsewhere(given[1]) if any(given[1:]) else could_not(given[0])
            ),
        )
        if answers is not None:
            elsewhere = any(answers[1:])
            self.act(
                lambda: bench.elsewhere(answers[1]) if elsewhere else bench.could_not(answers[0])
            )

    @work
    async def _not_needed(self) -> None:
        if not self._allowed(lambda: self.bench.check_reason(NotNeeded(reason="not yet said"))):
            return
        answers = await self._asked(
            f"Not needed: {self._reading_name}",
            Question("Reason"),
            words="Why not? A blank is never a pass, so the reason is printed in the schedule.",
            check=lambda given: could_not(given[0]),
        )
        if answers is not None:
            self.act(lambda: self.bench.not_needed(answers[0]))

    @work
    async def _note(self) -> None:
        if self.bench.entry is None:
            return
        conditions, settings = self.bench.conditions, self.bench.desk.settings
        asked = [
            Question(
                "How it is measured, for the next reading (no-trip, drivers left in …)",
                settings.method,
            ),
            Question("Note, for the next reading", settings.note),
        ]
        if conditions.finding is not None:
            asked += [Question("What was done about the finding here"), Question(_KIND)]
        answers = await self._asked(
            self._reading_name,
            *asked,
            check=lambda given: conditions.check_done(*given[2:]) if any(given[2:3]) else None,
        )
        if answers is None:
            return
        conditions.method(answers[0])
        conditions.note(answers[1])
        self.act(lambda: conditions.done(*answers[2:]) if any(answers[2:3]) else None)

    def _why(self) -> None:
        entry, record = self.bench.entry, self.session.record
        if entry is None:
            return
        told = [(part.label, part.text) for line in entry.lines for part in detail(record, line)]
        told.append(("How it is taken", self.help_in_focus()))
        blocks = [
            Content.assemble((f"{label}: ", "bold $primary"), text)
            for label, text in (*told, *all_of_card(self.bench, told))
        ]
        unsafe = [Content.styled(f"! {each}", style("bad")) for each in unsafe_here(self.bench)]
        title = f"{entry.place}, {entry.measurement.title}"
        self.app.push_screen(Reader(title, [*unsafe, *blocks]))

    @work
    async def _voltage(self) -> None:
        conditions, entry = self.bench.conditions, self.bench.entry
        if entry is None or not self._allowed(conditions.check_insulation):
            return
        if conditions.is_lower:
            self.act(conditions.usual)
            return
        answers = await self._asked(
            f"250 V instead of 500 V: {entry.place}",
            Question("Reason"),
            words="What can't be disconnected? L and N are joined then and read to earth. It holds "
            "for this circuit until you press v again.",
            check=lambda given: could_not(given[0]),
        )
        if answers is not None:
            self.act(lambda: conditions.lower(answers[0]))

    @work
    async def _other(self) -> None:
        """Offer the readings that nobody has to take."""
        conditions = self.bench.conditions
        found = conditions.others
        if not found:
            self.refuse(*conditions.other_lines)
            return
        names = [(str(at), conditions.other_name(slot)) for at, slot in enumerate(found)]
        chosen = await self.app.push_screen_wait(Pick("Which test? Nobody asks for these.", names))
        if chosen is not None:
            self.act(lambda: conditions.ask_for(found[int(chosen)]))

    @work
    async def _missing(self) -> None:
        """List what is left by where one stands, and go to what is chosen."""
        stops = missing(self.session.record, self.stage, self.bench.queue)
        if not stops:
            self.tell(ALL_DONE, "good")
            return
        chosen = await self.app.push_screen_wait(Missing(stops, self.bench.position.at))
        if chosen is not None:
            self.bench.enter(chosen)
            self.show_all()

    @work
    async def _kit(self) -> None:
        """Choose who takes the readings, and with which instrument."""
        conditions = self.bench.conditions
        if len(conditions.people) > 1:
            ask = Pick("Who takes the readings?", conditions.people, now=conditions.person_now)
            person = await self.app.push_screen_wait(ask)
            if person:
                self.act(lambda: conditions.person(person))
        meters = conditions.meters
        if meters:
            ask = Pick("Which instrument from here on?", meters, now=conditions.meter_now)
            meter = await self.app.push_screen_wait(ask)
            if meter:
                self.act(lambda: conditions.meter(meter))
        if conditions.lacking:
            self.refuse(conditions.lacking)

    @work
    async def _notes(self) -> None:
        """Enter readings that were taken earlier, or go back to taking them now."""
        await ask_notes(self)

    @work
    async def _offer(self, text: str) -> None:
        bench = self.bench
        try:
            found = offer(bench, text)
            lines = offer_lines(bench, found)
        except FarboardError as error:
            self.refuse(str(error))
            return
        title = f"Fill the next {len(found)} fields from the paste?"
        ask = YesNo(title, ["\n".join(lines)], yes="fill", no="take none")
        if await self.app.push_screen_wait(ask):
            self.act(lambda: fill(bench, found))
        else:
            self.tell("Nothing was taken from the paste.")
