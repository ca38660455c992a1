"""The readings of a finding: each in full, or by kind of test where there are many."""

from __future__ import annotations

from collections.abc import Iterable

from records.document.front import where
from records.document.groups import STAGES
from records.document.ink import Part, Value, ink, link
from records.document.ledger import Group
from records.document.people import how
from records.document.reading_cells import Cells
from records.document.words import Clock
from records.document.workings import Workings
from records.expected.results import NotWorkedOut
from records.judgement.one_reading import how_read
from records.judgement.review_types import Judged
from records.judgement.wording import said
from records.model.reading import Place, Reading, Slot
from records.model.slots import measured_by, title

MANY = 12
"""Readings or places of one finding that are still printed one by one, in full."""


class FindingReadings:
    """What was read where a finding is, with expectation and limit."""

    def __init__(self, cells: Cells, workings: Workings, clock: Clock) -> None:
        """Take what the lines are made from."""
        self._record, self._cells, self._ledger = cells.record, cells, cells.ledger
        self._workings, self._clock = workings, clock

    def lines(self, group: Group) -> list[Value]:
        """Return the lines of alike findings that are told together."""
        number = sum(len(it.attempts) + len(_about(it)) for it in group)
        return self._by_test(group) if number > MANY else [*self._one_by_one(group)]

    def _one_by_one(self, group: Group) -> Iterable[Value]:
        number = self._ledger.finding(group[0])
        for it in group:
            named = f"{where(self._record, it)}: " if len(group) > 1 else ""
            for at, reading in enumerate(it.attempts):
                then = f": {it.stood[at].words}" if at < len(it.attempts) - 1 and it.stood else ""
                taken = f"{how_read(reading)} ({self._how(reading)}){then}"
                other = self._others(reading.slot, number)
                yield ink(named, self._linked(reading), taken, other)
            for slot in _about(it):
                before = "" if slot.place == it.place else named
                yield ink(before, self._latest(slot), self._others(slot, number))
            bound = [*self._against(it)]
            if bound:
                yield ink(named, bound)

    def _by_test(self, group: Group) -> list[Value]:
        """Return a line for each kind of test, with the last reading at each place."""
        number = self._ledger.finding(group[0])
        tests: dict[str, list[Part]] = {}
        for it in group:
            for slot in dict.fromkeys((*(each.slot for each in it.attempts), *_about(it))):
                taken = self._record.taken(slot)
                what = f"{measured_by(slot).title} ({STAGES[slot.stage]}): "
                places = tests.setdefault(what, [])
                places += ["; " if places else "", f"{short(slot.place)} "]
                places.append(self._linked(taken[-1]) if taken else "not taken")
                limit = it.limit if slot == it.slot else None
                places.append(f" (limit {limit})" if limit is not None else "")
                places += self._others(slot, number)
        return [
            *(ink(what, places, ".") for what, places in tests.items()),
            "When, by whom and with which meter each was taken: Annex A.",
        ]

    def _against(self, it: Judged) -> Iterable[Part]:
        if it.expected is not None and not isinstance(it.expected, NotWorkedOut):
            number = self._workings.number(it.place, it.expected)
            yield f"{'calculated' if it.slot is None else 'expected'} {it.expected}"
            if number:
                yield " "
                yield link(number, number)
        if it.limit is not None:
            known = it.expected is not None and not isinstance(it.expected, NotWorkedOut)
            yield "; limit " if known else "limit "
            yield from self._ledger.limit(it.limit)
            yield f" ({it.limit.note})" if it.limit.note else ""

    def _others(self, slot: Slot, number: str) -> list[Part]:
        """Return the marks of the other findings that a reading is part of."""
        return self._ledger.flags(each for each in self._ledger.told(slot) if each != number)

    def _linked(self, reading: Reading) -> Part:
        words = said(reading.taken, measured_by(reading.slot))
        number = self._cells.numbers.get(reading.slot)
        return link(words, number) if number else words

    def _latest(self, slot: Slot) -> list[Part]:
        taken = self._record.taken(slot)
        what = f"{title(self._record, slot.place)}, {measured_by(slot).title} "
        last: list[Part] = ["not taken"]
        if taken:
            last = [self._linked(taken[-1]), f" ({self._how(taken[-1])})"]
        return [f"{what}({STAGES[slot.stage]}): ", *last]

    def _how(self, reading: Reading) -> str:
        return ", ".join(how(self._record, reading, self._clock))


def short(place: Place) -> str:
    """Return a place by its numbers alone, such as `C4` or `C1 P5`."""
    return " ".join(filter(None, (place.circuit or place.part.value, place.point)))


def _about(it: Judged) -> list[Slot]:
    """Return the readings that a finding is made of beside its own."""
    own = {each.slot for each in it.attempts}
    return [each for each in dict.fromkeys(it.about) if each not in own]
