"""What a person at the bench is asked for now, and what stands in the way of a reading."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from records.interlock.may_take import Interlock, Lock, Refusal
from records.session import Session
from records.taking.act_names import ActNames
from records.taking.cautions import Caution
from records.taking.desk import Desk
from records.taking.interlock import refusal, unread
from records.taking.lower_voltage import JOINED
from records.taking.position import Position
from records.terms import Stage


class Ask(StrEnum):
    """What a person is asked for."""

    NOTHING = "there is no reading here"
    LOOK = "the record is open for reading only"
    QUESTION = "the question before the live tests"
    LOCKED = "nothing live before that question is answered with yes"
    CAUTION = "a caution to read"
    TAKEN = "taken already"
    JOINED = "something else is read instead"
    WAIT = "something else comes first"
    KEEP = "whether a doubtful figure is kept"
    FIGURE = "a figure"
    CHECK = "yes or no"


@dataclass(frozen=True, slots=True)
class Prompt:
    """What is asked for, why nothing else is, and what to read first."""

    kind: Ask
    why: str = ""
    """Why no value is taken here now, and what comes first; empty if one is."""
    caution: Caution | None = None
    """What has to be read first."""
    stop: Refusal | None = None
    """What the interlock says."""

    @property
    def only_looks(self) -> bool:
        """Whether nothing at all may be entered at this stage, so that one can only look."""
        return self.kind in (Ask.LOCKED, Ask.QUESTION)

    @property
    def closed(self) -> str:
        """Why nothing can be typed; empty if it can.

        A figure typed while an earth is off, or over a caution, waits where it was typed.
        """
        earth_off = self.stop is not None and self.stop.lock is Lock.EARTH
        waits = self.kind is Ask.CAUTION or (self.kind is Ask.WAIT and earth_off)
        return "" if waits else self.why


LOCKED = "Locked: nothing is taken live before the question on safety is answered. {} asks it."
NOTHING = "There is no reading to take here: enter feed, board and circuits first."
LOOKING = "This record is open for reading only: nothing can be entered."


def is_locked(session: Session, desk: Desk, found: Interlock) -> bool:
    """Return whether nothing live may be taken now, whatever the reading.

    While an earth is off that is answered first: its question stands before the lock.
    """
    return (
        desk.stage is Stage.LIVE
        and not session.read_only
        and found.earth is None
        and found.locked is not None
    )


def prompt_at(session: Session, desk: Desk, position: Position, names: ActNames) -> Prompt:
    """Return what is asked for at the reading in hand.

    Args:
        session: The opened record.
        desk: The stage.
        position: Where the person stands.
        names: How the acts are asked for.
    """
    entry, found = position.entry, desk.interlock
    if entry is None:
        return Prompt(Ask.NOTHING, NOTHING)
    if is_locked(session, desk, found):
        return Prompt(Ask.LOCKED, LOCKED.format(names.ask), stop=found.locked)
    if session.read_only:
        return Prompt(Ask.LOOK, LOOKING)
    if not position.is_due:
        why = f"This was taken already. {names.again} to test it again; {names.go_on} goes on."
        return Prompt(Ask.TAKEN, why)
    stop = refusal(found, entry.slot)
    if stop is not None and stop.lock is Lock.CAUTION:
        why = f"Read the caution first, then {names.read}."
        return Prompt(Ask.CAUTION, why, unread(found, entry.slot), stop)
    if desk.instead(entry.slot) is not None:
        return Prompt(Ask.JOINED, JOINED, stop=stop)
    if stop is not None:
        return Prompt(Ask.WAIT, stop.words, stop=stop)
    return Prompt(Ask.CHECK if entry.measurement.is_check else Ask.FIGURE)
