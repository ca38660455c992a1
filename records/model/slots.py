"""Which readings a job needs: one slot for each, in the safe order of the work."""

from __future__ import annotations

from collections.abc import Iterator

from records.model.circuit import Circuit
from records.model.measurements import MEASUREMENTS, Measurement, measurement
from records.model.reading import Place, Slot
from records.model.record import Record
from records.terms import Part, Stage


def slots(record: Record, stage: Stage | None = None) -> tuple[Slot, ...]:
    """Return the slots that this job needs, stage by stage, test by test, circuit by circuit.

    Args:
        record: The job; its design says what is needed.
        stage: One stage only; None for all.
    """
    wanted = tuple(Stage) if stage is None else (stage,)
    return tuple(
        Slot(quantity=each.quantity, place=place, stage=at)
        for at in wanted
        for each in MEASUREMENTS
        if at in each.stages
        for place in _places(record, each)
    )


def measured_by(slot: Slot) -> Measurement:
    """Return the catalogue entry of a slot."""
    return measurement(slot.place.part, slot.quantity)


def title(record: Record, place: Place) -> str:
    """Return how a place is called on screen and paper, such as `C2 Bench sockets, S1`."""
    if place.part is Part.CIRCUIT and place.circuit is not None:
        circuit = record.circuit(place.circuit)
        names = {each.id: each.name or each.id for each in circuit.points}
        words = f"{circuit.id} {circuit.name}".strip()
    else:
        names = {each.id: each.what or each.id for each in record.board.bonds}
        words = place.part.value.capitalize()
    return f"{words}, {names.get(place.point, place.point)}" if place.point else words


def _places(record: Record, entry: Measurement) -> Iterator[Place]:
    if entry.part is Part.CIRCUIT:
        for circuit in record.circuits:
            if entry.needed(record, circuit):
                yield from _circuit_places(circuit, entry)
    elif entry.needed(record, None):
        if entry.per_point:
            yield from (Place(part=entry.part, point=bond.id) for bond in record.board.bonds)
        else:
            yield Place(part=entry.part)


def _circuit_places(circuit: Circuit, entry: Measurement) -> Iterator[Place]:
    if entry.per_point:
        for point in circuit.points:
            yield Place(part=Part.CIRCUIT, circuit=circuit.id, point=point.id)
    else:
        yield Place(part=Part.CIRCUIT, circuit=circuit.id)
