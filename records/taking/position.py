"""Where a person stands among the readings of a stage."""

from __future__ import annotations

from collections.abc import Sequence

from records.model.reading import Slot
from records.model.record import Record
from records.session import Session
from records.taking.desk import Desk
from records.taking.grid import grid
from records.taking.interlock import next_to_take
from records.taking.queue import Entry, Queue, queue
from records.taking.still_to_test import missing


class Position:
    """The queue of a stage, the reading in hand, and whether it is being tested again."""

    def __init__(self, session: Session, desk: Desk, only: Slot | None = None) -> None:
        """Stand at the first reading.

        Args:
            session: The opened record.
            desk: The stage, with what was settled for it.
            only: The one reading that is taken; None: all of the stage. Then the place is found
                again when the stage is visited again.
        """
        self._session, self._desk, self._only = session, desk, only
        self.queue = Queue(())
        self.at = 0
        self.again = False
        """Whether the reading in hand is being tested again."""
        self._slot = desk.settings.slot if only is None else only
        self._made_for: Record | None = None
        self._made_with: tuple[object, ...] = ()

    @property
    def entry(self) -> Entry | None:
        """The reading in hand; None if the stage has none."""
        return self.queue.entries[self.at] if self.at < len(self.queue.entries) else None

    @property
    def is_due(self) -> bool:
        """Whether the reading in hand is to be taken now: nothing is there, or it is a retest."""
        return self.entry is not None and (self.entry.is_open or self.again)

    def begin(self) -> None:
        """Go to the earth that is off, to where the person was, or to the first open reading.

        Where one reading alone is taken, it is that one, and it is tested again.
        """
        self.rebuild()
        if self._only is not None:
            self.again = self.entry is not None and not self.entry.is_open
            return
        earth = self._desk.interlock.earth
        at = self.queue.index(earth.slot if earth is not None else self._slot)
        self.enter(self.following(-1) or 0 if at is None else at)

    def rebuild(self) -> None:
        """Work out the queue again, if anything of it can differ; stay at the reading in hand."""
        settings = self._desk.settings
        if self._only is None:
            self._slot = settings.slot
        record, wanted = self._session.record, (settings.order, tuple(settings.more))
        if self._made_for is not record or self._made_with != wanted:
            self.queue = self._built(record)
            self._made_for, self._made_with = record, wanted
        found = self.queue.index(self._slot)
        last = max(len(self.queue.entries) - 1, 0)
        self.at = min(self.at, last) if found is None else found

    def _built(self, record: Record) -> Queue:
        settings, stage = self._desk.settings, self._desk.stage
        more = settings.more if self._only is None else (*settings.more, self._only)
        whole = queue(record, self._session.review, stage, settings.order, more)
        if self._only is None:
            return whole
        return Queue(tuple(each for each in whole.entries if each.slot == self._only))

    def enter(self, at: int) -> None:
        """Take a reading of the queue in hand."""
        self.again = self.again and at == self.at
        self.at = at
        self._slot = self.entry.slot if self.entry is not None else None
        if self._only is None:
            self._desk.settings.slot = self._slot

    def go_to(self, slot: Slot | None) -> bool:
        """Take a slot in hand; False if the stage has no such reading."""
        at = self.queue.index(slot)
        if at is not None:
            self.enter(at)
        return at is not None

    def step(self, by: int) -> bool:
        """Go on (1) or back (-1) by readings; False at the end."""
        if not 0 <= self.at + by < len(self.queue.entries):
            return False
        self.enter(self.at + by)
        return True

    def step_group(self, by: int) -> None:
        """Go to the first reading of the next group (1), or of the one before (-1)."""
        if self.queue.entries:
            self.enter(self.queue.next_group(self.at, by))

    def step_in_grid(self, down: int, right: int) -> None:
        """Go to the next reading of the grid that way, if there is one."""
        found = grid(self.queue).beside(self.entry, down, right) if self.entry else None
        self.go_to(found.slot if found is not None else None)

    def following(self, after: int | None = None) -> int | None:
        """Return the next reading to take, after the one in hand or after another; None if none.

        What is owed comes first, then what may be taken.
        """
        after = self.at if after is None else after
        return next_to_take(self.queue, self._desk.interlock, after)

    def after_retest(self) -> int | None:
        """Return where to go once the reading in hand was tested again: on to the next bad one."""
        following = self.following()
        if following is not None and self.queue.entries[following].slot in self._owed:
            return following
        alike = self.queue.next_bad_alike(self.at)
        return following if alike is None else alike

    @property
    def _owed(self) -> Sequence[Slot]:
        """What comes before anything else: the answer that an earth is back, or a live failure."""
        found = self._desk.interlock
        earth = [found.earth.slot] if found.earth is not None else []
        return (*earth, *(each.slot for each in found.failures if each.everywhere))

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


def stand_at(session: Session, slot: Slot) -> None:
    """Have whoever comes to the bench of its stage next stand at this reading."""
    Desk(session, slot.stage).settings.slot = slot


def _words(text: str) -> list[str]:
    return text.casefold().replace(",", " ").split()
