"""Protective devices: highest loop impedance, operating currents and times, breaking capacity."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from records.errors import NotTabulated, OutOfRange
from records.evidence import Source
from records.tables.rounding import cut_down
from records.tables.table import Printed, Published, size, table
from records.terms import Basis, DeviceKind
from records.units import Ampere, Ohm, Second, Volt

_FUSES = {
    DeviceKind.BS_88_2: "bs_88_2",
    DeviceKind.BS_88_3: "bs_88_3",
    DeviceKind.BS_88_2_2: "bs_88_2_2",
    DeviceKind.BS_1361: "bs_1361",
    DeviceKind.BS_3036: "bs_3036",
    DeviceKind.BS_1362: "bs_1362",
}
_U0_OF_TABLES = Volt(230.0)
_TIMES = {0.4: "0.4 s", 5.0: "5 s"}
_RATINGS = (1, 2, 3, 4, 6, 8, 10, 13, 15, 16, 20, 25, 30, 32, 40, 45, 50, 63, 80, 100, 125)


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """A point of a fuse's curve: at `current` it has operated within `time` at the latest."""

    time: Second
    current: Ampere
    low: Ampere
    high: Ampere
    """The currents that the printed figures allow for: rounding leaves a range."""
    source: Source


@dataclass(frozen=True, slots=True)
class Band:
    """Instantaneous tripping of a circuit-breaker, as multiples of In."""

    lower: float
    """Below this it must not trip at once."""
    upper: float
    """From this it must trip within 0.1 s."""
    source: Source


@cache
def c_min() -> Published[float]:
    """Return Cmin, the factor for the lowest voltage (BS 7671 Appendix 3)."""
    return table("voltage_factor").number("Cmin, lowest fault current")


@cache
def c_max() -> Published[float]:
    """Return Cmax, the factor for the highest voltage (IEC 60909-0)."""
    return table("voltage_factor").number("Cmax, highest fault current")


@cache
def max_zs(kind: DeviceKind, rating: Ampere, time: Second, u0: Volt) -> Published[Ohm]:
    """Return the highest earth fault loop impedance at operating temperature [Ω].

    The figure as the table prints it. Where none is printed for a breaker (another rating or
    voltage) it is Cmin × U0 / Ia, cut to 0.01 Ω, and its source says so.

    Args:
        kind: The device.
        rating: In [A].
        time: 0.4 s or 5 s, the times that are tabulated; see `breaker_max_zs` for others.
        u0: Nominal voltage to earth [V].
    Raises:
        NotTabulated: For a fuse rating, a time or, with fuses, a voltage that isn't tabulated.
        OutOfRange: If the rating or the voltage is not above zero.
    Source:
        BS 7671, Tables 41.2 to 41.4.
    """
    if rating <= 0 or u0 <= 0:
        raise OutOfRange(f"In {rating:g} A and U0 {u0:g} V must both be above zero.")
    if time not in _TIMES:
        raise NotTabulated(f"Highest Zs is tabulated for 0.4 s and 5 s, not for {time:g} s.")
    if kind.is_fuse:
        return _fuse_max_zs(kind, rating, time, u0)
    return _breaker_max_zs(kind, rating, time, u0)


def _breaker_max_zs(kind: DeviceKind, rating: Ampere, time: Second, u0: Volt) -> Published[Ohm]:
    curve = kind.curve or ""
    if not is_made(kind, rating):
        raise NotTabulated(
            f"No {kind.value} of {rating:g} A is made; made are {_made_words(kind)}."
        )
    page = table("max_zs_breaker")
    row = (curve, _TIMES[time], size(rating))
    if row in page.cells and u0 == _U0_OF_TABLES:
        printed = page.number(*row)
        return Published(Ohm(printed.value), printed.source)
    current = breaker_current(kind, rating, time)
    value = cut_down(c_min().value * u0 / current.value)
    return Published(Ohm(value), _calculated(current.source))


def _calculated(source: Source) -> Source:
    return Source(source.work, f"{source.place}: Zs = Cmin × U0 / Ia", Basis.WORKED_OUT)


def _fuse_max_zs(kind: DeviceKind, rating: Ampere, time: Second, u0: Volt) -> Published[Ohm]:
    if u0 != _U0_OF_TABLES:
        raise NotTabulated(f"Highest Zs of fuses is tabulated for 230 V, not for {u0:g} V.")
    found = table(f"max_zs_{_FUSES[kind]}").number(_TIMES[time], size(rating))
    return Published(Ohm(found.value), found.source)


@cache
def breaker_current(kind: DeviceKind, rating: Ampere, time: Second) -> Published[Ampere]:
    """Return Ia, the current that BS 7671 takes to operate a breaker within 0.4 s or 5 s [A].

    Raises:
        NotTabulated: If it is a fuse, or for another time.
    """
    if kind.is_fuse or time not in _TIMES:
        raise NotTabulated(f"No operating current of {kind.value} is tabulated for {time:g} s.")
    found = table("breaker_current").number(kind.curve or "", _TIMES[time])
    return Published(Ampere(found.value * rating), found.source)


@cache
def breaker_band(kind: DeviceKind) -> Band:
    """Return the band of instantaneous tripping of a breaker, as multiples of In.

    Raises:
        NotTabulated: If it is a fuse.
    """
    page = table("breaker_band")
    lower = page.number(kind.curve or "fuse", "may trip at once from")
    upper = page.number(kind.curve or "fuse", "must trip within 0.1 s at")
    return Band(lower.value, upper.value, upper.source)


@cache
def breaker_thermal(
    kind: DeviceKind, rating: Ampere
) -> tuple[tuple[float, Published[Second]], ...]:
    """Return the longest operating times below the band: (multiple of In, time [s]), rising.

    Source:
        BS EN 60898-1, Table 7.
    """
    page = table("breaker_thermal")
    side = "up to 32 A" if rating <= 32 else "over 32 A"
    long = "up to 63 A" if rating <= 63 else "over 63 A"
    rows = (
        (1.45, page.number("all", "1.45 × In", long)),
        (2.55, page.number("all", "2.55 × In", side)),
        (breaker_band(kind).lower, page.number(kind.curve or "", "lower end of the band", side)),
    )
    return tuple((at, Published(Second(each.value), each.source)) for at, each in rows)


@cache
def fuse_curve(kind: DeviceKind, rating: Ampere) -> tuple[CurvePoint, ...]:
    """Return the known points of a fuse's time/current curve, shortest time first.

    The currents are those that the standard gives as the latest operation; where a tabulated Zs
    belongs to the point, the range of currents that rounds to it is given beside.

    Raises:
        NotTabulated: If it is no fuse, or a rating that isn't tabulated.
    """
    if not kind.is_fuse:
        raise NotTabulated(f"{kind.value} has bands, not a curve of points.")
    page = table(f"fuse_current_{_FUSES[kind]}")
    limits = table(f"max_zs_{_FUSES[kind]}")
    times = page.under(size(rating))
    if not times:
        page.printed(size(rating))
    points = []
    for time in times:
        found = page.number(size(rating), time)
        low, high = found.value, found.value
        row = (time, size(rating))
        # A limit that was itself worked out from the current says nothing new about it.
        if row in limits.cells and limits.source(*row).basis is not Basis.WORKED_OUT:
            least, most = _implied(limits.printed(time, size(rating)))
            low, high = min(low, least), max(high, most)
        points.append(
            CurvePoint(
                Second(float(time.removesuffix(" s"))),
                Ampere(found.value),
                Ampere(low),
                Ampere(high),
                found.source,
            )
        )
    return tuple(points)


def _implied(zs: Printed) -> tuple[float, float]:
    """Return the range of currents [A] whose 0.95 × 230 V / I rounds to a printed Zs."""
    printed = Decimal(str(zs))
    exponent = printed.as_tuple().exponent
    half = Decimal(5).scaleb(int(exponent) - 1)
    volts = Decimal(str(table("voltage_factor").printed("Cmin, lowest fault current"))) * 230
    return float(volts / (printed + half)), float(volts / (printed - half))


@cache
def ratings(kind: DeviceKind) -> tuple[float, ...]:
    """Return the ratings that a device is known in [A]."""
    if kind.is_fuse:
        return tuple(float(each) for each in table(f"fuse_current_{_FUSES[kind]}").under())
    return tuple(map(float, _RATINGS))


def is_made(kind: DeviceKind, rating: Ampere) -> bool:
    """Return whether a device is known in that rating."""
    return rating in ratings(kind)


@cache
def breaking_capacity(kind: DeviceKind) -> Published[Ampere]:
    """Return the breaking capacity to take where the label isn't known: the lowest usual one [A].

    Errs low. What the label says goes first.
    """
    found = table("breaking_capacity").number(_marked_as(kind), "lowest", times=1000)
    return Published(Ampere(found.value), found.source)


@cache
def highest_breaking(kind: DeviceKind) -> Published[Ampere]:
    """Return the highest breaking capacity that a kind of device is marked with [A]."""
    found = table("breaking_capacity").number(_marked_as(kind), "highest", times=1000)
    return Published(Ampere(found.value), found.source)


def _marked_as(kind: DeviceKind) -> str:
    rows = {
        DeviceKind.BS_88_2: "BS 88-2 fuse",
        DeviceKind.BS_88_3: "BS 88-3 fuse",
        # The same classes as the fuses that came after them.
        DeviceKind.BS_88_2_2: "BS 88-2 fuse",
        DeviceKind.BS_1361: "BS 88-3 fuse",
        DeviceKind.BS_3036: "BS 3036 fuse",
        DeviceKind.BS_1362: "BS 1362 fuse",
    }
    return rows.get(kind, "circuit-breaker or RCBO")


def _made_words(kind: DeviceKind) -> str:
    return ", ".join(f"{each:g}" for each in ratings(kind)) + " A"
