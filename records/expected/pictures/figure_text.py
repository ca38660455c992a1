"""Figures as they stand beside a picture and on its axes."""

from __future__ import annotations


def seconds(time: float) -> str:
    """Return a time as one reads it on the axis: 10 ms, 0.4 s, 1000 s."""
    return f"{time * 1000:.3g} ms" if time < 0.1 - 1e-9 else f"{time:.4g} s"


def amperes(current: float) -> str:
    """Return a current as one reads it on the axis: 10 A, 463 A, 1.2 kA."""
    return f"{current:.3g} A" if current < 999.5 else f"{current / 1000:.3g} kA"


def ohms(value: float) -> str:
    """Return a loop as one reads it beside its bar: 0.47 Ω, 1667 Ω."""
    return f"{value:.0f} Ω" if value >= 100 else f"{value:.2f} Ω"
