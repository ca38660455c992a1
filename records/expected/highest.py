"""Highest fault currents, for breaking capacity and for protective conductors: conductors cold."""

from __future__ import annotations

from dataclasses import dataclass

from records.errors import FarboardError
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, feed_along, once, own_along, where
from records.expected.formulas import fault
from records.expected.formulas.loop import least_sum
from records.expected.installation_loops import COLD_20, circuit_r1_r2
from records.expected.results import Cited, Filled, Worked
from records.expected.workings import Missing, need, worked
from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.tables.devices import c_max
from records.terms import Earthing, Form, Part
from records.units import Ampere, Ohm, Unit, Volt


@dataclass(frozen=True, slots=True)
class _Supply:
    """What drives a fault current: U0 with the factor on it, behind an impedance."""

    impedance: Ohm
    factor: float
    source: Source
    u0: Volt

    def __str__(self) -> str:
        return f"{self.factor:g} × {self.u0:g}" if self.factor != 1 else f"{self.u0:g}"


@once
def _line_neutral(context: Context) -> tuple[_Supply, ...]:
    """Return what is known of the supply between line and neutral; the least impedance counts."""
    origin = context.record.origin
    found = []
    if origin.fault_current is not None:
        behind = fault.source_impedance(context.u0, Ampere(origin.fault_current * 1000))
        found.append(_Supply(behind, 1.0, cited.DECLARED, context.u0))
    if origin.ze and origin.earthing is Earthing.TN_C_S:
        factor = c_max()
        found.append(_Supply(Ohm(origin.ze), factor.value, factor.source, context.u0))
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
    return _Supply(Ohm(ze), factor.value, factor.source, context.u0)


@once
def _electrode(context: Context) -> _Supply:
    """Return the least that an earth fault by the outbuilding's electrode meets."""
    electrode = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
    factor = c_max()
    return _Supply(Ohm(electrode), factor.value, factor.source, context.u0)


def _by(supply: _Supply, resistance: float) -> float:
    """Return the highest current that a supply drives through a resistance [A]."""
    return fault.highest(supply.u0, least_sum(supply.impedance, Ohm(resistance)), supply.factor)


Driven = tuple[float, _Supply, float]
"""A highest current [A], what drives it, and the resistance that it is driven through [Ω]."""


def _ln(context: Context, resistance: float) -> Driven:
    """Return the highest L-N current that the supply can drive through a resistance."""
    first, *others = _line_neutral(context)
    most, by = _by(first, resistance), first
    for supply in others:
        current = _by(supply, resistance)
        if current > most:
            most, by = current, supply
    return most, by, resistance


@once
def _le_to_board(context: Context) -> tuple[_Supply, float]:
    """Return what drives an earth fault behind the sub-board, and the feed's part of its way."""
    if context.own_electrode:
        line = feed_along(context, COLD_20, earth=False).line
        return _electrode(context), line
    feed = feed_along(context, COLD_20)
    return _line_earth(context), feed.line + feed.back


def _le(context: Context, own: float) -> Driven:
    """Return the highest L-E current behind the sub-board, through a resistance of its own."""
    supply, feed = _le_to_board(context)
    resistance = feed + own
    return _by(supply, resistance), supply, resistance


@once
def _le_at_board(context: Context) -> Driven:
    return _le(context, 0.0)


def _figure(context: Context, which: str, found: Driven, circuit: Circuit | None = None) -> Worked:
    current, supply, resistance = found
    put_in: Filled = (
        "{}: {} / √({:.4g}² + {:.4g}²)", which, supply, supply.impedance, resistance
    )  # fmt: skip
    earth = which == "L-E"
    feed = feed_along(context, COLD_20, earth=earth and not context.own_electrode)
    sources: Cited = (cited.GN3_FAULT, supply.source, feed)
    if circuit is not None:
        sources = (*sources, own_along(context, circuit, COLD_20, earth=earth))
    return worked(
        "Ipf", current / 1000, Unit.KILOAMPERE,
        "Ipf = Cmax · U0 / √(Z² + R²), conductors cold at 20 °C", put_in, sources,
        note="The supply's angle is taken as worst: errs high, for breaking capacity.",
    )  # fmt: skip


@once
def line_neutral_at_board(context: Context) -> Worked:
    """Return the highest L-N fault current at the sub-board."""
    cold = feed_along(context, COLD_20, earth=False)
    return _figure(context, "L-N", _ln(context, 2 * cold.line))


@once
def line_earth_at_board(context: Context) -> Worked:
    """Return the highest L-E fault current at the sub-board."""
    return _figure(context, "L-E", _le_at_board(context))


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
    if circuit.form is None:
        need(circuit.form, "the form of the circuit is", where(circuit))
    share = 0.25 if circuit.form is Form.RING else 1.0
    return _figure(context, "L-N", _ln(context, 2 * (feed.line + share * own.line)), circuit)


def line_earth_at_end(context: Context, circuit: Circuit) -> Worked:
    """Return the highest L-E fault current at the far end of a circuit."""
    own = circuit_r1_r2(context, circuit, COLD_20).value
    return _figure(context, "L-E", _le(context, own), circuit)


@once
def line_neutral_at_origin(context: Context) -> Worked:
    """Return the highest L-N fault current at the origin."""
    return _at_origin(context, "L-N", _ln(context, 0.0))


@once
def line_earth_at_origin(context: Context) -> Worked:
    """Return the highest L-E fault current at the origin."""
    return _at_origin(context, "L-E", _le_at_origin(context))


def _le_at_origin(context: Context) -> Driven:
    supply = _line_earth(context)
    return _by(supply, 0.0), supply, 0.0


def _at_origin(context: Context, which: str, found: Driven) -> Worked:
    current, supply, _ = found
    if supply.factor == 1:
        text = f"{current / 1000:g} kA as entered"
    else:
        text = f"{which}: {supply.factor:g} × {context.u0:g} / {supply.impedance:.4g}"
    return worked(
        "Ipf", current / 1000, Unit.KILOAMPERE,
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
        return _le_at_origin(context)[0]
    if context.own_electrode:
        supply = _electrode(context)
        return fault.highest(context.u0, supply.impedance, supply.factor)
    return _le_at_board(context)[0]
