"""What must be read to its end before an answer to it counts: cautions, and the live question."""

from __future__ import annotations

from records.errors import BadText
from records.session import Session
from records.taking.act_names import ActNames
from records.taking.cautions import Caution
from records.taking.desk import Desk
from records.taking.live_question import LiveQuestion, live_question
from records.taking.position import Position
from records.taking.prompt import Ask, prompt_at

UNREAD = "Read it to its end first: yes is no answer to what was not on the screen."


class MustRead:
    """The question before the live tests while it waits, and the caution at the reading in hand."""

    def __init__(self, session: Session, desk: Desk, position: Position, names: ActNames) -> None:
        self._session, self._desk, self._position, self._names = session, desk, position, names
        self.question: LiveQuestion | None = None
        """The question before the live tests, while it waits for its answer."""
        self._shown: object = None

    @property
    def caution(self) -> Caution | None:
        """What has to be read before the reading in hand; None if all was."""
        return prompt_at(self._session, self._desk, self._position, self._names).caution

    @property
    def asks_live(self) -> bool:
        """Whether to put the question: nothing live may be taken, and nobody said no to it yet.

        Who said no walks past without being held up; it is asked again once it says something else.
        """
        now = prompt_at(self._session, self._desk, self._position, self._names)
        if now.kind is not Ask.LOCKED:
            return False
        return self._desk.settings.refused != self._put(live_question(self._desk.interlock))

    def ask_live(self) -> LiveQuestion:
        """Put the question before the live tests; nothing else is taken until it is answered."""
        self.question = live_question(self._desk.interlock)
        self._shown = None
        return self.question

    def shown_to_end(self) -> None:
        """Know that what is to be read now was in front of the person, up to its last line."""
        self._shown = self._now

    def answer_live(self, *, yes: bool) -> None:
        """Take the answer to the question before the live tests; no records nothing.

        Raises:
            BadText: If nothing was asked; if it was not shown to its end, for a yes.
            NotNow: If nothing may go live, whatever is answered.
            FarboardError: If it could not be put on disk.
        """
        question = self.question
        if question is None:
            raise BadText("Nothing was asked.")
        if yes and self._shown != self._now:
            raise BadText(UNREAD)
        if yes:
            self._desk.open_live()
        self._desk.settings.refused = None if yes else self._put(question)
        self.question = None
        if yes:
            self._position.begin()

    def read_caution(self) -> None:
        """Record that the caution before the reading in hand was read.

        Raises:
            BadText: If there is none, or it was not shown to its end.
            FarboardError: If it could not be put on disk.
        """
        caution, entry = self.caution, self._position.entry
        if caution is None or entry is None:
            raise BadText("There is no caution to read here.")
        if self._shown != self._now:
            raise BadText("This caution has only just come. Read it to its end first.")
        self._desk.has_read(caution, entry.slot)
        self._position.rebuild()

    @property
    def _now(self) -> object:
        """What is to be read now; two of these are equal if it is the same text."""
        if self.question is not None:
            return self._put(self.question)
        caution = self.caution
        return caution.key if caution is not None else None

    def _put(self, question: LiveQuestion) -> tuple[str, ...]:
        return (self._desk.interlock.person or "", *question.lines)
