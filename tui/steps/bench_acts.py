"""What can be done at the bench beside typing a value: each act is one key."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.worker import Worker

from records.errors import BadText, FarboardError
from records.judgement.review_types import Judged
from records.model.reading import NotNeeded, NotTaken, Slot
from records.model.record import Record
from records.model.slots import measured_by, title
from records.taking.desk import Desk
from records.taking.exceptions import tested_elsewhere
from records.taking.finding_text import detail, tests_after
from records.taking.instruments import fits, words
from records.taking.interlock import next_to_take
from records.taking.lower_voltage import JOINED
from records.taking.paste import Fill, fills, values
from records.taking.queue import others
from records.taking.sitting import is_insulation
from records.taking.still_to_test import missing
from records.taking.typed_reading import could_not, not_needed
from records.terms import Part, Stage
from tui import keys
from tui.dialogs.missing import Missing
from tui.dialogs.pick import Pick
from tui.dialogs.questions import Answers, Question, Questions
from tui.dialogs.reader import Reader
from tui.dialogs.yes_no import YesNo
from tui.steps.bench_step import BenchStep
from tui.steps.from_notes import ask_notes
from tui.steps.step import Command


class Bench(BenchStep):
    """The bench with its keys."""

    KEYS = (*keys.BENCH, *keys.VOLTAGE, *keys.BENCH_LISTS)
    OPEN_NAMED = 1  # the bench needs its lines
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f5", "order", "Order of readings", show=False, tooltip="By test or by circuit"),
        Binding(
            "f9", "grid", "Grid or list", show=False, tooltip="All readings of the stage at once"
        ),
    ]

    def _acts(self) -> dict[str, tuple[str, Callable[[], object]]]:
        return {
            "c": ("Could not be taken", self._could_not),
            "x": ("Not needed", self._not_needed),
            "a": ("Test again", self._test_again),
            "t": ("Method, note or remedy", self._note),
            "w": ("Why: all about this reading", self._why),
            "v": ("Insulation at 250 V or 500 V", self._voltage),
            "p": ("Who takes the readings, with which instrument", self.action_kit),
            "l": ("Entered later: from notes of another time", self.action_notes),
            "o": ("Other readings that nobody has to take", self._other),
            "m": ("Still to test: what is left, by where you stand", self._missing),
        }

    def command(self, character: str) -> bool:
        """Act on a letter in an empty field."""
        if character == "?":
            return True
        acts = self._acts()
        if self.entry is None or character not in acts:
            return False
        opens = acts[character][1]()
        if isinstance(opens, Worker):
            self.farboard.keys_ahead.begin(opens)
        return True

    def commands(self) -> Iterable[Command]:
        """Yield what the palette offers here: the letters too, which a field with text swallows."""
        yield from super().commands()
        for letter, (name, act) in self._acts().items():
            yield name, f"For the reading in hand ({letter} in an empty field)", act

    def _open_to_reason(self, made: NotTaken | NotNeeded) -> bool:
        """Return whether a reason why there is no reading can be entered; if not, say why."""
        entry = self.entry
        if entry is None or self.session.read_only or (not entry.is_open and not self._again):
            self.refuse(self.closed())
            return False
        stop = self.desk.refusal(entry.slot, made)
        if stop is not None:
            self.refuse(stop.words)
        return stop is None

    @work
    async def _could_not(self) -> None:
        entry = self.entry
        if entry is None or not self._open_to_reason(NotTaken(reason="not yet said")):
            return
        slot, record = entry.slot, self.session.record
        title = f"Could not be taken: {entry.place}, {entry.measurement.symbol}"
        words = "Why not? The certifier has to weigh it: locked room, live neighbour, no access …"
        if slot.stage is not Stage.DEAD or slot.place.part is Part.CIRCUIT:
            answer = await self._reason(title, words)
            if answer:
                self.accept(could_not(answer))
            return
        answers = await self.app.push_screen_wait(
            Questions(
                title,
                [Question("Reason"), Question("Or: who certifies tested it (P3, where recorded)")],
                words=f"{words} A test that they recorded elsewhere counts instead.",
                drafts=self.session.drafts,
                check=lambda given: _reason_or_elsewhere(record, slot, given),
            )
        )
        if answers:
            self.accept(_reason_or_elsewhere(record, slot, answers))

    @work
    async def _not_needed(self) -> None:
        entry = self.entry
        if entry is None or not self._open_to_reason(NotNeeded(reason="not yet said")):
            return
        answer = await self._reason(
            f"Not needed: {entry.place}, {entry.measurement.symbol}",
            "Why not? A blank is never a pass, so the reason is printed in the schedule.",
        )
        if answer:
            self.accept(not_needed(answer))

    async def _reason(self, title: str, words: str) -> str:
        answers = await self.app.push_screen_wait(
            Questions(
                title, [Question("Reason")], words=words, drafts=self.session.drafts,
                check=lambda given: could_not(given[0]),
            )
        )  # fmt: skip
        return answers[0] if answers else ""

    def _test_again(self) -> None:
        entry = self.entry
        if entry is None or self.session.read_only:
            self.refuse(self.closed())
        elif entry.is_open:
            self.refuse("Nothing was taken here yet: type the first reading. ↑ goes to the last.")
        else:
            self._again = True
            self.show_all()
            self.tell("Type the new reading. The earlier one stays in the record. Esc: leave it.")

    @work
    async def _note(self) -> None:
        entry = self.entry
        if entry is None:
            return
        bad = entry.judged if entry.is_bad else None
        asked = [
            Question("How it is measured, for the next reading (no-trip, drivers left in …)",
                     self.sitting.method),
            Question("Note, for the next reading", self.sitting.note),
            *([Question("What was done about the finding here"), Question(_KIND)]
              if bad else []),
        ]  # fmt: skip
        answers = await self.app.push_screen_wait(
            Questions(
                f"{entry.place}, {entry.measurement.symbol}", asked, drafts=self.session.drafts,
                check=lambda answers: _remedy_or_nothing(self.desk, bad, answers),
            )
        )  # fmt: skip
        if answers is None:
            return
        self.sitting.method, self.sitting.note = answers[:2]
        if bad and answers[2]:
            self.remedy(bad, answers[2], answers[3])
        self.show_all()

    def remedy(self, finding: Judged, done: str, kind: str) -> None:
        """Record what was done about a finding, and which kind of work it was."""
        try:
            made = self.desk.remedy(finding, done, self.desk.work(finding, kind))
        except FarboardError as error:
            self.refuse(str(error))
            return
        repeat = tests_after(self.session.record, self.session.review, made)
        then = f" Then repeat {repeat}." if repeat else ""
        self.tell(f"On record. Now test again with a.{then}", "good")

    def _why(self) -> None:
        entry = self.entry
        if entry is None:
            return
        record = self.session.record
        blocks = [
            Content.assemble((f"{part.label}: ", "bold $primary"), part.text)
            for line in entry.lines
            for part in detail(record, line)
        ]
        blocks.append(
            Content.assemble(("How it is taken: ", "bold $primary"), self.help_in_focus())
        )
        self.app.push_screen(Reader(f"{entry.place}, {entry.measurement.title}", blocks))

    @work
    async def _voltage(self) -> None:
        entry = self.entry
        if entry is None:
            return
        if not is_insulation(entry.measurement):
            self.refuse("Only insulation tests have a test voltage.")
            return
        if self.sitting.at_lower(entry.slot):
            self.sitting.lower_here(entry.slot, "")
            self.show_all()
            self.tell("Back to 500 V d.c.")
            return
        why = await self._reason(
            f"250 V instead of 500 V: {entry.place}",
            "What can't be disconnected? L and N are joined then and read to earth. It holds for "
            "this circuit until you press v again.",
        )
        if why:
            self.sitting.lower_here(entry.slot, why)
            instead = self.desk.instead(entry.slot)
            found = self._queue.index(instead)
            self.enter(self._at if found is None else found)
            if instead is not None:
                self.tell(f"{JOINED}")

    @work
    async def _other(self) -> None:
        """Offer the readings that nobody has to take."""
        record = self.session.record
        found = others(record, self.stage, self._queue)
        if not found:
            self.refuse("Every test that has a place here is in the list already.")
            return
        names = [
            (str(at), f"{title(record, slot.place)}: {measured_by(slot).title}")
            for at, slot in enumerate(found)
        ]
        chosen = await self.app.push_screen_wait(Pick("Which test? Nobody asks for these.", names))
        if chosen is None:
            return
        slot = found[int(chosen)]
        self.sitting.more.append(slot)
        self.sitting.slot = slot
        self.record_changed()
        self.tell("It is in the list; without a reading nothing is missing.")

    @work
    async def _missing(self) -> None:
        """List what is left by where one stands, and go to what is chosen."""
        stops = missing(self.session.record, self.stage, self._queue)
        if not stops:
            self.tell("Everything of this stage has something entered.", "good")
            return
        chosen = await self.app.push_screen_wait(Missing(stops, self._at))
        if chosen is not None:
            self.enter(chosen)

    def action_order(self) -> None:
        """Change between the two orders of work."""
        self.sitting.order = self.sitting.order.other
        self.record_changed()
        self.tell(f"Readings are offered {self.sitting.order.value}.")

    def action_grid(self) -> None:
        """Change between one by one and the grid."""
        self.sitting.grid = not self.sitting.grid
        self.show_all()

    @work
    async def action_kit(self) -> None:
        """Choose who takes the readings, and with which instrument."""
        record, sitting = self.session.record, self.sitting
        people = [(each.id, f"{each.id} {each.name}".strip()) for each in record.job.people]
        if len(people) > 1:
            chosen = await self.app.push_screen_wait(
                Pick("Who takes the readings?", people, now=sitting.by(record, self.session.person))
            )
            sitting.person = chosen or sitting.person
        entry = self.entry
        meters = [
            (each.id, words(each) + ("" if entry is None or fits(each, entry.measurement)
                                     else " (not for the reading in hand)"))
            for each in record.job.instruments
        ]  # fmt: skip
        if meters:
            now = sitting.instruments[0] if sitting.instruments else None
            meter = await self.app.push_screen_wait(
                Pick("Which instrument from here on?", meters, now=now)
            )
            if meter:
                sitting.instruments = [meter, *(x for x in sitting.instruments if x != meter)]
        if not people or not meters:
            lacking = "people" if not people else "instruments"
            self.refuse(f"No {lacking} are entered: the step Job has them. Readings can be taken.")
        self.show_all()

    @work
    async def action_notes(self) -> None:
        """Enter readings that were taken earlier, or go back to taking them now."""
        await ask_notes(self)

    def paste(self, text: str) -> None:
        """Offer a pasted column to the next open fields, or refuse it aloud."""
        self._offer(text)

    @work
    async def _offer(self, text: str) -> None:
        why = self.closed()
        try:
            if why:
                raise BadText(f"{why} Nothing was taken from the paste.")
            found = fills(self._queue, self._at, values(text))
            lines = [
                f"{self.desk.echo(each.entry.slot, each.taken)}  →  {each.entry.place}, "
                f"{each.entry.measurement.symbol}"
                for each in found
            ]
        except FarboardError as error:
            self.refuse(str(error))
            return
        title = f"Fill the next {len(found)} fields from the paste?"
        ask = YesNo(title, ["\n".join(lines)], yes="fill", no="take none")
        if not await self.app.push_screen_wait(ask):
            self.tell("Nothing was taken from the paste.")
            return
        self._fill(found)

    def _fill(self, found: Sequence[Fill]) -> None:
        try:
            self.desk.fill(found)
        except FarboardError as error:
            self.refuse(str(error))
            return
        following = next_to_take(self._queue, self.desk.interlock, self._at)
        self.enter(self._at if following is None else following)
        bad = sum(self._queue.entries[self._queue.index(each.entry.slot) or 0].is_bad
                  for each in found)  # fmt: skip
        self.tell(
            f"{len(found)} readings taken from the paste, {bad or 'none'} of them to look at.",
            "bad" if bad else "good",
        )


def _reason_or_elsewhere(record: Record, slot: Slot, given: Answers) -> NotTaken:
    """Return why a test could not be taken, or which test elsewhere stands in for it."""
    return tested_elsewhere(record, slot, given[1]) if given[1] else could_not(given[0])


_KIND = "Kind: device, joint, cable, point, earth, other, misread; then, with a comma, the day"


def _remedy_or_nothing(desk: Desk, bad: Judged | None, answers: Answers) -> None:
    if bad is None or not answers[2]:
        return
    if len(answers[2]) < 3:
        raise BadText("Say in a few words what was done.")
    desk.work(bad, answers[3])
