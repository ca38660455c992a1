"""One opened record, and all that follows from it, worked out once for each change."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, TypeVar

from records.errors import CannotWrite, FarboardError, StaysOwed
from records.reuse import Reuse
from records.terms import Stage, Step, Verdict

if TYPE_CHECKING:
    from datetime import datetime

    from records.expected.results import Expected
    from records.judgement.review_types import Review
    from records.judgement.todo.standing import Standing
    from records.model.record import Record
    from records.store.file import RecordFile

T = TypeVar("T")
Ops = Sequence[dict[str, Any]]


class Session:
    """A record file, who works on it, and what follows from the record as it stands."""

    def __init__(self, file: RecordFile, person: str = "", at: int | None = None) -> None:
        """Take over an opened file.

        Args:
            file: The record file; it is closed by `close`.
            person: Name of who makes the changes; empty: the one in the record who installs.
            at: The number of the change after which the record is shown; None: as it stands.
        """
        self.file = file
        self.at = at
        self.drafts: dict[str, str] = {}
        """What was typed and not accepted yet, by the pointer of its field."""
        self.trouble = ""
        """Why the last change did not reach the disk; empty once one did."""
        self.places: dict[Step, object] = {}
        """Where each step was left, for when it is visited again."""
        self.notes_of: datetime | None = None
        """When the readings were taken that are entered, while they come from notes."""
        self.changed: Callable[[], None] = lambda: None
        """Called after each change that was accepted, and after one that could not be written."""
        self._person = person
        self._figures, self._verdicts, self._beside = Reuse(), Reuse(), Reuse()
        self._worked: dict[str, Any] = {}
        self._worked_for: Record | None = None

    @property
    def record(self) -> Record:
        """The record as it is on disk."""
        return self.file.record

    @property
    def read_only(self) -> bool:
        """Whether nothing can be changed."""
        return self.file.read_only

    @property
    def fingerprint(self) -> str:
        """The last digest of the file, in short groups."""
        return self.file.fingerprint

    @property
    def person(self) -> str:
        """Name of who makes the changes; empty if nobody is named yet."""
        from records.model.job import Duty

        if self._person:
            return self._person
        installing = (p.name for p in self.record.job.people if p.duty is Duty.INSTALLS and p.name)
        return next(installing, "")

    @property
    def expected(self) -> Expected:
        """What the meter should show, and what else follows from the design."""
        from records.expected.plan import expected

        return self._once("expected", lambda: expected(self.record, self._figures))

    @property
    def review(self) -> Review:
        """All verdicts."""
        from records.judgement.review import review

        return self._once("review", lambda: review(self.record, self.expected, self._verdicts))

    @property
    def counted(self) -> tuple[Record, Mapping[str, Verdict]]:
        """The record for what may be taken next, and how its readings stand.

        There the certifier's readings count like all others.
        """
        from records.judgement.review import review
        from records.model.certifier import all_counted

        def work() -> tuple[Record, Mapping[str, Verdict]]:
            whole = all_counted(self.record)
            found = (
                self.review if whole is self.record else review(whole, self.expected, self._beside)
            )
            return whole, found.verdicts

        return self._once("counted", work)

    @property
    def judged_again(self) -> Mapping[str, str]:
        """What of the review a changed design lets stand differently, by the key of its line."""
        from records.judgement.design_changed_since import judged_again
        from records.store.design_history import designs

        return self._once(
            "judged again",
            lambda: judged_again(designs(self.file.history()), self.record, self.expected),
        )

    @property
    def progress(self) -> Mapping[Step, Standing]:
        """How each step stands."""
        from records.judgement.todo.progress import progress

        return self._once("progress", lambda: progress(self.record, self.review))

    def change(self, ops: Ops) -> None:
        """Put a change on disk, then take it as accepted.

        Args:
            ops: RFC 6902 operations on the record.
        Raises:
            BadRecord: If the record would not hold together; nothing was changed.
            CannotWrite: If it is not on disk, or the record is open for reading only.
        """
        self._write(lambda: self.file.change(list(ops), by=self.person))

    def tried(self, ops: Ops) -> Record:
        """Return the record with a change in it, which nothing keeps.

        Args:
            ops: RFC 6902 operations on the record.
        Raises:
            BadRecord: If the record would not hold together.
        """
        from records.store.patch import apply
        from records.store.state import plain, read

        doc = plain(self.record)
        apply(doc, list(ops))
        return read(doc)

    def undo(self) -> bool:
        """Take the last change back, as a change of its own; False if there is none.

        Raises:
            CannotWrite: As for `change`.
            StaysOwed: If it would hide that something came off and isn't put back, or that a live
                reading failed.
        """
        after = self.file.without_last()
        self._check_owed(after)
        self._check_failed(after)
        return self._write(lambda: self._tidied(self.file.undo(by=self.person)))

    def redo(self) -> bool:
        """Make the change again that was taken back last; False if there is none.

        Raises:
            CannotWrite: As for `change`.
            StaysOwed: If it would answer a question on safety in a person's place, or bring back a
                reading that could not be taken.
        """
        after = self.file.with_next()
        self._check_owed(after)
        if after is not None:
            self._check_again(after)
        return self._write(lambda: self._tidied(self.file.redo(by=self.person)))

    def close(self) -> None:
        """Close the file."""
        self.file.close()

    def _check_owed(self, after: Record | None) -> None:
        """Refuse a step back or forth that would hide what came off and isn't put back."""
        from records.interlock.comes_off import earths_owed, put_back_owed, put_back_shown

        if after is None or self.read_only:
            return
        left = {each.slot for each in earths_owed(after)}
        for each in earths_owed(self.record):
            if each.slot not in left:
                raise StaysOwed(f"{each.question} It came off, whatever is taken back here.")
        if put_back_owed(self.record) is not None and put_back_shown(after):
            raise StaysOwed(
                "Answer this first, at the dead tests: is everything put back? What came off for a "
                "test is off, whatever is taken back here. A wrong figure is tested again (a)."
            )

    def _check_failed(self, after: Record | None) -> None:
        """Refuse to take back a live reading that failed: it keeps others from being taken."""
        from records.interlock.live_failures import failure_words, live_failures
        from records.model.certifier import all_counted

        if after is None or self.read_only:
            return
        now, verdicts = self.counted
        left = {each.id for each in all_counted(after).readings}
        gone = {each.slot for each in now.readings if each.id not in left}
        if not any(each.stage is Stage.LIVE for each in gone):
            return
        for each in live_failures(now, verdicts):
            if each.slot in gone:
                raise StaysOwed(
                    "Switch off and lock off. It stays on record: "
                    f"{failure_words(now, each)}. If the figure was only mistyped, type it "
                    "again (a)."
                )

    def _check_again(self, after: Record) -> None:
        """Refuse to bring back an answer on safety, or a reading that may not be taken."""
        from records.interlock.may_take import Interlock

        if len(after.live_gate) > len(self.record.live_gate):
            raise StaysOwed("Answer the question before the live tests again: it is asked there.")
        new = after.readings[len(self.record.readings) :]
        beside = after.certifier_readings[len(self.record.certifier_readings) :]
        for each in (*new, *beside):
            state = Interlock(*self.counted, each.by, each.at)
            stop = state.refusal(each.slot, each.taken, ())
            if stop is not None:
                raise StaysOwed(stop.words)

    def _write(self, act: Callable[[], Record | None]) -> bool:
        if self.read_only:
            raise FarboardError(
                "This record is open for reading only: nothing in it can be changed here."
            )
        try:
            done = act() is not None
        except CannotWrite as error:
            self.trouble = str(error)
            self.changed()
            raise
        self.trouble = ""
        if done:
            self.changed()
        return done

    def _tidied(self, record: Record | None) -> Record | None:
        """Drop drafts whose field went with an entry."""
        if record is not None and self.drafts:
            from records.drafts import without_orphans

            without_orphans(self.drafts, record.model_dump(mode="json"))
        return record

    def _once(self, name: str, work: Callable[[], T]) -> T:
        if self._worked_for is not self.record:
            self._worked, self._worked_for = {}, self.record
        if name not in self._worked:
            self._worked[name] = work()
        worked: T = self._worked[name]
        return worked
