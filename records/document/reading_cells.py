"""A reading as a table shows it: the number alone, then the marks of what speaks against it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from records.document.ink import Part, Value, ink, link, look
from records.document.ledger import Ledger, late
from records.judgement.review_types import Judged, Review
from records.judgement.wording import amount, said
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Reading, Slot, Tick
from records.model.record import Record
from records.model.slots import measured_by
from records.model.slots import slots as needed_slots
from records.terms import Part as PartOf
from records.terms import Sign, Stage, Verdict
from records.units import Unit

_TURN = "¹²³⁴⁵⁶⁷⁸⁹"


class Cells:
    """Looks up readings and prints them; every place that shows a value asks here."""

    def __init__(self, record: Record, review: Review, ledger: Ledger) -> None:
        """Look up the readings and the verdicts of each slot."""
        self.record, self.ledger = record, ledger
        self._verdicts = review.verdicts
        self.own: dict[Slot, Judged] = {}
        for line in review.lines:
            if line.slot is not None:
                self.own.setdefault(line.slot, line)
        self.attempts: dict[Slot, list[Reading]] = {}
        for reading in record.readings:
            self.attempts.setdefault(reading.slot, []).append(reading)
        for slot, found in self.attempts.items():
            own = self.own.get(slot)
            found[:] = own.attempts if own and own.attempts else sorted(found, key=_order)
        self.known = tuple(dict.fromkeys((*needed_slots(record), *self.own, *self.attempts)))
        """Slots that have a place in this job, and any that were read all the same."""
        self._parts: dict[tuple[PartOf, str | None], list[Slot]] | None = None
        self.numbers = {slot: f"reading_{at}" for at, slot in enumerate(self.known, start=1)}

    def standing(self, slots: Sequence[Slot]) -> Slot | None:
        """Return the last stage at which something was read: live or dead before covering-up."""
        for slot in sorted(slots, key=lambda each: _STAGES.index(each.stage), reverse=True):
            taken = self.attempts.get(slot)
            if taken and not isinstance(taken[-1].taken, NotTaken):
                return slot
        return next(iter(slots), None)

    def cell(self, slots: Sequence[Slot], *, unit: bool = False) -> Value:
        """Return the last standing reading of one test, with its marks; a blank says so.

        Args:
            slots: The test at each of its stages; none if the circuit doesn't have it.
            unit: Whether the unit is printed; else it stands in the heading.
        """
        slot = self.standing(slots)
        if slot is None:
            return "–"
        attempts = self.attempts.get(slot, [])
        flags = self.ledger.flags(self.ledger.told(slot))
        if not attempts:
            missing = any(self._asked(each) for each in slots)
            return ink(look("not taken", "Quiet") if missing else "–", flags)
        taken = attempts[-1].taken
        if isinstance(taken, NotTaken):
            return ink(look("not taken", "Quiet"), flags)
        if isinstance(taken, NotNeeded):
            return ink(look("not needed", "Quiet"), flags)
        return ink(
            link(self.value(slot, taken, unit=unit), self.numbers[slot], "Value"),
            f" {_TURN[min(len(attempts), 9) - 1]}⁾" if len(attempts) > 1 else "",
            late(self.own.get(slot)),
            " ᵇ" if slot.stage is Stage.BEFORE_COVERING and _also_later(slots) else "",
            flags,
        )

    def value(self, slot: Slot, taken: Figure | Tick, *, unit: bool = False) -> str:
        """Return what was read, without its unit unless asked for."""
        measurement = measured_by(slot)
        if isinstance(taken, Tick):
            return "correct" if taken.good else "NOT CORRECT"
        text = said(taken, measurement)
        return text if unit else text.removesuffix(measurement.unit.value).strip()

    def limit(self, slots: Sequence[Slot], *, sense: bool = False) -> str:
        """Return the limit of a test as a number; with `sense` in words and with its unit."""
        slot = self.standing(slots)
        own = self.own.get(slot) if slot is not None else None
        if own is None or own.limit is None:
            return "–"
        if sense:
            return str(own.limit)
        return own.limit.figure

    def by_part(self, part: PartOf, circuit: str | None) -> list[Slot]:
        """Return all slots of a part, or of a circuit."""
        if self._parts is None:
            self._parts = {}
            for each in self.known:
                self._parts.setdefault((each.place.part, each.place.circuit), []).append(each)
        return self._parts.get((part, circuit), [])

    def has_figure(self, slot: Slot) -> bool:
        """Return whether the last reading of a slot is a figure."""
        taken = self.attempts.get(slot)
        return taken is not None and isinstance(taken[-1].taken, Figure)

    def by_circuit(self) -> dict[str | None, dict[Quantity, list[Slot]]]:
        """Return all slots by circuit and quantity."""
        found: dict[str | None, dict[Quantity, list[Slot]]] = {}
        for each in self.known:
            found.setdefault(each.place.circuit, {}).setdefault(each.quantity, []).append(each)
        return found

    def shown(self, slot: Slot) -> Verdict | None:
        """Return how the last reading stands by what it shows, not by how it was taken."""
        taken, own = self.attempts.get(slot), self.own.get(slot)
        if not taken or own is None:
            return None
        return self._verdicts.get(taken[-1].id, own.verdict)

    def _asked(self, slot: Slot) -> bool:
        own = self.own.get(slot)
        return own is not None and own.verdict is Verdict.NOT_TAKEN


_STAGES = tuple(Stage)


def ring_slot(record: Record, circuit: str, crossed: Iterable[Slot]) -> Slot | None:
    """Return the L-cpc reading that stands for R1+R2 of a ring: the highest, over range first.

    Args:
        record: The job.
        circuit: Id of the ring.
        crossed: The ring's cross-connected L-cpc readings; before covering only if no later ones.
    """
    found = [
        (reading.taken.sign is Sign.OVER, reading.taken.value, -at, slot)
        for at, slot in enumerate(crossed)
        if slot.place.circuit == circuit
        for reading in record.taken(slot)[-1:]
        if isinstance(reading.taken, Figure)
    ]
    late = [each for each in found if each[3].stage is not Stage.BEFORE_COVERING]
    return max(late or found, key=lambda each: each[:3])[3] if found else None


def short_limit(judged: Judged | None, ledger: Ledger) -> list[Part]:
    """Return a limit as ≤ or ≥ with its number and source; a dash if there is none."""
    limit = judged.limit if judged else None
    if limit is None:
        return ["–"]
    text = str(limit).replace("at most ", "≤ ").replace("at least ", "≥ ")
    return [f"{text.replace('must be correct', 'correct')} ", ledger.source(limit.source)]


def other_voltage(reading: Reading, usual: float | None) -> str:
    """Return the test voltage where it is not the usual one."""
    if reading.test_voltage is None or reading.test_voltage == usual:
        return ""
    return f"{amount(reading.test_voltage, Unit.VOLT, 0)} d.c."


def _also_later(slots: Sequence[Slot]) -> bool:
    return any(each.stage is not Stage.BEFORE_COVERING for each in slots)


def _order(reading: Reading) -> tuple[object, ...]:
    return reading.at, reading.id
