"""The findings in full, worst first, with what was done, and what was put right."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from records.document.finding_readings import MANY, FindingReadings, short
from records.document.front import what_of, where
from records.document.ink import Part as InkPart
from records.document.ink import Value, ink, mark
from records.document.ledger import Group
from records.document.people import how, name
from records.document.places import OWN, own_place
from records.document.reading_cells import Cells
from records.document.words import Clock, joined
from records.document.workings import Workings
from records.judgement.one_reading import beyond_opening
from records.judgement.remedy.smallest_change import Mends
from records.judgement.review_types import Judged, Review
from records.judgement.wording import done_line, in_full
from records.model.reading import Reading, Remedy
from records.model.slots import measured_by


class Findings:
    """The findings of a review in words."""

    def __init__(self, cells: Cells, review: Review, workings: Workings, clock: Clock) -> None:
        """Take what the words are made from; the ledger has numbered the findings already."""
        self._record, self._review, self._ledger = cells.record, review, cells.ledger
        self._mend = Mends(cells.record)
        self._readings, self._clock = FindingReadings(cells, workings, clock), clock

    def listed(self) -> list[dict[str, Any]]:
        """Return each finding with its readings, limit, causes, check and remedies, worst first."""
        return [self._finding(group) for group in self._ledger.groups]

    def put_right(self) -> list[dict[str, Value]]:
        """Return what a remedy was recorded for and is no finding of its own any more."""
        lines: list[dict[str, Value]] = [
            {
                "title": each.title,
                "done": joined(map(self._remedy, each.remedies), " "),
                "readings": joined((*self._found(each), *self._since(each)), "; "),
                "now": ink(_verdict(each), self._flags(each)),
            }
            for each in self._review.put_right
        ] + [
            # A finding of the design that went with an input: nothing is closed without a word.
            {
                "title": each.title,
                "done": each.judged_again,
                "readings": "none: it is a design figure",
                "now": _verdict(each),
            }
            for each in self._review.lines
            if each.judged_again and each.slot is None and not each.remedies and not each.is_trouble
        ]
        settled: list[dict[str, Value]] = [
            {
                "title": _key_in_words(each.finding),
                "done": self._remedy(each),
                "readings": "–",
                "now": "no longer found",
            }
            for each in self._review.settled
        ]
        return lines + settled

    def _flags(self, it: Judged) -> list[InkPart]:
        number = self._ledger.finding(it)
        return self._ledger.flags([number] if number else [])

    def _finding(self, group: Group) -> dict[str, Any]:
        it = group[0]
        number = self._ledger.finding(it)
        rows: list[tuple[str, list[Value]]] = [
            ("Where", [self._places(group)] if len(group) > 1 else []),
            ("Reading" if len(group) == 1 else "Readings", self._readings.lines(group)),
            ("Why", [*self._whys(group)]),
            ("Likely cause", [joined(it.causes, "; ")] if it.causes else []),
            ("Do next", [joined((it.next_check, *self._mends(it)), " ")]),
            ("What was done", [self._remedy(each) for each in it.remedies]),
        ]
        return {
            "number": ink(mark(number, number, "Flag")),
            "title": f"{_standing(it)}: {what_of(it)}",
            "where": where(self._record, it) if len(group) == 1 else f"{len(group)} places",
            "rows": [
                {"name": name, "lines": [each for each in lines if each]}
                for name, lines in rows
                if any(lines)
            ],
            "place": own_place(OWN + number),
        }

    def _places(self, group: Group) -> str:
        return "; ".join(dict.fromkeys(where(self._record, each) for each in group))

    def _whys(self, group: Group) -> Iterable[Value]:
        """Yield why each of alike findings is one; where all say the same, once."""
        said = [ink(self._why(each)) for each in group]
        if all(each == said[0] for each in said):
            yield said[0]
            return
        for it, why in zip(group, said, strict=True):
            named = where(self._record, it) if len(group) <= MANY else short(it.place)
            yield ink(f"{named}: ", self._why(it)) if why else ""

    def _why(self, it: Judged) -> list[InkPart]:
        ground: list[InkPart] = [" ", self._ledger.source(it.source)] if it.source else []
        why = joined((beyond_opening(it), it.judged_again), " ")
        if not why and not ground:
            return []
        return [why, *ground, *self._ledger.memory(it)]

    def _mends(self, it: Judged) -> Iterable[str]:
        found = self._mend.of(it)
        if found:
            yield "Any one of these alone would put it right, calculated on the design:"
            yield from (f"({number}) {each}" for number, each in enumerate(found, start=1))

    def _found(self, it: Judged) -> Iterable[str]:
        """Return what was found before the last reading, and its verdict then."""
        for reading, then in it.found:
            yield f"found {self._reading(reading)}: {then.words}"

    def _since(self, it: Judged) -> Iterable[str]:
        bad = {reading.id for reading, _ in it.found}
        yield from (self._reading(each) for each in it.attempts if each.id not in bad)

    def _reading(self, reading: Reading) -> str:
        return f"{in_full(reading.taken, measured_by(reading.slot))} ({self._how(reading)})"

    def _how(self, reading: Reading) -> str:
        return ", ".join(how(self._record, reading, self._clock))

    def _remedy(self, it: Remedy) -> str:
        by = f", {name(self._record, it.by)}" if it.by else ""
        return f"{self._clock.when(it.at)}{by}: {done_line(it)}"


def _verdict(it: Judged) -> str:
    return f"{it.verdict.mark} {it.verdict.value}"


def _standing(it: Judged) -> str:
    """Return the verdict, and how far the finding has come if anything was recorded about it."""
    return f"{_verdict(it)}, {it.life.value}" if it.remedies and it.life else _verdict(it)


def _key_in_words(key: str) -> str:
    return " · ".join(each for each in key.split("/") if each != "-")
