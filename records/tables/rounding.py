"""How a limit that was calculated is made as short as it is printed: never to the unsafe side."""

from __future__ import annotations

import math
from typing import Literal

Side = Literal["", "most", "least"]
"""Whether a figure is the most, or the least, that something may be; empty: neither."""
_SLACK = 1e-6
"""Of the last digit: 2.18 × 100 falls just short of 218 in binary."""


def cut_down(most: float, digits: int = 2) -> float:
    """Return a highest figure cut to the decimals that are printed, so that both are one figure.

    What a published table prints is not cut: it stays as printed.

    Args:
        most: A calculated maximum.
        digits: Decimals that it is printed with.
    """
    unit = 10.0**digits
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


def raised(least: float, digits: int = 2) -> float:
    """Return a least figure raised to the decimals that are printed, so that both are one figure.

    Args:
        least: A calculated minimum.
        digits: Decimals that it is printed with.
    """
    unit = 10.0**digits
    return math.ceil(least * unit - _SLACK) / unit
