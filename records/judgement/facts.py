"""A record and its expectation, indexed for the rules: which readings stand where."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from records.expected.results import Expected, NotWorkedOut, Result, What, Worked
from records.judgement.unit_slips import is_slip
from records.model.circuit import Circuit
from records.model.job import Instrument
from records.model.reading import (
    Figure,
    Place,
    Quantity,
    Reading,
    Slot,
    place_of,
    slot_of,
    when_taken,
)
from records.model.record import Record
from records.model.record_view import seen_by, whole
from records.model.slots import slots, title
from records.reuse import Once, unnoted
from records.terms import Earthing, OutbuildingEarth, Part, Sign, Stage

T = TypeVar("T")

ORIGIN = place_of(Part.ORIGIN)
FEED = place_of(Part.FEED)
BOARD = place_of(Part.BOARD)

_LATEST_FIRST = (Stage.LIVE, Stage.DEAD, Stage.BEFORE_COVERING)


@dataclass(frozen=True, slots=True)
class Facts:
    """What the rules look at."""

    record: Record
    expected: Expected
    readings: Mapping[Slot, tuple[Reading, ...]] = field(default_factory=dict)
    """All attempts in each slot, by the time they were taken."""
    slots_by_name: Mapping[str, tuple[Slot, ...]] = field(default_factory=dict)
    """What `wanted` and `all_slots` give."""
    slips: Mapping[Slot, bool] = field(default_factory=dict)
    """Where the figure that counts is a thousand times off: nothing is held against it."""
    by_id: Mapping[str | None, Circuit] = field(default_factory=dict)
    """The circuits by their ids."""
    reuse: Once = field(default_factory=Once)
    """Keeps what was worked out of it."""

    @classmethod
    def of(
        cls,
        record: Record,
        expected: Expected,
        more: tuple[Reading, ...] = (),
        reuse: Once | None = None,
    ) -> Facts:
        """Index a record; the order in which its readings were entered makes no difference.

        Args:
            record: The job.
            expected: What follows from it.
            more: Readings that are not in the record yet.
            reuse: Keeps what is worked out, for another time; None: for this time only.
        """
        by_slot: dict[Slot, list[Reading]] = {}
        readings = (*record.readings, *more)
        for reading in sorted(readings, key=when_taken):
            by_slot.setdefault(reading.slot, []).append(reading)
        wanted = slots(record)
        needed = set(wanted)
        extra = sorted(
            (slot for slot in by_slot if slot not in needed),
            key=lambda slot: slot.model_dump_json(),
        )
        taken = {slot: tuple(got) for slot, got in by_slot.items()}
        slips = {
            slot: True
            for slot, got in taken.items()
            if isinstance(last := got[-1].taken, Figure)
            and is_slip(slot, last, expected.meter.get(slot))
        }
        keep = reuse or Once()
        seen = seen_by(keep, record)
        return cls(
            seen,
            Expected(
                keep.now("meter", expected.meter),
                keep.now("design", expected.design),
                keep.now("measured", expected.measured),
            ),
            keep.now("readings", taken),
            keep.now("slots", {"wanted": wanted, "all": (*wanted, *extra)}),
            keep.now("slips", slips),
            {each.id: each for each in seen.circuits},
            keep,
        )

    @property
    def wanted(self) -> tuple[Slot, ...]:
        """The readings that the job needs, in the order of the work."""
        return self.slots_by_name.get("wanted", ())

    @property
    def all_slots(self) -> tuple[Slot, ...]:
        """The slots that the job needs, then those that have readings all the same."""
        return self.slots_by_name.get("all", ())

    def found_by(self, rule: Callable[[Facts], Iterable[T]]) -> tuple[T, ...]:
        """Return what a rule finds, which goes by these facts alone."""
        return self.reuse.once(rule, lambda: tuple(rule(self)))

    def unnoted(self) -> Facts:
        """Return the same facts for what looks at most of them and is not kept: that is quicker."""
        record = whole(self.record)
        return replace(
            self,
            record=record,
            readings=unnoted(self.readings),
            by_id={each.id: each for each in record.circuits},
            reuse=Once(),
        )

    def attempts(self, slot: Slot) -> tuple[Reading, ...]:
        """Return all readings of a slot, oldest first."""
        return self.readings.get(slot, ())

    def last(self, slot: Slot) -> Reading | None:
        """Return the reading of a slot that counts, if there is one."""
        attempts = self.readings.get(slot)
        return attempts[-1] if attempts else None

    def figure(self, slot: Slot) -> Figure | None:
        """Return the figure of a slot that counts, with its sign; none if its unit was mistyped."""
        if slot in self.slips:
            return None
        last = self.last(slot)
        return last.taken if last is not None and isinstance(last.taken, Figure) else None

    def plain(self, slot: Slot) -> float | None:
        """Return the figure of a slot that counts, if the meter showed it without a sign."""
        figure = self.figure(slot)
        return figure.value if figure is not None and figure.sign is Sign.EQUAL else None

    def slot_of(self, place: Place, quantity: Quantity, stage: Stage | None = None) -> Slot | None:
        """Return the slot that has a reading of a quantity at a place, the latest stage first."""
        for each in _LATEST_FIRST if stage is None else (stage,):
            slot = slot_of(quantity, place, each)
            if slot in self.readings:
                return slot
        return None

    def plain_at(
        self, place: Place, quantity: Quantity, stage: Stage | None = None
    ) -> float | None:
        """Return the plain figure that counts for a quantity at a place, the latest stage first."""
        for each in _LATEST_FIRST if stage is None else (stage,):
            value = self.plain(slot_of(quantity, place, each))
            if value is not None:
                return value
        return None

    def meter(self, slot: Slot) -> Result | None:
        """Return what the meter should show, worked out or not; None if that has no meaning."""
        return self.expected.meter.get(slot)

    def meter_value(self, slot: Slot) -> float | None:
        """Return what the meter should show, if it could be worked out."""
        result = self.expected.meter.get(slot)
        return result.value if isinstance(result, Worked) else None

    def design(self, place: Place, what: What) -> Result:
        """Return a design figure, or why there is none."""
        found = self.expected.design.get((place, what))
        return found or NotWorkedOut(what.value, "the design inputs for it are missing")

    def circuit_of(self, slot: Slot) -> Circuit | None:
        """Return the circuit that a slot is on, if it is on one."""
        return self.by_id.get(slot.place.circuit)

    def circuits(self) -> Iterator[tuple[Circuit, Place]]:
        """Return the circuits with their places."""
        for each in self.record.circuits:
            yield each, place_of(Part.CIRCUIT, each.id)

    def points(self, circuit: Circuit, stage: Stage = Stage.DEAD) -> Iterator[tuple[Slot, Slot]]:
        """Return the cross-connected slots, L-N and L-cpc, point by point in the order given."""
        for point in circuit.points:
            place = place_of(Part.CIRCUIT, circuit.id, point.id)
            yield (
                slot_of(Quantity.CROSS_LN, place, stage),
                slot_of(Quantity.CROSS_LE, place, stage),
            )

    def instrument(self, reading: Reading) -> Instrument | None:
        """Return the instrument of a reading, if it is named and known."""
        known = self.record.job.instruments
        return next((each for each in known if each.id == reading.instrument), None)

    @property
    def tt_island(self) -> bool:
        """Whether the outbuilding has an earth of its own."""
        return self.record.board.earth is OutbuildingEarth.OWN_ELECTRODE

    @property
    def tt(self) -> bool:
        """Whether an earth fault in the outbuilding returns by an electrode."""
        carried_tt = self.record.origin.earthing is Earthing.TT
        return self.tt_island or carried_tt

    @property
    def feed_is_tt(self) -> bool:
        """Whether an earth fault in the feed returns by an electrode: only with a TT supply."""
        return self.record.origin.earthing is Earthing.TT

    def title(self, place: Place) -> str:
        """Return how a place is called."""
        return self.reuse.once(("title", place), lambda: title(self.record, place))
