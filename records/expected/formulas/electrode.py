"""An earth electrode behind an RCD."""

from __future__ import annotations

from records.errors import OutOfRange
from records.units import Ampere, Ohm, Volt


def highest_electrode(touch: Volt, residual: Ampere) -> Ohm:
    """Return the highest RA that keeps RA × IΔn within the touch voltage [Ω].

    Exact: the table prints 1667 and 167 Ω, rounded up, for 30 and 300 mA.

    Args:
        touch: 50 V [V].
        residual: IΔn [A].
    Raises:
        OutOfRange: If a figure is not above zero.
    Source:
        BS 7671, Regulation 411.5.3 (read in a secondary copy).
    """
    if not (touch > 0 and residual > 0):
        raise OutOfRange(f"{touch:g} V and IΔn {residual:g} A: both must be above zero.")
    return Ohm(touch / residual)
