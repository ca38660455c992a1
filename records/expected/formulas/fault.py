"""Prospective fault currents: what a meter shows, the highest and the lowest."""

from __future__ import annotations

from records.errors import OutOfRange
from records.units import Ampere, Ohm, Volt


def prospective(u0: Volt, impedance: Ohm) -> Ampere:
    """Return the prospective current that a meter works out [A].

    U0/Z with nominal voltage: what testers show, neither the highest nor the lowest.

    Args:
        u0: Nominal voltage to earth [V].
        impedance: Of the loop, L-N or L-E [Ω].
    Raises:
        OutOfRange: If the voltage or the impedance is not above zero.
    Source:
        IET Guidance Note 3 (from memory).
    """
    if not (u0 > 0 and impedance > 0):
        raise OutOfRange(f"{u0:g} V over {impedance:g} Ω gives no fault current to reckon with.")
    return Ampere(u0 / impedance)


def highest(u0: Volt, impedance: Ohm, c_max: float) -> Ampere:
    """Return the highest fault current, for breaking capacity [A].

    Errs high if the impedance is the least possible: conductors cold, the supply's angle taken
    so that the sum is smallest (`loop.least_sum`). Impedances added as magnitudes would err low.

    Args:
        u0: Nominal voltage to earth [V].
        impedance: Least impedance [Ω].
        c_max: Voltage factor, 1.1.
    Raises:
        OutOfRange: If a figure is not above zero.
    Source:
        IEC 60909-0, Table 1 for Cmax (from memory).
    """
    return Ampere(c_max * prospective(u0, impedance))


def lowest(u0: Volt, impedance: Ohm, c_min: float) -> Ampere:
    """Return the lowest fault current, for disconnection [A].

    Errs low if the impedance is the highest: conductors hot, magnitudes added.

    Args:
        u0: Nominal voltage to earth [V].
        impedance: Highest impedance [Ω].
        c_min: Voltage factor, 0.95.
    Raises:
        OutOfRange: If a figure is not above zero.
    Source:
        Zs × Ia <= U0 × Cmin: BS 7671, Regulation 411.4.4 (from memory).
    """
    return Ampere(c_min * prospective(u0, impedance))


def source_impedance(u0: Volt, current: Ampere) -> Ohm:
    """Return the impedance behind a prospective fault current that is known [Ω].

    Raises:
        OutOfRange: If the voltage or the current is not above zero.
    """
    if not (u0 > 0 and current > 0):
        raise OutOfRange(f"{u0:g} V and {current:g} A: both must be above zero.")
    return Ohm(u0 / current)
