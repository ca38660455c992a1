"""All figures of one branch: the feed, or one final circuit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, partial

from records.errors import FarboardError
from records.evidence import Source
from records.expected import cpc, highest, loads, loops, measured, protection
from records.expected.context import FEED, Context, circuit_place, where
from records.expected.disconnection import Opening
from records.expected.electrode import highest_electrode
from records.expected.fault import lowest
from records.expected.protection import kind_and_rating
from records.expected.results import NotWorkedOut, Result, What, Worked
from records.expected.runs import HOT
from records.expected.workings import Missing, figure_of, need, value_of
from records.model.circuit import Circuit
from records.model.reading import Place
from records.model.wiring import Device, Rcd, Run
from records.tables import disconnection
from records.tables.devices import c_min
from records.terms import DeviceKind, Part
from records.units import Ampere

Figures = dict[What, Result]


@dataclass(frozen=True)
class Branch:
    """The feed (no circuit), or a final circuit."""

    context: Context
    circuit: Circuit | None

    @property
    def place(self) -> Place:
        """Where its figures stand."""
        return FEED if self.circuit is None else circuit_place(self.circuit)

    @cached_property
    def at(self) -> str:
        """Where to enter what it lacks."""
        return "Feed" if self.circuit is None else where(self.circuit)

    @cached_property
    def device(self) -> Device:
        """Its overcurrent device."""
        return (self.circuit or self.context.record.feed).device

    @property
    def runs(self) -> tuple[Run, ...]:
        """Its runs, as a fault in it meets them."""
        return self.context.feed_runs if self.circuit is None else self.circuit.runs

    @cached_property
    def tt(self) -> bool:
        """Whether a fault in it returns by an electrode; raises Missing if that isn't known."""
        return self.context.feed_is_tt if self.circuit is None else self.context.circuits_are_tt

    @cached_property
    def rcd(self) -> Rcd | None:
        """The RCD that sees its earth faults; raises Missing for an RCBO without IΔn."""
        own = (self.circuit or self.context.record.feed).rcd
        kind = self.device.kind
        if own.residual is None and kind is not None and kind.is_rcbo:
            raise Missing(f"IΔn of the RCBO is not entered yet ({self.at}).")
        if self.circuit is not None:
            return self.context.rcd_of(self.circuit)
        return own if own.residual is not None else None

    @property
    def by_rcd(self) -> bool:
        """Whether its loop is limited by the RCD instead of the overcurrent device."""
        return self.tt and self.rcd is not None

    @property
    def loop(self) -> loops.Loop:
        """Its loop at the far end, hot."""
        if self.circuit is None:
            return loops.feed_loop(self.context, HOT)
        return loops.zs(self.context, self.circuit, HOT)


def design(branch: Branch) -> Figures:
    """Return the design figures of a branch."""
    found: Figures = {}
    _put(found, What.IN, lambda: loads.rated_current(branch.device, branch.at))
    _put(found, What.IZ, lambda: loads.capacity(branch.runs, branch.device, branch.at))
    _put(found, What.BREAKING, lambda: protection.breaking(branch.device, branch.at))
    _loads(branch, found)
    _loop(branch, found)
    _put(found, What.TIME, lambda: _time(branch, value_of(found[What.FAULT_LOWEST])))
    _put(found, What.TIME_RCD, lambda: _time_rcd(branch, found[What.FAULT_LOWEST]))
    _cpc(branch, found)
    return found


def from_readings(branch: Branch) -> Figures:
    """Return what the readings so far give of the same figures."""
    context, circuit = branch.context, branch.circuit
    found: Figures = {}
    if circuit is None:
        _put(found, What.ZS, lambda: measured.feed_zs(context))
    else:
        _put(found, What.ZS, lambda: measured.circuit_zs(context, circuit))
    zs = found[What.ZS]
    if isinstance(zs, NotWorkedOut):
        for what in (What.FAULT_LOWEST, What.TIME, What.TIME_RCD):
            found[what] = NotWorkedOut(what, zs.why)
    else:
        _put(found, What.FAULT_LOWEST, lambda: measured.lowest(context, zs, circuit))
        _put(found, What.TIME, lambda: _time(branch, value_of(found[What.FAULT_LOWEST])))
        _put(found, What.TIME_RCD, lambda: _time_rcd(branch, found[What.FAULT_LOWEST]))
    part = Part.ORIGIN if circuit is None else Part.BOARD
    _put(found, What.FAULT_HIGHEST, lambda: measured.highest(context, part))
    return found


def _put(found: Figures, what: What, work: Callable[[], Worked]) -> None:
    try:
        found[what] = work()
    except FarboardError as error:
        found[what] = NotWorkedOut(what, str(error))


def _loads(branch: Branch, found: Figures) -> None:
    context, circuit = branch.context, branch.circuit
    if circuit is None:
        _put(found, What.IB, lambda: loads.feed_current(context))
        _put(found, What.VOLT_DROP, lambda: loads.feed_drop(context))
        return
    _put(found, What.IB, lambda: loads.design_current(context, circuit))
    _put(found, What.VOLT_DROP, lambda: loads.circuit_drop(context, circuit))
    _put(found, What.VOLT_DROP_LIMIT, lambda: loads.circuit_drop_limit(context, circuit))


def _loop(branch: Branch, found: Figures) -> None:
    context, circuit, at = branch.context, branch.circuit, branch.at

    def required() -> Worked:
        _, rating = kind_and_rating(branch.device, at)
        if circuit is None:
            return protection.feed_time(tt=branch.tt)
        use = need(circuit.use, "what the circuit feeds is", at)
        return protection.circuit_time(use, context.u0, rating, tt=branch.tt)

    def limit() -> Worked:
        device = kind_and_rating(branch.device, at)
        time = value_of(found[What.TIME_REQUIRED])
        rcd = branch.rcd if branch.tt else None
        if rcd is not None and rcd.residual is not None:
            return protection.loop_limit_by_rcd(rcd.residual)
        return protection.loop_limit(*device, time, context.u0)

    def exact() -> Worked:
        table = figure_of(found[What.ZS_LIMIT])
        own, how = measured.own_part(context, circuit)
        rise = measured.rise(context, circuit)
        return protection.exact_limit(table, own, rise, how, by_rcd=branch.by_rcd)

    _put(found, What.R1_R2, lambda: loops.own_r1_r2(context, circuit))
    _put(found, What.TIME_REQUIRED, required)
    _put(found, What.ZS_LIMIT, limit)
    _put(
        found, What.ZS_LIMIT_COLD,
        lambda: protection.cold_limit(figure_of(found[What.ZS_LIMIT]), by_rcd=branch.by_rcd),
    )  # fmt: skip
    _put(found, What.ZS_LIMIT_EXACT, exact)
    _put(
        found, What.ZS,
        lambda: branch.loop.figure("Zs", "Zs = loop upstream + (R1+R2), at operating temperature"),
    )  # fmt: skip
    _put(found, What.FAULT_LOWEST, lambda: loops.lowest(context, branch.loop))
    if circuit is None:
        _put(found, What.FAULT_HIGHEST, lambda: highest.at_origin(context))
        return
    _put(found, What.FAULT_HIGHEST, lambda: highest.at_board(context))
    _put(found, What.FAULT_LN, lambda: highest.line_neutral_at_end(context, circuit))
    _put(found, What.FAULT_LE, lambda: highest.line_earth_at_end(context, circuit))


def _time(branch: Branch, current: float) -> Worked:
    kind, rating = kind_and_rating(branch.device, branch.at)
    note = partial(_connection_unit, branch, current)
    return protection.time_overcurrent(kind, rating, current, note)


def _connection_unit(branch: Branch, current: float) -> str:
    """Return what the fuse of a connection unit does at a current, for a note."""
    fuse = branch.circuit.fuse if branch.circuit is not None else None
    if fuse is None:
        return ""
    try:
        found, _ = protection.opening(DeviceKind.BS_1362, Ampere(fuse), current)
    except FarboardError as error:
        return str(error)
    return f"Beyond the connection unit its {fuse:g} A fuse: {found.words}."


def _time_rcd(branch: Branch, current: Result) -> Worked:
    rcd = branch.rcd
    if isinstance(current, NotWorkedOut) and branch.tt and rcd is not None and rcd.residual:
        # Whatever the electrode: at the highest RA allowed the fault current is least.
        limit = highest_electrode(disconnection.touch_voltage().value, Ampere(rcd.residual / 1000))
        least = lowest(branch.context.u0, limit, c_min().value)
        return protection.time_rcd(rcd, least, branch.at)
    return protection.time_rcd(rcd, value_of(current), branch.at)


def _cpc(branch: Branch, found: Figures) -> None:
    def fault() -> cpc.Fault:
        kind, rating = kind_and_rating(branch.device, branch.at)
        return cpc.Fault(
            kind,
            rating,
            lambda: highest.earth_fault(branch.context, at_board=branch.circuit is not None),
            lambda: value_of(found[What.FAULT_LOWEST]),
            lambda current: _first_to_open(branch, current),
        )

    try:
        size, least = cpc.sizes(branch.runs, branch.at, fault())
        found[What.CPC_SIZE], found[What.CPC_LEAST] = size, least
    except FarboardError as error:
        for what in (What.CPC_SIZE, What.CPC_LEAST):
            found[what] = NotWorkedOut(what, str(error))


def _first_to_open(branch: Branch, current: float) -> tuple[Opening, tuple[Source, ...]]:
    kind, rating = kind_and_rating(branch.device, branch.at)
    over, sources = protection.opening(kind, rating, current)
    rcd = branch.rcd
    if rcd is None or rcd.residual is None:
        return over, sources
    residual, times = protection.residual_opening(rcd, current)
    if residual.latest is None or (over.latest is not None and over.latest <= residual.latest):
        return over, sources
    return residual, times
