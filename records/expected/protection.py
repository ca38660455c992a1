"""What protects a circuit: limits of its loop, and how fast it is disconnected."""

from __future__ import annotations

import math
from decimal import ROUND_DOWN, Decimal

from records.errors import OutOfRange
from records.evidence import Source
from records.expected import sources as cited
from records.expected.disconnection import (
    Knot,
    Opening,
    breaker_opening,
    fuse_opening,
    rcd_opening,
)
from records.expected.electrode import highest_electrode
from records.expected.loop import highest_cold
from records.expected.results import Worked
from records.expected.workings import Missing, need, worked
from records.model.circuit import Circuit
from records.model.wiring import Device, Rcd
from records.tables import devices, disconnection
from records.tables.table import Published
from records.tables.testing import cold_limit_share
from records.terms import DeviceKind, Use
from records.units import Ampere, Ohm, Second, Unit, Volt


def kind_and_rating(device: Device, at: str) -> tuple[DeviceKind, Ampere]:
    """Return a device's kind and In [A]; raises Missing if one isn't entered."""
    kind = need(device.kind, "the protective device is", at)
    return kind, Ampere(need(device.rating, "In of the protective device is", at))


def required_time(circuit: Circuit | None, u0: Volt, at: str, rating: float, *, tt: bool) -> Worked:
    """Return the longest disconnection time that a circuit may have; None means the feed."""
    system = "TT" if tt else "TN"
    found = disconnection.other_circuit_time(tt=tt)
    text = f"distribution circuit, {system}"
    sources: tuple[Source, ...] = (found.source,)
    if circuit is not None:
        sockets = need(circuit.use, "what the circuit feeds is", at) is Use.SOCKETS
        reach = disconnection.final_circuit_reach(sockets=sockets)
        sort = "socket-outlets" if sockets else "fixed equipment only"
        text = f"{rating:g} A with {sort}, {system}, over {reach.value:g} A"
        if rating <= reach.value:
            found = disconnection.final_circuit_time(u0, tt=tt)
            text = f"{rating:g} A with {sort}, {system}, up to {reach.value:g} A"
        sources = (found.source, reach.source)
    return worked(
        "t", found.value, Unit.SECOND, "longest disconnection time", text, sources, digits=1
    )


def loop_limit(
    device: tuple[DeviceKind, Ampere], rcd: Rcd | None, time: float, u0: Volt, *, tt: bool
) -> Worked:
    """Return the highest loop impedance for a device and a time.

    TT with an RCD: 50 V / IΔn. Otherwise the tabulated figure of the overcurrent device; for
    times between the tabulated ones that of the next shorter, which errs towards refusing.
    """
    if tt and rcd is not None and rcd.residual is not None:
        touch = disconnection.touch_voltage()
        limit = highest_electrode(touch.value, Ampere(rcd.residual / 1000))
        return worked(
            "Zs", limit, Unit.OHM, "Zs ≤ 50 V / IΔn", f"{touch.value:g} / {rcd.residual / 1000:g}",
            (touch.source,), digits=0, note="By the RCD: the breaker tables don't apply here.",
        )  # fmt: skip
    kind, rating = device
    found, text = _tabulated(kind, rating, time, u0)
    return worked(
        "Zs", found.value, Unit.OHM, "tabulated maximum Zs", text, (found.source,),
        note="For conductors at operating temperature.",
    )  # fmt: skip


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
    share = cold_limit_share()
    exact = Decimal(str(share.value)) * Decimal(str(limit.value))
    return worked(
        "Zs", float(exact.quantize(Decimal("0.01"), ROUND_DOWN)), Unit.OHM,
        "0.8 × tabulated maximum Zs, cut down", f"{share.value:g} × {limit.value:g}",
        (share.source, *limit.sources), note="A rule of thumb for a reading taken cold.",
    )  # fmt: skip


def exact_limit(limit: Worked, r1_r2: float, rise: float, how: str, *, by_rcd: bool) -> Worked:
    """Return what a cold meter may show so that the loop just meets the table when hot."""
    if by_rcd:
        raise Missing("the limit is that of the RCD, which temperature doesn't touch.")
    value = highest_cold(Ohm(limit.value), Ohm(r1_r2), max(rise, 1.0))
    return worked(
        "Zs", value, Unit.OHM, "Zs,cold ≤ Zs,max - (hot/cold - 1) · (R1+R2)",
        f"{limit.value:g} - ({rise:.3f} - 1) × {r1_r2:.3f}", (cited.COLD_EXACT, *limit.sources),
        note=f"R1+R2 {how}; the part upstream is taken as it was measured.",
    )  # fmt: skip


def opening(kind: DeviceKind, rating: Ampere, current: float) -> tuple[Opening, tuple[Source, ...]]:
    """Return when an overcurrent device has opened at a current [A], and the sources."""
    if kind.is_fuse:
        points = devices.fuse_curve(kind, rating)
        knots = [Knot(each.time, each.low, each.high) for each in points]
        return fuse_opening(Ampere(current), knots), tuple(each.source for each in points)
    if not devices.is_made(kind, rating):
        raise OutOfRange(f"no {kind.value} of {rating:g} A is made.")
    band = devices.breaker_band(kind)
    thermal = [(at, each.value) for at, each in devices.breaker_thermal(kind, rating)]
    return (
        breaker_opening(Ampere(current), rating, (band.lower, band.upper), thermal),
        (band.source, *(each.source for _, each in devices.breaker_thermal(kind, rating))),
    )


def time_overcurrent(kind: DeviceKind, rating: Ampere, current: float, fuse: str = "") -> Worked:
    """Return the time in which an overcurrent device disconnects; infinite if none is assured."""
    found, sources = opening(kind, rating, current)
    return _time(
        "t", found, f"t of {kind.value} at If", f"{rating:g} A at {current:.0f} A", sources, fuse
    )


def time_rcd(rcd: Rcd | None, current: float, at: str) -> Worked:
    """Return the time in which the RCD disconnects an earth fault; infinite if none is assured."""
    if rcd is None or rcd.residual is None:
        raise Missing(f"no RCD is entered ({at}).")
    times = disconnection.rcd_times(delayed=rcd.delayed)
    found = rcd_opening(
        Ampere(current),
        Ampere(rcd.residual / 1000),
        [(each.multiple, each.shortest, each.longest) for each in times],
    )
    sort = "delayed" if rcd.delayed else "without delay"
    multiple = current / rcd.residual * 1000
    return _time(
        "t", found, f"t of an RCD {sort} at If",
        f"{current:.4g} A is {multiple:.1f} × {rcd.residual:g} mA" if multiple < 100
        else f"{current:.4g} A is over 100 × {rcd.residual:g} mA",
        tuple(each.source for each in times), "",
    )  # fmt: skip


def _time(
    symbol: str, found: Opening, formula: str, put_in: str, sources: tuple[Source, ...], note: str
) -> Worked:
    value = math.inf if found.latest is None else found.latest
    return worked(
        symbol, value, Unit.SECOND, formula, put_in, sources,
        low=found.earliest, high=found.latest, words=found.words, note=note,
    )  # fmt: skip


def breaking(device: Device, at: str) -> Worked:
    """Return the breaking capacity of a device: from its label, or the lowest usual one."""
    if device.breaking is not None:
        return worked(
            "Icn", device.breaking, Unit.KILOAMPERE, "from the label", f"{device.breaking:g} kA",
            (cited.DECLARED_DEVICE,), digits=1,
        )  # fmt: skip
    kind = need(device.kind, "the protective device is", at)
    found = devices.breaking_capacity(kind)
    return worked(
        "Icn", found.value / 1000, Unit.KILOAMPERE, "lowest usual one of its kind", kind.value,
        (found.source,), digits=1,
        note="Not entered: read it off the label. The lowest usual class is taken, which errs low.",
    )  # fmt: skip
