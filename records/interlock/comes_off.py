"""What comes off or out for a test, and what has to be said before anything else: it is back.

Ze takes the earth of the whole installation off its bar. The dead tests take off earths and bonds,
lift neutrals and put links in. Each is owed from the moment it comes off until somebody has
answered “right” to the question for it; no other entry settles it.
Source: IET Guidance Note 3 and common practice (from memory).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from records.model.certifier import all_counted
from records.model.reading import (
    CautionRead,
    Figure,
    Quantity,
    Reading,
    Slot,
    Tick,
    place_of,
    slot_of,
    when_taken,
)
from records.model.record import Record
from records.terms import Part, Stage


def _slot(quantity: Quantity, part: Part, stage: Stage) -> Slot:
    return slot_of(quantity, place_of(part), stage)


ZE = _slot(Quantity.ZE, Part.ORIGIN, Stage.LIVE)
EARTH_BACK = _slot(Quantity.EARTH_BACK, Part.ORIGIN, Stage.LIVE)
ELECTRODE_BACK = _slot(Quantity.ELECTRODE_BACK, Part.BOARD, Stage.DEAD)
ELECTRODE_LOOP_BACK = _slot(Quantity.ELECTRODE_LOOP_BACK, Part.BOARD, Stage.LIVE)
PUT_BACK = _slot(Quantity.PUT_BACK, Part.BOARD, Stage.DEAD)

EARTHS: dict[Slot, tuple[Slot, ...]] = {
    EARTH_BACK: (ZE,),
    ELECTRODE_LOOP_BACK: (_slot(Quantity.ELECTRODE_LOOP, Part.BOARD, Stage.LIVE),),
    ELECTRODE_BACK: (
        _slot(Quantity.ELECTRODE, Part.BOARD, Stage.DEAD),
        _slot(Quantity.ARMOUR_OPEN, Part.BOARD, Stage.DEAD),
    ),
}
"""The question that follows at once, by the tests that take an earth off its bar."""
_CONDUCTOR = {
    EARTH_BACK: "the earth",
    ELECTRODE_LOOP_BACK: "the electrode's conductor",
    ELECTRODE_BACK: "the electrode's conductor",
}

TAKES_OFF: dict[Quantity, str] = {
    Quantity.ELECTRODE: "the electrode's conductor",
    Quantity.EARTHING: "the earthing conductor",
    Quantity.BONDING: "a bonding conductor",
    Quantity.R1_R2_CORE: "the armour",
    Quantity.R1_R2_ARMOUR: "the earth core",
    Quantity.R1_R2: "the link of line and earth",
    Quantity.R1: "the legs of the ring",
    Quantity.RN: "the legs of the ring",
    Quantity.R2: "the legs of the ring",
    Quantity.CROSS_LN: "the cross-connection of the ring",
    Quantity.CROSS_LE: "the cross-connection of the ring",
    Quantity.R1_RN: "the link of line and neutral",
    Quantity.ARMOUR_OPEN: "the electrode's conductor",
    Quantity.RN_R2: "the neutrals, and the link of neutral and earth",
    Quantity.SWITCHED: "the link of line and earth",
    Quantity.POLARITY: "the link of line and earth",
    Quantity.IR_LN: "the conductors, and what was disconnected",
    Quantity.IR_LE: "the conductors, and what was disconnected",
    Quantity.IR_NE: "the neutral",
    Quantity.IR_GROUP: "the link of line and neutral, and what was disconnected",
    Quantity.IR_FOIL: "the links",
}
"""What a dead test takes off, lifts or links, so that it has to go back."""
LIFTS_AN_EARTH = tuple(slot.quantity for those in EARTHS.values() for slot in those)
"""The caution of these is read each time: an earth is off from then on, whatever is entered."""


@dataclass(frozen=True, slots=True)
class Owed:
    """Something that came off, and that nobody has said is back."""

    slot: Slot
    """The question that settles it."""
    since: datetime
    what: tuple[str, ...]
    """What came off, the latest last."""
    answer: Reading | None
    """What was entered for the question since, which did not settle it."""

    @property
    def question(self) -> str:
        """What has to be answered first, in words."""
        return f"Answer this first: is {self.what[-1]} back on its bar and tight?"


def earth_owed(record: Record) -> Owed | None:
    """Return what is owed after a test that takes an earth off; None if all are back and tight."""
    return next(earths_owed(record), None)


def earths_owed(record: Record) -> Iterator[Owed]:
    """Yield each earth that came off and that nobody has said is back; the main earth first.

    It is off from the moment the caution before such a test was read, for the next thing a person
    does is to take it off; and from each reading, unless that was calculated.
    """
    record = all_counted(record)
    for question, tests in EARTHS.items():
        off = [
            each
            for slot in tests
            for each in record.taken(slot)
            if isinstance(each.taken, Figure) and not calculated(each)
        ]
        read = [each for each in record.cautions_read if each.before in tests]
        found = _owed(record, question, off, read, (_CONDUCTOR[question],))
        if found is not None:
            yield found


def taken_with_earth_off(record: Record, readings: Sequence[Reading]) -> list[Reading]:
    """Return those of some readings that were taken while an earth was off, by their own times."""
    record = all_counted(record)
    early: set[str] = set()
    for question, tests in EARTHS.items():
        off = [
            each
            for slot in tests
            for each in record.taken(slot)
            if isinstance(each.taken, Figure) and not calculated(each)
        ]
        off.sort(key=when_taken)
        said = [each for each in record.taken(question) if isinstance(each.taken, Tick)]
        own = {question, *tests}
        early |= {
            each.id
            for each in readings
            if off and each.slot not in own and _was_off(each, off, said)
        }
    return [each for each in readings if each.id in early]


def _was_off(reading: Reading, off: Sequence[Reading], said: Sequence[Reading]) -> bool:
    before = [each for each in off if is_after(reading, each)]
    if not before:
        return False
    moment = when_taken(reading)
    last = next((each for each in reversed(said) if when_taken(each) < moment), None)
    right = last is not None and isinstance(last.taken, Tick) and last.taken.good
    return not (right and last is not None and is_after(last, before[-1]))


def put_back_owed(record: Record) -> Owed | None:
    """Return what the dead tests took off since it was last said that all is back; None: nothing.

    A record without any such test owes nothing here; that the question is unanswered is another
    matter, see `records.interlock.dead_tests`.
    """
    record = all_counted(record)
    off = [
        each
        for each in record.readings
        if each.slot.stage is not Stage.LIVE
        and each.slot.quantity in TAKES_OFF
        and isinstance(each.taken, Figure | Tick)
    ]
    read = [
        each
        for each in record.cautions_read
        if each.before.stage is not Stage.LIVE and each.before.quantity in LIFTS_AN_EARTH
    ]
    back = _last_right(record, PUT_BACK)
    since = [each for each in off if back is None or not is_after(back, each)]
    in_turn = sorted(since, key=when_taken)
    names = tuple(dict.fromkeys(_name_of_what_is_off(record, each.slot) for each in in_turn))
    return _owed(record, PUT_BACK, off, read, names or ("the electrode's conductor",))


def _name_of_what_is_off(record: Record, slot: Slot) -> str:
    """Return what a dead test takes off; of several bonds, which one."""
    bonds = {each.id: each.what for each in record.board.bonds if each.what}
    if slot.quantity is Quantity.BONDING and slot.place.point in bonds:
        return f"the bonding conductor to {bonds[slot.place.point]}"
    return TAKES_OFF[slot.quantity]


def owed_since(record: Record, slot: Slot) -> datetime | None:
    """Return since when the question of this slot is owed; None if it is not."""
    if slot == PUT_BACK:
        owed = put_back_owed(record)
    else:
        owed = next((each for each in earths_owed(record) if each.slot == slot), None)
    return owed.since if owed is not None else None


def put_back_shown(record: Record) -> bool:
    """Return whether somebody said that all is put back, and nothing came off since."""
    return _last_right(record, PUT_BACK) is not None and put_back_owed(record) is None


def calculated(reading: Reading) -> bool:
    """Return whether its method says that a loop was calculated, so that nothing came off."""
    method = reading.method.casefold()
    return "calc" in method or "worked out" in method


def is_after(later: Reading, earlier: Reading) -> bool:
    """Return whether one reading is shown to have been taken after another.

    Rows of a sheet without a time count as taken when they were entered: of two of them nobody
    knows which came first, and the order of rows shows nothing. Of two that were entered as
    they were taken, the later one was entered later as well: a clock that stood ahead, or a file
    with other times, shows nothing.
    """
    if later.at == earlier.at and _time_unknown(later) and _time_unknown(earlier):
        return False
    if _at_once(later, earlier) and _count(later) < _count(earlier):
        return False
    return when_taken(later) > when_taken(earlier)


def _owed(
    record: Record,
    slot: Slot,
    off: Iterable[Reading],
    read: Iterable[CautionRead],
    what: tuple[str, ...],
) -> Owed | None:
    back = _last_right(record, slot)
    undone = [each.at for each in off if back is None or not is_after(back, each)]
    # What was read is about now; an answer from notes counts from when it was given here.
    undone += [each.at for each in read if back is None or (back.from_notes or back.at) < each.at]
    if not undone:
        return None
    answers = record.taken(slot)
    answer = answers[-1] if answers and answers[-1] is not back else None
    return Owed(slot, max(undone), what, answer)


def _last_right(record: Record, slot: Slot) -> Reading | None:
    """Return the answer that all is back, if it is the last answer of a person to the question.

    “No” after it says that it is off again. “Could not” and “not needed” say nothing of it.
    """
    last: Reading | None = None
    for each in record.taken(slot):
        if isinstance(each.taken, Tick) and (
            last is None or not _at_once(each, last) or _count(each) > _count(last)
        ):
            last = each
    return last if last is not None and isinstance(last.taken, Tick) and last.taken.good else None


def last_ones(taken: Sequence[Reading]) -> tuple[Reading, ...]:
    """Return the readings of a slot that may be its last one: by its time, and as entered.

    They are one and the same unless a clock stood ahead, or ids came from elsewhere: then neither
    is known to be the last, and each has to be right.

    Args:
        taken: Of one slot, in the order of their times; at least one.
    """
    last = taken[-1]
    if last.from_notes is not None:
        return (last,)
    entered = max((each for each in taken if each.from_notes is None), key=_count)
    return (last,) if entered is last else (entered, last)


def _at_once(one: Reading, other: Reading) -> bool:
    """Return whether both were entered as they were taken, so that their count is their order."""
    return one.from_notes is None and other.from_notes is None


def _count(reading: Reading) -> int:
    return int(reading.id[1:])


def _time_unknown(reading: Reading) -> bool:
    return reading.from_notes is not None and reading.from_notes == reading.at
