"""Voltage drop along a run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from records.errors import OutOfRange
from records.units import Ampere, Ohm, Volt


@dataclass(frozen=True, slots=True)
class LoadAt:
    """A load at a place of a cable."""

    current: Ampere
    at: Ohm
    """Line and neutral from the board to where it leaves the cable: Σ (mV/A/m) · L / 1000 [Ω]."""
    spur: Ohm
    """Line and neutral of the spur to it [Ω]."""


def radial_drop(loads: Sequence[LoadAt], end: Ohm) -> Volt:
    """Return the highest voltage drop along a radial with its loads where they are [V].

    At a point every load's current has flowed as far as both share the cable, and on a spur its
    own. Currents are added as magnitudes: errs high.

    Args:
        loads: In any order.
        end: Line and neutral to the end [Ω].
    Raises:
        OutOfRange: If a figure is negative.
    Source:
        (mV/A/m) × Ib × L / 1000 for each length with its own current: BS 7671 Appendix 4,
        section 6; the sum over the loads is worked out.
    """
    _check(loads, end)

    def to(place: Ohm) -> float:
        return sum(each.current * min(each.at, place) for each in loads)

    at_points = (to(each.at) + each.current * each.spur for each in loads)
    return Volt(max(to(end), max(at_points, default=0.0)))


def ring_drop(
    loads: Sequence[LoadAt],
    around: Ohm,
    *,
    movable: Ampere,
    spread: Ampere,
    spurs: Sequence[tuple[Ohm, Ohm]] = (),
) -> Volt:
    """Return the highest voltage drop round a ring with its loads where they are [V].

    Args:
        loads: Those whose place is known.
        around: Line and neutral all the way round [Ω].
        movable: A load that may be at any point, or at the end of any of the spurs [A].
        spread: A load spread evenly all the way round [A].
        spurs: Where each spur without a load of its own leaves, and its own impedance [Ω].
    Raises:
        OutOfRange: If a figure is negative, or a place is off the ring.
    Source:
        A load I at y drops I · min(x, y) · (1 - max(x, y)) of the ring's impedance at x: worked
        out from the two ways round. Spread evenly it is half of what it is at x alone.
    """
    _check(loads, around)
    if movable < 0 or spread < 0 or any(not 0 <= at <= around or z < 0 for at, z in spurs):
        raise OutOfRange("A ring's loads and spurs lie on it, and none is negative.")
    if any(each.at > around for each in loads):
        raise OutOfRange("A load lies beyond the ring.")
    if not around:
        return Volt(0.0)
    whole = movable + spread / 2

    def at(x: float) -> float:
        own = sum(each.current * min(x, each.at) * (1 - max(x, each.at) / around) for each in loads)
        return own + whole * x * (1 - x / around)

    found = [at(each.at) + each.current * each.spur for each in loads]
    found += [at(place) + movable * own for place, own in spurs]
    found += [at(x) for x in _vertices(loads, around, whole)]
    return Volt(max(found, default=0.0))


def _vertices(loads: Sequence[LoadAt], around: float, whole: float) -> Iterator[float]:
    """Yield where the drop is highest in each stretch of a ring between two loads.

    There it is a + b·x - whole·x²/around, with its peak where the slope is nothing.
    """
    if not whole:
        return
    edges = sorted({0.0, *(each.at for each in loads), around})
    for low, high in pairwise(edges):
        middle = (low + high) / 2
        # A load behind gives x · (1 - y), one before y · (1 - x): slopes of 1 - y and -y.
        slope = whole + sum(
            each.current * ((1.0 if each.at > middle else 0.0) - each.at / around) for each in loads
        )
        yield min(max(slope * around / (2 * whole), low), high)


def _check(loads: Sequence[LoadAt], length: float) -> None:
    if length < 0 or any(min(each.current, each.at, each.spur) < 0 for each in loads):
        raise OutOfRange("Neither a load nor the cable to it can be negative.")
