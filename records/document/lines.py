"""One line a circuit: the last standing reading of each test, and what was calculated."""

from __future__ import annotations

from records.document.groups import point_name
from records.document.ink import Part, Value, ink, look
from records.document.ledger import Ledger
from records.document.reading_cells import Cells, ring_slot
from records.expected.results import Expected, NotWorkedOut, Result, What, Worked
from records.judgement.review_types import Judged, Review
from records.model.circuit import Circuit
from records.model.reading import Place, Quantity, Slot, place_of
from records.terms import Form, Stage, Verdict
from records.terms import Part as PartOf

Q = Quantity
_RCD = (
    Q.RCD_TIME,
    Q.RCD_BUTTON,
    Q.RCD_HALF,
    Q.RCD_FIVE,
    Q.RCD_RAMP,
    Q.RCD_ALONE,
    Q.RCD_LOADED,
    Q.RCD_IN_LOOP,
)
"""Tests of an RCD: where one failed, no time from a table stands for it."""
_DEAD = {
    "r1": Q.R1,
    "rn": Q.RN,
    "r2": Q.R2,
    "ir_ln": Q.IR_LN,
    "ir_le": Q.IR_LE,
    "ir_ne": Q.IR_NE,
    "polarity": Q.POLARITY,
}
_LIVE = {"zs": Q.ZS, "rcd": Q.RCD_TIME, "button": Q.RCD_BUTTON, "function": Q.FUNCTION}
_OTHER = (
    Q.R2_LONG,
    Q.RN_R2,
    Q.SWITCHED,
    Q.IR_FOIL,
    Q.RCD_HALF,
    Q.RCD_FIVE,
    Q.RCD_RAMP,
    Q.RCD_BEFORE,
    Q.RCD_LOADED,
    Q.RCD_IN_LOOP,
    Q.AFDD_BUTTON,
    Q.LOAD_CURRENT,
    Q.VOLTAGE_LOADED,
)


class Lines:
    """The lines of all circuits."""

    def __init__(self, cells: Cells, expected: Expected, review: Review) -> None:
        """Look up what is judged; `cells` prints the readings."""
        self._cells, self._expected, self._review = cells, expected, review
        self._ledger: Ledger = cells.ledger
        self._slots = cells.by_circuit()
        self._judged: dict[tuple[Place, What], Judged] = {}
        for line in review.lines:
            if line.what is not None:
                self._judged.setdefault((line.place, line.what), line)

    def read(self) -> list[dict[str, Value]]:
        """Return what was read, dead and live."""
        return [self._read(each) for each in self._cells.record.circuits]

    def rings(self) -> list[Value]:
        """Return for each ring which point its R1+R2 was highest at."""
        return [found for each in self._cells.record.circuits if (found := self._ring_note(each))]

    def others(self) -> list[dict[str, Value]]:
        """Return the readings that have no column: tests that only some circuits have."""
        lines: list[dict[str, Value]] = []
        for circuit in self._cells.record.circuits:
            for quantity in _OTHER:
                found = [
                    each for each in self._of(circuit, quantity) if self._cells.attempts.get(each)
                ]
                if found:
                    what: Value = quantity.value
                    value = self._cells.cell(found, unit=True)
                    lines.append({"number": circuit.id, "what": what, "value": value})
        return lines

    def calculated(self) -> list[dict[str, Value]]:
        """Return load, cable, loop, fault current and disconnection, the feed first."""
        record = self._cells.record
        lines = [("feed", place_of(PartOf.FEED))]
        lines += [(each.id, place_of(PartOf.CIRCUIT, each.id)) for each in record.circuits]
        return [self._calculated(*each) for each in lines]

    def _of(self, circuit: Circuit, quantity: Quantity) -> list[Slot]:
        return self._slots.get(circuit.id, {}).get(quantity, [])

    def _read(self, it: Circuit) -> dict[str, Value]:
        cells = self._cells
        line: dict[str, Value] = {
            "number": it.id,
            "name": it.name or "name not given",
            **{name: cells.cell(self._of(it, each)) for name, each in _DEAD.items()},
            **{name: cells.cell(self._of(it, each)) for name, each in _LIVE.items()},
            "zs_most": cells.limit(self._of(it, Q.ZS)),
            "rcd_most": cells.limit(self._of(it, Q.RCD_TIME)),
        }
        if it.form is Form.RING:
            line["r1_r2"] = self._ring_cell(it)
        else:
            line["r1_r2"] = cells.cell(self._of(it, Q.R1_R2))
        return line

    def _ring_cell(self, it: Circuit) -> Value:
        slot = ring_slot(self._cells.record, it.id, self._of(it, Q.CROSS_LE))
        crossed = self._of(it, Q.CROSS_LE)
        if slot is None:
            return self._cells.cell(crossed[:1])
        gaps = any(
            not self._cells.attempts.get(each) for each in crossed if each.stage is slot.stage
        )
        value = self._cells.cell([slot])
        parts: list[Part] = list(value["ink"]) if isinstance(value, dict) else [value]
        before = " ᵇ" if slot.stage is Stage.BEFORE_COVERING else ""
        return ink(parts, before, " (not all)" if gaps else "")

    def _ring_note(self, it: Circuit) -> Value:
        slot = (
            ring_slot(self._cells.record, it.id, self._of(it, Q.CROSS_LE))
            if it.form is Form.RING
            else None
        )
        if slot is None:
            return ""
        where = point_name(self._cells.record, slot.place)
        flags = self._ledger.flags(self._ledger.told(slot))
        words = f"{it.id}, a ring: R1+R2 is the highest of its L-cpc readings, at {where}"
        return ink(words, flags, ".")

    def _calculated(self, name: str, place: Place) -> dict[str, Value]:
        def cell(what: What) -> Value:
            return self._figure(place, what)

        return {
            "number": name,
            "ib": cell(What.IB),
            "rating": cell(What.IN),
            "iz": cell(What.IZ),
            "drop": cell(What.VOLT_DROP),
            "drop_most": cell(What.VOLT_DROP_LIMIT),
            "zs": cell(What.ZS),
            "zs_read": self._measured(place, What.ZS),
            "zs_most": cell(What.ZS_LIMIT),
            "fault": self._with_read(place, What.FAULT_HIGHEST),
            "breaks": cell(What.BREAKING),
            "time": self._with_read(place, What.TIME),
            "time_rcd": self._rcd_time(place),
            "required": cell(What.TIME_REQUIRED),
        }

    def _figure(self, place: Place, what: What) -> Value:
        result = self._expected.design.get((place, what))
        line = self._judged.get((place, what))
        return ink(_number(result, self._ledger), self._marks(line))

    def _marks(self, line: Judged | None) -> list[Part]:
        if line is None:
            return []
        number = self._ledger.finding(line)
        return [*self._ledger.flags([number] if number else []), *self._ledger.memory(line)]

    def _measured(self, place: Place, what: What) -> Value:
        result = self._expected.measured.get((place, what))
        if not isinstance(result, Worked):
            return "–"
        return ink(_number(result, self._ledger), self._because(place, what))

    def _with_read(self, place: Place, what: What) -> Value:
        designed = self._expected.design.get((place, what))
        measured = self._expected.measured.get((place, what))
        parts = [*_number(designed, self._ledger), *self._marks(self._judged.get((place, what)))]
        if isinstance(measured, Worked) and str(measured) != str(designed):
            parts += ["; read: ", *_number(measured, self._ledger), *self._because(place, what)]
        return ink(parts)

    def _because(self, place: Place, what: What) -> list[Part]:
        """Return the marks of the readings that a figure from readings follows from."""
        behind = depends_on(self._cells, place)
        if what is What.FAULT_HIGHEST:  # of origin or board, where the device stands
            behind = [each for each in behind if each.place.circuit is None]
        return self._ledger.flags(self._ledger.told(*behind))

    def _rcd_time(self, place: Place) -> Value:
        failed = failed_rcd(self._cells, place)
        if failed:
            flags = self._ledger.flags(self._ledger.told(*failed))
            return ink(look("test failed", "Strong"), flags)
        value = self._with_read(place, What.TIME_RCD)
        parts: list[Part] = list(value["ink"]) if isinstance(value, dict) else [value]
        return ink(parts, self._ledger.flags(self._ledger.told(*rcd_tests(self._cells, place))))


def failed_rcd(cells: Cells, place: Place) -> list[Slot]:
    """Return the tests, of the RCD that a place relies on, that are outside their limit."""
    return [each for each in rcd_tests(cells, place) if cells.shown(each) is Verdict.OUTSIDE]


def rcd_tests(cells: Cells, place: Place) -> list[Slot]:
    """Return the tests of the RCD that a place relies on.

    Its own, else that of the board, else that of the feed.
    """
    record = cells.record
    if place.circuit is None:
        part, circuit = PartOf.FEED, None
    elif record.circuit(place.circuit).rcd.residual is not None:
        part, circuit = PartOf.CIRCUIT, place.circuit
    else:
        known = record.board.rcd.residual is not None
        part, circuit = PartOf.BOARD if known else PartOf.FEED, None
    return [each for each in cells.by_part(part, circuit) if each.quantity in _RCD]


def depends_on(cells: Cells, place: Place) -> list[Slot]:
    """Return the readings that the loop and the fault current of a place follow from."""
    own = cells.by_part(place.part, place.circuit)
    found = [each for each in own if each.quantity in (Q.ZS, Q.R1_R2, Q.CROSS_LE, Q.R1, Q.RN, Q.R2)]
    zs = [each for each in found if each.quantity is Q.ZS and cells.has_figure(each)]
    before = [
        each
        for part in (PartOf.ORIGIN, PartOf.BOARD, PartOf.FEED)
        for each in cells.by_part(part, None)
        if each.quantity in (Q.ZE, Q.ZDB, Q.FAULT_LE, Q.FAULT_LN, Q.ELECTRODE, Q.ELECTRODE_LOOP)
    ]
    return zs + before if zs else found + before


def _number(result: Result | None, ledger: Ledger) -> list[Part]:
    if isinstance(result, NotWorkedOut) or result is None:
        return ledger.result(result)
    if result.words:
        return [result.words.replace("within ", "≤ ")]
    return [result.figure]
