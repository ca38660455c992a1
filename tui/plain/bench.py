"""The talk at the line bench: what is asked there is told, an answer taken, what came of it said.

What an answer does is decided by `records.taking.bench`.
"""

from __future__ import annotations

from collections.abc import Callable

from records.errors import BadText, FarboardError
from records.session import Session
from records.taking.act_names import LINES
from records.taking.bench import Bench
from records.taking.outcome import Outcome
from records.taking.prompt import Ask
from records.taking.stage_help import stage_help
from records.terms import Stage
from tui.plain.answers import HELP, Answer, Word, understood
from tui.plain.leaving import say_how_left
from tui.plain.lines import (
    heading,
    in_hand_lines,
    lasts,
    progress_words,
    prompt_words,
    question_lines,
    why_lines,
)
from tui.plain.talk import Talk

_ENDED = (
    "The session ended here, so that no later answer goes to the wrong reading. All that was kept "
    "is on disk."
)
_REFUSED = "Nothing was recorded. The dead tests: --stage dead."


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
            confirms: Whether somebody types the answers, so that a value that is outside or
                unlikely is kept only when they say so.
        """
        self._session, self._stage, self._talk = session, stage, talk
        self._asks_again, self._types = asks_again, confirms
        self.bench = Bench(session, stage, LINES, confirms=confirms, piped=not confirms)
        self._over = self._failed = False
        self._said: tuple[str, ...] = ()
        self._seen: object = None
        self._refusal = ""

    def taken_by(self, person: str) -> None:
        """Say who takes the readings, by id."""
        self.bench.desk.settings.person = person

    def run(self) -> bool:
        """Talk until the person leaves or no more answers come; False if one ended it."""
        self._talk.say(*heading(self._session.record, self._stage, self.bench.standing))
        self.bench.begin()
        if self._stage is Stage.LIVE and self.bench.desk.interlock.earth is None:
            self._ask_live()
        self._show()
        while not self._over:
            now = self.bench.prompt
            must_read = now.kind in (Ask.QUESTION, Ask.CAUTION)
            text = self._talk.ask(prompt_words(self.bench, now), read_first=must_read)
            if text is None:
                self._leave()
            else:
                self._answer(text)
        return not self._failed

    def _answer(self, text: str) -> None:
        self._refusal = ""
        try:
            if self.bench.must_read.question is not None:
                self._answer_live(text)
            else:
                self._take(understood(text))
        except FarboardError as error:
            self._refuse(str(error))
            self._refusal = str(error)
        if not self._over and self.bench.prompt.kind is Ask.LOCKED:
            self._ask_live()
        if not self._over:
            self._show()

    def _ask_live(self) -> None:
        question = self.bench.must_read.ask_live()
        self._talk.say(*question_lines(question))
        self.bench.must_read.shown_to_end()
        if not question.can_be_yes:
            self._not_live()
            self._failed = not self._asks_again

    def _answer_live(self, text: str) -> None:
        answer = text.casefold()
        if answer in ("y", "yes"):
            self.bench.must_read.answer_live(yes=True)
        elif answer in ("n", "no", "quit"):
            self._not_live()
        else:
            raise BadText("Type yes or no. No leads back and records nothing.")

    def _not_live(self) -> None:
        self.bench.must_read.answer_live(yes=False)
        self._talk.say(_REFUSED)
        self._over = True

    def _take(self, answer: Answer) -> None:
        if answer.lacks and answer.word is not None:
            raise BadText(f"Say it after the colon: {answer.word.value} and the words.")
        if answer.word is not None:
            outcome = self._acts[answer.word](answer.text)
        else:
            outcome = self.bench.type(answer.text) if answer.text else self.bench.go_on()
        if outcome is not None:
            self._talk.say(*outcome.all_lines)
            if outcome.done:
                self._talk.say(progress_words(self.bench.standing))
                self._seen = self._view  # the reading that was just said need not be told

    @property
    def _acts(self) -> dict[Word, Callable[[str], Outcome | None]]:
        bench, conditions = self.bench, self.bench.conditions
        return {
            Word.HELP: lambda _: self._talk.say(*HELP, *stage_help(self._stage).split("\n\n")),
            Word.SKIP: lambda _: bench.step(1),
            Word.BACK: lambda _: bench.step(-1),
            Word.GO: bench.find,
            Word.AGAIN: lambda _: bench.retest(),
            Word.KEEP: lambda _: bench.keep(),
            Word.OK: lambda _: self._read(),
            Word.CANT: bench.could_not,
            Word.NOT_NEEDED: bench.not_needed,
            Word.ELSEWHERE: bench.elsewhere,
            Word.EXCEPTION: lambda text: conditions.exception(*_who_and_why(text)),
            Word.NOTE: conditions.note,
            Word.METHOD: conditions.method,
            Word.DONE: conditions.done,
            Word.BY: conditions.person,
            Word.METER: conditions.meter,
            Word.TAKEN: conditions.taken,
            Word.LOWER: conditions.lower,
            Word.USUAL: lambda _: conditions.usual(),
            Word.ORDER: lambda _: conditions.turn_order(),
            Word.OTHERS: lambda _: self._talk.say(*conditions.other_lines),
            Word.OTHER: conditions.ask_by_words,
            Word.UNDO: lambda _: bench.undo(),
            Word.REDO: lambda _: bench.redo(),
            Word.WHY: lambda _: self._talk.say(*why_lines(bench)),
            Word.SHOW: lambda _: self._show(whole=True),
            Word.LEFT: lambda _: self._talk.say(
                progress_words(bench.standing), *bench.standing.needs
            ),
            Word.QUIT: lambda _: self._leave(),
        }

    def _read(self) -> None:
        if self.bench.must_read.caution is None:  # one more than there are does no harm
            self._talk.say("There is no caution to read here.")
        else:
            self.bench.must_read.read_caution()

    @property
    def _view(self) -> object:
        """What is asked for, where: while it stays the same it need not be told again."""
        now, entry = self.bench.prompt, self.bench.entry
        lower = self.bench.conditions.is_lower
        kind = Ask.FIGURE if now.kind in (Ask.KEEP, Ask.CHECK) else now.kind
        return kind, now.caution, now.why, entry and entry.slot, self.bench.position.again, lower

    def _show(self, *, whole: bool = False) -> None:
        """Tell what is asked for, if it is not what was told last."""
        if self._over or (self._view == self._seen and not whole):
            return
        now = self.bench.prompt
        self._seen = self._view
        if now.kind is Ask.QUESTION:
            return
        again = f"Caution. {self._refusal}"  # it has only just been said
        lines = tuple(each for each in in_hand_lines(self.bench, now) if each != again)
        same = () if whole else self._said  # who and with what is said when it changes
        self._talk.say(*(each for each in lines if each not in same or not lasts(each)))
        self._said = self._said if now.caution is not None else lines
        self.bench.must_read.shown_to_end()

    def _leave(self) -> None:
        self._over = True
        if self.bench.must_read.question is not None:
            self._not_live()
            return
        if self._stage is Stage.LIVE:
            say_how_left(self._session, self.bench.desk, self._talk)
        self._talk.say(progress_words(self.bench.standing), "All that was kept is on disk.")

    def _refuse(self, why: str) -> None:
        self._talk.say(why)
        if not self._asks_again:
            self._over = self._failed = True
            self._talk.say(_ENDED)


def _who_and_why(text: str) -> tuple[str, str]:
    who, _, why = text.partition(",")
    return who, why
