"""Loops and fault currents of a whole board as bare numbers: the same physics by a second way.

A test holds the walk of `plan`, with its workings, against it, and a benchmark the walk's time.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from records.expected.runs import HOT, of_cable, state
from records.expected.workings import Missing
from records.model.record import Record
from records.model.supply import Ground
from records.model.wiring import Run
from records.tables.demand import typical_fault_current
from records.tables.devices import c_max, c_min
from records.terms import CableKind, Cpc, Earthing, Form, OutbuildingEarth

_COLD = state(20.0, ac=True)


@dataclass(frozen=True, slots=True)
class End:
    """A place where a fault can be: the end of the feed, or the furthest point of a circuit."""

    zs: float
    """Earth fault loop, hot, magnitudes added [Ω]."""
    lowest: float
    """Earth fault current with that loop and Cmin [A]."""
    line_neutral: float
    """Highest fault current, conductors at 20 °C [A]."""
    line_earth: float
    """Highest earth fault current, conductors at 20 °C [A]."""


def ends(record: Record) -> list[End]:
    """Return the end of the feed, then of each circuit, of a TN job whose earth is carried.

    Raises:
        Missing: If an input is missing, or an electrode is in the loop.
        NotTabulated: If a cable is not tabulated.
        OutOfRange: If the inputs contradict each other.
    """
    origin = record.origin
    ze, u0 = origin.ze, origin.u0
    if not ze or origin.earthing is None or origin.earthing is Earthing.TT:
        raise Missing("the quick way needs Ze of a TN supply (Origin).")
    if record.board.earth is not OutbuildingEarth.CARRIED_OVER:
        raise Missing("the quick way needs an earth that the feed carries over (Board).")
    low, high = c_min().value * u0, c_max().value * u0
    supplies = _supplies(record, high)
    by_earth = supplies if origin.earthing is Earthing.TN_C_S else [(ze, high)]
    hot, line, earth = _series(record.feed.runs)
    zdb = ze + hot
    found = [_end(zdb, low, supplies, line + line, by_earth, line + earth)]
    for circuit in record.circuits:
        own_hot, own_line, own_earth = _series(circuit.runs)
        if circuit.form is Form.RING:
            raise Missing("the quick way doesn't cover rings.")
        zs = zdb + own_hot
        both = line + line + own_line + own_line
        back = line + earth + own_line + own_earth
        found.append(_end(zs, low, supplies, both, by_earth, back))
    return found


Supplies = list[tuple[float, float]]
"""Impedance [Ω], and U0 with the factor on it [V]."""


def _supplies(record: Record, high: float) -> Supplies:
    origin = record.origin
    found: Supplies = []
    known = origin.fault_current is not None
    if origin.fault_current is not None:
        found.append((origin.u0 / (origin.fault_current * 1000), origin.u0))
    if origin.ze and origin.earthing is Earthing.TN_C_S:
        found.append((origin.ze, high))
        known = known or origin.ze_ground is Ground.MEASURED
    if not known:
        found.append((origin.u0 / typical_fault_current().value, origin.u0))
    return found


def _end(
    zs: float, low: float, by_neutral: Supplies, both: float, by_earth: Supplies, back: float
) -> End:
    return End(zs, low / zs, _most(by_neutral, both), _most(by_earth, back))


def _most(supplies: Supplies, resistance: float) -> float:
    if len(supplies) == 1:
        z, c = supplies[0]
        return c / math.hypot(z, resistance)
    return max(c / math.hypot(z, resistance) for z, c in supplies)


@lru_cache(maxsize=4096)
def _per_metre(
    cable: CableKind, cores: int, csa: float, cpc: Cpc, cpc_csa: float | None
) -> tuple[float, float, float, float]:
    """Return line and cpc hot, their reactance, line at 20 °C, and cpc at 20 °C [Ω/m]."""
    hot = of_cable(cable, cores, csa, cpc, cpc_csa, HOT)
    cold = of_cable(cable, cores, csa, cpc, cpc_csa, _COLD)
    if hot.back is None or cold.back is None:
        raise Missing("the earth is not exported by a run.")
    return hot.line + hot.back, hot.x_back, cold.line, cold.back


def _series(runs: Sequence[Run]) -> tuple[float, float, float]:
    """Return the loop of runs hot, the line and the cpc at 20 °C [Ω]."""
    both = reactance = line = earth = 0.0
    for run in runs:
        length, cable, csa, cpc = run.length, run.cable, run.csa, run.cpc
        if length is None or cable is None or csa is None or cpc is None:
            raise Missing("a run lacks its length, its cable, its size or its cpc.")
        hot, x, cold_line, cold_back = _per_metre(cable, run.cores, csa, cpc, run.cpc_csa)
        both += hot * length
        reactance += x * length
        line += cold_line * length
        earth += cold_back * length
    if not runs:
        raise Missing("no run of cable is entered yet.")
    return (math.hypot(both, reactance) if reactance else both), line, earth
