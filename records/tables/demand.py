"""Allowances for diversity, and what distributors typically declare."""

from __future__ import annotations

from functools import cache

from records.tables.table import Published, table
from records.terms import Earthing
from records.units import Ampere, Ohm


@cache
def diversity(load: str) -> Published[float]:
    """Return the share of a load that counts in an individual household.

    Args:
        load: A row of the table, such as "lighting" or "socket circuits, each other".
    """
    return table("diversity").number(load, times=0.01)


@cache
def cooker_socket() -> Published[Ampere]:
    """Return what a socket-outlet in the control unit of a cooker adds [A]."""
    page = table("diversity_added")
    found = page.number("socket-outlet in the control unit of a cooker")
    return Published(Ampere(found.value), found.source)


@cache
def typical_ze(earthing: Earthing) -> Published[Ohm]:
    """Return the typical highest Ze that a distributor declares [Ω]; TT: without the electrode."""
    rows = {
        Earthing.TN_C_S: "Ze, TN-C-S, Ω",
        Earthing.TN_S: "Ze, TN-S, Ω",
        Earthing.TT: "Ze, TT, without the electrode of the installation, Ω",
    }
    found = table("supply_typical").number(rows[earthing])
    return Published(Ohm(found.value), found.source)


def typical_fault_current() -> Published[Ampere]:
    """Return the highest prospective fault current usually declared for one phase [A]."""
    found = table("supply_typical").number("prospective fault current, kA", times=1000)
    return Published(Ampere(found.value), found.source)


@cache
def supply_tolerance(side: str) -> Published[float]:
    """Return how far the supply may be "above" or "below" nominal, as a share of it."""
    return table("supply_tolerance").number(side, times=0.01)


@cache
def ring_load_at_end() -> Published[Ampere]:
    """Return the part of a ring's load taken to be at its furthest point [A]."""
    found = table("ring_load").number("at the furthest point")
    return Published(Ampere(found.value), found.source)
