"""Limits and uncertainties of the tests themselves."""

from __future__ import annotations

from functools import cache

from records.tables.table import Published, table
from records.units import Ohm, Volt

_MEG = 1e6


@cache
def insulation_minimum(u0: Volt, *, extra_low: bool = False) -> Published[Ohm]:
    """Return the least insulation resistance [Ω] by the nominal voltage [V] (Table 64)."""
    found = table("insulation_minimum").number(_voltage_row(u0, extra_low), "least", times=_MEG)
    return Published(Ohm(found.value), found.source)


@cache
def insulation_test_voltage(u0: Volt, *, extra_low: bool = False) -> Published[Volt]:
    """Return the d.c. test voltage [V] by the nominal voltage [V] (Table 64)."""
    found = table("insulation_minimum").number(_voltage_row(u0, extra_low), "test voltage, V")
    return Published(Volt(found.value), found.source)


@cache
def worst_uncertainty(what: str) -> Published[float]:
    """Return the most operating uncertainty that BS EN 61557 allows, as a share of the reading.

    Args:
        what: "insulation", "loop impedance", "low resistance", "earth electrode" or
            "RCD time, of the limit".
    """
    return table("instrument_uncertainty").number(what, times=0.01)


@cache
def cold_limit_share() -> Published[float]:
    """Return which share of the tabulated Zs a reading taken cold may reach (common 0.8)."""
    return table("cold_limit").number("measured over tabulated")


def _voltage_row(u0: Volt, extra_low: bool) -> str:
    if extra_low:
        return "SELV and PELV"
    return "up to 500 V" if u0 <= 500 else "over 500 V"
