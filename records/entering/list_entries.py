"""Entries of the design that are added, copied or removed: what they begin with, and which stay."""

from __future__ import annotations

from collections.abc import Iterator

from records.errors import BadRecord
from records.model.certifier import all_counted
from records.model.circuit import Circuit
from records.model.job import Duty, Instrument, Person
from records.model.outbuilding import Bond
from records.model.reading import NotTaken
from records.model.record import MOST_CIRCUITS, Record, next_id


def new_person(record: Record) -> Person:
    """Return the next person of a job, with the first part in it that nobody has yet."""
    people = record.job.people
    there = {each.duty for each in people}
    duty = next((d for d in (Duty.INSTALLS, Duty.CERTIFIES) if d not in there), None)
    return Person(id=next_id("P", people), duty=duty)


def new_instrument(record: Record) -> Instrument:
    """Return the next instrument of a job."""
    return Instrument(id=next_id("M", record.job.instruments))


def new_bond(record: Record) -> Bond:
    """Return the next bonding conductor."""
    return Bond(id=next_id("B", record.board.bonds))


def new_circuit(record: Record, like: Circuit | None = None) -> Circuit:
    """Return the next circuit: blank, or with the design of another; readings are never copied.

    Raises:
        BadRecord: If a record takes no more.
    """
    if len(record.circuits) >= MOST_CIRCUITS:
        raise BadRecord(f"{MOST_CIRCUITS} circuits are the most that a record takes.")
    id = free_circuit_id(record)
    return Circuit(id=id) if like is None else like.model_copy(update={"id": id, "name": ""})


def free_circuit_id(record: Record) -> str:
    """Return the id of the next circuit: none that anything on record is about.

    Else a new circuit would get the exception, the cable or the trouble of one that was removed.
    """
    named = (
        *(each.id for each in record.circuits),
        *(each.circuit for each in record.noticed),
        *(each.circuit for each in record.fabric.legs),
        *(each.circuit for each in record.fabric.buried),
        *(each.circuit for gate in record.live_gate for each in gate.exceptions),
        *(each.before.place.circuit for each in record.cautions_read if each.before is not None),
        *(each.place.circuit for remedy in record.remedies for each in remedy.about),
    )
    return f"C{max((int(each[1:]) for each in named if each), default=0) + 1}"


def check_circuit_goes(record: Record, circuit: Circuit) -> None:
    """Refuse to remove a circuit that has readings.

    Raises:
        BadRecord: If so.
    """
    taken = [each for each in all_counted(record).readings if each.slot.place.circuit == circuit.id]
    if taken:
        raise BadRecord(
            f"{circuit.id} has readings ({taken[0].id} …): a reading never goes, so the "
            "circuit stays. If it is not built, say so at its readings."
        )


def check_named_nowhere(record: Record, id: str, called: str) -> None:
    """Refuse to remove a person or an instrument that something on record names.

    Args:
        record: The job.
        id: Of the person or instrument.
        called: How it is called.
    Raises:
        BadRecord: If so.
    """
    using = tuple(dict.fromkeys(_naming(record, id)))
    if using:
        more = f" and {len(using) - 1} more" if len(using) > 1 else ""
        raise BadRecord(f"{called} stands in {using[0]}{more}: who did what, and with what, stays.")


def _naming(record: Record, id: str) -> Iterator[str]:
    """Yield what names a person or an instrument; the next one would get its id, and its words."""
    for reading in all_counted(record).readings:
        stands_in = reading.taken.stands_in if isinstance(reading.taken, NotTaken) else None
        if id in (reading.by, reading.instrument, stands_in.by if stands_in is not None else None):
            yield reading.id
    yield from (each.id for each in record.remedies if each.by == id)
    for gate in record.live_gate:
        if id in (gate.by, *(each.by for each in gate.exceptions)):
            yield "the answer before the live tests"
    yield from ("a caution that was read" for each in record.cautions_read if each.by == id)
    yield from ("how it was left" for each in record.left if each.by == id)
