"""Loops and R1+R2 as the readings give them, and what follows from those."""

from __future__ import annotations

from records.errors import FarboardError
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, once, own_along
from records.expected.formulas import fault
from records.expected.formulas.loop import loop_impedance
from records.expected.installation_loops import circuit_r1_r2
from records.expected.installation_loops import zdb as zdb_by_design
from records.expected.results import Worked
from records.expected.runs import HOT, State
from records.expected.workings import Missing
from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.tables.devices import c_min
from records.tables.testing import cold_limit_share
from records.terms import Form, Part
from records.units import Ohm, Unit


def r1_r2(context: Context, circuit: Circuit | None) -> tuple[float, str]:
    """Return R1+R2 as measured [Ω] and how; None stands for the feed.

    A ring: the highest reading with line and cpc cross-connected, or (r1 + r2)/4.

    Raises:
        Missing: If there is no such reading yet.
    """
    found = _r1_r2_if_read(context, circuit)
    if found is not None:
        return found
    read = context.readings
    if circuit is None:
        raise read.lacks(Quantity.R1_R2, Part.FEED)
    lacking = Quantity.R1_R2
    if circuit.form is Form.RING:
        r1 = read.find(Quantity.R1, Part.CIRCUIT, circuit.id)
        lacking = Quantity.R1 if r1 is None else Quantity.R2
    raise read.lacks(lacking, Part.CIRCUIT, circuit.id)


def _r1_r2_if_read(context: Context, circuit: Circuit | None) -> tuple[float, str] | None:
    find = context.readings.find
    if circuit is None or circuit.form is not Form.RING:
        at = (Part.FEED, None) if circuit is None else (Part.CIRCUIT, circuit.id)
        found = find(Quantity.R1_R2, *at)
        return None if found is None else (found, "as measured")
    crossed = [
        value
        for point in circuit.points
        if (value := find(Quantity.CROSS_LE, Part.CIRCUIT, circuit.id, point.id)) is not None
    ]
    if crossed:
        return max(crossed), "from the highest cross-connected reading"
    r1, r2 = (find(each, Part.CIRCUIT, circuit.id) for each in (Quantity.R1, Quantity.R2))
    if r1 is None or r2 is None:
        return None
    return (r1 + r2) / 4, "from (r1 + r2) / 4 as measured"


@once
def feed_zs(context: Context) -> Worked:
    """Return the earth fault loop impedance at the end of the feed from readings: Zdb, or Ze +
    R1+R2."""
    read = context.readings
    zdb = read.find(Quantity.ZDB, Part.BOARD)
    if zdb is not None and not context.own_electrode:
        return _zs(zdb, "Zdb as measured", f"{zdb:g}")
    if context.own_electrode:
        raise Missing("Zdb is that of its electrode; of the feed's own loop there is no reading.")
    ze = read.get(Quantity.ZE, Part.ORIGIN)
    own, how = r1_r2(context, None)
    value = loop_impedance(Ohm(ze), Ohm(own))
    return _zs(value, "Zdb = Ze + (R1+R2)", f"{ze:g} + {own:g}", f"R1+R2 {how}.")


@once
def zdb(context: Context) -> Worked:
    """Return Zdb from readings: as measured, or Ze + R1+R2 of the feed."""
    read = context.readings.find(Quantity.ZDB, Part.BOARD)
    if read is not None:
        return _zs(read, "Zdb as measured", f"{read:g}")
    return feed_zs(context)


def circuit_zs(context: Context, circuit: Circuit) -> Worked:
    """Return the loop of a circuit from readings: Zs, or Zdb + R1+R2."""
    read = context.readings.find(Quantity.ZS, Part.CIRCUIT, circuit.id)
    if read is not None:
        return _zs(read, "Zs as measured", f"{read:g}")
    return added_up(context, circuit)


def added_up(context: Context, circuit: Circuit) -> Worked:
    """Return Zdb + R1+R2 of a circuit from readings, whether or not Zs was measured."""
    before = zdb(context)
    own, how = r1_r2(context, circuit)
    value = loop_impedance(Ohm(before.value), Ohm(own))
    return _zs(value, "Zs = Zdb + (R1+R2)", f"{before.value:g} + {own:g}", f"R1+R2 {how}.")


def _zs(value: float, formula: str, put_in: str, note: str = "") -> Worked:
    return Worked(
        "Zs", value, Unit.OHM, formula, put_in, (cited.READ_OFF, cited.GN3_LOOP), note=note
    )


def _by_design(context: Context, circuit: Circuit | None, at: State) -> float:
    if circuit is None:
        return own_along(context, None, at).r1_r2
    return circuit_r1_r2(context, circuit, at).value


def by_design(context: Context, circuit: Circuit | None) -> float:
    """Return R1+R2 by the design, as cold as at the tests [Ω]; None stands for the feed."""
    return _by_design(context, circuit, context.readings.at_tests)


def upstream(context: Context, circuit: Circuit | None) -> float | None:
    """Return the loop before a circuit or the feed [Ω]: as read, else by the design if known."""
    quantity, part = (Quantity.ZE, Part.ORIGIN) if circuit is None else (Quantity.ZDB, Part.BOARD)
    read = context.readings.find(quantity, part)
    if read is not None:
        return read
    if circuit is None:
        return context.record.origin.ze
    try:
        return zdb_by_design(context, context.readings.at_tests).value
    except FarboardError:
        return None


def own_part(context: Context, circuit: Circuit | None) -> tuple[float, str, float]:
    """Return R1+R2 of a circuit or the feed, cold [Ω], how it is known, and how it rises.

    It is as measured, or else by the design. The rise is that of R1+R2 from the tests to operating
    temperature, as a factor, always by the design.
    """
    found = _r1_r2_if_read(context, circuit)
    cold = by_design(context, circuit)
    rise = _by_design(context, circuit, HOT) / cold
    own, how = found if found is not None else (cold, "by the design")
    return own, how, rise


def lowest(context: Context, loop: Worked, circuit: Circuit | None) -> Worked:
    """Return the lowest fault current from a measured loop, brought to operating temperature.

    Without R1+R2 to bring up, the whole loop is taken as 1/0.8 of what was read: errs low.
    """
    factor, u0 = c_min(), context.u0
    more: tuple[Source, ...] = ()
    try:
        own, how, rise = own_part(context, circuit)
        hot = loop.value + (max(rise, 1.0) - 1) * own
        note = f"Brought to operating temperature with R1+R2 {how}."
    except FarboardError:
        share = cold_limit_share()
        hot, more = loop.value / share.value, (share.source,)
        note = f"R1+R2 isn't known: brought to operating temperature by 1/{share.value:g}."
    current = fault.lowest(u0, Ohm(hot), factor.value)
    return Worked(
        "If,min",
        current,
        Unit.AMPERE,
        "If,min = Cmin · U0 / Zs, hot",
        ("{:g} × {:g} / {:.3f}", factor.value, u0, hot),
        (cited.LOWEST, factor.source, loop, *more),
        digits=0,
        note=note,
    )


@once
def highest(context: Context, part: Part) -> Worked:
    """Return the highest prospective fault current read at the origin or the sub-board."""
    read = context.readings
    found = [
        (value, quantity.value)
        for quantity in (Quantity.FAULT_LN, Quantity.FAULT_LE)
        if (value := read.find(quantity, part)) is not None
    ]
    if not found:
        raise Missing(f"there is no reading of the fault current yet ({part.value}).")
    value, which = max(found)
    return Worked(
        "Ipf",
        value,
        Unit.KILOAMPERE,
        "higher of L-N and L-E as measured",
        which,
        (cited.READ_OFF,),
    )
