"""Resistance of conductors: by length, at a temperature, in series, side by side."""

from __future__ import annotations

from records.errors import OutOfRange
from records.units import Celsius, Metre, Ohm, OhmPerMetre

REFERENCE = Celsius(20.0)
"""Temperature that tabulated resistances are given for [°C]."""


def at_temperature(cold: Ohm, alpha: float, temperature: Celsius) -> Ohm:
    """Return a resistance at a temperature.

    A conductor in service is cooler than its operating temperature: worked out at that, a
    resistance errs high.

    Args:
        cold: At 20 °C [Ω].
        alpha: Temperature coefficient at 20 °C [1/K].
        temperature: Of the conductor [°C].
    Returns:
        R20 · (1 + α20 · (θ - 20)) [Ω].
    Raises:
        OutOfRange: If the resistance is negative, or outside -40 to 250 °C, where the line holds.
    Source:
        IEC 60287-1-1 (from memory).
    """
    if cold < 0:
        raise OutOfRange(f"A resistance can't be {cold:g} Ω.")
    if not -40 <= temperature <= 250:
        raise OutOfRange(f"{temperature:g} °C is outside -40 to 250 °C.")
    return Ohm(cold * (1 + alpha * (temperature - REFERENCE)))


def of_length(per_metre: OhmPerMetre, length: Metre) -> Ohm:
    """Return the resistance of a length of conductor [Ω].

    Tabulated figures are highest values: real cable reads a little lower.

    Args:
        per_metre: [Ω/m].
        length: One way [m].
    Raises:
        OutOfRange: If the length is not above zero.
    """
    if not length > 0:
        raise OutOfRange(f"A run of {length:g} m has no length: enter it, for its resistance.")
    return Ohm(per_metre * length)


def side_by_side(one: Ohm, other: Ohm) -> Ohm:
    """Return the resistance of two conductors joined at both ends [Ω].

    Never above the smaller one. A joint that has come undone leaves one of them: a reading then
    stands well above this.

    Raises:
        OutOfRange: If one of them is not above zero.
    """
    if not (one > 0 and other > 0):
        raise OutOfRange(f"Two ways side by side need resistances, not {one:g} Ω and {other:g} Ω.")
    return Ohm(one * other / (one + other))
