"""What is settled beside the values: who, with what, when, how, and what was done."""

from __future__ import annotations

from records.days import moment_words
from records.errors import BadText
from records.model.certifier import all_counted
from records.model.record import Record
from records.session import Session
from records.taking.desk import Desk
from records.taking.finding_text import tests_after
from records.taking.instruments import words
from records.taking.notes_time import read_when
from records.taking.person_named import person_named
from records.taking.sitting import is_insulation
from records.taking.typed_reading import could_not
from records.taking.typed_work import kind_named
from records.text import checked_text
from tui.differences_text import difference
from tui.plain.answers import Word
from tui.plain.talk import Talk
from tui.plain.walk import Walk

_KINDS = (
    "With its kind, only what it can have touched has to be repeated. done: joint, 14:30: what was "
    "done. Kinds: device, joint, cable, point, earth, other, misread."
)
_LONGEST = 400
"""Characters of a note: a few lines of the schedule, as in the wizard."""


class Settling:
    """Changes what goes with the readings at one stage."""

    def __init__(self, session: Session, desk: Desk, walk: Walk, talk: Talk) -> None:
        self._session, self._desk, self._walk, self._talk = session, desk, walk, talk

    def settle(self, word: Word, text: str) -> None:
        """Do what one of the words asks.

        Raises:
            FarboardError: If it can't be done; nothing was changed.
        """
        {
            Word.NOTE: self._note,
            Word.METHOD: self._method,
            Word.DONE: self._done,
            Word.BY: self._by,
            Word.METER: self._meter,
            Word.TAKEN: self._taken,
            Word.LOWER: self._lower,
            Word.USUAL: self._usual,
        }[word](text)

    def turn_order(self) -> None:
        """Change between the two orders of work."""
        sitting = self._desk.sitting
        sitting.order = sitting.order.other
        self._walk.rebuild()
        self._talk.say(f"Readings are offered {sitting.order.value}.")

    def undo(self) -> bool:
        """Take the last change back; False if there is none."""
        before = self._session.record
        if not self._session.undo():
            self._talk.say("There is nothing to take back.")
            return False
        self._walk.again = False
        self._walk.rebuild()
        self._back_to(before)
        self._talk.say(f"Taken back: {difference(before, self._session.record)}.")
        return True

    def _back_to(self, before: Record) -> None:
        """Go to the reading that is gone: what comes after it may have to wait for it."""
        left = {each.id for each in all_counted(self._session.record).readings}
        gone = [each.slot for each in all_counted(before).readings if each.id not in left]
        at = self._walk.queue.index(gone[-1]) if gone else None
        if at is not None:
            self._walk.enter(at)

    def _note(self, text: str) -> None:
        self._desk.sitting.note = checked_text(text, _LONGEST)
        self._talk.say("The next reading gets this note.")

    def _method(self, text: str) -> None:
        self._desk.sitting.method = checked_text(text, _LONGEST)
        self._talk.say("The next reading says that it was measured so.")

    def _done(self, text: str) -> None:
        entry = self._walk.entry
        bad = entry.judged if entry is not None and entry.is_bad else None
        if bad is None:
            raise BadText("There is no finding here: done: is for what was done about one.")
        head, _, rest = checked_text(text, _LONGEST).partition(": ")
        named = kind_named(head.partition(",")[0]) if rest else None
        said = could_not(rest if named else text).reason
        made = self._desk.remedy(bad, said, self._desk.work(bad, head if named else ""))
        self._walk.rebuild()
        kind = made.kind.words if made.kind else ""
        self._talk.say(f"Kept as {kind}, {moment_words(made.at)}. Now test again: type again.")
        repeat = tests_after(self._session.record, self._session.review, made)
        if repeat:
            self._talk.say(f"Then repeat {repeat}.")
        if not named:
            self._talk.say(_KINDS)

    def _by(self, text: str) -> None:
        record = self._session.record
        person = person_named(record, checked_text(text))
        if person is None:
            raise BadText("Say who: “by:” and a name or an id, such as “by: P1”.")
        self._desk.sitting.person = person
        name = next((each.name for each in record.job.people if each.id == person), "")
        self._talk.say(f"Readings are taken by {name or person} from here on.")

    def _meter(self, text: str) -> None:
        word = checked_text(text).casefold()
        sitting, meters = self._desk.sitting, self._session.record.job.instruments
        for each in meters:
            if word in (each.id.casefold(), each.serial.casefold()):
                others = [id for id in sitting.instruments if id != each.id]
                sitting.instruments = [each.id, *others]
                self._talk.say(f"Readings are taken with {words(each)} where it fits.")
                return
        known = "; ".join(words(each) for each in meters)
        raise BadText(f"This job has no such instrument. It has: {known or 'none yet'}.")

    def _taken(self, text: str) -> None:
        if text.casefold() == "now":
            self._session.notes_of = None
            self._talk.say("Readings count as taken now again.")
            return
        when = read_when(checked_text(text), self._desk.now())
        self._session.notes_of = when
        self._talk.say(
            f"Readings are entered from notes, taken {moment_words(when)}; the record says when "
            "they were entered, too. taken: now ends this."
        )

    def _lower(self, text: str) -> None:
        entry = self._walk.entry
        if entry is None or not is_insulation(entry.measurement):
            raise BadText("Only insulation tests have a test voltage.")
        self._desk.sitting.lower_here(entry.slot, could_not(text).reason)
        self._talk.say(
            f"250 V d.c., L and N joined, to earth, for {entry.place}. usual goes back to 500 V."
        )
        instead = self._walk.queue.index(self._desk.instead(entry.slot))
        if instead is not None:
            self._walk.enter(instead)

    def _usual(self, _: str) -> None:
        entry = self._walk.entry
        if entry is not None:
            self._desk.sitting.lower_here(entry.slot, "")
        self._talk.say("Insulation is tested at 500 V d.c.")
