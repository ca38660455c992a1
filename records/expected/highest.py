"""Highest fault currents, for breaking capacity and for protective conductors: conductors cold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from records.errors import FarboardError
from records.expected import sources as cited
from records.expected import supplies
from records.expected.context import Context, feed_along, once, own_along, where
from records.expected.formulas import fault
from records.expected.formulas.loop import least_sum
from records.expected.installation_loops import COLD_20, circuit_r1_r2
from records.expected.results import Cited, Filled, Worked
from records.expected.supplies import Supply
from records.expected.workings import need
from records.model.circuit import Circuit
from records.tables.rounding import with_unit
from records.terms import Form
from records.units import Ohm, Unit


@dataclass(frozen=True, slots=True)
class Driven:
    """The highest current, what drives it, and how far it can be trusted."""

    current: float
    """[A]"""
    supply: Supply
    resistance: float
    """That it is driven through, behind the impedance of the supply [Ω]."""
    known: float | None
    """The highest that rests on no assumption [A]."""
    most: float
    """What it can't be over, by the meter's uncertainty or by an assumption [A]."""
    assumed: str
    """What to enter or read in the place of that assumption; empty: there is none."""


def _driven(found: Sequence[Supply], to_board: float, beyond: float = 0.0) -> Driven:
    """Return the highest current that any of the supplies can drive.

    Args:
        found: What is known of the supply.
        to_board: Resistance of the feed on the way of the fault [Ω].
        beyond: Resistance behind the sub-board [Ω].
    """
    each = [(_current(one, one.impedance, to_board, beyond), one) for one in found]
    current, by = max((pair for pair in each if not pair[1].bound), key=lambda pair: pair[0])
    known = max((one for one, supply in each if not supply.assumed), default=None)
    most, far = max(
        ((_current(one, one.least or one.impedance, to_board, beyond), one) for one in found),
        key=lambda pair: pair[0],
    )
    resistance = beyond if by.at_board else to_board + beyond
    return Driven(current, by, resistance, known, most, far.assumed or by.assumed)


def _current(supply: Supply, impedance: Ohm, to_board: float, beyond: float) -> float:
    resistance = beyond if supply.at_board else to_board + beyond
    return fault.highest(supply.u0, least_sum(impedance, Ohm(resistance)), supply.factor)


def _ln(context: Context, beyond: float = 0.0) -> Driven:
    """Return the highest L-N current behind the sub-board, through a resistance of its own."""
    feed = feed_along(context, COLD_20, earth=False)
    return _driven(supplies.line_neutral_to_board(context), 2 * feed.line, beyond)


def _le(context: Context, beyond: float = 0.0) -> Driven:
    """Return the highest L-E current behind the sub-board, through a resistance of its own."""
    if context.own_electrode:
        line = feed_along(context, COLD_20, earth=False).line
        return _driven([supplies.electrode(context)], line, beyond)
    feed = feed_along(context, COLD_20)
    return _driven(supplies.line_earth_to_board(context), feed.line + feed.back, beyond)


@once
def _le_at_board(context: Context) -> Driven:
    return _le(context)


_ANGLE = "The supply's angle is taken as the worst case, for breaking capacity."


def _figure(context: Context, which: str, found: Driven, circuit: Circuit | None = None) -> Worked:
    supply = found.supply
    put_in: Filled = (
        "{}: {} / √({:.4g}² + {:.4g}²)",
        which,
        supply,
        supply.impedance,
        found.resistance,
    )
    earth = which == "L-E"
    feed = feed_along(context, COLD_20, earth=earth and not context.own_electrode)
    sources: Cited = (cited.GN3_FAULT, supply.source, feed)
    if circuit is not None:
        sources = (*sources, own_along(context, circuit, COLD_20, earth=earth))
    return _worked(
        found, "Ipf = Cmax · U0 / √(Z² + R²), conductors cold at 20 °C", put_in, sources, _ANGLE
    )


def _worked(found: Driven, formula: str, put_in: Filled, sources: Cited, note: str) -> Worked:
    current = found.current
    high = found.most / 1000 if found.most > current * (1 + 1e-9) else None
    return Worked(
        "Ipf",
        current / 1000,
        Unit.KILOAMPERE,
        formula,
        put_in,
        sources,
        low=None if high is None else current / 1000,
        high=high,
        words=_words(found, high),
        note=_note(found, high, note),
        assumed=found.assumed,
    )


def _words(found: Driven, high: float | None) -> str:
    if found.supply.assumed:
        return f"{_in_words(found.current)}, assumed"
    if high is not None and found.assumed:
        return f"at least {_in_words(found.current)}, at most {_in_words(1000 * high)}"
    return ""


def _in_words(amperes: float) -> str:
    return with_unit(amperes / 1000, Unit.KILOAMPERE, 2, "")


def _note(found: Driven, high: float | None, note: str) -> str:
    supply = found.supply
    if supply.assumed:
        return (
            "Assumed: the highest fault current usual at an origin, "
            f"{supply.u0 / supply.impedance / 1000:g} kA. A declared Ze is a largest one: it "
            "gives no highest current."
        )
    if high is not None and found.assumed:
        return (
            "Ze is declared or typical, a largest one: the current can be higher, at most what "
            "line and neutral give."
        )
    return note


@once
def line_neutral_at_board(context: Context) -> Worked:
    """Return the highest L-N fault current at the sub-board."""
    return _figure(context, "L-N", _ln(context))


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
    if context.own_electrode:
        return line_neutral
    try:
        line_earth = line_earth_at_board(context)
    except FarboardError:
        return line_neutral
    return _higher(line_neutral, line_earth)


def _higher(one: Worked, other: Worked) -> Worked:
    """Return the higher of two currents, which may lie as high as either of them may."""
    first, second = sorted((one, other), key=lambda each: each.value, reverse=True)
    most = second.high
    if most is None or most <= (first.value if first.high is None else first.high):
        return first
    return first.up_to(most, second.note, second.assumed)


def line_neutral_at_end(context: Context, circuit: Circuit) -> Worked:
    """Return the highest L-N fault current at the furthest point of a circuit."""
    own = own_along(context, circuit, COLD_20, earth=False)
    if circuit.form is None:
        need(circuit.form, "the arrangement of the circuit is", where(circuit))
    share = 0.25 if circuit.form is Form.RING else 1.0
    return _figure(context, "L-N", _ln(context, 2 * share * own.line), circuit)


def line_earth_at_end(context: Context, circuit: Circuit) -> Worked:
    """Return the highest L-E fault current at the furthest point of a circuit."""
    own = circuit_r1_r2(context, circuit, COLD_20).value
    return _figure(context, "L-E", _le(context, own), circuit)


@once
def line_neutral_at_origin(context: Context) -> Worked:
    """Return the highest L-N fault current at the origin."""
    return _at_origin("L-N", _driven(supplies.line_neutral(context), 0.0))


@once
def line_earth_at_origin(context: Context) -> Worked:
    """Return the highest L-E fault current at the origin."""
    return _at_origin("L-E", _le_at_origin(context))


@once
def _le_at_origin(context: Context) -> Driven:
    return _driven(supplies.line_earth(context), 0.0)


def _at_origin(which: str, found: Driven) -> Worked:
    supply = found.supply
    put_in: Filled = ("{}: {} / {:.4g}", which, supply, supply.impedance)
    if supply.factor == 1:
        how = "assumed" if supply.assumed else "as measured" if _read(supply) else "as entered"
        put_in = ("{}: {:g} kA {}", which, found.current / 1000, how)
    return _worked(
        found,
        "highest of Ipf as entered or read and Cmax · U0 / Ze",
        put_in,
        (cited.GN3_FAULT, supply.source),
        "On the safe side (worst case), for breaking capacity.",
    )


def _read(supply: Supply) -> bool:
    return supply.source is cited.READ_OFF


@once
def at_origin(context: Context) -> Worked:
    """Return the highest fault current at the origin, L-N or L-E, whichever is more.

    Raises:
        Missing: If neither is known, and nothing may be assumed.
    """
    line_neutral = line_neutral_at_origin(context)
    try:
        line_earth = line_earth_at_origin(context)
    except FarboardError:
        return line_neutral
    return _higher(line_neutral, line_earth)


def earth_fault(context: Context, *, at_board: bool) -> Driven:
    """Return the highest earth fault current at the origin or the sub-board, for a cpc."""
    if not at_board:
        return _le_at_origin(context)
    if context.own_electrode:
        return _driven([supplies.electrode(context)], 0.0)
    return _le_at_board(context)
