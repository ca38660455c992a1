"""Voltage drop along a run."""

from __future__ import annotations

from records.errors import OutOfRange
from records.units import Ampere, Metre, OhmPerMetre, Volt

AT_END = 1.0
"""All of the load at the far end."""
SPREAD = 0.5
"""The load spread evenly along the run: half the drop of the same load at the end."""
RING = 0.25
"""A ring loaded half way round: both legs carry half the current over half the length."""
RING_SPREAD = 0.125
"""A ring loaded evenly all the way round: half of that again."""


def voltage_drop(
    per_ampere_metre: OhmPerMetre, load: Ampere, length: Metre, share: float = AT_END
) -> Volt:
    """Return the voltage drop at the far end [V].

    The tabulated figure stands for conductors at operating temperature: with less than the full
    load it errs high. The length is one way; the table holds both conductors.

    Args:
        per_ampere_metre: mV/A/m divided by 1000 [V/(A·m)].
        load: Design current [A].
        length: One way; a ring, all the way round [m].
        share: `AT_END`, `SPREAD`, `RING` or `RING_SPREAD`.
    Raises:
        OutOfRange: If the load or the length is negative.
    Source:
        (mV/A/m) × Ib × L / 1000: BS 7671 Appendix 4. The quarter for a ring is worked out.
    """
    if load < 0 or length < 0:
        raise OutOfRange(f"{load:g} A over {length:g} m gives no voltage drop.")
    return Volt(per_ampere_metre * load * length * share)
