"""Whether the dead tests let a board or a circuit go live: taken, and none outside or doubted.

A blank is never a pass, and neither is a test that was set aside as not needed.
Source: IET Guidance Note 3, the order of the tests; HSE GS38 (from memory).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from records.interlock.answers import competent
from records.interlock.comes_off import PUT_BACK, is_after, last_ones
from records.model.reading import (
    Figure,
    NotNeeded,
    NotTaken,
    Place,
    Quantity,
    Reading,
    Slot,
    StandIn,
    Tick,
    place_of,
    slot_of,
)
from records.model.record import Record
from records.model.slots import slots, title
from records.terms import Part, Stage, Verdict

Verdicts = Mapping[str, Verdict]
"""How each figure and each answer of a record stood when it was taken, by the id of the reading."""

WRONG = (Verdict.OUTSIDE, Verdict.UNLIKELY)
"""Outside or doubted: the test did not show that the part is right."""
_PAIRS = (Quantity.IR_LN, Quantity.IR_NE)


@dataclass(frozen=True, slots=True)
class OpenTest:
    """A dead test that keeps a part or a circuit from going live."""

    slot: Slot | None
    """Which; None: a circuit lacks what decides which tests it needs."""
    why: str
    """How it stands: `not taken`, `outside`, `set aside as not needed: no time`."""
    point: str = ""
    """Name of the point or the bond, if it is one of several."""

    @property
    def words(self) -> str:
        """The test and how it stands: `cross-connected L-N at S5 dye shelf outside`."""
        if self.slot is None:
            return self.why
        at = f" at {self.point}" if self.point else ""
        return f"{self.slot.quantity.value}{at} {self.why}"


@dataclass(frozen=True, slots=True)
class DeadTests:
    """How far the dead tests of a job let it go live."""

    board: tuple[OpenTest, ...]
    """What is open in feed, board and earths: if anything is, nothing goes live."""
    circuits: Mapping[str, tuple[OpenTest, ...]]
    """What is open on each circuit, by its id."""
    right: int
    """Dead tests that the job needs, taken and right."""
    set_aside: int
    """Dead tests that the job needs, set aside as not needed."""
    elsewhere: tuple[tuple[Slot, StandIn], ...]
    """Tests of feed, board and earths that were done and recorded elsewhere."""

    @property
    def may_go_live(self) -> tuple[str, ...]:
        """Ids of the circuits whose own dead tests are right."""
        return tuple(id for id, found in self.circuits.items() if not found)


class DeadTestsOf:
    """The dead tests of one record, looked up once: what was open is asked for many moments."""

    def __init__(self, record: Record, verdicts: Verdicts) -> None:
        """Sort the dead tests of a record by circuit.

        Args:
            record: The job.
            verdicts: How each reading stood.
        """
        self._record, self._verdicts = record, verdicts
        self.needed = tuple(each for each in slots(record, Stage.DEAD) if each != PUT_BACK)
        self._by_circuit: dict[str | None, list[Slot]] = {}
        for slot in (*self.needed, *_besides(record, self.needed, verdicts)):
            self._by_circuit.setdefault(slot.place.circuit, []).append(slot)
        self._moments: dict[str | None, list[datetime]] = {}
        self._known: dict[tuple[str | None, int], tuple[OpenTest, ...]] = {}

    def on_board(self, until: datetime | None = None) -> tuple[OpenTest, ...]:
        """Return what is open in feed, board and earths, of what was taken by a moment if given."""
        return self._once(None, until, self._on_board)

    def on_circuit(self, id: str, until: datetime | None = None) -> tuple[OpenTest, ...]:
        """Return what is open on a circuit, of what was taken by a moment if given."""
        return self._once(id, until, lambda until: self._on_circuit(id, until))

    def _once(
        self,
        circuit: str | None,
        until: datetime | None,
        work: Callable[[datetime | None], tuple[OpenTest, ...]],
    ) -> tuple[OpenTest, ...]:
        """Work out what is open once for all moments between two readings of those tests."""
        moments = self._moments.get(circuit)
        if moments is None:
            of_them = {
                each for slot in self._by_circuit.get(circuit, ()) for each in (slot, _whole(slot))
            }
            taken = (each.at for slot in of_them for each in self._record.taken(slot))
            moments = self._moments[circuit] = sorted(taken)
        by_then = len(moments) if until is None else bisect_right(moments, until)
        found = self._known.get((circuit, by_then))
        if found is None:
            found = self._known[circuit, by_then] = work(until)
        return found

    def _on_board(self, until: datetime | None) -> tuple[OpenTest, ...]:
        stood_in = {slot for slot, _ in self.elsewhere(until)}
        return tuple(
            OpenTest(slot, why, self._point(slot))
            for slot in self._by_circuit.get(None, ())
            if slot not in stood_in and (why := self.why_open(slot, until))
        )

    def _on_circuit(self, id: str, until: datetime | None) -> tuple[OpenTest, ...]:
        tests = ((slot, self.why_open(slot, until)) for slot in self._by_circuit.get(id, ()))
        found = tuple(OpenTest(slot, why, self._point(slot)) for slot, why in tests if why)
        if self._record.circuit(id).form is not None:
            return found
        why = "its arrangement (ring, radial …) isn't entered, so its continuity isn't tested"
        return (OpenTest(None, why), *found)

    def _point(self, slot: Slot) -> str:
        place = slot.place
        if place.point is None:
            return ""
        whole = title(self._record, place_of(place.part, place.circuit))
        return title(self._record, place).removeprefix(f"{whole}, ")

    def elsewhere(self, until: datetime | None = None) -> tuple[tuple[Slot, StandIn], ...]:
        """Return which tests of feed, board and earths were done and recorded elsewhere."""
        wanted = self._by_circuit.get(None, ())
        return tuple(_elsewhere(self._record, wanted, self._verdicts, until))

    def why_open(self, slot: Slot, until: datetime | None = None) -> str:
        """Return why a dead test doesn't show its part right; empty if it does."""
        return _state(self._record, slot, self._verdicts, until)


def dead_tests(record: Record, verdicts: Verdicts) -> DeadTests:
    """Return how far the dead tests let a job go live.

    Args:
        record: The job.
        verdicts: How each reading stood.
    """
    tests = DeadTestsOf(record, verdicts)
    states = [(slot, tests.why_open(slot)) for slot in tests.needed]
    return DeadTests(
        board=tests.on_board(),
        circuits={each.id: tests.on_circuit(each.id) for each in record.circuits},
        right=sum(not why for _, why in states),
        set_aside=sum(
            isinstance(getattr(_last(record, slot, None), "taken", None), NotNeeded)
            for slot, why in states
            if why
        ),
        elsewhere=tests.elsewhere(),
    )


def place_words(record: Record, place: Place, tests: Iterable[OpenTest]) -> str:
    """Return a part or circuit and what is open there: `C5 Motor: insulation L-E outside`."""
    return f"{title(record, place)}: {'; '.join(dict.fromkeys(each.words for each in tests))}"


def circuit_words(record: Record, id: str, tests: Iterable[OpenTest]) -> str:
    """Return a circuit and what is open there."""
    return place_words(record, place_of(Part.CIRCUIT, id), tests)


def board_words(record: Record, tests: Iterable[OpenTest]) -> tuple[str, ...]:
    """Return what is open in feed, board and earths, a line for each part."""
    by_part: dict[Part, list[OpenTest]] = {}
    for each in tests:
        if each.slot is not None:
            by_part.setdefault(each.slot.place.part, []).append(each)
    return tuple(place_words(record, place_of(part), found) for part, found in by_part.items())


def _state(record: Record, slot: Slot, verdicts: Verdicts, until: datetime | None) -> str:
    """Return why a dead test doesn't show its part right; empty if it does."""
    taken = _until(record, slot, until)
    if not taken:
        return "" if _joined(record, slot, verdicts, until) else "not taken"
    reasons = (_reason(record, each, verdicts, until) for each in last_ones(taken))
    return next(filter(None, reasons), "")


def _reason(record: Record, last: Reading, verdicts: Verdicts, until: datetime | None) -> str:
    match last.taken:
        case Figure() | Tick():
            verdict = verdicts.get(last.id)
            if verdict in WRONG:
                return verdict.value
            return "not shown satisfactory yet" if verdict in (Verdict.NOT_TAKEN, None) else ""
        case NotTaken(reason=reason):
            wrong = _wrong_before(record, last.slot, verdicts, until)
            words = f"could not be taken: {reason.rstrip('.')}"
            return words if wrong is None else f"{wrong.value}, then {words}"
        case NotNeeded(reason=reason):
            wrong = _wrong_before(record, last.slot, verdicts, until)
            if wrong is None and _joined(record, last.slot, verdicts, until):
                return ""
            words = f"set aside as not needed: {reason.rstrip('.')}"
            return words if wrong is None else f"{wrong.value}, then {words}"
    return ""


def _wrong_before(
    record: Record, slot: Slot, verdicts: Verdicts, until: datetime | None
) -> Verdict | None:
    """Return how the last true reading of a slot stood, if that was wrong and is still so.

    What was read wrong is read right, not set aside. Neutral to earth is read right as well where
    both, joined, were sound to earth after it; between line and neutral joining them shows nothing.
    """
    taken = _until(record, slot, until)
    real = [each for each in taken if isinstance(each.taken, Figure | Tick)]
    verdict = verdicts.get(real[-1].id) if real else None
    if verdict not in WRONG:
        return None
    if slot.quantity is Quantity.IR_NE and _joined(record, slot, verdicts, until):
        whole = _last(record, _whole(slot), until)
        if whole is not None and is_after(whole, real[-1]):
            return None
    return verdict


def _joined(record: Record, slot: Slot, verdicts: Verdicts, until: datetime | None) -> bool:
    """Return whether line and neutral were tested joined to earth, so that no pair is left out."""
    if slot.quantity not in _PAIRS:
        return False
    whole = _last(record, _whole(slot), until)
    return (
        whole is not None
        and isinstance(whole.taken, Figure)
        and whole.joined
        and verdicts.get(whole.id) not in (*WRONG, Verdict.NOT_TAKEN, None)
    )


def _whole(slot: Slot) -> Slot:
    """Return the slot of line and neutral joined to earth, beside that of another test."""
    return slot_of(Quantity.IR_LE, slot.place, slot.stage)


def _besides(record: Record, needed: Iterable[Slot], verdicts: Verdicts) -> list[Slot]:
    """Return dead tests that nobody asked for and somebody took: a wrong one counts all the same.

    Only where it was really taken: nobody has to take them, so a reason is as good as none. It
    doesn't set aside what was read wrong before it.
    """
    known = set(needed)
    return list(
        dict.fromkeys(
            each.slot
            for each in record.readings
            if each.slot.stage is Stage.DEAD
            and each.slot not in known
            and each.slot != PUT_BACK
            and (
                isinstance(record.taken(each.slot)[-1].taken, Figure | Tick)
                or _wrong_before(record, each.slot, verdicts, None)
            )
        )
    )


def _elsewhere(
    record: Record, wanted: Iterable[Slot], verdicts: Verdicts, until: datetime | None
) -> Iterator[tuple[Slot, StandIn]]:
    able = {each.id for each in competent(record)}
    for slot in wanted:
        last = _last(record, slot, until)
        if last is None or not isinstance(last.taken, NotTaken):
            continue
        found = last.taken.stands_in
        real = [
            each for each in _until(record, slot, until) if isinstance(each.taken, Figure | Tick)
        ]
        wrong = bool(real) and verdicts.get(real[-1].id) in WRONG
        # What was read here and is wrong is put right and read again: no other paper mends it.
        if found is not None and found.by in able and not wrong:
            yield slot, found


def _last(record: Record, slot: Slot, until: datetime | None) -> Reading | None:
    found = _until(record, slot, until)
    return found[-1] if found else None


def _until(record: Record, slot: Slot, until: datetime | None) -> tuple[Reading, ...]:
    taken = record.taken(slot)
    return taken if until is None else tuple(each for each in taken if each.at <= until)
