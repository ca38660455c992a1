"""Annex A: every reading, before covering and now side by side; by whom, when, with which meter."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from records.document.groups import group_name, grouped, point_name
from records.document.ink import Part, Value, ink, link, look, mark
from records.document.ledger import late
from records.document.log_habits import Habits
from records.document.reading_cells import Cells, short_limit
from records.document.words import Clock, joined
from records.document.workings import Workings
from records.expected.results import Expected, NotWorkedOut
from records.judgement.wording import less_leads
from records.model.reading import Figure, NotNeeded, NotTaken, Place, Reading, Slot
from records.model.slots import measured_by
from records.terms import Stage, Verdict
from records.units import Unit


class Log:
    """The readings of a record, taken or not, in the order of the work."""

    def __init__(self, cells: Cells, expected: Expected, workings: Workings, clock: Clock) -> None:
        """Take what the lines are made from."""
        self._cells, self._ledger = cells, cells.ledger
        self._expected, self._workings, self._clock = expected, workings, clock
        self._habits = Habits(cells.record, clock)

    def legend(self) -> str:
        """Return what stands above the log: people, meters, and what holds unless noted."""
        return self._habits.legend()

    def groups(self) -> list[dict[str, Any]]:
        """Return the groups with their lines; none before the first reading."""
        if not self._cells.record.readings:
            return []
        tests: dict[tuple[Place, str], dict[Stage, Slot]] = {}
        for slot in self._cells.known:
            stages = tests.setdefault((slot.place, slot.quantity.code), {})
            stages[slot.stage] = slot
        return [
            {
                "name": group_name(self._cells.record, group),
                "taken": self._habits.taken(group) or "No reading is taken yet.",
                "lines": [line for stages in inside for line in self._lines(stages)],
            }
            for group, inside in grouped(
                self._cells.record, tests.values(), lambda it: next(iter(it.values())).place
            )
        ]

    def _lines(self, stages: dict[Stage, Slot]) -> Iterable[dict[str, Value]]:
        early = stages.get(Stage.BEFORE_COVERING)
        now = stages.get(Stage.DEAD) or stages.get(Stage.LIVE)
        other = stages.get(Stage.LIVE) if Stage.DEAD in stages else None
        if other is not None:  # asked at both: two lines
            yield from self._test(early, now)
            yield from self._test(None, other)
        else:
            yield from self._test(early, now)

    def _test(self, early: Slot | None, now: Slot | None) -> Iterable[dict[str, Value]]:
        main = now or early
        if main is None:
            return
        first, last = self._attempts(early), self._attempts(now)
        for at in range(max(len(first), len(last), 1)):
            remarks = (
                self._remark(early, first, at, "before covering: " if at < len(last) else ""),
                self._remark(now, last, at),
            )
            remark = joined(remarks, " · ")
            yield {
                **(self._what(main) if at == 0 else {"what": "", "expected": "", "limit": ""}),
                "before": self._value(early, at),
                "now": self._value(now, at),
                "remark": "",
                **({"remark": remark} if at == 0 else {"what": joined((_again(at), remark), " ")}),
            }
        for slot in (early, now):
            yield from self._beside(slot)

    def _beside(self, slot: Slot | None) -> Iterable[dict[str, Value]]:
        """Yield a line for each reading that the certifier took of the same."""
        for each in self._cells.record.certifier_readings:
            if slot is None or each.slot != slot:
                continue
            early = slot.stage is Stage.BEFORE_COVERING
            value = _shown(self._cells, slot, each)
            yield {
                "what": "   certifier’s own",
                "expected": "",
                "limit": "",
                "before": value if early else "",
                "now": "" if early else value,
                "remark": joined((self._habits.how(each), each.method, each.note), "; "),
            }

    def _attempts(self, slot: Slot | None) -> list[Reading]:
        return self._cells.attempts.get(slot, []) if slot is not None else []

    def _what(self, slot: Slot) -> dict[str, Value]:
        own = self._cells.own.get(slot)
        result = own.expected if own and own.expected else self._expected.meter.get(slot)
        number = self._workings.number(slot.place, result)
        shown: list[Part] = ["–"]
        if result is not None and not isinstance(result, NotWorkedOut):
            shown = [str(result).replace("within ", "≤ ")]
            shown += [" ", link(number, number)] if number else []
        what = joined((slot.quantity.value, point_name(self._cells.record, slot.place)))
        return {
            "what": what[:1].upper() + what[1:] if what[:2] not in ("r1", "rn", "r2") else what,
            "expected": ink(shown),
            "limit": ink(short_limit(own, self._ledger)),
        }

    def _value(self, slot: Slot | None, at: int) -> Value:
        if slot is None:
            return ""
        attempts, own = self._attempts(slot), self._cells.own.get(slot)
        name = self._cells.numbers[slot]
        if not attempts:
            verdict = own.verdict if own else Verdict.NOT_TAKEN
            text = "not taken" if verdict is Verdict.NOT_TAKEN else verdict.value
            return ink(mark(f"{verdict.mark} {text}", name, "Quiet")) if at == 0 else ""
        if at >= len(attempts):
            return ""
        value = _shown(self._cells, slot, attempts[at])
        if at < len(attempts) - 1:
            stood = own.stood[at] if own and own.stood else None
            said = f"{value} {stood.verdict.mark}" if stood else value
            return ink(mark(said, name, "Quiet") if at == 0 else look(said, "Quiet"))
        flags = self._ledger.flags(self._ledger.told(slot))
        shown = mark(value, name) if at == 0 else value
        if own is None:
            # Design inputs changed after it was taken: it stays on paper, for the certifier.
            return ink(shown, look(" no longer asked for", "Quiet"), flags)
        verdict_mark = f" {own.verdict.mark}"
        return ink(shown, verdict_mark, self._ledger.memory(own), late(own), flags)

    def _remark(self, slot: Slot | None, attempts: list[Reading], at: int, when: str = "") -> str:
        if slot is None or at >= len(attempts):
            return ""
        it, own = attempts[at], self._cells.own.get(slot)
        typed = it.taken.typed if isinstance(it.taken, Figure) else ""
        reason = it.taken.reason if isinstance(it.taken, NotTaken | NotNeeded) else ""
        elsewhere = ""
        if isinstance(it.taken, NotTaken) and it.taken.stands_in is not None:
            elsewhere = f"recorded in: {it.taken.stands_in.where}"
        unsaid = isinstance(it.taken, Figure) and not it.test_voltage
        said = joined(
            (
                self._habits.departs(it, again=at > 0),
                reason,
                elsewhere,
                less_leads(it.taken, measured_by(slot)),
                f"typed “{typed}”" if any(each.isalpha() for each in typed) else "",
                it.note,
                "test voltage not given"
                if unsaid and measured_by(slot).unit is Unit.MEGOHM
                else "",
                own.judged_again if own and at == len(attempts) - 1 else "",
            ),
            "; ",
        )
        return f"{when}{said}" if said else ""


def _shown(cells: Cells, slot: Slot, reading: Reading) -> str:
    if isinstance(reading.taken, NotTaken):
        return "could not be taken"
    if isinstance(reading.taken, NotNeeded):
        return "not needed"
    return cells.value(slot, reading.taken, unit=True)


def _again(at: int) -> str:
    return f"  retest {at}" if at > 1 else "  retest"
