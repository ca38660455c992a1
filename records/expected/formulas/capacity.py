"""Current-carrying capacity, and whether Ib, In and Iz stand in the right order."""

from __future__ import annotations

from collections.abc import Iterable
from math import prod

from records.errors import OutOfRange
from records.units import Ampere, Volt, Watt


def capacity(tabulated: Ampere, factors: Iterable[float]) -> Ampere:
    """Return Iz, the current-carrying capacity as laid [A].

    All factors on one run are taken to act at the same point of it: where they act at different
    points this errs low.

    Args:
        tabulated: It [A].
        factors: Ca, Cg, Ci, Cs, Cd, Cc.
    Raises:
        OutOfRange: If a figure is not above zero.
    Source:
        It >= In / (Ca·Cg·Ci·Cs·Cd·Cc): BS 7671 Appendix 4, section 5.1 (from memory).
    """
    factor = prod(factors)
    if not (tabulated > 0 and factor > 0):
        raise OutOfRange(f"It {tabulated:g} A with a factor of {factor:g} is no capacity.")
    return Ampere(tabulated * factor)


def current_of(power: Watt, u0: Volt) -> Ampere:
    """Return the current of a single-phase load at unity power factor [A].

    Motors and discharge lamps draw more: then the current itself has to be known.

    Raises:
        OutOfRange: If the power is negative or the voltage not above zero.
    """
    if power < 0 or not u0 > 0:
        raise OutOfRange(f"{power:g} W at {u0:g} V gives no current.")
    return Ampere(power / u0)
