"""Changes of what is placed: take it out, tick its hole off, say that a surface is covered."""

from __future__ import annotations

from datetime import date

from records.expected.boxes import Placed
from records.judgement.fabric.agreement import Apart
from records.model.fabric import Leg, Surface
from records.model.record import Record
from records.store.edits import put, take_out
from records.store.patch import Op


def pointer(record: Record, each: Placed) -> str:
    """Return where in a record the place of something stands."""
    if each.fixture is not None:
        at = [one.id for one in record.fabric.fixtures].index(each.fixture.id)
        return f"/fabric/fixtures/{at}/spot"
    if each.circuit is None or each.point is None:
        raise ValueError(f"{each.name} is neither a point nor a fixture")
    at = [one.id for one in record.circuits].index(each.circuit.id)
    number = [one.id for one in each.circuit.points].index(each.point.id)
    return f"/circuits/{at}/points/{number}/spot"


def ticked(record: Record, each: Placed) -> list[Op]:
    """Return the change that ticks a hole off as cut, or takes the tick back."""
    spot = each.spot.model_copy(update={"cut": None if each.spot.cut else True})
    return put(pointer(record, each), spot)


def unplaced(record: Record, each: Placed) -> list[Op]:
    """Return the change that takes a thing off its surface; a point stays in its circuit."""
    at = pointer(record, each)
    return take_out(at.removesuffix("/spot")) if each.fixture is not None else put(at, None)


def without_leg(record: Record, leg: Leg) -> list[Op]:
    """Return the change that takes a leg of cable out."""
    at = [one.id for one in record.fabric.legs].index(leg.id)
    return take_out(f"/fabric/legs/{at}")


def with_drawn_length(record: Record, found: Apart) -> list[Op]:
    """Return the change that takes the drawn length of a run over as its length."""
    if found.circuit is None:
        return put(f"/feed/runs/{found.run}/length", found.drawn)
    at = [one.id for one in record.circuits].index(found.circuit)
    return put(f"/circuits/{at}/runs/{found.run}/length", found.drawn)


def covered(record: Record, surface: Surface, day: date | None) -> list[Op]:
    """Return the change that says on which day a surface was covered; None: it is open."""
    at = [one.id for one in record.fabric.surfaces].index(surface.id)
    return put(f"/fabric/surfaces/{at}/covered", day.isoformat() if day is not None else None)
