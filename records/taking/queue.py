"""The readings of one stage in the order they are taken, and where in it a person stands."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum

from records.interlock.comes_off import PUT_BACK, earths_owed, put_back_owed
from records.judgement.review_types import Judged, Review
from records.model.measurements import MEASUREMENTS, Measurement
from records.model.reading import Reading, Slot
from records.model.record import Record
from records.model.slots import measured_by, offered, slots, title
from records.taking.families import Family, families, family
from records.terms import Part, Stage, Verdict


class Order(StrEnum):
    """How somebody works through a stage; both keep the safe order."""

    BY_TEST = "by test"
    BY_CIRCUIT = "by circuit"

    @property
    def other(self) -> Order:
        """The one that is not this."""
        return Order.BY_CIRCUIT if self is Order.BY_TEST else Order.BY_TEST


@dataclass(frozen=True, slots=True)
class Entry:
    """One reading to take, or taken: where it stands in the queue and how it stands."""

    slot: Slot
    measurement: Measurement
    place: str
    """How the place is called."""
    group: str
    """The heading that it comes under."""
    lines: tuple[Judged, ...] = ()
    """The verdicts of the review on this reading: its own first, then patterns it is part of."""
    point: str = ""
    """How the point is called, if it is taken at one."""
    asked_again: bool = False
    """Whether it was answered, and what came off since asks for the answer again."""

    @property
    def brief(self) -> str:
        """The reading where room is scarce, what matters first: `C1 r1 · Bench sockets`."""
        where = self.slot.place
        head = where.circuit or where.part.value.capitalize()
        tail = self.point or self.place.removeprefix(head).strip()
        words = f"{head} {self.measurement.symbol.replace('cross-connected', 'crossed')}"
        return f"{words} · {tail}" if tail else words

    @property
    def judged(self) -> Judged | None:
        """The verdict that counts most: a pattern may say more than the reading alone."""
        found = [each for each in self.lines if each.verdict.is_finding]
        order = list(Verdict)
        return min(found, key=lambda each: order.index(each.verdict), default=self.own)

    @property
    def own(self) -> Judged | None:
        """The verdict on the reading by itself."""
        return next((each for each in self.lines if each.slot == self.slot), None)

    @property
    def verdict(self) -> Verdict:
        """How the last reading stands; NOT_TAKEN if there is none."""
        return self.judged.verdict if self.judged else Verdict.NOT_TAKEN

    @property
    def attempts(self) -> tuple[Reading, ...]:
        """All that was entered here, oldest first."""
        return self.own.attempts if self.own else ()

    @property
    def is_open(self) -> bool:
        """Whether nothing that still holds has been entered here, not even a reason."""
        return not self.attempts or self.asked_again

    @property
    def is_bad(self) -> bool:
        """Whether the last reading is a problem that somebody must deal with."""
        return not self.is_open and self.verdict.is_finding

    @property
    def family(self) -> Family:
        """The family of its measurement."""
        return family(self.measurement)


@dataclass(frozen=True, slots=True)
class Queue:
    """The entries of one stage in one order."""

    entries: tuple[Entry, ...]

    def index(self, slot: Slot | None) -> int | None:
        """Return where a slot stands; None if this stage does not ask for it."""
        for at, each in enumerate(self.entries):
            if each.slot == slot:
                return at
        return None

    def next_open(self, after: int = -1) -> int | None:
        """Return the next entry with nothing in it, round the end; None if all have something."""
        order = (*range(after + 1, len(self.entries)), *range(after + 1))
        return next((at for at in order if self.entries[at].is_open), None)

    def next_bad_alike(self, after: int) -> int | None:
        """Return the next reading of the same test, further on, that somebody must deal with."""
        test = self.entries[after].slot.quantity
        rest = range(after + 1, len(self.entries))
        fit = (at for at in rest if self.entries[at].slot.quantity is test)
        return next((at for at in fit if self.entries[at].is_bad), None)

    def next_group(self, at: int, by: int) -> int:
        """Return the first entry of the next group (`by` 1) or of the one before (`by` -1)."""
        starts = [
            here
            for here, each in enumerate(self.entries)
            if not here or each.group != self.entries[here - 1].group
        ]
        after = [start for start in starts if start > at]
        before = [start for start in starts if start < at]
        found = after[:1] if by > 0 else before[-1:]
        return found[0] if found else at


def queue(
    record: Record, review: Review, stage: Stage, order: Order, more: Collection[Slot] = ()
) -> Queue:
    """Return the readings of a stage in order, each with its verdict.

    Beside those that the job needs, the optional ones that were taken or asked for (`more`).

    By test: family by family as the catalogue has them, inside a family place by place, so that
    one set-up is finished before the next. By circuit: what is not in a circuit first (the feed
    and the board have to be right before anything is tested behind them), then circuit by circuit,
    then what has to wait for all of them. Both keep the rules of `safe_order`.
    """
    lines = _by_slot(review)
    wanted = tuple(_in_order(record, stage, more))
    if order is Order.BY_CIRCUIT:
        circuits = {each.id: at for at, each in enumerate(record.circuits)}
        wanted = tuple(
            sorted(
                wanted,
                key=lambda slot: (
                    measured_by(slot).after_circuits,
                    circuits.get(slot.place.circuit or "", -1),
                ),
            )
        )
    owed = {each.slot for each in earths_owed(record)}
    owed |= {PUT_BACK} if put_back_owed(record) is not None else set()
    return Queue(
        tuple(
            _entry(record, slot, tuple(lines.get(slot, ())), order, asked_again=slot in owed)
            for slot in wanted
        )
    )


def _by_slot(review: Review) -> dict[Slot, list[Judged]]:
    own: dict[Slot, list[Judged]] = {}
    wider: dict[Slot, list[Judged]] = {}
    for each in review.lines:
        if each.slot is not None:
            own.setdefault(each.slot, []).append(each)
        for slot in each.about:
            if slot != each.slot:
                wider.setdefault(slot, []).append(each)
    return {slot: [*own.get(slot, ()), *wider.get(slot, ())] for slot in {**own, **wider}}


def _entry(
    record: Record, slot: Slot, lines: tuple[Judged, ...], order: Order, *, asked_again: bool
) -> Entry:
    entry = measured_by(slot)
    heading: str = family(entry).value
    place = title(record, slot.place)
    whole = title(record, slot.place.whole)
    if order is Order.BY_CIRCUIT:
        heading = whole if slot.place.part is Part.CIRCUIT else "Origin, feed and board"
        heading = "After all circuits" if entry.after_circuits else heading
    return Entry(slot, entry, place, heading, lines, place[len(whole) + 2 :], asked_again)


def others(record: Record, stage: Stage, line: Queue) -> tuple[Slot, ...]:
    """Return the optional readings of a stage that a queue doesn't hold yet."""
    return tuple(slot for slot in offered(record, stage) if line.index(slot) is None)


def _in_order(record: Record, stage: Stage, more: Collection[Slot]) -> Iterator[Slot]:
    circuits = {each.id: at for at, each in enumerate(record.circuits)}
    catalogue = {(each.part, each.quantity): at for at, each in enumerate(MEASUREMENTS)}
    by_kind: dict[tuple[Part, str], list[Slot]] = {}
    wanted, spare = slots(record, stage), offered(record, stage)
    extra = [slot for slot in spare if slot in more or record.taken(slot)]
    # What asks for something to be put back brings that question with it.
    asked = {
        (each.place.part, back)
        for each in (*wanted, *extra)
        if (back := measured_by(each).back) is not None
    }
    extra += [
        slot for slot in spare if slot not in extra and (slot.place.part, slot.quantity) in asked
    ]
    for slot in (*wanted, *extra):
        by_kind.setdefault((slot.place.part, slot.quantity), []).append(slot)
    for _, entries in families(stage):
        found = [slot for each in entries for slot in by_kind.get((each.part, each.quantity), ())]
        # Stable: points stay in the order of the ring.
        yield from sorted(
            found,
            key=lambda slot: (
                measured_by(slot).after_circuits,
                circuits.get(slot.place.circuit or "", -1),
                catalogue[slot.place.part, slot.quantity],
            ),
        )
