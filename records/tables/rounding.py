"""How a limit that was calculated is made as short as it is printed: never to the unsafe side."""

from __future__ import annotations

import math

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
