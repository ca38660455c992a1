"""Loops of the installation: Ze, Zdb, Zs, and the fault currents that follow from them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from records.errors import FarboardError
from records.evidence import Source
from records.expected import sources as cited
from records.expected.context import Context, feed_along, once, own_along, where
from records.expected.formulas import fault
from records.expected.formulas.loop import loop_impedance
from records.expected.formulas.ring import in_service, with_spur
from records.expected.results import Cited, Text, Worked, each_cited, written
from records.expected.runs import HOT, Along, State, state
from records.expected.workings import need
from records.model.circuit import Circuit, Point
from records.model.reading import Quantity
from records.model.supply import Ground
from records.tables.demand import typical_ze
from records.tables.devices import c_min
from records.terms import Earthing, Form, Part, Sign
from records.units import Ampere, Ohm, Unit

COLD_20 = state(20.0, ac=True)


@dataclass(slots=True)
class Loop:
    """A loop impedance with its working."""

    value: Ohm
    put_in: Text
    sources: Cited
    high: Ohm | None = None
    """The most it can be, where a part of it isn't known."""
    note: str = ""

    @property
    def most(self) -> Ohm:
        """The value to compare with a limit."""
        return self.value if self.high is None else self.high

    def figure(self, symbol: str, formula: Text) -> Worked:
        """Return it as a result."""
        low = None if self.high is None else self.value
        return Worked(
            symbol,
            self.value,
            Unit.OHM,
            formula,
            self.put_in,
            self.sources,
            low=low,
            high=self.high,
            note=self.note,
        )

    def cited(self) -> tuple[Source, ...]:
        """Return its sources."""
        return tuple(each_cited(self.sources))

    def __str__(self) -> str:
        return written(self.put_in)


@once
def zdb(context: Context, state: State) -> Loop:
    """Return Zdb, as an earth fault behind it meets it.

    Raises:
        Missing: If an input, or the electrode's resistance, isn't there yet.
    """
    if context.own_electrode:
        electrode = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
        return _by_electrode(electrode, feed_along(context, state, earth=False))
    return _by_cable(context, feed_along(context, state))


@once
def feed_loop(context: Context, state: State) -> Loop:
    """Return the earth fault loop impedance at the end of the feed, as a fault in the feed itself
    meets it."""
    return _by_cable(context, own_along(context, None, state))


def _by_cable(context: Context, feed: Along) -> Loop:
    ze = need(context.record.origin.ze, "Ze is", "Origin")
    return Loop(
        loop_impedance(Ohm(ze), feed.value),
        ("{:.4g} + {}", ze, feed),
        (cited.GN3_LOOP, feed),
        note="Magnitudes are added: on the safe side (worst case).",
    )


def _by_electrode(electrode: float, line: Along) -> Loop:
    value = loop_impedance(Ohm(electrode), Ohm(line.line))
    beyond = typical_ze(Earthing.TT)
    return Loop(
        value,
        ("{:.4g} + {}", electrode, line),
        (cited.GN3_LOOP, line, beyond.source),
        Ohm(value + beyond.value),
        f"The electrodes of the supply come on top, usually not over {beyond.value:g} Ω.",
    )


@once
def worst_zdb(context: Context) -> Loop:
    """Return Zdb, hot, with what was read there or at the origin if worse.

    Raises:
        Missing: As `zdb`, where no reading stands in for what isn't entered.
    """
    found = _designed(lambda: zdb(context, HOT))
    more = []
    if not context.own_electrode:
        more += _by_ze_as_read(context, lambda: feed_along(context, HOT))
    more += _zdb_as_read(context)
    return _worst(found, more)


@once
def worst_feed_loop(context: Context) -> Loop:
    """Return the earth fault loop impedance at the end of the feed, hot, with what was read if
    that is worse."""
    found = _designed(lambda: feed_loop(context, HOT))
    more = _by_ze_as_read(context, lambda: own_along(context, None, HOT))
    if not context.own_electrode:
        more += _zdb_as_read(context)
    return _worst(found, more)


def _designed(work: Callable[[], Loop]) -> Loop | FarboardError:
    try:
        return work()
    except FarboardError as error:
        return error


def _worst(design: Loop | FarboardError, read: list[Loop]) -> Loop:
    if isinstance(design, FarboardError):
        if not read:
            raise design
        return max(read, key=lambda each: each.value)
    return max((design, *read), key=lambda each: each.most)


def _by_ze_as_read(context: Context, feed: Callable[[], Along]) -> list[Loop]:
    read = context.readings.edge(Quantity.ZE, Part.ORIGIN, Sign.OVER)
    if read is None:
        return []
    along = feed()
    note = f"With Ze as measured, {read[0]:g} Ω, which is worse than the design."
    value = loop_impedance(Ohm(read[0]), along.value)
    return [Loop(value, ("{:.4g} + {}", read[0], along), (cited.READ_OFF, along), note=note)]


def _zdb_as_read(context: Context) -> list[Loop]:
    read = context.readings.edge(Quantity.ZDB, Part.BOARD, Sign.OVER)
    if read is None:
        return []
    note = f"With Zdb as measured, {read[0]:g} Ω, which is worse than the design."
    return [Loop(Ohm(read[0]), f"{read[0]:.4g}", (cited.READ_OFF, cited.GN3_LOOP), note=note)]


def circuit_r1_r2(context: Context, circuit: Circuit, state: State) -> Loop | Along:
    """Return R1+R2 of a circuit at its furthest point as a loop meets it: its `value`.

    A ring: half way round, or at the end of a spur, whichever is more. A radial: at its end, or at
    the end of a branch.
    """
    if circuit.form is Form.RING:
        return _ring_r1_r2(context, circuit, state)
    found = own_along(context, circuit, state)
    if circuit.form is None:
        need(circuit.form, "the arrangement of the circuit is", where(circuit))
    return _with_branches(circuit, found)


def _with_branches(circuit: Circuit, radial: Along) -> Loop | Along:
    """Return R1+R2 at the end of the branch where it is highest, if that is over that of the
    furthest point."""
    length = sum(each for each, _ in radial.parts)
    most: Loop | Along = radial
    for point in circuit.points:
        if not point.spur:
            continue
        # Without a place it is taken to leave at the far end, the worst.
        at = length if point.at is None else min(point.at, length)
        (line, back), here = radial.up_to(at)
        value = Ohm(line + back + (here.line + (here.back or 0.0)) * point.spur)
        if value > most.value:
            text = f"{value:.3f}: branch of {point.spur:g} m at {at:g} m of ({radial})"
            most = Loop(value, text, (cited.GN3_LOOP, radial))
    return most


@once
def _ring_r1_r2(context: Context, circuit: Circuit, state: State) -> Loop:
    ring = own_along(context, circuit, state)
    half_way = in_service(Ohm(ring.line), Ohm(ring.back), 0.5)
    most, text = half_way, lambda: f"¼ × ({ring})"
    for point in circuit.points:
        if not point.spur:
            continue
        found = _by_spur(circuit, ring, point)
        if found > most:
            most, text = found, partial(_spur_text, ring, point, found)
    return Loop(most, text, (cited.GN3_RING, ring))


def _by_spur(circuit: Circuit, ring: Along, point: Point) -> Ohm:
    """Return R1+R2 at the end of a spur, which leaves the ring at its own place.

    Without a place it is taken to leave half way round, the worst. It is taken to be of the cable
    that the ring has there.
    """
    whole = ring.line + ring.back
    around = sum(length for length, _ in ring.parts)
    at = around / 2 if point.at is None else min(point.at, around)
    (line, back), here = ring.up_to(at)
    share = (line + back) / whole if point.at is not None and whole else 0.5
    own = Ohm((here.line + (here.back or 0.0)) * (point.spur or 0.0))
    return with_spur(in_service(Ohm(ring.line), Ohm(ring.back), share), own)


def _spur_text(ring: Along, point: Point, value: float) -> str:
    at = "half way round" if point.at is None else f"at {point.at:g} m"
    return f"{value:.3f}: spur of {point.spur:g} m {at} of the ring ({ring})"


def own_r1_r2(context: Context, circuit: Circuit | None) -> Worked:
    """Return R1+R2 of a circuit, or of the feed for None, at operating temperature."""
    formula = "R1+R2 = Σ L · (r1 + r2), at operating temperature"
    if circuit is None:
        own: Loop | Along = own_along(context, None, HOT)
    else:
        own = circuit_r1_r2(context, circuit, HOT)
        if circuit.form is Form.RING:
            formula = (
                "R1+R2 = (r1 + r2) · x · (1 - x) + spur, at its highest, at operating temperature"
            )
    return Worked("R1+R2", own.value, Unit.OHM, formula, ("{}", own), (own,))


def zs(context: Context, circuit: Circuit, state: State) -> Loop:
    """Return Zs at the furthest point of a circuit."""
    return _behind_board(context, zdb(context, state), circuit, state)


def worst_zs(context: Context, circuit: Circuit) -> Loop:
    """Return the same, hot, with what was read upstream if that is worse than the design."""
    return _behind_board(context, worst_zdb(context), circuit, HOT)


def _behind_board(context: Context, up: Loop, circuit: Circuit, state: State) -> Loop:
    own = circuit_r1_r2(context, circuit, state)
    return Loop(
        loop_impedance(up.value, own.value),
        ("{:.3f} + {}", up.value, own),
        (up, own),
        None if up.high is None else loop_impedance(up.high, own.value),
        up.note,
    )


def lowest(context: Context, loop: Loop) -> Worked:
    """Return the lowest earth fault current at the end of a hot loop."""
    factor, u0, most = c_min(), context.u0, loop.most
    return Worked(
        "If,min",
        fault.lowest(u0, most, factor.value),
        Unit.AMPERE,
        "If,min = Cmin · U0 / Zs",
        ("{:g} × {:g} / {:.3f}", factor.value, u0, most),
        (cited.LOWEST, factor.source, loop),
        digits=0,
        note="Conductors hot, magnitudes added: on the safe side (worst case).",
    )


def source_line_neutral(context: Context) -> tuple[Ohm, str]:
    """Return the impedance of the supply between line and neutral [Ω], and how it is known.

    TN-C-S: neutral and earth are one conductor, so Ze is that of line and neutral as well.
    """
    origin = context.record.origin
    if context.earthing is Earthing.TN_C_S and origin.ze:
        return Ohm(origin.ze), f"{origin.ze:.4g}"
    current = need(origin.fault_current, "the fault current at the origin is", "Origin")
    impedance = fault.source_impedance(context.u0, Ampere(current * 1000))
    return impedance, f"{context.u0:g}/{current * 1000:.4g}"


def shown(
    context: Context, symbol: str, impedance: Callable[[], tuple[float, Text]], *, by_ze: bool
) -> Worked:
    """Return the prospective current that a meter shows at an impedance.

    Args:
        context: The record.
        symbol: Of the current.
        impedance: Gives the impedance [Ω] and how it came about.
        by_ze: Whether Ze is a part of it.
    """
    value, text = impedance()
    note = "Small impedances make this a rough figure."
    if by_ze and context.record.origin.ze_ground is not Ground.MEASURED:
        note = "Ze is not measured, and a declared one is a largest one: expect more."
    u0 = context.u0
    current = fault.prospective(u0, Ohm(value))
    return Worked(
        symbol,
        current / 1000,
        Unit.KILOAMPERE,
        "Ipf = U0 / Z",
        lambda: f"{u0:g} / ({written(text)})",
        (cited.GN3_FAULT,),
        note=note,
    )
