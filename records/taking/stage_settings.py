"""What a person settles once for a stage, so that no reading asks for it again."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from records.judgement.lead_resistance import to_take_off
from records.model.job import Duty, Instrument, Person
from records.model.measurements import Measurement
from records.model.reading import Place, Quantity, Slot
from records.model.record import Record
from records.taking.instruments import instrument_for, only_one
from records.taking.lower_voltage import LOWER_METHOD, LOWER_VOLTAGE, USUAL_VOLTAGE
from records.taking.queue import Order
from records.taking.typed_reading import Circumstances
from records.terms import Stage
from records.units import Unit


@dataclass
class StageSettings:
    """One person at one stage; it lasts as long as the record is open."""

    order: Order = Order.BY_TEST
    slot: Slot | None = None
    """Where the person stands."""
    person: str | None = None
    """Id of who takes the readings; None: whoever the record says."""
    instruments: list[str] = field(default_factory=list)
    """Ids chosen, the latest first."""
    lower: tuple[Place, str] | None = None
    """Circuit or part that is tested at 250 V, and why."""
    method: str = ""
    note: str = ""
    """For the next reading only."""
    grid: bool = False
    more: list[Slot] = field(default_factory=list)
    """Optional readings that were asked for."""
    refused: tuple[str, ...] | None = None
    """What the question before the live tests said when it was answered with no; it is on no
    record."""

    def by(self, record: Record, name: str) -> str | None:
        """Return the id of who takes the readings.

        Args:
            record: The job with its people.
            name: Of who works on the record, if that is known.
        """
        people = record.job.people
        ids = [each.id for each in people]
        if self.person in ids:
            return self.person
        named = [each.id for each in people if each.name and each.name == name]
        only = only_one(who_may(record))
        installs = [each.id for each in people if each.duty is Duty.INSTALLS]
        return next(iter((*named, *installs)), only.id if only else None)

    def at_lower(self, slot: Slot) -> str:
        """Return why a slot is tested at 250 V; empty if it is not."""
        return self.lower[1] if self.lower and self.lower[0] == _whole(slot.place) else ""

    def lower_here(self, slot: Slot, why: str) -> None:
        """Test the circuit or part of this slot at 250 V from now on; an empty reason ends it."""
        self.lower = (_whole(slot.place), why) if why else None

    def meter(self, record: Record, stage: Stage, test: Measurement) -> Instrument | None:
        """Return the instrument in hand for a measurement; None if it needs none, or none is."""
        return instrument_for(record, stage, test, self.instruments)

    def around(
        self,
        record: Record,
        stage: Stage,
        slot: Slot,
        test: Measurement,
        name: str,
        notes_of: datetime | None = None,
    ) -> Circumstances:
        """Return what goes with the next reading of a slot, entered from notes of a time or now."""
        meter = self.meter(record, stage, test)
        why = self.at_lower(slot)
        joined = why and test.quantity is Quantity.IR_LE
        method = [LOWER_METHOD + why if joined else why] if why and is_insulation(test) else []
        return Circumstances(
            by=self.by(record, name),
            instrument=meter.id if meter else None,
            leads=to_take_off(meter, test),
            test_voltage=volts(self, slot, test),
            method="; ".join([*method, self.method] if self.method else method),
            note=self.note,
            taken_at=notes_of,
        )


def who_may(record: Record) -> tuple[Person, ...]:
    """Return who of a job takes its readings if nobody is named: who installs, else anybody."""
    people = record.job.people
    return tuple(each for each in people if each.duty is Duty.INSTALLS) or people


def is_insulation(test: Measurement) -> bool:
    """Whether a measurement has a test voltage."""
    return test.unit is Unit.MEGOHM


def volts(settings: StageSettings, slot: Slot, test: Measurement) -> float | None:
    """Return the test voltage of a slot [V]; None if it has none."""
    if not is_insulation(test):
        return None
    return LOWER_VOLTAGE if settings.at_lower(slot) else USUAL_VOLTAGE


def _whole(place: Place) -> Place:
    return place.whole
