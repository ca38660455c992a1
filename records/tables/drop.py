"""Voltage drop per ampere and metre, and its limits."""

from __future__ import annotations

import math
from functools import cache

from records.evidence import Source
from records.tables.conductors import (
    REACTANCE_FROM,
    alpha,
    copper,
    operating_temperature,
    reactance,
    worked_out,
)
from records.tables.table import Published, size, table
from records.terms import Basis, CableKind
from records.units import OhmPerMetre, SquareMillimetre

_TABLES = {
    CableKind.FLAT: "drop_flat",
    CableKind.SINGLES: "drop_singles",
    CableKind.SWA_XLPE: "drop_armoured_xlpe_2",
    CableKind.SWA_PVC: "drop_armoured_pvc_2",
}


@cache
def volt_drop(cable: CableKind, line: SquareMillimetre) -> Published[OhmPerMetre]:
    """Return the voltage drop per ampere and metre of single-phase cable [V/(A·m) = Ω/m].

    The tabulated z, which holds line and neutral. For flexible cable over 4 mm² it is worked out
    as twice the conductor's resistance at operating temperature, which the tables agree with
    within 5 %; from 25 mm² up with twice the reactance.

    Raises:
        NotTabulated: If the cable is not made in that size.
    """
    name = _TABLES.get(cable)
    if name is not None:
        found = table(name).number("z", size(line), times=1e-3)
        return Published(OhmPerMetre(found.value), found.source)
    if cable is CableKind.FLEX and (size(line),) in table("drop_flex").cells:
        found = table("drop_flex").number(size(line), times=1e-3)
        return Published(OhmPerMetre(found.value), found.source)
    cold = copper(line, flexible=cable is CableKind.FLEX)
    hot = operating_temperature("conductor", cable.code).value
    factor = 1 + alpha("copper").value * (hot - 20)
    hot_resistance = 2 * cold.value * factor
    if line < REACTANCE_FROM:
        return Published(OhmPerMetre(hot_resistance), worked_out(cold.source))
    each = reactance()
    work = f"{cold.source.work}; {each.source.work}"
    source = Source(work, f"{cold.source.place}, with the reactance", Basis.WORKED_OUT)
    return Published(OhmPerMetre(math.hypot(hot_resistance, 2 * each.value)), source)


@cache
def drop_limit(*, lighting: bool) -> Published[float]:
    """Return the highest voltage drop from the origin as a share of U0: 0.03 or 0.05."""
    return table("drop_limit").number("lighting" if lighting else "other uses", times=0.01)
