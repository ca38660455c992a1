"""The time/current picture of a device: its curve, the required time, and the fault currents."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from records.errors import FarboardError, NotTabulated
from records.expected.branch import Branch
from records.expected.context import Context
from records.expected.protection import kind_and_rating
from records.expected.residual import operating_times
from records.expected.results import Expected, NotWorkedOut, Result, What, Worked
from records.model.reading import Place
from records.model.record import Record
from records.model.wiring import Rcd
from records.tables import devices
from records.terms import DeviceKind, Part
from records.units import Ampere, Second

Line = tuple[tuple[Ampere, Second], ...]
"""Corners of a line of current [A] and time [s], to be joined straight on logarithmic scales."""

_NEVER = Second(1e9)
"""Where an upright line at the edge of what opens at all ends: far above any picture."""


@dataclass(frozen=True, slots=True)
class DeviceCurve:
    """When a device has operated, over the current."""

    latest: Line
    """By then it has operated; its corners by rising current."""
    earliest: Line
    """Not before then, where the published points leave a range; empty if they leave none."""
    held_from: Ampere
    """From this current on `held` is all that is claimed, though it may well be quicker."""
    held: Second
    band: tuple[Ampere, Ampere] | None
    """Between these a circuit-breaker may trip at once and may not; None for a fuse."""

    def corners(self, most: Ampere) -> Line:
        """Return `latest` with its level end, up to a current [A]."""
        if most <= self.held_from:
            return self.latest
        return (*self.latest, (most, self.held))


@dataclass(frozen=True, slots=True)
class ResidualBand:
    """When an RCD has operated at an earth fault current."""

    steps: tuple[tuple[Ampere, Second, Second], ...]
    """From this current on, not before and not after these times; by rising current."""
    name: str

    def at(self, current: Ampere) -> tuple[Second, Second] | None:
        """Return the shortest and the longest time at a current; None below IΔn."""
        known = [each for each in self.steps if current >= each[0] * (1 - 1e-9)]
        return known[-1][1:] if known else None


@dataclass(frozen=True, slots=True)
class FaultPoint:
    """The lowest earth fault current, by one way of knowing it, and what it does."""

    name: str
    """"design" or "readings"."""
    current: Ampere
    time: Second | None
    """When the overcurrent device has operated; None: no time is assured."""
    words: str
    """The same as a person reads it."""
    by_rcd: Second | None
    """When the RCD has operated; None without one."""
    rcd_words: str


@dataclass(frozen=True, slots=True)
class TimeCurrent:
    """All that stands in the picture of one device."""

    device: str
    curve: DeviceCurve
    required: Second | None
    """By then a fault must be off; None while that isn't known."""
    points: tuple[FaultPoint, ...]
    rcd: ResidualBand | None

    def range(self) -> tuple[int, int]:
        """Return the currents that the picture reaches from and to, as powers of ten.

        From 10 A to 10 kA, and further where a fault current or the curve lies outside.
        """
        currents = [each.current for each in self.points if each.current > 0]
        seen = [at for at, time in self.curve.latest if time <= 10 ** TIMES[1]]
        low = min([*seen, *currents])
        high = max([self.curve.held_from * 1.5, *currents])
        return min(1, math.floor(math.log10(low))), max(4, math.ceil(math.log10(high)))


TIMES = (-2, 3)
"""Powers of ten of the times that the picture reaches from and to: 10 ms to 1000 s."""


def device_curve(kind: DeviceKind, rating: Ampere) -> DeviceCurve:
    """Return the curve of a device.

    A fuse: straight on logarithmic scales between the published points, nothing outside them but
    that above the highest current it takes no longer. A circuit-breaker: its longest times step
    down at the currents of its standard, then its band, then 0.1 s.

    Raises:
        NotTabulated: If the device, or that rating of it, isn't known.
    Source:
        BS 7671 Appendix 3 (fuses), BS EN 60898-1 Table 7 (circuit-breakers).
    """
    if kind.is_fuse:
        knots = devices.fuse_curve(kind, rating)
        rising = tuple(reversed(knots))
        latest = tuple((each.high, each.time) for each in rising)
        earliest = tuple((each.low, each.time) for each in rising)
        exact = all(f"{each.low:.3g}" == f"{each.high:.3g}" for each in knots)
        return DeviceCurve(latest, () if exact else earliest, *latest[-1], None)
    return _breaker_curve(kind, rating)


def _breaker_curve(kind: DeviceKind, rating: Ampere) -> DeviceCurve:
    band = devices.breaker_band(kind)
    lower, upper = Ampere(band.lower * rating), Ampere(band.upper * rating)
    corners: list[tuple[Ampere, Second]] = []
    before = _NEVER
    for multiple, longest in devices.breaker_thermal(kind, rating):
        at = Ampere(multiple * rating)
        corners += [(at, before), (at, longest.value)]
        before = longest.value
    at_once = Second(0.1)
    corners += [(upper, before), (upper, at_once)]
    return DeviceCurve(tuple(corners), (), upper, at_once, (lower, upper))


def residual_band(rcd: Rcd) -> ResidualBand:
    """Return the break times of an RCD over the fault current.

    Source:
        BS EN 61008-1 and BS EN 61009-1, Table 1.
    """
    residual = (rcd.residual or 0.0) / 1000
    steps = tuple(
        (Ampere(each.multiple * residual), each.shortest, each.longest)
        for each in operating_times(rcd)
    )
    return ResidualBand(steps, f"RCD {rcd.residual:g} mA{', delayed' if rcd.delayed else ''}")


def time_current(record: Record, expected: Expected, place: Place) -> TimeCurrent | NotWorkedOut:
    """Return the picture of the device of the feed or of a circuit, or why there is none.

    Args:
        record: The job.
        expected: What follows from it.
        place: The feed or a circuit; a point on one counts as its circuit.
    """
    if place.part not in (Part.FEED, Part.CIRCUIT):
        return NotWorkedOut("curve", "only the feed and the circuits have a device to draw.")
    circuit = record.circuit(place.circuit) if place.circuit is not None else None
    branch = Branch(Context(record), circuit)
    try:
        kind, rating = kind_and_rating(branch.device, branch.at)
        curve = device_curve(kind, rating)
    except FarboardError as error:
        return NotWorkedOut("curve", str(error))
    try:
        rcd = branch.rcd
    except FarboardError:  # an RCBO whose IΔn isn't entered: its overcurrent part is known
        rcd = None
    required = expected.design.get((branch.place, What.TIME_REQUIRED))
    points = (
        _point("design", branch.place, expected.design),
        _point("readings", branch.place, expected.measured),
    )
    return TimeCurrent(
        f"{kind.value}, {rating:g} A",
        curve,
        Second(required.value) if isinstance(required, Worked) else None,
        tuple(each for each in points if each is not None),
        _band(rcd) if rcd is not None and rcd.residual else None,
    )


def _band(rcd: Rcd) -> ResidualBand | None:
    """Return the band of an RCD; None of one to BS 4293 whose delay isn't entered."""
    try:
        return residual_band(rcd)
    except NotTabulated:
        return None


def _point(
    name: str, place: Place, figures: Mapping[tuple[Place, What], Result]
) -> FaultPoint | None:
    current = figures.get((place, What.FAULT_LOWEST))
    if not isinstance(current, Worked) or not current.value > 0:
        return None
    time, by_rcd = figures.get((place, What.TIME)), figures.get((place, What.TIME_RCD))
    return FaultPoint(
        name,
        Ampere(current.value),
        _assured(time),
        str(time) if isinstance(time, Worked) else "",
        _assured(by_rcd),
        str(by_rcd) if isinstance(by_rcd, Worked) else "",
    )


def _assured(result: object) -> Second | None:
    return Second(result.high) if isinstance(result, Worked) and result.high is not None else None
