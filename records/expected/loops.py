"""Loops of the installation: Ze, Zdb, Zs, and the fault currents that follow from them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from records.evidence import Source
from records.expected import fault
from records.expected import sources as cited
from records.expected.context import Context, once, runs_along, where
from records.expected.loop import least_sum, loop_impedance
from records.expected.results import Worked
from records.expected.ring import in_service
from records.expected.runs import Along, State
from records.expected.workings import Missing, need, worked
from records.model.circuit import Circuit
from records.model.reading import Quantity
from records.tables.demand import typical_ze
from records.tables.devices import c_max, c_min
from records.terms import Earthing, Form, Part
from records.units import Ampere, Ohm, Unit

COLD_20 = State(20.0, True)


@dataclass(frozen=True, slots=True)
class Loop:
    """A loop impedance with its working."""

    value: Ohm
    put_in: str
    sources: tuple[Source, ...]
    high: Ohm | None = None
    """The most it can be, where a part of it isn't known."""
    note: str = ""

    @property
    def most(self) -> Ohm:
        """The value to compare with a limit."""
        return self.value if self.high is None else self.high

    def figure(self, symbol: str, formula: str) -> Worked:
        """Return it as a result."""
        low = None if self.high is None else self.value
        return worked(
            symbol, self.value, Unit.OHM, formula, self.put_in, self.sources,
            low=low, high=self.high, note=self.note,
        )  # fmt: skip


@once
def zdb(context: Context, state: State) -> Loop:
    """Return the loop at the sub-board, as an earth fault behind it meets it.

    Raises:
        Missing: If an input, or the electrode's resistance, isn't there yet.
    """
    runs = context.record.feed.runs
    if context.own_electrode:
        electrode = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
        line = runs_along(context, runs, "Feed", state, earth=False)
        return _by_electrode(electrode, line)
    return _by_cable(context, runs_along(context, runs, "Feed", state))


@once
def feed_loop(context: Context, state: State) -> Loop:
    """Return the loop at the far end of the feed, as a fault in the feed itself meets it."""
    return _by_cable(context, runs_along(context, context.feed_runs, "Feed", state))


def _by_cable(context: Context, feed: Along) -> Loop:
    ze = need(context.record.origin.ze, "Ze is", "Origin")
    return Loop(
        loop_impedance(Ohm(ze), feed.loop),
        f"{ze:.4g} + {feed.put_in}",
        (cited.GN3_LOOP, *feed.sources),
        note="Magnitudes are added: errs high, never low.",
    )


def _by_electrode(electrode: float, line: Along) -> Loop:
    value = loop_impedance(Ohm(electrode), Ohm(line.line))
    beyond = typical_ze(Earthing.TT)
    return Loop(
        value,
        f"{electrode:.4g} + {line.put_in}",
        (cited.GN3_LOOP, *line.sources, beyond.source),
        Ohm(value + beyond.value),
        f"The electrodes of the supply come on top, usually not over {beyond.value:g} Ω.",
    )


@once
def circuit_r1_r2(
    context: Context, circuit: Circuit, state: State
) -> tuple[Ohm, str, tuple[Source, ...]]:
    """Return R1+R2 of a circuit at its far point as a loop meets it [Ω], working, sources.

    A ring: half way round, the longest spur on top, which errs high.
    """
    all_runs = runs_along(context, circuit.runs, where(circuit), state)
    if circuit.form is not Form.RING:
        need(circuit.form, "the form of the circuit is", where(circuit))
        return all_runs.loop, all_runs.put_in, all_runs.sources
    half_way = in_service(Ohm(all_runs.line), Ohm(all_runs.back), 0.5)
    spur = max((point.spur or 0.0 for point in circuit.points), default=0.0)
    around = sum(run.length or 0.0 for run in circuit.runs)
    extra = all_runs.r1_r2 * spur / around
    text = f"¼ × ({all_runs.put_in})" + (f" + {extra:.3f} for the spur" if spur else "")
    return Ohm(half_way + extra), text, (cited.GN3_RING, *all_runs.sources)


@once
def zs(context: Context, circuit: Circuit, state: State) -> Loop:
    """Return the loop at the far point of a circuit."""
    up = zdb(context, state)
    own, text, found = circuit_r1_r2(context, circuit, state)
    return Loop(
        loop_impedance(up.value, own),
        f"{up.value:.3f} + {text}",
        (*up.sources, *found),
        None if up.high is None else loop_impedance(up.high, own),
        up.note,
    )


def lowest(context: Context, loop: Loop) -> Worked:
    """Return the lowest earth fault current at the end of a hot loop."""
    factor = c_min()
    current = fault.lowest(context.u0, loop.most, factor.value)
    return worked(
        "If,min", current, Unit.AMPERE, "If,min = Cmin · U0 / Zs",
        f"{factor.value:g} × {context.u0:g} / {loop.most:.3f}",
        (cited.LOWEST, factor.source, *loop.sources), digits=0,
        note="Conductors hot, magnitudes added: errs low.",
    )  # fmt: skip


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


def highest_at_origin(context: Context) -> Worked:
    """Return the highest fault current at the origin, L-N or L-E, whichever is more."""
    origin = context.record.origin
    found: list[tuple[float, str, Source]] = []
    if origin.fault_current is not None:
        found.append((origin.fault_current, f"{origin.fault_current:g} kA as entered",
                      cited.DECLARED))  # fmt: skip
    if origin.ze:
        factor = c_max()
        current = fault.highest(context.u0, Ohm(origin.ze), factor.value)
        text = f"{factor.value:g} × {context.u0:g} / {origin.ze:.4g}"
        found.append((current / 1000, text, factor.source))
    if not found:
        raise Missing("neither Ze nor the fault current at the origin is entered yet (Origin).")
    value, text, source = max(found)
    return worked(
        "Ipf", value, Unit.KILOAMPERE, "highest of Ipf as entered and Cmax · U0 / Ze", text,
        (cited.GN3_FAULT, source), note="Errs high, for breaking capacity.",
    )  # fmt: skip


@once
def highest_at_board(context: Context) -> Worked:
    """Return the highest fault current at the sub-board, L-N or L-E, whichever is more."""
    origin = context.record.origin
    factor = c_max()
    runs = context.record.feed.runs
    found: list[tuple[float, str, tuple[Source, ...]]] = []
    cold = runs_along(context, runs, "Feed", COLD_20, earth=False)

    def add(upstream: Ohm, resistance: float, which: str, c: float) -> None:
        least = least_sum(upstream, Ohm(resistance))
        current = fault.highest(context.u0, least, c)
        text = f"{which}: {c:g} × {context.u0:g} / √({upstream:.4g}² + {resistance:.4g}²)"
        found.append((current / 1000, text, cold.sources))

    if origin.fault_current is not None:
        behind = fault.source_impedance(context.u0, Ampere(origin.fault_current * 1000))
        add(behind, 2 * cold.line, "L-N", 1.0)
    if origin.ze and context.earthing is Earthing.TN_C_S:
        add(Ohm(origin.ze), 2 * cold.line, "L-N", factor.value)
    if origin.ze and not context.own_electrode:
        add(Ohm(origin.ze), runs_along(context, runs, "Feed", COLD_20).r1_r2, "L-E", factor.value)
    if not any(text.startswith("L-N") for _, text, _ in found):
        what = "the fault current at the origin, which L-N is worked out from, is"
        raise Missing(f"{what} not entered yet (Origin).")
    value, text, sources = max(found)
    return worked(
        "Ipf", value, Unit.KILOAMPERE, "Ipf = Cmax · U0 / √(Z² + R²), feed cold at 20 °C", text,
        (cited.GN3_FAULT, factor.source, *sources),
        note="The supply's angle is taken as worst: errs high, for breaking capacity.",
    )  # fmt: skip


def highest_earth(context: Context, *, at_board: bool) -> float:
    """Return the highest earth fault current at the origin or the sub-board [A], for a cpc."""
    factor = c_max().value
    if not at_board:
        ze = need(context.record.origin.ze, "Ze is", "Origin")
        return fault.highest(context.u0, Ohm(ze), factor)
    runs = context.record.feed.runs
    if context.own_electrode:
        electrode = context.readings.get(Quantity.ELECTRODE, Part.BOARD)
        return fault.highest(context.u0, Ohm(electrode), factor)
    ze = need(context.record.origin.ze, "Ze is", "Origin")
    feed = runs_along(context, runs, "Feed", COLD_20).r1_r2
    return fault.highest(context.u0, least_sum(Ohm(ze), feed), factor)


def shown(context: Context, symbol: str, impedance: Callable[[], tuple[float, str]]) -> Worked:
    """Return the prospective current that a meter shows at an impedance."""
    value, text = impedance()
    current = fault.prospective(context.u0, Ohm(value))
    return worked(
        symbol, current / 1000, Unit.KILOAMPERE, "Ipf = U0 / Z", f"{context.u0:g} / ({text})",
        (cited.GN3_FAULT,), note="Small impedances make this a rough figure.",
    )  # fmt: skip
