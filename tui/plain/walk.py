"""Where a person stands among the readings of a stage, and what may be taken there."""

from __future__ import annotations

from records.interlock.comes_off import Owed
from records.interlock.may_take import Lock, Refusal
from records.session import Session
from records.taking.cautions import Caution
from records.taking.desk import Desk
from records.taking.interlock import next_to_take
from records.taking.lower_voltage import JOINED
from records.taking.queue import Entry, Queue, queue
from records.taking.still_to_test import missing


class Walk:
    """The queue of a stage and the reading in hand."""

    def __init__(self, session: Session, desk: Desk) -> None:
        """Stand at the first reading that is still to test."""
        self._session, self._desk = session, desk
        self.again = False
        """Whether the reading in hand is being tested again."""
        self.at = 0
        self.queue = Queue(())
        self.rebuild()
        self.enter(self.following(-1) or 0)

    @property
    def entry(self) -> Entry | None:
        """The reading in hand."""
        return self.queue.entries[self.at] if self.at < len(self.queue.entries) else None

    @property
    def earth(self) -> Owed | None:
        """The earth that came off for a test and that nobody has said is back."""
        return self._desk.interlock.earth

    def rebuild(self) -> None:
        """Work out the queue again and stay at the reading in hand."""
        slot = self._desk.sitting.slot
        order = self._desk.sitting.order
        self.queue = queue(self._session.record, self._session.review, self._desk.stage, order)
        found = self.queue.index(slot)
        if found is not None:
            self.at = found

    def enter(self, at: int) -> None:
        """Take a reading of the queue in hand."""
        self.again = self.again and at == self.at
        self.at = at
        self._desk.sitting.slot = self.entry.slot if self.entry else None

    def following(self, after: int) -> int | None:
        """Return the next reading to take: what is owed first, then what may be taken."""
        return next_to_take(self.queue, self._desk.interlock, after)

    def find(self, words: str) -> int | None:
        """Return the next reading whose place, symbol and title have all these words in them.

        If there is none: the next one left to be taken in a room, or at a board, called so.
        """
        wanted = set(_words(words))
        count = len(self.queue.entries)
        order = [(self.at + step) % count for step in range(1, count + 1)]
        for at in order:
            each = self.queue.entries[at]
            named = f"{each.place} {each.measurement.symbol} {each.measurement.title}"
            if wanted <= set(_words(named)):
                return at
        return next(
            (
                at
                for stop in missing(self._session.record, self._desk.stage, self.queue)
                if wanted <= set(_words(stop.name))
                for at in sorted((at for at, _ in stop.entries), key=order.index)
            ),
            None,
        )

    def refusal(self) -> Refusal | None:
        """Return why the reading in hand may not be taken now; None if it may."""
        entry = self.entry
        if entry is None or (not entry.is_open and not self.again):
            return None
        return self._desk.refusal(entry.slot)

    def caution(self) -> Caution | None:
        """Return what must be read before the reading in hand; None if all was."""
        entry, stop = self.entry, self.refusal()
        if entry is None or stop is None or stop.lock is not Lock.CAUTION:
            return None
        return self._desk.unread(entry.slot)

    def closed(self, *, reason: bool = False) -> str:
        """Return why nothing can be taken in hand; empty if it can.

        Args:
            reason: Whether it is a reason why there is no reading: no caution stands before that.
        """
        entry = self.entry
        if entry is None:
            return "There is no reading to take here: enter feed, board and circuits first."
        if not reason and self.caution() is not None:
            return "Read the caution first, then type ok."
        if not entry.is_open and not self.again:
            return "This was taken already. Type again to test it again; Enter goes on."
        if self._desk.instead(entry.slot) is not None:
            return JOINED
        return ""


def _words(text: str) -> list[str]:
    return text.casefold().replace(",", " ").split()
