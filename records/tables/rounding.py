"""How a limit that was calculated is made as short as it is printed: never to the unsafe side."""

from __future__ import annotations

import math
from typing import Literal

from records.units import Unit

Side = Literal["", "most", "least"]
"""Whether a figure is the most, or the least, that something may be; empty: neither."""
_SLACK = 1e-6
"""Of the last digit: 2.18 × 100 falls just short of 218 in binary."""


def cut_down(most: float, digits: int = 2) -> float:
    """Return a highest figure cut to the decimals that are printed, so that both are one figure.

    What a published table prints is not cut: it stays as printed.

    Args:
        most: A calculated maximum; one without an end stays so.
        digits: Decimals that it is printed with.
    """
    unit = 10.0**digits
    if not math.isfinite(most * unit):
        return most
    return math.floor(most * unit + _SLACK) / unit


def safely(value: float, digits: int, side: Side) -> str:
    """Return a figure as text: a most is cut, a least raised, anything else rounded.

    Args:
        value: What was calculated, or what a table prints.
        digits: Decimals to print.
        side: What it is held against.
    """
    if side == "most":
        value = cut_down(value, digits)
    elif side == "least":
        value = raised(value, digits)
    return f"{value:.{digits}f}"


SMALL_KA = 0.1
"""kA under which a current is printed in ampere: 4.5 A, not 0.0045 kA."""


def with_unit(value: float, unit: Unit, digits: int, side: Side) -> str:
    """Return a figure with its unit, small fault currents in ampere to three figures.

    Args:
        value: In `unit`.
        unit: Printed after the figure.
        digits: Decimals to print.
        side: What it is held against.
    """
    if unit is Unit.KILOAMPERE and 0 < abs(value) < SMALL_KA:
        current = 1000 * value
        digits, unit, value = max(0, 2 - math.floor(math.log10(abs(current)))), Unit.AMPERE, current
    return f"{safely(value, digits, side)} {unit.value}".strip()


def span_words(low: float, high: float, unit: Unit, digits: int) -> str:
    """Return a span such as `0.31 to 0.42 Ω`; its unit stands once where both ends have it.

    Args:
        low: In `unit`.
        high: In `unit`.
        unit: Printed after the figures.
        digits: Decimals to print.
    """
    ends = [with_unit(each, unit, digits, "") for each in (low, high)]
    shared = f" {ends[1].rpartition(' ')[2]}"
    first = ends[0].removesuffix(shared) if unit.value else ends[0]
    return f"{first} to {ends[1]}"


def raised(least: float, digits: int = 2) -> float:
    """Return a least figure raised to the decimals that are printed, so that both are one figure.

    Args:
        least: A calculated minimum; one without an end stays so.
        digits: Decimals that it is printed with.
    """
    unit = 10.0**digits
    if not math.isfinite(least * unit):
        return least
    return math.ceil(least * unit - _SLACK) / unit
