"""How long a device takes to disconnect at a current: fuses, circuit-breakers, RCDs."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from records.errors import OutOfRange
from records.units import Ampere, Second


@dataclass(frozen=True, slots=True)
class Opening:
    """When a device has opened at a current: between two times, as far as anybody can say."""

    earliest: Second
    """0 if nothing is known."""
    latest: Second | None
    """None: no time is assured."""
    words: str

    def within(self, limit: Second) -> bool:
        """Return whether it is assured to have opened within a time [s]."""
        return self.latest is not None and self.latest <= limit


@dataclass(frozen=True, slots=True)
class Knot:
    """A known point of a fuse's curve: current [A] from `low` to `high` belongs to `time` [s]."""

    time: Second
    low: Ampere
    high: Ampere


def fuse_opening(current: Ampere, curve: Sequence[Knot]) -> Opening:
    """Return when a fuse has operated at a current.

    Straight between the points on logarithmic scales. The points' own uncertainty gives a range;
    its late end is the one to judge by. Above the highest current nothing shorter than the
    shortest time is claimed; below the lowest nothing is worked out: longer than the longest time.

    Args:
        current: Through the fuse [A].
        curve: Its points, shortest time first.
    Raises:
        OutOfRange: If the current is negative or there are no points.
    Source:
        Points of BS 7671 Appendix 3; log-log reading is how its figures are drawn.
    """
    if current < 0 or not curve:
        raise OutOfRange("A fuse needs a current and the points of its curve.")
    latest = _read(current, [(knot.high, knot.time) for knot in curve])
    earliest = _read(current, [(knot.low, knot.time) for knot in curve])
    first, last = curve[0].time, curve[-1].time
    if latest is None:
        words = f"longer than {last:g} s" if earliest is None else f"about {last:g} s or longer"
        return Opening(Second(earliest or last), None, words)
    if latest <= first:
        return Opening(Second(0.0), first, f"within {first:g} s")
    early = Second(0.0 if earliest is None or earliest <= first else earliest)
    if early and f"{early:.2g}" != f"{latest:.2g}":
        return Opening(early, Second(latest), f"{early:.2g} to {latest:.2g} s")
    return Opening(early, Second(latest), f"{latest:.2g} s")


def _read(current: float, points: Sequence[tuple[float, float]]) -> float | None:
    """Return the time at a current; the first point's above them, None below the last."""
    if current >= points[0][0]:
        return points[0][1]
    for (i_high, t_short), (i_low, t_long) in itertools.pairwise(points):
        if current >= i_low:
            part = math.log(i_high / current) / math.log(i_high / i_low)
            return float(t_short * (t_long / t_short) ** part)
    return None


Steps = tuple[tuple[float, Opening], ...]
"""When a device has opened, by the multiple of its rated current from which that holds, the
highest first."""


def breaker_steps(band: tuple[float, float], thermal: Sequence[tuple[float, Second]]) -> Steps:
    """Return when a circuit-breaker has operated, by the multiple of In.

    At the top of its band or above: within 0.1 s. Inside the band it may open at once and may
    leave it to its thermal part: not assured. Below, the thermal part opens in seconds to hours.

    Args:
        band: Lower and upper end of the instantaneous band, as multiples of In.
        thermal: (multiple of In, longest time [s]), rising.
    Source:
        BS EN 60898-1, Table 7.
    """
    ends = sorted({0.0, *band, *(at for at, _ in thermal)}, reverse=True)
    return tuple((multiple, _breaker_from(multiple, band, thermal)) for multiple in ends)


def _breaker_from(
    multiple: float, band: tuple[float, float], thermal: Sequence[tuple[float, Second]]
) -> Opening:
    lower, upper = band
    if multiple >= upper:
        return Opening(Second(0.0), Second(0.1), "within 0.1 s")
    latest = next((time for at, time in reversed(thermal) if multiple >= at), None)
    if latest is None:
        return Opening(Second(0.0), None, "may not open at all")
    if multiple >= lower:
        return Opening(Second(0.0), latest, f"not assured: at once, or thermal, up to {latest:g} s")
    words = f"{latest:g} s" if latest <= 120 else f"{latest / 60:g} min"
    return Opening(Second(0.1), latest, f"thermal, seconds to minutes: up to {words}")


def rcd_steps(times: Sequence[tuple[float, Second, Second]]) -> Steps:
    """Return when an RCD has operated, by the multiple of IΔn.

    Args:
        times: (multiple of IΔn, shortest, longest time [s]), rising.
    Source:
        BS EN 61008-1 and BS EN 61009-1, Table 1.
    """
    found = [(0.0, Opening(Second(0.0), None, "not assured below IΔn"))]
    for multiple, shortest, longest in times:
        words = f"within {longest * 1000:.0f} ms"
        if shortest:
            words = f"{shortest * 1000:.0f} to {longest * 1000:.0f} ms"
        found.append((multiple, Opening(shortest, longest, words)))
    return tuple(reversed(found))


def step_at(current: Ampere, rated: Ampere, steps: Steps) -> Opening:
    """Return when a breaker or an RCD has operated at a current.

    Args:
        current: Through the breaker; of an RCD the residual current, for an earth fault all [A].
        rated: In of a breaker, IΔn of an RCD [A].
        steps: Of the device.
    Raises:
        OutOfRange: If the current is negative or the rated one not above zero.
    """
    if current < 0 or not rated > 0:
        raise OutOfRange(f"{current:g} A with a rated current of {rated:g} A says nothing.")
    # + 1e-9: 160 A of 32 A type B must count as five times In, whatever the binary fraction.
    multiple = current / rated + 1e-9
    for least, opening in steps:
        if multiple >= least:
            return opening
    raise OutOfRange("The steps of a device begin at no current.")
