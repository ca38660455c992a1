"""Annex B: figures with their formula, their values and their sources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from records.document.groups import STAGES, group_name, group_of, group_places, together
from records.document.ink import Value, ink, mark
from records.document.lines import depends_on, failed_rcd, rcd_tests
from records.document.reading_cells import Cells
from records.document.words import joined
from records.expected.results import Expected, What, Worked
from records.judgement.review_types import Judged
from records.judgement.wording import rounded
from records.model.reading import Place, Slot
from records.model.record import Record

_FEW = 4


class WorkingsOf(StrEnum):
    """Of which figures the workings are printed."""

    ALL = "all"
    FINDINGS = "findings"
    NONE = "none"


@dataclass
class _Entry:
    """One working, and all that it is the working of."""

    number: str
    designs: list[str] = field(default_factory=list)
    slots: list[Slot] = field(default_factory=list)
    behind: list[Slot] = field(default_factory=list)
    """Readings that it follows from, or that speak against it."""
    failed: bool = False
    """It is the time of an RCD that failed a test: no time of a table holds for that."""

    def figure(self, record: Record) -> str:
        stages = ", ".join(dict.fromkeys(STAGES[each.stage] for each in self.slots))
        meter = f"{together(record, self.slots)} ({stages})" if self.slots else ""
        return "; ".join(filter(None, (*self.designs, meter)))


class Workings:
    """The workings of a record that are printed, each of a group once however often it is used."""

    def __init__(self, cells: Cells, expected: Expected, wanted: WorkingsOf) -> None:
        """Number the workings, group by group; `cells` knows what the findings are about."""
        self._record, self._ledger = cells.record, cells.ledger
        doubted = {key for group in cells.ledger.groups for it in group for key in _keys(it)}
        places = group_places(self._record)
        found: dict[Place, dict[Worked, _Entry]] = {each: {} for each in places}
        for place, worked, said, key in _all(expected):
            if wanted is WorkingsOf.NONE or (wanted is WorkingsOf.FINDINGS and key not in doubted):
                continue
            group = found.setdefault(group_of(place), {})
            entry = group.setdefault(worked, _Entry(""))
            if isinstance(said, Slot):
                entry.slots.append(said)
            else:
                entry.designs.append(said)
                self._against(cells, entry, place, key)
        self._groups = {group: entries for group, entries in found.items() if entries}
        every = (each for inside in self._groups.values() for each in inside.values())
        for at, entry in enumerate(every, start=1):
            entry.number = f"W{at}"

    def _against(self, cells: Cells, entry: _Entry, place: Place, key: object) -> None:
        if isinstance(key, tuple) and key[0] == "read":
            entry.behind += depends_on(cells, place)
        if isinstance(key, tuple) and key[-1] is What.TIME_RCD:
            entry.behind += rcd_tests(cells, place)
            entry.failed = entry.failed or bool(failed_rcd(cells, place))

    def number(self, place: Place, result: object) -> str:
        """Return the number of a working, or "" if it is not printed."""
        if not isinstance(result, Worked):
            return ""
        entry = self._groups.get(group_of(place), {}).get(result)
        return entry.number if entry else ""

    def listed(self) -> list[dict[str, Any]]:
        """Return the groups and their lines, as the annex prints them."""
        return [
            {
                "name": group_name(self._record, group),
                "lines": [self._line(each, entry) for each, entry in entries.items()],
            }
            for group, entries in self._groups.items()
        ]

    def _line(self, it: Worked, entry: _Entry) -> dict[str, Value]:
        flags = self._ledger.flags(self._ledger.told(*entry.slots, *entry.behind))
        return {
            "number": ink(mark(entry.number, entry.number, "Strong")),
            "figure": ink(entry.figure(self._record), flags),
            "formula": joined((it.formula, it.put_in, it.note), " → "),
            "result": "test failed" if entry.failed else f"{it}{_range(it)}",
            "sources": ink(self._ledger.sources(it.sources)),
        }


def _range(it: Worked) -> str:
    if it.words or it.low is None or it.high is None:
        return ""
    low, high = (rounded(each, it.unit, it.digits) for each in (it.low, it.high))
    return f" ({low} to {high})"


def _keys(it: Judged) -> Iterator[object]:
    if it.what is not None:
        yield it.place, it.what
    if it.slot is not None:
        yield it.slot
    # One that is about many readings is about how they were taken, not about their figures.
    about = it.about if len(it.about) <= _FEW else ()
    yield from about
    for slot in (it.slot, *about):
        # What follows from a doubted reading can be followed in figures too.
        if slot is not None and slot.quantity.code == "Zs":
            yield from (("read", slot.place, what) for what in (What.ZS, What.TIME))


def _all(expected: Expected) -> Iterator[tuple[Place, Worked, str | Slot, object]]:
    for (place, what), result in expected.design.items():
        if isinstance(result, Worked):
            yield place, result, f"{what.value}, by design", (place, what)
    for slot, result in expected.meter.items():
        if isinstance(result, Worked):
            yield slot.place, result, slot, slot
    for (place, what), result in expected.measured.items():
        if isinstance(result, Worked):
            yield place, result, f"{what.value}, from what was read", ("read", place, what)
