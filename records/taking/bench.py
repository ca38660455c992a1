"""The bench: where a person stands at a stage, what is asked there, and what an answer does.

The wizard and the line bench show what stands here and hand on what was typed; neither decides
anything. An act that can't be done raises and says why; then the record is as it was.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from records.drafts import draft_key
from records.errors import BadText, FarboardError
from records.interlock.comes_off import EARTHS
from records.interlock.may_take import Lock
from records.judgement.review_types import Judged
from records.judgement.todo.standing import Standing
from records.judgement.wording import Taken
from records.model.reading import Figure, NotNeeded, NotTaken, Slot, Tick
from records.session import Session
from records.taking.act_names import ActNames
from records.taking.conditions import Conditions
from records.taking.desk import Desk
from records.taking.exceptions import tested_elsewhere
from records.taking.interlock import NotNow
from records.taking.must_read import MustRead
from records.taking.outcome import ALL_DONE, Outcome, doubt_words, reading_outcome
from records.taking.position import Position
from records.taking.prompt import NOTHING, Ask, Prompt, prompt_at
from records.taking.queue import Entry, Queue
from records.taking.typed_reading import could_not, not_needed, understand
from records.taking.undo import Turned, redo, undo
from records.terms import STEP_OF_STAGE, Part, Stage, Verdict


class Bench:
    """One stage of an opened record, and the person who takes its readings."""

    def __init__(
        self,
        session: Session,
        stage: Stage,
        names: ActNames,
        *,
        confirms: bool = False,
        piped: bool = False,
        only: Slot | None = None,
    ) -> None:
        """Sit down.

        Args:
            session: The opened record.
            stage: Which readings are taken.
            names: How the acts are asked for.
            confirms: Whether a value that is outside or unlikely is kept only when told so; the
                wizard says it while the value is typed.
            piped: Whether the answers were written before anything was asked.
            only: The one reading that is taken, again if there is one; None: all of the stage.
        """
        self.session, self.stage, self.names = session, stage, names
        self.desk, self._only = Desk(session, stage), only
        self.position = Position(session, self.desk, only)
        self._confirms, self._piped = confirms, piped
        self.must_read = MustRead(session, self.desk, self.position, names)
        self.conditions = Conditions(session, self.desk, self.position, names)
        self._doubtful: tuple[Slot, Figure] | None = None

    # Where the person stands, and what is asked there.

    @property
    def entry(self) -> Entry | None:
        """The reading in hand."""
        return self.position.entry

    @property
    def queue(self) -> Queue:
        """The readings of the stage."""
        return self.position.queue

    @property
    def standing(self) -> Standing:
        """How far the stage is."""
        return self.session.progress[STEP_OF_STAGE[self.stage]]

    @property
    def prompt(self) -> Prompt:
        """What is asked for now."""
        if self.must_read.question is not None:
            return Prompt(Ask.QUESTION, "Answer the question before the live tests first.")
        found = prompt_at(self.session, self.desk, self.position, self.names)
        if found.kind in (Ask.FIGURE, Ask.CHECK) and self._kept_back is not None:
            return Prompt(Ask.KEEP)
        return found

    def begin(self) -> None:
        """Take the place: where an earth is off, where the person was, or the first open one."""
        self.position.begin()

    def check_begun(self) -> None:
        """Refuse to take the reading in hand now, if it can't be; a caution may be read first.

        Raises:
            BadText: If the job has no such reading, or nothing can be entered.
            NotNow: If the interlock says that something else comes first.
        """
        if self.entry is None and self._only is not None:
            raise BadText("The job asks for this reading no more. Press g and look at its design.")
        now = self.prompt
        if now.kind not in (Ask.CAUTION, Ask.FIGURE, Ask.CHECK):
            stop = None if now.stop is None or now.stop.lock is Lock.ANSWER else now.stop
            raise self._refused(now.why if stop is None else stop.words)

    def look_again(self) -> None:
        """Follow a change of the record, whoever made it."""
        self.position.rebuild()

    # What is typed.

    def type(self, text: str) -> Outcome:
        """Take a value as it was typed.

        Raises:
            FarboardError: If it is none, or may not be taken now.
        """
        entry = self.entry
        if entry is None:
            raise BadText(NOTHING)
        if self._piped and entry.slot in EARTHS and text.casefold() == "yes":
            # Written for the question before the live tests, which is not asked while it is off.
            raise BadText("Type y if it is back on its bar and tight, n if it is not.")
        now = self.prompt
        if now.closed or now.kind is Ask.CAUTION:
            raise self._refused(now.why)
        return self.take(understand(text, entry.measurement))

    def take(self, taken: Figure | Tick) -> Outcome:
        """Put a reading on disk, or ask first whether a doubtful one is kept.

        Raises:
            NotNow: If something comes first; the person is led to an earth that is off.
            FarboardError: If it may not be taken, or could not be put on disk.
        """
        entry, now = self.entry, self.prompt
        if entry is None or now.closed:
            raise self._refused(now.closed or NOTHING)
        if now.kind is Ask.CAUTION:
            raise self._refused(now.why)
        if (
            isinstance(taken, Figure)
            and now.stop is None
            and (doubt := self._doubt(entry, taken)) is not None
        ):
            self._doubtful = (entry.slot, taken)
            return Outcome(doubt_words(doubt, self.desk.echo(entry.slot, taken)), "warn")
        return self._accept(entry, taken)

    def keep(self) -> Outcome:
        """Keep the doubtful figure that was typed last.

        Raises:
            BadText: If none waits.
            FarboardError: As for `take`.
        """
        entry, taken = self.entry, self._kept_back
        if entry is None or taken is None:
            raise BadText("There is nothing waiting to be kept.")
        self._doubtful = None
        return self._accept(entry, taken)

    def could_not(self, reason: str) -> Outcome:
        """Put on record that the reading in hand could not be taken, and why."""
        return self._reason(could_not(reason))

    def not_needed(self, reason: str) -> Outcome:
        """Put on record that the reading in hand is not needed, and why."""
        return self._reason(not_needed(reason))

    def elsewhere(self, text: str) -> Outcome:
        """Put on record that who certifies did the test in hand elsewhere: `P3, their sheet`."""
        entry = self.entry
        if entry is None:
            raise BadText(NOTHING)
        return self._reason(tested_elsewhere(self.session.record, entry.slot, text))

    def check_elsewhere(self, text: str) -> None:
        """Refuse a test elsewhere that would not be taken, before it is put on record."""
        if self.entry is not None:
            tested_elsewhere(self.session.record, self.entry.slot, text)

    @property
    def may_be_elsewhere(self) -> bool:
        """Whether a test of who certifies can stand in for the one in hand."""
        slot = self.entry.slot if self.entry is not None else None
        return slot is not None and slot.stage is Stage.DEAD and slot.place.part is not Part.CIRCUIT

    def check_reason(self, made: NotTaken | NotNeeded) -> None:
        """Refuse a reason why there is no reading, if none can be given now.

        Raises:
            FarboardError: If so.
        """
        entry, now = self.entry, self.prompt
        if entry is None or now.kind in (Ask.QUESTION, Ask.LOCKED, Ask.LOOK, Ask.TAKEN):
            raise BadText(now.why)
        stop = self.desk.refusal(entry.slot, made)
        if stop is not None:
            raise NotNow(stop)

    # Moving about.

    def go_on(self) -> Outcome:
        """Go on from a reading that was taken: Enter with nothing typed takes nothing.

        Raises:
            BadText: If something is to be typed, read or answered here.
        """
        entry, now = self.entry, self.prompt
        passed = now.kind is Ask.TAKEN or (now.kind is Ask.LOOK and not self.position.is_due)
        if entry is None or not passed:
            wanted = "y or n" if entry and entry.measurement.is_check else "what the meter shows"
            typed = now.kind in (Ask.FIGURE, Ask.CHECK, Ask.KEEP)
            raise BadText(
                f"Nothing is typed. Type {wanted}; {self.names.could_not}; {self.names.skip} "
                "passes by."
                if typed
                else now.why
            )
        following = self.position.following()
        if following is None:
            return Outcome(ALL_DONE, "good", done=True)
        self.enter(following)
        return Outcome()

    def enter(self, at: int) -> None:
        """Take a reading of the queue in hand."""
        self._doubtful = None
        self.position.enter(at)

    def go_to(self, slot: Slot | None) -> bool:
        """Take a slot in hand; False if the stage has no such reading."""
        at = self.queue.index(slot)
        if at is not None:
            self.enter(at)
        return at is not None

    def step(self, by: int) -> None:
        """Go on (1) or back (-1) by one reading.

        Raises:
            BadText: If there is none that way.
        """
        if self.entry is None:
            raise BadText(NOTHING)
        if not self.position.step(by):
            end = "last" if by > 0 else "first"
            raise BadText(f"This is the {end} reading of the stage.")
        self._doubtful = None

    def find(self, words: str) -> None:
        """Go to a reading by its words, or to what is next in a room.

        Raises:
            BadText: If there is none.
        """
        at = self.position.find(words)
        if at is None:
            raise BadText("No reading of this stage has all these words.")
        self.enter(at)

    def retest(self) -> Outcome:
        """Begin to test the reading in hand again.

        Raises:
            BadText: If nothing was taken there, or nothing can be.
        """
        entry, now = self.entry, self.prompt
        if entry is None or now.kind in (Ask.QUESTION, Ask.LOCKED, Ask.LOOK):
            raise BadText(now.why)
        if entry.is_open:
            raise BadText(
                f"Nothing was taken here yet: type the first reading. {self.names.back} goes to "
                "the last."
            )
        self.position.again = True
        return Outcome(
            f"Type the new reading. The earlier one stays in the record. {self.names.leave_again}."
        )

    def leave_retest(self) -> bool:
        """Leave a retest without a reading; False if there is none."""
        again, self.position.again = self.position.again, False
        return again

    def undo(self) -> Outcome:
        """Take the last change back, and stand where it was."""
        return self._turn(undo)

    def redo(self) -> Outcome:
        """Make the change again that was taken back, and stand where it is."""
        return self._turn(redo)

    # What is typed and not taken yet.

    @property
    def draft(self) -> str:
        """What was typed for the reading in hand and not taken."""
        if self.entry is None or self.prompt.closed:
            return ""
        return self.session.drafts.get(draft_key(self.entry.slot), "")

    def keep_draft(self, text: str) -> None:
        """Keep what stands typed for the reading in hand, so that nothing can lose it."""
        if self.entry is None:
            return
        key = draft_key(self.entry.slot)
        if text:
            self.session.drafts[key] = text
        else:
            self.session.drafts.pop(key, None)

    def trial(self, taken: Figure | Tick, *, whole: bool) -> tuple[Judged, ...]:
        """Return what a value would mean by itself, or among all the others; nothing if it waits"""
        entry = self.entry
        if entry is None or self.prompt.why:
            return ()
        return self.desk.trial(entry.slot, taken, whole=whole)

    # How it is done.

    @property
    def _kept_back(self) -> Figure | None:
        if self._doubtful is None or self.entry is None or self._doubtful[0] != self.entry.slot:
            return None
        return self._doubtful[1]

    def _doubt(self, entry: Entry, taken: Figure) -> Judged | None:
        """Return why a figure is asked about once more; a check is answered as it was seen."""
        if not self._confirms:
            return None
        bad = (Verdict.OUTSIDE, Verdict.UNLIKELY)
        lines = self.desk.trial(entry.slot, taken, whole=True)
        return next((each for each in lines if each.verdict in bad), None)

    def _reason(self, made: NotTaken | NotNeeded) -> Outcome:
        self.check_reason(made)
        entry = self.entry
        if entry is None:
            raise BadText(NOTHING)
        return self._accept(entry, made)

    def _accept(self, entry: Entry, taken: Taken) -> Outcome:
        """Put a reading on disk and go on: only then is it said to be kept."""
        note = self.desk.nothing_off(entry.slot, taken) + self.desk.beside(entry.slot, taken)
        again, self._doubtful = self.position.again, None
        with self._left_standing(), self.leading_to_earth():
            self.desk.take(entry.slot, taken)
        self.session.drafts.pop(draft_key(entry.slot), None)
        self.position.rebuild()
        self.position.go_to(entry.slot)
        kept = self.entry
        assert kept is not None
        following = self.position.after_retest() if again else self.position.following()
        if following is not None:
            self.enter(following)
        return reading_outcome(kept, note, done=following is None and self._only is None)

    @contextmanager
    def _left_standing(self) -> Iterator[None]:
        """Let a retest go on if its reading could not be taken."""
        again, self.position.again = self.position.again, False
        try:
            yield
        except FarboardError:
            self.position.again = again
            raise

    @contextmanager
    def leading_to_earth(self) -> Iterator[None]:
        """Go to the earth that is off, if that is why something was refused."""
        try:
            yield
        except NotNow as error:
            if error.refusal.lock is Lock.EARTH:
                self.go_to(error.refusal.first)
            raise

    def _refused(self, why: str) -> FarboardError:
        """Return the error that says why nothing is taken here."""
        stop = self.prompt.stop
        return NotNow(stop) if stop is not None and stop.words == why else BadText(why)

    def _turn(self, act: Callable[[Session], Turned]) -> Outcome:
        turned = act(self.session)
        if turned.done:
            self._doubtful, self.position.again = None, False
            self.position.rebuild()
            self.go_to(turned.slot)
        return turned.outcome
