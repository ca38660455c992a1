"""How fast a fault has to be disconnected, and how fast an RCD does it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from records.errors import NotTabulated, OutOfRange
from records.evidence import Source
from records.tables.rounding import cut_down
from records.tables.table import Published, size, table
from records.terms import Basis, RcdStandard
from records.units import Ampere, Ohm, Second, Volt

_BANDS = ((50, 120, "50 to 120 V"), (120, 230, "120 to 230 V"), (230, 400, "230 to 400 V"))


@dataclass(frozen=True, slots=True)
class RcdTimes:
    """Break times of an RCD at one multiple of its rated residual current."""

    multiple: float
    shortest: Second
    """0 for a general one."""
    longest: Second
    source: Source


@cache
def final_circuit_time(u0: Volt, *, tt: bool) -> Published[Second]:
    """Return the longest disconnection time of a final circuit that Table 41.1 covers [s].

    Args:
        u0: Nominal a.c. voltage to earth [V].
        tt: Whether the fault current returns by an earth electrode.
    Raises:
        OutOfRange: At 50 V or below, where the table doesn't ask for disconnection.
    """
    system = "TT" if tt else "TN"
    if u0 <= 50:
        raise OutOfRange(f"Table 41.1 starts above 50 V; U0 is {u0:g} V.")
    row = next((name for low, high, name in _BANDS if low < u0 <= high), "over 400 V")
    found = table("disconnection_time").number(system, row)
    return Published(Second(found.value), found.source)


@cache
def other_circuit_time(*, tt: bool) -> Published[Second]:
    """Return the longest disconnection time of a distribution circuit [s]: TN 5 s, TT 1 s."""
    row = f"distribution and other circuits, {'TT' if tt else 'TN'}, s"
    found = table("disconnection_rule").number(row)
    return Published(Second(found.value), found.source)


@cache
def final_circuit_reach(*, sockets: bool) -> Published[Ampere]:
    """Return up to which rated current Table 41.1 covers a final circuit [A].

    63 A with socket-outlets, 32 A with fixed equipment only (Regulation 411.3.2.2).
    """
    row = "with socket-outlets" if sockets else "of fixed equipment only"
    found = table("disconnection_rule").number(f"final circuit {row}, up to, A")
    return Published(Ampere(found.value), found.source)


@cache
def rcd_times(
    *,
    delayed: bool,
    residual_ma: float | None = None,
    standard: RcdStandard | None = None,
    delay: Second | None = None,
) -> tuple[RcdTimes, ...]:
    """Return the break times of an RCD at multiples of IΔn, rising, from 1 × IΔn up.

    Args:
        delayed: Whether it is a time-delayed, selective one.
        residual_ma: IΔn [mA]. Up to 30 mA the shortest time is assured from 0.25 A up only: a
            maker may prove it there in place of 5 × IΔn.
        standard: That it is made to; None: today's.
        delay: Of a delayed one to BS 4293, from its label [s].
    Raises:
        NotTabulated: For a delayed one to BS 4293 whose delay isn't given.
    Source:
        BS EN 61008-1 and BS EN 61009-1, Table 1; BS 4293 and BS 7288.
    """
    if standard in (RcdStandard.BS_4293, RcdStandard.BS_7288):
        return _older_times(delayed, delay)
    page = table("rcd_time")
    kind = "delayed, type S" if delayed else "general"
    times = []
    for multiple in (1, 2, 5):
        longest = page.number(kind, "longest", f"{multiple} × IΔn", times=1e-3)
        shortest = (
            page.number(kind, "shortest", f"{multiple} × IΔn", times=1e-3).value if delayed else 0.0
        )
        times.append(
            RcdTimes(float(multiple), Second(shortest), Second(longest.value), longest.source)
        )
    if not delayed and residual_ma is not None and residual_ma <= 30:
        longest = page.number("general, IΔn up to 30 mA", "longest", "0.25 A", times=1e-3)
        at = _IN_PLACE_OF_FIVE / residual_ma
        times[-1] = RcdTimes(at, Second(0.0), Second(longest.value), longest.source)
    return tuple(times)


_IN_PLACE_OF_FIVE = 250.0
"""mA that may stand for 5 × IΔn up to 30 mA (BS EN 61008-1, Table 1, note)."""


def _older_times(delayed: bool, delay: Second | None) -> tuple[RcdTimes, ...]:
    page = table("rcd_time_old")
    if not delayed:
        found = [(at, page.number("without delay", "longest", f"{at} × IΔn")) for at in (1, 5)]
        return tuple(
            RcdTimes(float(at), Second(0.0), Second(each.value / 1000), each.source)
            for at, each in found
        )
    if delay is None:
        raise NotTabulated("The time of a delayed RCD to BS 4293 needs the delay on its label.")
    least = page.number("delayed", "shortest, besides half the delay", "1 × IΔn", times=1e-3)
    most = page.number("delayed", "longest, besides the delay", "1 × IΔn", times=1e-3)
    shortest, longest = Second(least.value + delay / 2), Second(most.value + delay)
    return (RcdTimes(1.0, shortest, longest, most.source),)


@cache
def rcd_max_ra(residual_ma: float) -> Published[Ohm]:
    """Return the highest RA behind an RCD [Ω]; in print it is rounded up for 30 and 300 mA.

    The figure as the table prints it; for another IΔn 50 V / IΔn, cut to 1 Ω.

    Raises:
        OutOfRange: If IΔn is not above zero.
    """
    page = table("rcd_max_ra")
    if (size(residual_ma),) in page.cells:
        found = page.number(size(residual_ma))
        return Published(Ohm(found.value), found.source)
    if not residual_ma > 0:
        raise OutOfRange(f"IΔn {residual_ma:g} mA: it must be above zero.")
    touch = touch_voltage()
    source = Source(touch.source.work, f"{touch.source.place}: 50 V / IΔn", Basis.WORKED_OUT)
    return Published(Ohm(cut_down(1000 * touch.value / residual_ma, 0)), source)


@cache
def touch_voltage() -> Published[Volt]:
    """Return the highest RA × IΔn [V]."""
    found = table("rcd_touch").number("highest RA × IΔn, V")
    return Published(Volt(found.value), found.source)


@cache
def stable_electrode() -> Published[Ohm]:
    """Return the resistance above which an earth electrode may not be stable [Ω]."""
    found = table("rcd_touch").number("electrode may not be stable above, Ω")
    return Published(Ohm(found.value), found.source)
