"""Highest fault currents, for breaking capacity and for protective conductors: conductors cold."""

from __future__ import annotations

from dataclasses import dataclass

from records.errors import FarboardError
from records.evidence import Source
from records.expected import fault
from records.expected import sources as cited
from records.expected.context import Context, feed_along, once, own_along, where
from records.expected.loop import least_sum
from records.expected.loops import COLD_20, circuit_r1_r2
from records.expected.results import Worked
from records.expected.workings import Missing, need, worked
from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.tables.devices import c_max
from records.terms import Earthing, Form, Part
from records.units import Ampere, Ohm, Unit


@dataclass(frozen=True, slots=True)
class _Supply:
    """What stands behind a fault current: an impedance, and the factor on the voltage."""

    impedance: Ohm
    factor: float
    how: str
    source: Source


@dataclass(frozen=True, slots=True)
class _Highest:
    current: float
    """In ampere."""
    which: str
    supply: _Supply
    resistance: float


@once
def _line_neutral(context: Context) -> tuple[_Supply, ...]:
    """Return what is known of the supply between line and neutral; the least impedance counts."""
    origin = context.record.origin
    found = []
    if origin.fault_current is not None:
        behind = fault.source_impedance(context.u0, Ampere(origin.fault_current * 1000))
        found.append(_Supply(behind, 1.0, "the fault current as entered", cited.DECLARED))
    if origin.ze and origin.earthing is Earthing.TN_C_S:
        factor = c_max()
        found.append(_Supply(Ohm(origin.ze), factor.value, "Ze", factor.source))
    if not found:
        what = "the fault current at the origin, which L-N is worked out from, is"
        raise Missing(f"{what} not entered yet (Origin).")
    return tuple(found)


@once
def _line_earth(context: Context) -> _Supply:
    """Return the least that an earth fault at the origin or by the feed's earth meets."""
    ze = context.record.origin.ze
    if not ze:
        raise Missing("Ze is not entered yet (Origin).")
    factor = c_max()
    return _Supply(Ohm(ze), factor.value, "Ze", factor.source)


@once
def _electrode(context: Context) -> _Supply:
    """Return the least that an earth fault by the outbuilding's electrode meets."""
    electrode = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
    factor = c_max()
    return _Supply(Ohm(electrode), factor.value, "RA", factor.source)


def _of(context: Context, supply: _Supply, resistance: float, which: str) -> _Highest:
    least = least_sum(supply.impedance, Ohm(resistance))
    return _Highest(fault.highest(context.u0, least, supply.factor), which, supply, resistance)


def _ln(context: Context, resistance: float) -> _Highest:
    found = [_of(context, each, resistance, "L-N") for each in _line_neutral(context)]
    return found[0] if len(found) == 1 else max(found, key=lambda each: each.current)


def _le_at_board(context: Context, beyond: float = 0.0) -> _Highest:
    if context.own_electrode:
        line = feed_along(context, COLD_20, earth=False).line
        return _of(context, _electrode(context), line + beyond, "L-E")
    feed = feed_along(context, COLD_20)
    return _of(context, _line_earth(context), feed.line + feed.back + beyond, "L-E")


def _figure(context: Context, found: _Highest, circuit: Circuit | None = None) -> Worked:
    u0, supply = context.u0, found.supply

    def put_in() -> str:
        upper = f"{supply.factor:g} × {u0:g}" if supply.factor != 1 else f"{u0:g}"
        lower = f"√({supply.impedance:.4g}² + {found.resistance:.4g}²)"
        return f"{found.which}: {upper} / {lower}"

    earth = found.which == "L-E" and not context.own_electrode
    along = [feed_along(context, COLD_20, earth=earth)]
    if circuit is not None:
        along.append(own_along(context, circuit, COLD_20, earth=found.which == "L-E"))

    def sources() -> tuple[Source, ...]:
        beyond = (source for each in along for source in each.sources)
        return (cited.GN3_FAULT, supply.source, *beyond)

    return worked(
        "Ipf", found.current / 1000, Unit.KILOAMPERE,
        "Ipf = Cmax · U0 / √(Z² + R²), conductors cold at 20 °C", put_in, sources,
        note="The supply's angle is taken as worst: errs high, for breaking capacity.",
    )  # fmt: skip


@once
def line_neutral_at_board(context: Context) -> Worked:
    """Return the highest L-N fault current at the sub-board."""
    cold = feed_along(context, COLD_20, earth=False)
    return _figure(context, _ln(context, 2 * cold.line))


@once
def line_earth_at_board(context: Context) -> Worked:
    """Return the highest L-E fault current at the sub-board."""
    return _figure(context, _le_at_board(context))


@once
def at_board(context: Context) -> Worked:
    """Return the highest fault current at the sub-board, L-N or L-E, whichever is more.

    By an electrode L-E is never the higher one.
    """
    line_neutral = line_neutral_at_board(context)
    if context.own_electrode or not context.record.origin.ze:
        return line_neutral
    return max(line_neutral, line_earth_at_board(context), key=lambda each: each.value)


def line_neutral_at_end(context: Context, circuit: Circuit) -> Worked:
    """Return the highest L-N fault current at the far end of a circuit."""
    feed = feed_along(context, COLD_20, earth=False)
    own = own_along(context, circuit, COLD_20, earth=False)
    form = need(circuit.form, "the form of the circuit is", where(circuit))
    share = 0.25 if form is Form.RING else 1.0
    found = _ln(context, 2 * (feed.line + share * own.line))
    return _figure(context, found, circuit)


def line_earth_at_end(context: Context, circuit: Circuit) -> Worked:
    """Return the highest L-E fault current at the far end of a circuit."""
    own = circuit_r1_r2(context, circuit, COLD_20).value
    return _figure(context, _le_at_board(context, own), circuit)


@once
def line_neutral_at_origin(context: Context) -> Worked:
    """Return the highest L-N fault current at the origin."""
    return _at_origin(context, _ln(context, 0.0))


@once
def line_earth_at_origin(context: Context) -> Worked:
    """Return the highest L-E fault current at the origin."""
    return _at_origin(context, _of(context, _line_earth(context), 0.0, "L-E"))


def _at_origin(context: Context, found: _Highest) -> Worked:
    supply = found.supply
    if supply.factor == 1:
        text = f"{found.current / 1000:g} kA as entered"
    else:
        text = f"{found.which}: {supply.factor:g} × {context.u0:g} / {supply.impedance:.4g}"
    return worked(
        "Ipf", found.current / 1000, Unit.KILOAMPERE,
        "highest of Ipf as entered and Cmax · U0 / Ze", text,
        (cited.GN3_FAULT, supply.source), note="Errs high, for breaking capacity.",
    )  # fmt: skip


@once
def at_origin(context: Context) -> Worked:
    """Return the highest fault current at the origin, L-N or L-E, whichever is more."""
    found = []
    for work in (line_neutral_at_origin, line_earth_at_origin):
        try:
            found.append(work(context))
        except FarboardError:
            continue
    if not found:
        raise Missing("neither Ze nor the fault current at the origin is entered yet (Origin).")
    return max(found, key=lambda each: each.value)


def earth_fault(context: Context, *, at_board: bool) -> float:
    """Return the highest earth fault current at the origin or the sub-board [A], for a cpc."""
    if not at_board:
        return _of(context, _line_earth(context), 0.0, "L-E").current
    if context.own_electrode:
        supply = _electrode(context)
        return fault.highest(context.u0, supply.impedance, supply.factor)
    return _le_at_board(context).current
