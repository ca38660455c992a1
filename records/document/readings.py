"""The context of the sheet of readings: one line for each reading, early ones kept beside late."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from records.document.groups import STAGES, group_name, grouped, point_name, what_name
from records.document.ledger import Ledger
from records.document.people import how
from records.document.words import Clock, figure, joined
from records.document.workings import Workings
from records.expected.results import Expected
from records.judgement.review_types import Judged, Review
from records.judgement.wording import less_leads, said
from records.model.reading import Figure, NotNeeded, NotTaken, Reading, Slot
from records.model.record import Record
from records.model.slots import measured_by, slots
from records.terms import Stage, Verdict
from records.units import Unit

_ALARM = (Verdict.OUTSIDE, Verdict.UNLIKELY)
_MOST_IN_A_CELL = 64
"""Characters that a narrow column still shows well; longer remarks get a row of their own."""


class Sheet:
    """All readings of a record, taken or not, with what is said about them."""

    def __init__(
        self, record: Record, expected: Expected, review: Review, ledger: Ledger, clock: Clock
    ) -> None:
        """Look up the verdicts of each slot.

        Args:
            record: The job.
            expected: What follows from it.
            review: The verdicts on it.
            ledger: Numbers the sources, findings and notes.
            clock: Prints the times.
        """
        self._record, self._expected = record, expected
        self._ledger, self._clock = ledger, clock
        self._workings = Workings(record, expected)
        self._own: dict[Slot, Judged] = {}
        self._told: dict[Slot, list[str]] = {}
        self._attempts: dict[Slot, list[Reading]] = {}
        for reading in record.readings:
            self._attempts.setdefault(reading.slot, []).append(reading)
        for line in review.lines:
            if line.slot is not None:
                self._own.setdefault(line.slot, line)
            number = ledger.finding(line)
            for slot in filter(None, (line.slot, *line.about)) if number else ():
                if number not in self._told.setdefault(slot, []):
                    self._told[slot].append(number)

    @property
    def workings(self) -> Workings:
        """The numbers of the workings that the lines refer to."""
        return self._workings

    def groups(self) -> list[dict[str, Any]]:
        """Return the groups with their lines, in the order of the work."""
        order = {stage: at for at, stage in enumerate(Stage)}
        known = dict.fromkeys((*slots(self._record), *self._own, *self._attempts))
        return [
            {
                "name": group_name(self._record, place),
                "lines": [
                    line
                    for slot in sorted(inside, key=lambda each: order[each.stage])
                    for line in self._lines(slot)
                ],
            }
            for place, inside in grouped(self._record, known, lambda slot: slot.place)
        ]

    def _lines(self, slot: Slot) -> Iterable[dict[str, Any]]:
        own = self._own.get(slot)
        attempts = list(own.attempts if own else ()) or sorted(
            self._attempts.get(slot, []), key=lambda each: each.at
        )
        first = self._first(slot, own)
        if not attempts:
            verdict = own.verdict if own else Verdict.NOT_TAKEN
            yield {**first, **self._verdict(slot, own, verdict), "measured": "–",
                   "detail": "", "remark": "", "how": ["–"]}  # fmt: skip
            return
        for at, reading in enumerate(attempts):
            last = at == len(attempts) - 1
            line = first if at == 0 else {**first, "expected": "as above", "limit": "as above"}
            named = f"{first['what']}{_turn(at, len(attempts))}"
            state = (
                self._verdict(slot, own, own.verdict if own else None)
                if last
                else _replaced(own, at)
            )
            yield {
                **line,
                **state,
                "what": named,
                **_measured(
                    reading,
                    own.anew if own and last else "",
                    own.meter_mark if own and last else "",
                ),
                "how": how(self._record, reading, self._clock),
            }

    def _first(self, slot: Slot, own: Judged | None) -> dict[str, str]:
        result = own.expected if own and own.expected else self._expected.meter.get(slot)
        number = self._workings.number(slot.place, result)
        return {
            "where": joined((slot.place.circuit or "", point_name(self._record, slot.place)), " · ")
            or slot.place.part.value,
            "what": what_name(slot),
            "stage": STAGES[slot.stage],
            "expected": joined((self._ledger.result(result), number), "  "),
            "limit": self._ledger.limit(own.limit if own else None),
        }

    def _verdict(self, slot: Slot, own: Judged | None, verdict: Verdict | None) -> dict[str, str]:
        if verdict is None:
            # Design inputs changed after it was taken: it stays on paper, for the certifier.
            return {"verdict": "not judged: no longer asked for", "see": "", "alarm": ""}
        told = self._told.get(slot, [])
        return {
            "verdict": f"{verdict.mark} {verdict.value}{self._ledger.memory(own)}",
            "see": f"see {', '.join(told)}" if told else "",
            "alarm": "yes" if verdict in _ALARM else "",
        }


def _replaced(own: Judged | None, at: int) -> dict[str, str]:
    """Return how an earlier reading stood when it was taken; a re-test doesn't smooth it over."""
    stood = own.stood[at] if own and own.stood else None
    return {
        "verdict": f"{stood.words}, then re-tested" if stood else "re-tested",
        "see": "",
        "alarm": "yes" if stood and stood.verdict in _ALARM else "",
    }


def _turn(at: int, of: int) -> str:
    if of == 1:
        return ""
    if at == 0:
        return " (first reading)"
    return " (re-test)" if of == 2 else f" (re-test {at})"


def _measured(reading: Reading, anew: str, mark: str) -> dict[str, str]:
    """Return what was read, how, and what is too long to say in the narrow column."""
    typed = reading.taken.typed if isinstance(reading.taken, Figure) else ""
    value = said(reading.taken, measured_by(reading.slot))
    short, reason = value, ""
    if isinstance(reading.taken, NotTaken | NotNeeded) and len(value) > _MOST_IN_A_CELL:
        short, reason = value.split(":")[0], reading.taken.reason
    remarks = joined((reading.method, reading.note), "; ")
    below = remarks if len(remarks) > _MOST_IN_A_CELL else ""
    detail = (
        less_leads(reading.taken, measured_by(reading.slot)),
        f"typed “{typed}”" if any(each.isalpha() for each in typed) else "",
        f"at {figure(reading.test_voltage, Unit.VOLT)} d.c." if reading.test_voltage else "",
        f"at {figure(reading.temperature, Unit.CELSIUS)}"
        if reading.temperature is not None
        else "",
        "" if below else remarks,
    )
    return {
        "measured": f"{short} {mark}".strip(),
        "detail": joined(detail, "; "),
        "remark": joined((joined((reason, below), "; "), anew), ". "),
    }
