"""The context of the appendix: each figure with its formula, its values and its sources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from records.document.groups import STAGES, group_name, group_of, group_places, together
from records.document.ledger import Ledger
from records.expected.results import Expected, Worked
from records.judgement.wording import rounded
from records.model.reading import Place, Slot
from records.model.record import Record


@dataclass
class _Entry:
    """One working, and all that it is the working of."""

    number: str
    designs: list[str] = field(default_factory=list)
    slots: list[Slot] = field(default_factory=list)

    def figure(self, record: Record) -> str:
        stages = ", ".join(dict.fromkeys(STAGES[each.stage] for each in self.slots))
        meter = f"{together(record, self.slots)} ({stages})" if self.slots else ""
        return "; ".join(filter(None, (*self.designs, meter)))


class Workings:
    """All workings of a record, each of a group once however often it is used."""

    def __init__(self, record: Record, expected: Expected) -> None:
        """Number the workings, group by group."""
        self._record = record
        found: dict[Place, dict[Worked, _Entry]] = {each: {} for each in group_places(record)}
        for place, worked, said in _all(expected):
            group = found.setdefault(group_of(place), {})
            entry = group.setdefault(worked, _Entry(""))
            if isinstance(said, Slot):
                entry.slots.append(said)
            else:
                entry.designs.append(said)
        self._groups = {group: entries for group, entries in found.items() if entries}
        entries = (each for inside in self._groups.values() for each in inside.values())
        for at, entry in enumerate(entries, start=1):
            entry.number = f"W{at}"

    def number(self, place: Place, result: object) -> str:
        """Return the number of a working, or "" if it is none of this record."""
        if not isinstance(result, Worked):
            return ""
        entry = self._groups.get(group_of(place), {}).get(result)
        return entry.number if entry else ""

    def listed(self, ledger: Ledger) -> list[dict[str, Any]]:
        """Return the groups and their lines, as the appendix prints them."""
        return [
            {
                "name": group_name(self._record, group),
                "lines": [self._line(each, entry, ledger) for each, entry in entries.items()],
            }
            for group, entries in self._groups.items()
        ]

    def _line(self, it: Worked, entry: _Entry, ledger: Ledger) -> dict[str, str]:
        return {
            "number": entry.number,
            "figure": entry.figure(self._record),
            "formula": " → ".join(filter(None, (it.formula, it.put_in))),
            "note": f" · {it.note}" if it.note else "",
            "result": f"{it}{_range(it)}",
            "sources": ledger.sources(it.sources),
        }


def _range(it: Worked) -> str:
    if it.words or it.low is None or it.high is None:
        return ""
    low, high = (rounded(each, it.unit, it.digits) for each in (it.low, it.high))
    return f" ({low} to {high})"


def _all(expected: Expected) -> Iterator[tuple[Place, Worked, str | Slot]]:
    for (place, what), result in expected.design.items():
        if isinstance(result, Worked):
            yield place, result, f"{what.value}, by design"
    for slot, result in expected.meter.items():
        if isinstance(result, Worked):
            yield slot.place, result, slot
    for (place, what), result in expected.measured.items():
        if isinstance(result, Worked):
            yield place, result, f"{what.value}, from what was read"
