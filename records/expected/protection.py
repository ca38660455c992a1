"""What protects a circuit: limits of its loop, and how fast it is disconnected."""

from __future__ import annotations

import math
from functools import cache, lru_cache

from records.evidence import Source
from records.expected import sources as cited
from records.expected.formulas.disconnection import (
    Knot,
    Opening,
    Steps,
    breaker_steps,
    fuse_opening,
    rcd_steps,
    step_at,
)
from records.expected.formulas.loop import highest_cold
from records.expected.residual import operating_times
from records.expected.results import Text, Worked
from records.expected.workings import Missing, need
from records.model.wiring import Device, Rcd
from records.tables import devices, disconnection
from records.tables.known_sizes import must_be, no_such_rating
from records.tables.rounding import cut_down
from records.tables.table import Published
from records.tables.testing import cold_limit_share
from records.terms import DeviceKind, Use
from records.units import Ampere, Ohm, Second, Unit, Volt


def kind_and_rating(device: Device, at: str) -> tuple[DeviceKind, Ampere]:
    """Return a device's kind and In [A]; raises Missing if one isn't entered."""
    kind = need(device.kind, "the protective device is", at)
    return kind, Ampere(need(device.rating, "In of the protective device is", at))


@cache
def feed_time(*, tt: bool) -> Worked:
    """Return the longest disconnection time that the feed may have."""
    found = disconnection.other_circuit_time(tt=tt)
    text = f"distribution circuit, {'TT' if tt else 'TN'}"
    return Worked(
        "t", found.value, Unit.SECOND, "longest disconnection time", text, (found.source,), digits=1
    )


@lru_cache(maxsize=1024)
def circuit_time(use: Use, u0: Volt, rating: Ampere, *, tt: bool) -> Worked:
    """Return the longest disconnection time that a final circuit may have."""
    system = "TT" if tt else "TN"
    sockets = use is Use.SOCKETS
    reach = disconnection.final_circuit_reach(sockets=sockets)
    sort = "socket-outlets" if sockets else "fixed equipment only"
    if rating <= reach.value:
        found = disconnection.final_circuit_time(u0, tt=tt)
        text = f"{rating:g} A with {sort}, {system}, up to {reach.value:g} A"
    else:
        found = disconnection.other_circuit_time(tt=tt)
        text = f"{rating:g} A with {sort}, {system}, over {reach.value:g} A"
    return Worked(
        "t",
        found.value,
        Unit.SECOND,
        "longest disconnection time",
        text,
        (found.source, reach.source),
        digits=1,
    )


@lru_cache(maxsize=1024)
def loop_limit_by_rcd(residual: float) -> Worked:
    """Return the highest loop with an electrode behind an RCD of IΔn [mA]: 50 V / IΔn."""
    touch = disconnection.touch_voltage()
    limit = disconnection.rcd_max_ra(residual)
    return Worked(
        "Zs",
        limit.value,
        Unit.OHM,
        "Zs ≤ 50 V / IΔn",
        f"{touch.value:g} / {residual / 1000:g}",
        (limit.source, touch.source),
        digits=0,
        note="By the RCD: the breaker tables don't apply here.",
    )


@lru_cache(maxsize=1024)
def loop_limit(kind: DeviceKind, rating: Ampere, time: float, u0: Volt) -> Worked:
    """Return the highest loop impedance for an overcurrent device and a time.

    The tabulated figure; for times between the tabulated ones that of the next shorter, which
    errs towards refusing.
    """
    must_be(no_such_rating(kind, rating))
    found, text = _tabulated(kind, rating, time, u0)
    return Worked(
        "Zs",
        found.value,
        Unit.OHM,
        "tabulated maximum Zs",
        text,
        (found.source,),
        note="For conductors at operating temperature.",
    )


def _tabulated(
    kind: DeviceKind, rating: Ampere, time: float, u0: Volt
) -> tuple[Published[Ohm], str]:
    if time >= 5:
        return devices.max_zs(kind, rating, Second(5.0), u0), f"{rating:g} A {kind.value}, 5 s"
    if time < 0.4 and kind.is_fuse:
        raise Missing(
            f"no Zs of a {kind.value} is tabulated for {time:g} s: an RCD is needed (Circuits)."
        )
    text = f"{rating:g} A {kind.value}, 0.4 s"
    if time != 0.4:
        text += f" (holds for {time:g} s)"
    return devices.max_zs(kind, rating, Second(0.4), u0), text


def cold_limit(limit: Worked, *, by_rcd: bool) -> Worked:
    """Return 0.8 of the tabulated maximum, cut down to 0.01 Ω."""
    if by_rcd:
        raise Missing("the limit is that of the RCD, which temperature doesn't touch.")
    return _cold_limit(limit)


@lru_cache(maxsize=1024)
def _cold_limit(limit: Worked) -> Worked:
    share = cold_limit_share()
    value = limit.value
    return Worked(
        "Zs",
        cut_down(share.value * value),
        Unit.OHM,
        "0.8 × tabulated maximum Zs, cut down",
        ("{:g} × {:g}", share.value, value),
        (share.source, limit),
        note="A rule of thumb for a reading taken cold.",
    )


def exact_limit(limit: Worked, r1_r2: float, rise: float, how: str, *, by_rcd: bool) -> Worked:
    """Return what a cold meter may show so that the loop just meets the table when hot."""
    if by_rcd:
        raise Missing("the limit is that of the RCD, which temperature doesn't touch.")
    value = cut_down(highest_cold(Ohm(limit.value), Ohm(r1_r2), max(rise, 1.0)))
    return Worked(
        "Zs",
        value,
        Unit.OHM,
        "Zs,cold ≤ Zs,max - (hot/cold - 1) · (R1+R2), cut down",
        ("{:g} - ({:.3f} - 1) × {:.3f}", limit.value, rise, r1_r2),
        (cited.COLD_EXACT, limit),
        note=f"R1+R2 {how}; the part upstream is taken as it was measured.",
    )


def opening(kind: DeviceKind, rating: Ampere, current: float) -> tuple[Opening, tuple[Source, ...]]:
    """Return when an overcurrent device has opened at a current [A], and the sources."""
    if kind.is_fuse:
        knots, sources = _fuse(kind, rating)
        return fuse_opening(Ampere(current), knots), sources
    steps, sources = _breaker(kind, rating)
    return step_at(Ampere(current), rating, steps), sources


@lru_cache(maxsize=512)
def _fuse(kind: DeviceKind, rating: Ampere) -> tuple[tuple[Knot, ...], tuple[Source, ...]]:
    must_be(no_such_rating(kind, rating))
    points = devices.fuse_curve(kind, rating)
    knots = tuple(Knot(each.time, each.low, each.high) for each in points)
    return knots, tuple(each.source for each in points)


@lru_cache(maxsize=512)
def _breaker(kind: DeviceKind, rating: Ampere) -> tuple[Steps, tuple[Source, ...]]:
    must_be(no_such_rating(kind, rating))
    band = devices.breaker_band(kind)
    thermal = devices.breaker_thermal(kind, rating)
    steps = breaker_steps((band.lower, band.upper), [(at, each.value) for at, each in thermal])
    return steps, (band.source, *(each.source for _, each in thermal))


def time_overcurrent(kind: DeviceKind, rating: Ampere, current: float, note: Text = "") -> Worked:
    """Return the time in which an overcurrent device disconnects; infinite if none is assured."""
    found, sources = opening(kind, rating, current)
    return _time(found, _TIME_OF[kind], ("{:g} A at {:.0f} A", rating, current), sources, note)


_TIME_OF = {kind: f"t of {kind.value} at If" for kind in DeviceKind}


def residual_opening(rcd: Rcd, current: float) -> tuple[Opening, tuple[Source, ...]]:
    """Return when an RCD has opened at an earth fault current [A], and the sources."""
    steps, sources = _residual(rcd)
    return step_at(Ampere(current), Ampere((rcd.residual or 0.0) / 1000), steps), sources


@lru_cache(maxsize=256)
def _residual(rcd: Rcd) -> tuple[Steps, tuple[Source, ...]]:
    times = operating_times(rcd)
    steps = rcd_steps([(each.multiple, each.shortest, each.longest) for each in times])
    return steps, tuple(each.source for each in times)


def time_rcd(rcd: Rcd | None, current: float, at: str) -> Worked:
    """Return the time in which the RCD disconnects an earth fault; infinite if none is assured."""
    if rcd is None or rcd.residual is None:
        raise Missing(f"no RCD is entered ({at}).")
    residual, sort = rcd.residual, "delayed" if rcd.delayed else "without delay"
    found, sources = residual_opening(rcd, current)

    def put_in() -> str:
        multiple = current / residual * 1000
        if multiple < 100:
            return f"{current:.4g} A is {multiple:.1f} × {residual:g} mA"
        return f"{current:.4g} A is over 100 × {residual:g} mA"

    return _time(found, f"t of an RCD {sort} at If", put_in, sources, "")


def _time(
    found: Opening, formula: Text, put_in: Text, sources: tuple[Source, ...], note: Text
) -> Worked:
    value = math.inf if found.latest is None else found.latest
    return Worked(
        "t",
        value,
        Unit.SECOND,
        formula,
        put_in,
        sources,
        low=found.earliest,
        high=found.latest,
        words=found.words,
        note=note,
    )


def breaking(device: Device, at: str) -> Worked:
    """Return the breaking capacity of a device: from its label, or the lowest usual one."""
    if device.breaking is not None:
        return _breaking_labelled(device.breaking)
    return _breaking_usual(need(device.kind, "the protective device is", at))


@lru_cache(maxsize=512)
def _breaking_labelled(capacity: float) -> Worked:
    return Worked(
        "Icn",
        capacity,
        Unit.KILOAMPERE,
        "from the label",
        f"{capacity:g} kA",
        (cited.DECLARED_DEVICE,),
        digits=1,
    )


@cache
def _breaking_usual(kind: DeviceKind) -> Worked:
    found = devices.breaking_capacity(kind)
    return Worked(
        "Icn",
        found.value / 1000,
        Unit.KILOAMPERE,
        "lowest usual one of its kind",
        kind.value,
        (found.source,),
        digits=1,
        words=f"{found.value / 1000:.1f} kA, assumed",
        note=f"Not entered: read it off the label. Assumed by its kind, {kind.value}: the lowest "
        "usual one, on the safe side.",
    )
