"""Which circuits can decide about a feed: those that no other one stands before in every way."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from records.errors import FarboardError
from records.expected.context import Context
from records.expected.installation_loops import circuit_r1_r2
from records.expected.loads import design_current
from records.expected.runs import HOT
from records.expected.voltage_drop import circuit_drop, drop_before
from records.model.circuit import Circuit
from records.model.wiring import Device, Rcd
from records.terms import Use


@dataclass(frozen=True, slots=True)
class _Weight:
    """What a circuit adds to a feed, and what it is held to."""

    circuit: Circuit
    alike: tuple[Use | None, Device, Rcd, float | None]
    """Circuits that are alike in this have the same limits, and get worse in the same way."""
    load: float
    """Ib [A]."""
    drop: float
    """Voltage lost in its own cable [V]."""
    loop: float
    """Its own R1+R2, hot [Ω]."""

    def stands_before(self, other: _Weight) -> bool:
        """Whether no feed can leave the other one less in hand."""
        return (
            self.alike == other.alike
            and self.load >= other.load
            and self.drop >= other.drop
            and self.loop >= other.loop
        )


def decisive(context: Context, circuits: Iterable[Circuit]) -> list[Circuit]:
    """Return the circuits that can have least in hand with some feed, in their order.

    Drop and loop of a circuit grow with those of the feed, each by the same: of alike circuits one
    that draws more, loses more and has the higher loop decides with any feed. A circuit of which
    that can't be said stays.

    Args:
        context: Of the job, with any feed in it.
        circuits: Those that are all entered.
    """
    kept: list[_Weight | None] = []
    found = [(each, _weight(context, each)) for each in circuits]
    for _, weight in found:
        if weight is not None and not any(
            one is not None and one.stands_before(weight) for one in kept
        ):
            kept = [one for one in kept if one is None or not weight.stands_before(one)]
            kept.append(weight)
    staying = {id(one.circuit) for one in kept if one is not None}
    return [each for each, weight in found if weight is None or id(each) in staying]


def _weight(context: Context, circuit: Circuit) -> _Weight | None:
    try:
        load = design_current(context, circuit).value
        drop = circuit_drop(context, circuit)
        own = drop.value - drop_before(context, circuit)
        loop = circuit_r1_r2(context, circuit, HOT).value
    except FarboardError:
        return None
    if drop.low is not None:
        return None  # lamps shared alike may let it by: that depends on more than these
    alike = (circuit.use, circuit.device, circuit.rcd, circuit.fuse)
    return _Weight(circuit, alike, load, own, loop)
