"""The talk at the line bench: a reading is told, an answer taken, its verdict said."""

from __future__ import annotations

from collections.abc import Callable

from records.errors import FarboardError
from records.interlock.comes_off import EARTHS
from records.interlock.may_take import Lock, Refusal
from records.judgement.wording import Taken
from records.model.reading import Figure, NotNeeded, NotTaken, Tick
from records.session import Session
from records.taking.card import card, changed_since
from records.taking.desk import Desk
from records.taking.exceptions import tested_elsewhere
from records.taking.live_question import live_question
from records.taking.sentences import ground
from records.taking.typed_reading import could_not, not_needed, understand
from records.terms import STEP_OF_STAGE, Stage, Verdict
from tui.plain import told
from tui.plain.answers import HELP, Answer, Word, understood
from tui.plain.leaving import say_how_left
from tui.plain.settling import Settling
from tui.plain.talk import Talk
from tui.plain.walk import Walk


class LineBench:
    """One stage of an opened record, line by line."""

    def __init__(
        self, session: Session, stage: Stage, talk: Talk, *, asks_again: bool, confirms: bool
    ) -> None:
        """Sit down.

        Args:
            session: The opened record.
            stage: Which readings are taken.
            talk: Where lines go and come from.
            asks_again: Whether an answer that was refused is asked for again. If not, the session
                ended there: answers that were piped would slide on to readings they don't belong
                to.
            confirms: Whether a value that is outside or unlikely is kept only when told so.
        """
        self._session, self._stage, self._talk = session, stage, talk
        self._asks_again, self._confirms = asks_again, confirms
        self._desk = Desk(session, stage)
        self._doubtful: Figure | Tick | None = None
        self._told: tuple[str, ...] = ()
        self._over = self._refused = False
        self._walk = Walk(session, self._desk)
        self._settling = Settling(session, self._desk, self._walk, talk)
        self._acts: dict[Word, Callable[[str], None]] = {
            Word.HELP: lambda _: talk.say(*HELP),
            Word.SKIP: lambda _: self._step(1),
            Word.BACK: lambda _: self._step(-1),
            Word.AGAIN: lambda _: self._again(),
            Word.CANT: lambda reason: self._accept(could_not(reason)),
            Word.NOT_NEEDED: lambda reason: self._accept(not_needed(reason)),
            Word.ELSEWHERE: self._elsewhere,
            Word.EXCEPTION: self._exception,
            Word.OK: lambda _: self._read(),
            Word.WHY: lambda _: self._why(),
            Word.SHOW: lambda _: self._show(whole=True),
            Word.LEFT: lambda _: self._left(),
            Word.GO: self._go,
            Word.KEEP: lambda _: self._refuse("There is nothing waiting to be kept."),
            Word.UNDO: lambda _: self._undo(),
            Word.ORDER: lambda _: self._order(),
            Word.QUIT: lambda _: self._leave(),
        }

    def taken_by(self, person: str) -> None:
        """Say who takes the readings, by id."""
        self._desk.sitting.person = person

    def run(self) -> bool:
        """Talk until the person leaves or no more answers come; False if one ended it."""
        standing = self._session.progress[STEP_OF_STAGE[self._stage]]
        self._talk.say(*told.heading(self._session.record, self._stage, standing))
        if self._stage is Stage.LIVE and self._walk.earth is None and not self._gate():
            return not self._refused
        self._show()
        while not self._over:
            text = self._talk.ask(self._prompt())
            if text is None:
                self._leave()
                break
            try:
                self._take(understood(text))
            except FarboardError as error:
                self._refuse(str(error))
        return not self._refused

    def _gate(self) -> bool:
        question = live_question(self._desk.interlock)
        self._talk.say(*told.gate_lines(question))
        if not question.can_be_yes:
            self._talk.say("Nothing was recorded. The dead tests: --stage dead.")
            self._over = True
            self._refused = not self._asks_again
            return False
        while True:
            answer = self._talk.ask("yes or no")
            if answer is None or answer.casefold() in ("n", "no", "quit"):
                self._talk.say("Nothing was recorded. The dead tests: --stage dead.")
                self._over = True
                return False
            try:
                if answer.casefold() in ("y", "yes"):
                    self._desk.open_live()
                    return True
                self._refuse("Type yes or no. No leads back and records nothing.")
            except FarboardError as error:
                self._refuse(str(error))
            if self._over:
                return False

    def _stop(self, stop: Refusal) -> None:
        """Say what comes first; ask the question before the live tests if it is that."""
        if stop.lock is Lock.ANSWER:
            self._talk.say(stop.words)
            if self._gate():
                self._show()
            return
        first = self._walk.queue.index(stop.first)
        if first is not None and stop.lock is Lock.EARTH:
            self._walk.enter(first)
        self._refuse(stop.words)
        if not self._over:
            self._show()

    def _prompt(self) -> str:
        entry = self._walk.entry
        if entry is None:
            return "Answer"
        if self._doubtful is not None:
            return "keep, or another answer"
        if self._walk.caution() is not None:
            return "ok"
        if self._walk.closed():
            return "taken; again, or Enter"
        test = entry.measurement
        return f"{test.symbol}, y or n" if test.is_check else f"{test.symbol} in {test.unit.value}"

    def _take(self, answer: Answer) -> None:
        doubtful, self._doubtful = self._doubtful, None
        if doubtful is not None and answer.word is Word.KEEP:
            self._accept(doubtful)
        elif answer.lacks and answer.word is not None:
            self._refuse(f"Say it after the colon: {answer.word.value} and the words.")
        elif answer.word in self._acts:
            self._acts[answer.word](answer.text)
        elif answer.word is not None:
            self._settling.settle(answer.word, answer.text)
        elif answer.text:
            self._value(answer.text)
        else:
            self._pass_on()

    def _value(self, text: str) -> None:
        entry, why = self._walk.entry, self._walk.closed()
        if entry is None or why:
            self._refuse(why)
            return
        if entry.slot in EARTHS and not self._asks_again and text.casefold() == "yes":
            # Piped in for the question before the live tests, which is not asked while it is off.
            self._refuse("Type y if it is back on its bar and tight, n if it is not.")
            return
        stop = self._walk.refusal()
        if stop is not None:
            self._stop(stop)
            return
        taken = understand(text, entry.measurement)
        if self._confirms:
            for each in self._desk.trial(entry.slot, taken, whole=True):
                if each.verdict in (Verdict.OUTSIDE, Verdict.UNLIKELY):
                    self._doubtful = taken
                    words = self._desk.echo(entry.slot, taken)
                    self._talk.say(
                        f"{words} is not kept yet. It would be "
                        f"{each.verdict.value}: {ground(each.why, words)} If that is what the "
                        "meter shows, type keep."
                    )
                    return
        self._accept(taken)

    def _accept(self, taken: Taken) -> None:
        reason = isinstance(taken, NotTaken | NotNeeded)
        entry, why = self._walk.entry, self._walk.closed(reason=reason)
        if entry is None or why:
            self._refuse(why)
            return
        note = self._desk.nothing_off(entry.slot, taken) + self._desk.beside(entry.slot, taken)
        self._desk.take(entry.slot, taken)  # on disk, or an error
        self._walk.again = False
        self._walk.rebuild()
        entry = self._walk.queue.entries[self._walk.at]
        self._talk.say(f"Kept. {told.taken_words(entry)}{note}", *told.standing_lines(entry))
        self._on()

    def _on(self) -> None:
        following = self._walk.following(self._walk.at)
        if following is None:
            standing = self._session.progress[STEP_OF_STAGE[self._stage]]
            self._talk.say(f"{told.ALL_DONE} {told.progress_words(standing)}")
        else:
            self._walk.enter(following)
            self._show()

    def _pass_on(self) -> None:
        entry = self._walk.entry
        if entry is None or self._walk.caution() is not None:
            self._refuse(self._walk.closed())
        elif entry.is_open or self._walk.again:
            wanted = "y or n" if entry.measurement.is_check else "what the meter shows"
            self._refuse(
                f"Nothing was typed. Type {wanted}; cant: and why, if it can't be taken; skip "
                "passes by."
            )
        else:
            self._on()

    def _step(self, by: int) -> None:
        at = self._walk.at + by
        if 0 <= at < len(self._walk.queue.entries):
            self._walk.enter(at)
            self._show()
        else:
            end = "last" if by > 0 else "first"
            self._talk.say(f"This is the {end} reading of the stage. left says what is open.")

    def _go(self, words: str) -> None:
        at = self._walk.find(words)
        if at is None:
            self._refuse("No reading of this stage has all these words. left says what is open.")
        else:
            self._walk.enter(at)
            self._show()

    def _again(self) -> None:
        entry = self._walk.entry
        if entry is None or entry.is_open:
            self._refuse("Nothing was taken here yet: type the first reading.")
            return
        self._walk.again = True
        self._talk.say("Tested again: the earlier reading stays in the record.")
        self._show()

    def _read(self) -> None:
        caution, entry = self._walk.caution(), self._walk.entry
        if caution is None or entry is None:
            self._talk.say("There is no caution to read here.")
            return
        self._desk.has_read(caution, entry.slot)
        self._walk.rebuild()
        self._show()

    def _elsewhere(self, text: str) -> None:
        entry = self._walk.entry
        if entry is not None:
            self._accept(tested_elsewhere(self._session.record, entry.slot, text))

    def _exception(self, text: str) -> None:
        entry = self._walk.entry
        circuit = entry.slot.place.circuit if entry is not None else None
        if entry is None or circuit is None or self._stage is not Stage.LIVE:
            self._refuse("Only a live test of a circuit that is locked off can be excepted.")
            return
        who, _, reason = text.partition(",")
        self._desk.except_circuit(circuit, who, reason)
        self._walk.rebuild()
        self._talk.say("Kept. The schedule prints who decided it, and why.")
        self._show()

    def _show(self, *, whole: bool = False) -> None:
        walk, entry = self._walk, self._walk.entry
        if entry is None:
            self._talk.say(walk.closed())
            return
        caution = walk.caution()
        if caution is not None:
            self._talk.say(f"Next: {entry.place}, {entry.measurement.symbol}.")
            self._talk.say(*told.caution_lines(caution))
            return
        record = self._session.record
        due = self._session.expected.meter.get(entry.slot)
        since, meter = changed_since(self._session, entry), self._desk.meter(entry.slot)
        tested = self._desk.as_tested(entry)
        shown = card(record, tested, due, self._desk.now(), since, meter)
        around = told.around_words(
            record, self._desk.sitting, entry, self._session.person, self._session.notes_of
        )
        self._talk.say(*told.warnings(walk.refusal(), walk.earth))
        lines = tuple(told.card_lines(shown, walk.at, walk.queue, around))
        same = () if whole else self._told  # who and with what is said when it changes
        self._talk.say(*(each for each in lines if each not in same or not told.lasts(each)))
        self._told = lines
        if walk.closed():
            self._talk.say(*told.standing_lines(entry))

    def _why(self) -> None:
        if self._walk.entry is not None:
            self._talk.say(*told.why_lines(self._session.record, self._walk.entry))

    def _left(self) -> None:
        standing = self._session.progress[STEP_OF_STAGE[self._stage]]
        self._talk.say(told.progress_words(standing), *standing.needs)

    def _order(self) -> None:
        self._settling.turn_order()
        self._show()

    def _undo(self) -> None:
        if self._settling.undo():
            self._show()

    def _leave(self) -> None:
        self._over = True
        if self._stage is Stage.LIVE:
            say_how_left(self._session, self._desk, self._talk)
        standing = self._session.progress[STEP_OF_STAGE[self._stage]]
        self._talk.say(told.progress_words(standing), "All that was kept is on disk.")

    def _refuse(self, why: str) -> None:
        self._talk.say(why)
        if not self._asks_again:
            self._over = self._refused = True
            self._talk.say(
                "The session ended here, so that no later answer goes to the wrong reading. All "
                "that was kept is on disk."
            )
