"""How fast a fault has to be disconnected, and how fast an RCD does it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from records.errors import OutOfRange
from records.evidence import Source
from records.tables.table import Published, size, table
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
def rcd_times(*, delayed: bool) -> tuple[RcdTimes, ...]:
    """Return the break times of an RCD at 1, 2 and 5 times IΔn."""
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
    return tuple(times)


@cache
def rcd_max_ra(residual_ma: float) -> Published[Ohm]:
    """Return the printed highest RA behind an RCD [Ω]; rounded up in print for 30 and 300 mA.

    Raises:
        NotTabulated: For a residual current that isn't printed.
    """
    found = table("rcd_max_ra").number(size(residual_ma))
    return Published(Ohm(found.value), found.source)


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
