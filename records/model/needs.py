"""Which parts and circuits of a job have a place for a measurement."""

from __future__ import annotations

from dataclasses import dataclass

from records.model.circuit import Circuit
from records.model.measurement import Waived
from records.model.reading import Quantity, Reading, when_taken
from records.model.record import Record
from records.model.supply import Ground
from records.terms import Cpc, Form, OutbuildingEarth, Part, Stage, Use


def is_ring(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit is a ring."""
    return circuit is not None and circuit.form is Form.RING


def is_not_ring(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit is no ring; one whose arrangement nobody entered isn't one yet.

    It would have no continuity test else, and could go live without one.
    """
    return circuit is not None and circuit.form is not Form.RING


def own_rcd(_: Record, circuit: Circuit | None) -> bool:
    """Return whether a circuit has its own RCD."""
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


def armoured_island(record: Record, _: Circuit | None) -> bool:
    """Return whether an armoured feed leads to an outbuilding with an electrode of its own."""
    return has_electrode(record, None) and any(
        run.cable is not None and run.cable.is_armoured for run in record.feed.runs
    )


def core_or_island_armour(record: Record, _: Circuit | None) -> bool:
    """Return whether the armour of the feed is read alone: beside a core, or where the earth isn't
    exported and it is there for a spade through the cable."""
    return core_and_armour(record, None) or armoured_island(record, None)


def at_first_fix(_: Record, _circuit: str | None, stage: Stage) -> bool:
    """Return whether it is before covering: offered then, and asked for at the dead tests."""
    return stage is Stage.BEFORE_COVERING


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


def ze_is_known(record: Record, _: str | None = None, _stage: Stage | None = None) -> bool:
    """Return whether Ze is declared or was measured already, so that no earth need come off.

    To find it by enquiry or calculation will do (BS 7671, 313.1, from memory).
    """
    return record.origin.ze is not None and record.origin.ze_ground in (
        Ground.DECLARED,
        Ground.MEASURED,
    )


def no_earth_came_off(record: Record, circuit: str | None, stage: Stage) -> bool:
    """Return whether Ze is known and nobody measured it, so that there is no earth to put back."""
    return ze_is_known(record, circuit, stage) and not _was_read(record, Quantity.ZE)


def electrode_stayed_on(record: Record, _: str | None, _stage: Stage) -> bool:
    """Return whether nobody measured the electrode live, so that it was not off its bar."""
    return not _was_read(record, Quantity.ELECTRODE_LOOP)


def joined(part: Part) -> Waived:
    """Return whether L and N of a feed or a circuit were joined for its reading to earth.

    Then nothing is left to read between them, nor between N and earth.
    """
    return lambda record, circuit, stage: (
        (part, circuit, stage) in _sorted_out(record.readings).joined
    )


def _was_read(record: Record, quantity: Quantity) -> bool:
    return quantity in _sorted_out(record.readings).quantities


@dataclass(frozen=True, slots=True)
class _Read:
    """What the needs ask of the readings there are."""

    joined: frozenset[tuple[Part, str | None, Stage]] = frozenset()
    """Where and when the last reading L-E was taken with L and N joined."""
    quantities: frozenset[Quantity] = frozenset()
    """All that was read, or could not be."""


_latest: tuple[tuple[Reading, ...], _Read] = ((), _Read())


def _sorted_out(readings: tuple[Reading, ...]) -> _Read:
    # Asked for each circuit after each change: sorted out once for the readings there are.
    global _latest
    if _latest[0] is not readings:
        last: dict[tuple[Part, str | None, Stage], Reading] = {}
        for each in sorted(readings, key=when_taken):
            if each.slot.quantity is Quantity.IR_LE:
                last[each.slot.place.part, each.slot.place.circuit, each.slot.stage] = each
        joined = frozenset(at for at, each in last.items() if each.joined)
        _latest = (readings, _Read(joined, frozenset(each.slot.quantity for each in readings)))
    return _latest[1]
