"""The numbers by which parts refer to one another: Fn findings, [n] sources, Nn notes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from records.document.ink import Part, Value, ink, link, look, mark
from records.evidence import Source
from records.expected.results import NotWorkedOut, Result
from records.judgement.review_types import Judged, Limit, Review
from records.judgement.trust import MARK, memory_note
from records.model.reading import Quantity, Slot
from records.model.slots import measured_by
from records.terms import Basis

Group = tuple[Judged, ...]
"""Findings of one kind at several places, told once."""


def troubles(review: Review) -> tuple[Judged, ...]:
    """Return the findings with a real problem in them, worst first; gaps have their own part."""
    return tuple(each for each in review.findings if each.is_trouble)


class Ledger:
    """Gives out numbers in the order of first use, while a schedule is put together."""

    def __init__(self, review: Review) -> None:
        """Number the findings, alike ones together, and note which readings each is about."""
        self.groups = _alike(troubles(review))
        self._findings = {
            each.key: f"F{at}" for at, group in enumerate(self.groups, start=1) for each in group
        }
        self._sources: dict[Source, int] = {}
        self._notes: dict[str, int] = {}
        self._told: dict[Slot, list[str]] = {}
        for line in review.lines:
            number = self.finding(line)
            about = tuple(filter(None, (line.slot, *line.about)))
            for slot in about if number else ():
                if number not in self._told.setdefault(slot, []):
                    self._told[slot].append(number)

    def finding(self, line: Judged) -> str:
        """Return the number of the finding that a line is, or is told by; "" if it is none."""
        return self._findings.get(line.part_of or line.key, "")

    def told(self, *slots: Slot) -> list[str]:
        """Return the numbers of the findings that readings are part of, each once, in order."""
        found = {number for slot in slots for number in self._told.get(slot, [])}
        return sorted(found, key=lambda each: int(each[1:]))

    def at(self, circuit: str) -> list[str]:
        """Return the numbers of the findings that a circuit has a part in, in order."""
        found = {
            number
            for slot, numbers in self._told.items()
            if slot.place.circuit == circuit
            for number in numbers
        }
        found |= {
            self.finding(it) for group in self.groups for it in group if it.place.circuit == circuit
        }
        return sorted(found, key=lambda each: int(each[1:]))

    def flags(self, numbers: Iterable[str]) -> list[Part]:
        """Return finding numbers as marks that lead to the findings."""
        return [part for each in numbers for part in (" ", link(each, each, "Flag"))]

    def source(self, source: Source) -> Part:
        """Return the reference to a source, such as `[3]`."""
        number = self._sources.setdefault(source, len(self._sources) + 1)
        return link(f"[{number}]", f"source_{number}")

    def sources(self, sources: Iterable[Source]) -> list[Part]:
        """Return the references to some sources."""
        return [part for each in sources for part in (" ", self.source(each))][1:]

    def result(self, result: Result | None) -> list[Part]:
        """Return a figure, or a reference to the note that says why there is none."""
        if result is None:
            return ["–"]
        if not isinstance(result, NotWorkedOut):
            return [str(result)]
        return ["– ", self.note(result.why)]

    def note(self, text: str) -> Part:
        """Return the reference to a note, such as `N3`."""
        number = f"N{self._notes.setdefault(text, len(self._notes) + 1)}"
        return link(number, f"note_{number}")

    def memory(self, line: Judged | None) -> list[Part]:
        """Return the mark of a verdict that a figure from memory decides, with its note."""
        note = memory_note(line) if line is not None else ""
        return [f" {MARK} ", self.note(note)] if note else []

    def limit(self, limit: Limit | None) -> list[Part]:
        """Return a limit with the reference to its source."""
        return [f"{limit} ", self.source(limit.source)] if limit else ["–"]

    @property
    def source_list(self) -> list[Value]:
        """All sources referred to, as they are printed."""
        return [
            ink(mark(f"[{number}]", f"source_{number}"), f"  {_source_words(source)}")
            for source, number in self._sources.items()
        ]

    @property
    def note_list(self) -> list[Value]:
        """All notes referred to, as they are printed."""
        return [
            ink(mark(f"N{number}", f"note_N{number}", "Strong"), f"  {why}")
            for why, number in self._notes.items()
        ]


def _source_words(source: Source) -> str:
    """Return a source for the list, over which it is said once what a copy is."""
    said = str(source).replace(f"({Basis.READ.value})", "(copy)")
    return re.sub(r"\(read in (.*); not in the standard itself\)", r"(copy: \1)", said)


def late(line: Judged | None) -> list[Part]:
    """Return the mark of a reading whose meter was out of calibration."""
    return [look(f" {line.meter_mark}", "Strong")] if line and line.meter_mark else []


def _alike(found: Sequence[Judged]) -> list[Group]:
    groups: dict[object, list[Judged]] = {}
    for each in found:
        groups.setdefault(_kind(each), []).append(each)
    return [tuple(each) for each in groups.values()]


def _kind(it: Judged) -> object:
    """Return what findings have in common that are told once: all but place and figures."""
    if it.remedies or it.found or it.judged_again:
        return it.key
    quantity: Quantity | None = it.slot.quantity if it.slot else None
    name = measured_by(it.slot).title if it.slot else it.key.rsplit("/", 1)[-1]
    stage = it.slot.stage if it.slot else None
    return it.verdict, it.place.part, quantity, name, stage, it.patterns, it.causes, it.next_check
