"""The least size of a protective conductor that survives a fault."""

from __future__ import annotations

import math

from records.errors import OutOfRange
from records.units import Ampere, Second, SquareMillimetre

SHORTEST, LONGEST = Second(0.1), Second(5.0)
"""Times that the formula holds for without let-through energy [s] (Regulation 543.1.3)."""


def least_size(current: Ampere, time: Second, k: float) -> SquareMillimetre:
    """Return the least cross-section for a fault current and a disconnection time [mm²].

    S = √(I²·t)/k. No heat leaves the conductor: on the safe side. A device that opens in less than
    0.1 s counts as 0.1 s, which errs high but for current-limiting ones without their let-through
    energy; use `least_size_for_energy` where that is known.

    Args:
        current: Earth fault current [A].
        time: Disconnection time [s].
        k: Of the conductor's metal, insulation and temperatures [A·√s/mm²].
    Raises:
        OutOfRange: If the time is over 5 s, a current negative, or k not above zero.
    Source:
        BS 7671, Regulation 543.1.3 (read in a secondary copy).
    """
    if time > LONGEST:
        raise OutOfRange(f"The formula holds up to 5 s; {time:g} s is too long for it.")
    if time < 0:
        raise OutOfRange(f"A disconnection time can't be {time:g} s.")
    return least_size_for_energy(current * current * max(time, SHORTEST), k)


def least_size_for_energy(energy: float, k: float) -> SquareMillimetre:
    """Return the least cross-section for a let-through energy I²t [A²s]: √(I²t)/k [mm²].

    Raises:
        OutOfRange: If the energy is negative or k not above zero.
    Source:
        k²S² >= I²t: BS 7671, Regulation 434.5.2 (read in a secondary copy).
    """
    if energy < 0 or not k > 0:
        raise OutOfRange(f"I²t {energy:g} A²s with k {k:g} gives no size.")
    return SquareMillimetre(math.sqrt(energy) / k)


def least_by_table(least_same_metal: SquareMillimetre, k1: float, k2: float) -> SquareMillimetre:
    """Return the least size by Table 54.7 for another metal than the line's [mm²].

    Args:
        least_same_metal: The row of the table for the line [mm²].
        k1: Of the line (Table 43.1).
        k2: Of the protective conductor (Tables 54.2 to 54.6).
    Raises:
        OutOfRange: If a k is not above zero.
    Source:
        BS 7671, Regulation 543.1.4, Table 54.7 (read in a secondary copy).
    """
    if not (k1 > 0 and k2 > 0):
        raise OutOfRange(f"k1 {k1:g} and k2 {k2:g} must be above zero.")
    return SquareMillimetre(least_same_metal * k1 / k2)
