"""A wall that is covered before the last leg of a ring is in: its cables are read by themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from records.expected.boxes import Placed, placed
from records.judgement.fabric.agreement import APART, drawn
from records.judgement.fabric.hidden import hidden_legs, is_met
from records.judgement.review_types import Judged
from records.model.circuit import Circuit, Point
from records.model.fabric import Box, Surface
from records.model.reading import Place, Quantity, Slot, Tick, slot_of
from records.model.record import Record
from records.terms import Form, Stage, Verdict

ENDS = (Quantity.R1, Quantity.RN, Quantity.R2)


def ends_open(by_slot: Mapping[Slot, Judged], place: Place) -> bool:
    """Whether an end-to-end reading of a ring is still missing."""
    ends = [by_slot.get(slot_of(each, place, Stage.BEFORE_COVERING)) for each in ENDS]
    return any(each is None or each.verdict is Verdict.NOT_TAKEN for each in ends)


def ring_cables(record: Record, surface: Surface, place: Place) -> tuple[Slot, ...] | None:
    """Return the readings of single cables that stand in for the ends of a ring.

    The ends can be read once the last leg is in. Until then each cable that the wall hides is read
    by itself, at a point that it comes to.

    Args:
        record: The job.
        surface: What is to be covered.
        place: A circuit that has cable behind it.
    Returns:
        None if it is no ring, or if all of it is in: then its ends are to be read.
    """
    circuit = next((each for each in record.circuits if each.id == place.circuit), None)
    if circuit is None or circuit.form is not Form.RING or not circuit.points:
        return None
    met = [each for each in circuit.points if _is_reached(record, circuit, each)]
    if len(met) == len(circuit.points) and not _falls_short(record, circuit):
        return None
    ids = {each.surface for each in hidden_legs(record, surface)} | {surface.id}
    here = [each for each in met if each.spot is not None and each.spot.surface in ids]
    # Cable that only passes, or goes home to the board, comes to a point elsewhere.
    board = any(each.spot.box is Box.BOARD for each in placed(record, surface))
    passing = met if not here else met[-1:] if board else []
    wanted = [each for each in circuit.points if each in here or each in passing]
    return tuple(
        slot_of(Quantity.RING_CABLES, place.at_point(each.id), Stage.BEFORE_COVERING)
        for each in wanted
    )


def _is_reached(record: Record, circuit: Circuit, point: Point) -> bool:
    surface = next(
        (each for each in record.fabric.surfaces if point.spot and each.id == point.spot.surface),
        None,
    )
    if surface is None or point.spot is None:
        return False
    return is_met(record, surface, Placed(point.name, point.spot, circuit, point))


def _falls_short(record: Record, circuit: Circuit) -> bool:
    """Whether less cable of a ring is drawn than is entered: its way home may not be in yet."""
    entered = [each.length for each in circuit.runs]
    made = [drawn(record, circuit.id, at) or 0.0 for at in range(len(entered))]
    return any(
        length is not None and short < (1 - APART) * length
        for length, short in zip(entered, made, strict=True)
    )


def still_to_read(record: Record, wanted: tuple[Slot, ...]) -> Iterator[Slot]:
    """Yield the readings of single cables that are missing, or found wrong."""
    for slot in wanted:
        readings = record.taken(slot)
        last = readings[-1].taken if readings else None
        if not (isinstance(last, Tick) and last.good):
            yield slot
