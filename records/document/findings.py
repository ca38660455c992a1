"""The context of the sheet of findings: worst first, with what was done, and what was put right."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from records.document.groups import STAGES
from records.document.ledger import Ledger
from records.document.people import how, name
from records.document.words import Clock, joined, shortened
from records.document.workings import Workings
from records.judgement.remedy.smallest_change import mends
from records.judgement.review_types import Judged, Review
from records.judgement.wording import done_line, in_full
from records.model.reading import Reading, Remedy, Slot
from records.model.record import Record
from records.model.slots import measured_by, title

_MOST_AT_FRONT = 8
_AT_FRONT = 90
_CAUSES = 3
"""Causes that a finding is told with where it was put right."""


def troubles(review: Review) -> tuple[Judged, ...]:
    """Return the findings with a real problem in them, worst first; gaps have their own sheet."""
    return tuple(each for each in review.findings if each.is_trouble)


class Findings:
    """The findings of a review in words."""

    def __init__(
        self, record: Record, review: Review, ledger: Ledger, workings: Workings, clock: Clock
    ) -> None:
        """Take what the words are made from; `ledger` has numbered the findings already."""
        self._record, self._review, self._ledger = record, review, ledger
        self._workings, self._clock = workings, clock

    def at_front(self) -> list[str]:
        """Return the first few, a sentence each, for the first sheet."""
        found = troubles(self._review)
        lines = [
            f"{self._ledger.finding(each)}  {_standing(each)}: {shortened(each.title, _AT_FRONT)}"
            for each in found[:_MOST_AT_FRONT]
        ]
        rest = len(found) - _MOST_AT_FRONT
        return [*lines, f"… and {rest} more, on the sheet of findings."] if rest > 0 else lines

    def listed(self) -> list[dict[str, Any]]:
        """Return each finding with its readings, expectation, limit, causes, check, remedies."""
        return [self._finding(each) for each in troubles(self._review)]

    def put_right(self) -> list[dict[str, str]]:
        """Return what a remedy was recorded for and is no finding of its own any more."""
        lines = [
            {
                "title": each.title,
                "done": joined(map(self._remedy, each.remedies), " "),
                "readings": joined((*self._found(each), *self._since(each)), "; "),
                "now": joined((_verdict(each), self._ledger.finding(each)), ", "),
            }
            for each in self._review.put_right
        ] + [
            # A finding of the design that went with an input: nothing is closed without a word.
            {
                "title": each.title,
                "done": each.anew,
                "readings": "none: it is a design figure",
                "now": _verdict(each),
            }
            for each in self._review.lines
            if each.anew and each.slot is None and not each.remedies and not each.is_trouble
        ]
        return lines + [
            {
                "title": _key_in_words(each.finding),
                "done": self._remedy(each),
                "readings": "–",
                "now": "no longer found",
            }
            for each in self._review.settled
        ]

    def _finding(self, it: Judged) -> dict[str, Any]:
        number = self._workings.number(it.place, it.expected)
        ground = self._ledger.source(it.source) if it.source else ""
        return {
            "number": self._ledger.finding(it),
            "verdict": _standing(it),
            "title": it.title,
            "readings": list(self._readings(it)) or ["none: it is a design figure"],
            "expected": joined((self._ledger.result(it.expected), number), "  ")
            if it.expected
            else "",
            "limit": joined((self._ledger.limit(it.limit), it.limit.note), "; ")
            if it.limit
            else "",
            "why": joined((it.why, it.anew, ground), " "),
            "causes": list(it.causes),
            "next_check": joined((it.next_check, *self._mends(it)), " "),
            "remedies": [self._remedy(each) for each in it.remedies] or ["nothing recorded yet"],
        }

    def _mends(self, it: Judged) -> Iterable[str]:
        found = mends(self._record, it)
        if found:
            yield "Any one of these alone would put it right, calculated on the design:"
            yield from (f"({number}) {each}" for number, each in enumerate(found, start=1))

    def _readings(self, it: Judged) -> Iterable[str]:
        for at, reading in enumerate(it.attempts):
            then = f": {it.stood[at].words}" if at < len(it.attempts) - 1 and it.stood else ""
            yield f"{self._reading(reading)}{then}"
        seen = {each.slot for each in it.attempts}
        for slot in dict.fromkeys(it.about):
            if slot not in seen:
                yield self._latest(slot)

    def _found(self, it: Judged) -> Iterable[str]:
        """Return what was found before the last reading: its verdict then, and likely causes."""
        for reading, then in it.found:
            likely = f", likely {' or '.join(then.causes[:_CAUSES])}" if then.causes else ""
            yield f"found {self._reading(reading)}: {then.words}{likely}"

    def _since(self, it: Judged) -> Iterable[str]:
        bad = {reading.id for reading, _ in it.found}
        yield from (self._reading(each) for each in it.attempts if each.id not in bad)

    def _latest(self, slot: Slot) -> str:
        taken = self._record.taken(slot)
        value = self._reading(taken[-1]) if taken else "not taken"
        what = f"{title(self._record, slot.place)}, {measured_by(slot).title}"
        return f"{what} ({STAGES[slot.stage]}): {value}"

    def _reading(self, reading: Reading) -> str:
        words = in_full(reading.taken, measured_by(reading.slot))
        return f"{words} ({', '.join(how(self._record, reading, self._clock))})"

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
