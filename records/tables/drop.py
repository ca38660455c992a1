"""Voltage drop per ampere and metre, and its limits."""

from __future__ import annotations

from functools import cache

from records.errors import NotTabulated
from records.tables.conductors import alpha, copper, operating_temperature, worked_out
from records.tables.table import Published, size, table
from records.terms import CableKind
from records.units import OhmPerMetre, SquareMillimetre

_TABLES = {
    CableKind.FLAT: "drop_flat",
    CableKind.SWA_XLPE: "drop_armoured_xlpe_2",
    CableKind.SWA_PVC: "drop_armoured_pvc_2",
}


@cache
def volt_drop(cable: CableKind, line: SquareMillimetre) -> Published[OhmPerMetre]:
    """Return the voltage drop per ampere and metre of single-phase cable [V/(A·m) = Ω/m].

    The tabulated z, which holds line and neutral. For single cores and flexible cable it is worked
    out as twice the conductor's resistance at operating temperature, which the tables agree with
    within 3 %.

    Raises:
        NotTabulated: If the cable is not made in that size.
    """
    name = _TABLES.get(cable)
    if name is not None:
        found = table(name).number("z", size(line), times=1e-3)
        return Published(OhmPerMetre(found.value), found.source)
    if line >= 25:
        raise NotTabulated(
            f"No voltage drop is tabulated here for {cable.value} of {size(line)} mm²; "
            "from 25 mm² up reactance counts and the table is needed."
        )
    cold = copper(line, flexible=cable is CableKind.FLEX)
    hot = operating_temperature("conductor", cable.value).value
    factor = 1 + alpha("copper").value * (hot - 20)
    return Published(OhmPerMetre(2 * cold.value * factor), worked_out(cold.source))


@cache
def drop_limit(*, lighting: bool) -> Published[float]:
    """Return the highest voltage drop from the origin as a share of U0: 0.03 or 0.05."""
    return table("drop_limit").number("lighting" if lighting else "other uses", times=0.01)
