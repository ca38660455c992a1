"""Which parts and circuits of a job have a place for a measurement."""

from __future__ import annotations

from records.model.circuit import Circuit
from records.model.record import Record
from records.terms import Cpc, Form, OutbuildingEarth, Use


def is_ring(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit is a ring."""
    return circuit is not None and circuit.form is Form.RING


def is_not_ring(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit is known to be no ring."""
    return circuit is not None and circuit.form in (Form.RADIAL, Form.FCU)


def own_rcd(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit has a residual current part of its own."""
    return circuit is not None and bool(
        circuit.rcd.residual or (circuit.device.kind and circuit.device.kind.is_rcbo)
    )


def board_rcd(record: Record, _: Circuit | None) -> bool:
    """Return whether an RCD stands at the sub-board."""
    return record.board.rcd.residual is not None


def feed_rcd(record: Record, _: Circuit | None) -> bool:
    """Return whether an RCD stands before the feed."""
    kind = record.feed.device.kind
    return record.feed.rcd.residual is not None or (kind is not None and kind.is_rcbo)


def has_electrode(record: Record, _: Circuit | None) -> bool:
    """Return whether the outbuilding has an earth electrode."""
    return record.board.earth is OutbuildingEarth.OWN_ELECTRODE


def has_surge(record: Record, _: Circuit | None) -> bool:
    """Return whether surge protection is fitted."""
    return record.board.surge_protection is True


def has_to_act(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit feeds something that can be seen to work."""
    return circuit is not None and circuit.use in (Use.LIGHTING, Use.FIXED)


def behind_rcd(record: Record, circuit: Circuit | None) -> bool:
    """Return whether an RCD stands anywhere before the points of a circuit."""
    upstream = feed_rcd(record, None) or board_rcd(record, None)
    return circuit is not None and (upstream or own_rcd(record, circuit))


def rcd_in_series(record: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit has an RCD of its own and another one before that."""
    upstream = feed_rcd(record, None) or board_rcd(record, None)
    return upstream and own_rcd(record, circuit)


def is_lighting(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit feeds lamps."""
    return circuit is not None and circuit.use is Use.LIGHTING


def core_and_armour(record: Record, _: Circuit | None) -> bool:
    """Return whether the feed's earth returns by a core and the armour together."""
    return any(run.cpc is Cpc.CORE_AND_ARMOUR for run in record.feed.runs)


def has_gland(record: Record, _: Circuit | None) -> bool:
    """Return whether the armour of the feed serves as cpc, so that its glands carry the fault."""
    return any(run.cpc in (Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR) for run in record.feed.runs)


def has_circuits(record: Record, _: Circuit | None) -> bool:
    """Return whether there are circuits behind the sub-board."""
    return bool(record.circuits)
