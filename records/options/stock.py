"""Ratings of devices as they are usually stocked."""

from __future__ import annotations

from records.tables import devices
from records.terms import DeviceKind

_USUAL = (6.0, 10.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0)
"""A of breakers and RCBOs (common practice); fuses are stocked in all their ratings."""


def ratings(kind: DeviceKind) -> tuple[float, ...]:
    """Return the ratings of a kind of device that are usually stocked [A], small ones first."""
    known = tuple(sorted(devices.ratings(kind)))
    return known if kind.is_fuse else tuple(each for each in known if each in _USUAL)
