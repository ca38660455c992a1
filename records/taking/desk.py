"""Where readings are put on record: the same for bench, grid and review."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from records.days import moment_words
from records.errors import BadText
from records.interlock.comes_off import owed_since
from records.interlock.may_take import Interlock, Refusal, is_settled
from records.judgement.lead_resistance import to_take_off
from records.judgement.review_types import Judged, slots_of
from records.judgement.todo.progress import step_of
from records.judgement.wording import Taken
from records.model.certifier import list_for, stands_beside
from records.model.job import Instrument
from records.model.reading import CautionRead, Figure, Reading, Remedy, Slot
from records.model.record import Record, next_id
from records.model.slots import measured_by
from records.store.edits import append
from records.taking.cautions import Caution
from records.taking.exceptions import exception
from records.taking.interlock import (
    NotNow,
    answered,
    check,
    check_next,
    interlock,
    refusal,
    unread,
)
from records.taking.leads import echo, first_of, nothing_off, warning_of
from records.taking.lower_voltage import JOINED, as_tested, read_instead
from records.taking.paste import Fill
from records.taking.queue import Entry
from records.taking.stage_settings import StageSettings
from records.taking.trial import trial, with_reading
from records.taking.typed_reading import reading
from records.taking.typed_work import Work, read_work, turning
from records.terms import STEP_OF_STAGE, Stage

if TYPE_CHECKING:
    from records.session import Session


def present() -> datetime:
    """Return the present moment in the zone of this machine."""
    return datetime.now().astimezone()


class Desk:
    """One stage of an opened record, with what the person settled for it."""

    def __init__(self, session: Session, stage: Stage) -> None:
        """Sit down at a stage of an opened record."""
        self._session, self.stage = session, stage

    def now(self) -> datetime:
        """Return the present moment in the zone of this machine."""
        return present()

    @property
    def settings(self) -> StageSettings:
        """What was settled once for the stage; it is found again when the step is visited again."""
        step = STEP_OF_STAGE[self.stage]
        found = self._session.places.get(step)
        if not isinstance(found, StageSettings):
            found = StageSettings()
            self._session.places[step] = found
        return found

    def take(self, slot: Slot, taken: Taken) -> Taken:
        """Put a reading on disk, if it may be taken now.

        Returns:
            What is on record, less the leads where they count.
        Raises:
            NotNow: If something else comes first; then the record is as it was.
            FarboardError: If it could not be; then the record is as it was.
        """
        self._check_joined(slot, taken)
        made = self._reading(self._record, slot, taken)
        check(self._session, slot, taken, self._by, self.now())
        self._session.change(append(f"/{list_for(self._record, made)}", made))
        self.settings.method = self.settings.note = ""
        return made.taken

    def fill(self, found: Sequence[Fill]) -> None:
        """Put several readings on disk, all or none.

        Raises:
            NotNow: If one of them may not be taken now, the others before it being taken.
            FarboardError: If they could not be; then the record is as it was.
        """
        grown, ops = self._record, []
        for each in found:
            self._check_joined(each.entry.slot, each.taken)
            made = self._reading(grown, each.entry.slot, each.taken)
            check_next(self._session, grown, made, self._by, self.now())
            ops += append(f"/{list_for(grown, made)}", made)
            grown = with_reading(grown, made)
        self._session.change(ops)
        self.settings.method = self.settings.note = ""

    def as_tested(self, entry: Entry) -> Entry:
        """Return an entry as it is measured now: at 250 V something else is joined."""
        why = self.settings.at_lower(entry.slot)
        return replace(entry, measurement=as_tested(entry.measurement, why)) if why else entry

    def instead(self, slot: Slot) -> Slot | None:
        """Return what is read instead of a slot at 250 V, with L and N joined; None: itself."""
        return read_instead(slot, self.settings.at_lower(slot))

    def meter(self, slot: Slot) -> Instrument | None:
        """Return the instrument in hand for a slot; None if it needs none, or none is chosen."""
        return self.settings.meter(self._record, self.stage, measured_by(slot))

    @property
    def interlock(self) -> Interlock:
        """What may be taken now by who takes the readings."""
        return interlock(self._session, self._by, self.now())

    def refusal(self, slot: Slot, taken: Taken | None = None) -> Refusal | None:
        """Return why something may not be entered now; None if it may.

        Args:
            slot: Where.
            taken: What is to be entered; None for any true reading.
        """
        return refusal(self.interlock, slot, taken)

    def unread(self, slot: Slot) -> Caution | None:
        """Return what must be read before a reading is taken; None if all was, and still holds."""
        return unread(self.interlock, slot)

    def has_read(self, caution: Caution, slot: Slot) -> None:
        """Record that a caution was read to its end before a reading.

        Raises:
            FarboardError: If it could not be put on disk.
        """
        read = CautionRead(key=caution.key, before=slot, at=self.now(), by=self._by)
        self._session.change(append("/cautions_read", read))

    def first(self, slot: Slot) -> str:
        """Return what to make sure of before a slot is read with the instrument in hand."""
        test, meter = measured_by(slot), self.meter(slot)
        return " ".join(filter(None, (first_of(test, meter), warning_of(test, meter))))

    def echo(self, slot: Slot, taken: Taken) -> str:
        """Return how a value is understood, and what is taken off it.

        Raises:
            BadQuantity: If the leads of the instrument can't have so much.
        """
        test = measured_by(slot)
        return echo(taken, to_take_off(self.meter(slot), test), test)

    def beside(self, slot: Slot, taken: Taken) -> str:
        """Return, as a sentence, that a figure would stand beside the one that counts."""
        if not stands_beside(self._record, slot, taken, self._by):
            return ""
        return (
            " Kept as the certifier's own, beside the installer's reading: that one still counts."
        )

    def nothing_off(self, slot: Slot, taken: Taken) -> str:
        """Return, as a sentence, that no leads are taken off a figure that is out of range."""
        note = nothing_off(taken, to_take_off(self.meter(slot), measured_by(slot)))
        return f" {note.capitalize()}." if note else ""

    def trial(self, slot: Slot, taken: Taken, *, whole: bool) -> tuple[Judged, ...]:
        """Return what a reading would mean.

        Args:
            slot: Where it would belong.
            taken: What the meter shows.
            whole: Whether to hold it against all other readings too, which takes longer.
        Returns:
            The verdict on the reading by itself, then at most two patterns that it would join.
        """
        made = self._reading(self._record, slot, taken)
        if not whole:
            from records.judgement.review import preview  # all rules; the bench stands before

            return (preview(self._record, self._session.expected, made),)
        own, *wider = trial(self._record, self._session.expected, made)
        return (own, *[each for each in wider if each.is_finding][:2])

    def remedy(
        self, finding: Judged, done: str, work: Work | None = None, *, to_decide: bool = False
    ) -> Remedy:
        """Record what was done about a finding, or that it was passed to the certifier.

        Args:
            finding: What it was done about.
            done: What was done; or what the certifier has to know.
            work: What kind of work it was, and when it was done; None: nobody was asked.
            to_decide: Whether nothing was done, and the certifier decides.
        Returns:
            What is on record.
        Raises:
            FarboardError: If it could not be put on disk.
        """
        now = self.now()
        at = now if work is None else work.at
        made = Remedy(
            id=next_id("D", self._record.remedies),
            finding=finding.key,
            done=done,
            at=at,
            by=self._by,
            to_decide=to_decide,
            kind=None if work is None else work.kind,
            entered=None if at == now else now,
            about=slots_of(finding),
        )
        self._session.change(append("/remedies", made))
        return made

    def work(self, finding: Judged, text: str) -> Work:
        """Return the kind and the time of some work on a finding, as typed: `joint, 5 Mar 2026`.

        Raises:
            FarboardError: If it is no kind of work, or no time at which it can have been done.
        """
        return read_work(text, turning(self._session.review, finding), self.now())

    def open_live(self) -> None:
        """Record that the question before the live tests was answered with yes.

        Raises:
            NotNow: If nothing may go live, whatever is answered.
            FarboardError: If it could not be put on disk.
        """
        self._session.change(append("/live_gate", answered(self.interlock)))

    def except_circuit(self, circuit: str, who: str, reason: str) -> None:
        """Record that a competent person lets a circuit be tested live in spite of its dead tests.

        Args:
            circuit: Its id.
            who: The competent person, by id or name.
            reason: Why.
        Raises:
            BadText: If nobody of the job who certifies is called so, or the reason says nothing.
            NotNow: If the question before the live tests isn't answered, or nothing may go live.
            FarboardError: If it could not be put on disk.
        """
        found = self.interlock
        if found.locked is not None:
            raise NotNow(found.locked)
        made = exception(found, circuit, who, reason)
        before = found.answer.exceptions if found.answer is not None else ()
        self._session.change(append("/live_gate", answered(found, (*before, made))))

    @property
    def _record(self) -> Record:
        return self._session.record

    @property
    def _by(self) -> str | None:
        return self.settings.by(self._record, self._session.person)

    def _check_joined(self, slot: Slot, taken: Taken) -> None:
        if isinstance(taken, Figure) and self.instead(slot) is not None:
            raise BadText(JOINED)

    def _reading(self, record: Record, slot: Slot, taken: Taken) -> Reading:
        around = self.settings.around(
            record,
            self.stage,
            slot,
            measured_by(slot),
            self._session.person,
            self._session.notes_of,
        )
        made = reading(record, slot, taken, around, self.now())
        if is_settled(with_reading(record, made), slot):
            return made
        if around.taken_at is not None:
            # Said now of what came off after the time of the notes: it is true of now.
            made = reading(record, slot, taken, replace(around, taken_at=None), self.now())
        return _after_what_it_answers(record, made)


def _after_what_it_answers(record: Record, made: Reading) -> Reading:
    """Return an answer with a time after what came off, if the clock stands before that.

    It is given now, whatever the clock says: else nobody could answer before that time came.
    """
    since = owed_since(record, made.slot)
    if since is None or since < made.at:
        return made
    clock = f"The clock of this machine was at {moment_words(made.at)}, before what it answers."
    note = f"{made.note} {clock}".strip()
    at = since.astimezone(made.at.tzinfo) + timedelta(seconds=1)
    return made.model_copy(update={"at": at, "note": note})


def desk_for(session: Session, finding: Judged) -> Desk:
    """Return the desk at which something is put on record about a finding.

    A finding of the design has no stage of its own: it is dealt with by whoever does dead tests.
    """
    at = {step: stage for stage, step in STEP_OF_STAGE.items()}
    return Desk(session, at.get(step_of(finding), Stage.DEAD))
