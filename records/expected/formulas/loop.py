"""Earth fault loop impedance: the sum of its parts, as magnitudes or with their phase."""

from __future__ import annotations

import math

from records.errors import OutOfRange
from records.units import Ohm


def loop_impedance(upstream: Ohm, r1_r2: Ohm) -> Ohm:
    """Return the earth fault loop impedance at the furthest point.

    The parts are added as magnitudes. Where their phase angles differ this overstates the loop,
    never understates it: a comparison with a limit errs towards refusing, a fault current worked
    out from it errs low.

    Args:
        upstream: Loop up to where the runs start: Ze, or Zdb [Ω].
        r1_r2: Line and protective conductor of the runs [Ω].
    Returns:
        The loop, at the temperature that r1_r2 is given for [Ω].
    Raises:
        OutOfRange: If either part is negative.
    Source:
        Zs = Ze + (R1 + R2): IET Guidance Note 3 (from memory).
    """
    if upstream < 0 or r1_r2 < 0:
        raise OutOfRange(f"A loop has no negative part ({upstream:g} Ω and {r1_r2:g} Ω).")
    return Ohm(upstream + r1_r2)


def least_sum(upstream: Ohm, resistance: Ohm) -> Ohm:
    """Return the least that a loop of unknown phase and a resistance can add up to.

    Passive inductive parts differ by 90° at most, so the sum is never under √(Z² + R²). For a
    highest fault current: a current worked out from it errs high.

    Args:
        upstream: Impedance whose angle isn't known [Ω].
        resistance: Of the runs after it [Ω].
    Raises:
        OutOfRange: If either part is negative.
    """
    if upstream < 0 or resistance < 0:
        raise OutOfRange(f"A loop has no negative part ({upstream:g} Ω and {resistance:g} Ω).")
    return Ohm(math.hypot(upstream, resistance))


def highest_cold(limit: Ohm, measured_r1_r2: Ohm, rise: float) -> Ohm:
    """Return what a cold meter may show so that the loop just meets its limit when hot.

    The upstream part stays as it is, this circuit's part rises with its temperature:
    Zs(cold) + (rise - 1)·(R1+R2) <= limit.

    Args:
        limit: Tabulated maximum, at operating temperature [Ω].
        measured_r1_r2: This circuit's R1+R2 at the temperature of the test [Ω].
        rise: R at operating temperature over R at the temperature of the test, at least 1.
    Returns:
        The highest good reading [Ω]; negative if R1+R2 alone is too much.
    Raises:
        OutOfRange: If R1+R2 is negative, or the conductor would be cooler in service.
    Source:
        BS 7671 Appendix 3 (from memory): the 0.8 rule is a rough form of this.
    """
    if measured_r1_r2 < 0:
        raise OutOfRange(f"R1+R2 can't be {measured_r1_r2:g} Ω.")
    if rise < 1:
        raise OutOfRange(f"A conductor in service is not cooler than at the test ({rise:g}).")
    return Ohm(limit - (rise - 1) * measured_r1_r2)
