"""Which readings a job needs: one slot for each, in the safe order of the work."""

from __future__ import annotations

from functools import lru_cache

from records.model.measurements import MEASUREMENTS, Measurement, measurement
from records.model.reading import Place, Quantity, Slot, place_of, slot_of
from records.model.record import Record
from records.terms import STEP_OF_STAGE, Part, Stage

Ids = tuple[str | tuple[str | None, str] | None, ...]
"""Places of one part: the circuit of each if any, with the point if it is taken at points."""


@lru_cache(maxsize=4096)
def _row(quantity: Quantity, part: Part, ids: Ids, stage: Stage) -> tuple[Slot, ...]:
    """Return the slots of one test at one stage."""
    places = (
        place_of(part, *each) if isinstance(each, tuple) else place_of(part, each) for each in ids
    )
    return tuple(slot_of(quantity, place, stage) for place in places)


def slots(record: Record, stage: Stage | None = None) -> tuple[Slot, ...]:
    """Return the slots that this job needs, stage by stage, test by test, circuit by circuit.

    Args:
        record: The job; its design says what is needed.
        stage: One stage only; None for all.
    """
    return _slots(record, stage, optional=False, known={})


def offered(record: Record, stage: Stage | None = None) -> tuple[Slot, ...]:
    """Return the slots that have a place in this job and that nobody has to fill.

    A reading in one of them is judged like any other; without one nothing is missing.

    Args:
        record: The job; its design says what has a place.
        stage: One stage only; None for all.
    """
    return _slots(record, stage, optional=True, known={})


def every(record: Record) -> tuple[Slot, ...]:
    """Return the slots that this job needs, then those that are offered besides."""
    known: dict[int, Ids] = {}
    needed = _slots(record, None, optional=False, known=known)
    return needed + _slots(record, None, optional=True, known=known)


def _slots(
    record: Record, stage: Stage | None, *, optional: bool, known: dict[int, Ids]
) -> tuple[Slot, ...]:
    # Many tests are needed at the same places: those are looked for once for each need.
    found: list[Slot] = []
    for at in Stage if stage is None else (stage,):
        for each, need in _WANTED[optional, at]:
            ids = known.get(need)
            if ids is None:
                ids = known[need] = _places(record, each)
            if each.waived is not None:
                ids = _as_waived(record, each, ids, at, optional=optional)
            if ids:
                found += _row(each.quantity, each.part, ids, at)
    return tuple(found)


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


_NEEDS = list(dict.fromkeys((each.part, each.per_point, each.needed) for each in MEASUREMENTS))
_WANTED = {
    (optional, stage): tuple(
        (each, _NEEDS.index((each.part, each.per_point, each.needed)))
        for each in MEASUREMENTS
        if (each.optional is optional or each.waived is not None) and stage in each.stages
    )
    for optional in (False, True)
    for stage in Stage
}
"""What is wanted by whether nobody has to take it, and by stage; each with the number of its need:
entries with the same one have the same places."""


def _as_waived(
    record: Record, entry: Measurement, ids: Ids, stage: Stage, *, optional: bool
) -> Ids:
    """Return the places where an entry is, or is not, as if optional."""
    waived = entry.waived
    if waived is None:
        return ids
    return tuple(
        each
        for each in ids
        if (entry.optional or waived(record, each[0] if isinstance(each, tuple) else each, stage))
        is optional
    )


def _places(record: Record, entry: Measurement) -> Ids:
    if entry.part is not Part.CIRCUIT:
        if not entry.needed(record, None):
            return ()
        if entry.per_point:
            return tuple((None, bond.id) for bond in record.board.bonds)
        return (None,)
    wanted = [each for each in record.circuits if entry.needed(record, each)]
    if not entry.per_point:
        return tuple([each.id for each in wanted])
    return tuple((each.id, point.id) for each in wanted for point in each.points)


def slot_words(record: Record, slot: Slot) -> str:
    """Return where a reading belongs, its step first: `Dead tests, C1 Sockets, r1`."""
    symbol = measured_by(slot).symbol
    return f"{STEP_OF_STAGE[slot.stage].value}, {title(record, slot.place)}, {symbol}"
