"""The figures of one branch: by design, and from the readings so far."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache, partial

from records.errors import FarboardError
from records.evidence import Source
from records.expected import (
    cpc,
    feed_load,
    highest,
    installation_loops,
    loads,
    measured,
    protection,
    voltage_drop,
)
from records.expected.branch import Branch
from records.expected.formulas.disconnection import Opening
from records.expected.formulas.electrode import highest_electrode
from records.expected.formulas.fault import lowest
from records.expected.results import NotWorkedOut, Result, What, Worked
from records.expected.workings import Missing, figure_of, need, value_of
from records.tables import disconnection
from records.tables.devices import c_min
from records.terms import DeviceKind, Part
from records.units import Ampere

Figures = dict[What, Result]
Work = Callable[[Branch, Figures], Worked]
"""Works a figure out, from those that come before it where it follows from them."""
Wanted = tuple[tuple[What, Work], ...]
"""Figures in the order in which they are worked out."""


def design(branch: Branch) -> Figures:
    """Return the design figures of a branch."""
    found: Figures = {}
    _work_out(branch, found, _FEED if branch.circuit is None else _CIRCUIT)
    _size_up(branch, found)
    return found


def _size_up(branch: Branch, found: Figures) -> None:
    try:
        found[What.CPC_SIZE], found[What.CPC_LEAST] = _cpc(branch, found)
    except FarboardError as error:
        for what in (What.CPC_SIZE, What.CPC_LEAST):
            found[what] = NotWorkedOut(what, str(error))


def some(branch: Branch, wanted: Iterable[What]) -> Figures:
    """Return some of the design figures of a branch: for trying many, where each costs.

    Args:
        branch: The feed or a circuit.
        wanted: Which; what one of them follows from has to be named too.
    """
    found: Figures = {}
    order, sized = _in_order(tuple(wanted), branch.circuit is None)
    _work_out(branch, found, order)
    if sized:
        _size_up(branch, found)
    return found


@cache
def _in_order(asked: tuple[What, ...], feed: bool) -> tuple[Wanted, bool]:
    """Return what works the figures out that are asked for, and whether the cpc's size is one."""
    order = tuple(each for each in (_FEED if feed else _CIRCUIT) if each[0] in asked)
    return order, What.CPC_SIZE in asked


def from_readings(branch: Branch) -> Figures:
    """Return what the readings so far give of the same figures."""
    found: Figures = {}
    _work_out(branch, found, _READ_ZS)
    zs = found[What.ZS]
    if isinstance(zs, NotWorkedOut):
        for what, _ in _READ_TIMES:
            found[what] = NotWorkedOut(what, zs.why)
    else:
        _work_out(branch, found, _READ_TIMES)
    _work_out(branch, found, _READ_HIGHEST)
    return found


def _work_out(branch: Branch, found: Figures, wanted: Wanted) -> None:
    for what, work in wanted:
        try:
            found[what] = work(branch, found)
        except FarboardError as error:
            found[what] = NotWorkedOut(what, str(error))


def _in(branch: Branch, _: Figures) -> Worked:
    return loads.rated_current(*branch.kind_and_rating)


def _iz(branch: Branch, _: Figures) -> Worked:
    return loads.capacity(branch.runs, branch.device, branch.at)


def _breaking(branch: Branch, _: Figures) -> Worked:
    return protection.breaking(branch.device, branch.at)


def _r1_r2(branch: Branch, _: Figures) -> Worked:
    return installation_loops.own_r1_r2(branch.context, branch.circuit)


def _time_required(branch: Branch, _: Figures) -> Worked:
    rating = branch.kind_and_rating[1]
    if branch.circuit is None:
        return protection.feed_time(tt=branch.tt)
    use = need(branch.circuit.use, "what the circuit feeds is", branch.at)
    return protection.circuit_time(use, branch.context.u0, rating, tt=branch.tt)


def _limit(branch: Branch, found: Figures) -> Worked:
    kind, rating = branch.kind_and_rating
    time = value_of(found[What.TIME_REQUIRED])
    rcd = branch.rcd if branch.tt else None
    if rcd is not None and rcd.residual is not None:
        return protection.loop_limit_by_rcd(rcd.residual)
    return protection.loop_limit(kind, rating, time, branch.context.u0)


def _limit_cold(branch: Branch, found: Figures) -> Worked:
    return protection.cold_limit(figure_of(found[What.ZS_LIMIT]), by_rcd=branch.by_rcd)


def _limit_exact(branch: Branch, found: Figures) -> Worked:
    table = figure_of(found[What.ZS_LIMIT])
    own, how, rise = measured.own_part(branch.context, branch.circuit)
    if own > table.value:
        # More than the whole loop may have is no figure to make a limit of: it would be below zero.
        own, how = measured.by_design(branch.context, branch.circuit), "by the design"
    most = protection.exact_limit(table, own, rise, how, by_rcd=branch.by_rcd)
    before = measured.upstream(branch.context, branch.circuit)
    if before is not None and most.value <= before:
        raise Missing(
            f"the loop before it, {before:.2f} Ω, leaves this run no room under "
            f"{table.value:.2f} Ω when warm."
        )
    return most


def _zs(branch: Branch, _: Figures) -> Worked:
    return branch.loop.figure("Zs", "Zs = loop upstream + (R1+R2), at operating temperature")


def _lowest(branch: Branch, _: Figures) -> Worked:
    return installation_loops.lowest(branch.context, branch.loop)


def _time(branch: Branch, found: Figures) -> Worked:
    current = value_of(found[What.FAULT_LOWEST])
    kind, rating = branch.kind_and_rating
    fuse = branch.circuit.fuse if branch.circuit is not None else None
    note = "" if fuse is None else partial(_connection_unit, fuse, current)
    return protection.time_overcurrent(kind, rating, current, note)


def _connection_unit(fuse: float, current: float) -> str:
    """Return what the fuse of a connection unit does at a current, for a note."""
    try:
        found, _ = protection.opening(DeviceKind.BS_1362, Ampere(fuse), current)
    except FarboardError as error:
        return str(error)
    return f"Beyond the connection unit its {fuse:g} A fuse: {found.words}."


def _time_rcd(branch: Branch, found: Figures) -> Worked:
    rcd, current = branch.rcd, found[What.FAULT_LOWEST]
    if isinstance(current, NotWorkedOut) and branch.tt and rcd is not None and rcd.residual:
        # Whatever the electrode: at the highest RA allowed the fault current is least.
        limit = highest_electrode(disconnection.touch_voltage().value, Ampere(rcd.residual / 1000))
        least = lowest(branch.context.u0, limit, c_min().value)
        return protection.time_rcd(rcd, least, branch.at)
    return protection.time_rcd(rcd, value_of(current), branch.at)


def _cpc(branch: Branch, found: Figures) -> tuple[Worked, Worked]:
    """Return the size of the cpc, and the least that a fault asks for."""
    kind, rating = branch.kind_and_rating
    at_board = branch.circuit is not None
    fault = cpc.Fault(
        kind,
        rating,
        lambda: highest.earth_fault(branch.context, at_board=at_board),
        lambda: value_of(found[What.FAULT_LOWEST]),
        lambda current: _first_to_open(branch, current),
    )
    return cpc.sizes(branch.runs, branch.at, fault)


def _first_to_open(branch: Branch, current: float) -> tuple[Opening, tuple[Source, ...]]:
    kind, rating = branch.kind_and_rating
    over, sources = protection.opening(kind, rating, current)
    rcd = branch.rcd
    if rcd is None or rcd.residual is None:
        return over, sources
    residual, times = protection.residual_opening(rcd, current)
    if residual.latest is None or (over.latest is not None and over.latest <= residual.latest):
        return over, sources
    return residual, times


def _read_zs(branch: Branch, _: Figures) -> Worked:
    if branch.circuit is None:
        return measured.feed_zs(branch.context)
    return measured.circuit_zs(branch.context, branch.circuit)


def _read_lowest(branch: Branch, found: Figures) -> Worked:
    return measured.lowest(branch.context, figure_of(found[What.ZS]), branch.circuit)


def _read_highest(branch: Branch, _: Figures) -> Worked:
    part = Part.ORIGIN if branch.circuit is None else Part.BOARD
    return measured.highest(branch.context, part)


_DEVICE: Wanted = (
    (What.IN, _in),
    (What.IZ, _iz),
    (What.BREAKING, _breaking),
)
_LOOP: Wanted = (
    (What.R1_R2, _r1_r2),
    (What.TIME_REQUIRED, _time_required),
    (What.ZS_LIMIT, _limit),
    (What.ZS_LIMIT_COLD, _limit_cold),
    (What.ZS_LIMIT_EXACT, _limit_exact),
    (What.ZS, _zs),
    (What.FAULT_LOWEST, _lowest),
)
_TIMES: Wanted = ((What.TIME, _time), (What.TIME_RCD, _time_rcd))
_FEED: Wanted = (
    *_DEVICE,
    (What.IB, lambda branch, _: feed_load.feed_current(branch.context)),
    (What.VOLT_DROP, lambda branch, _: voltage_drop.feed_drop(branch.context)),
    *_LOOP,
    (What.FAULT_HIGHEST, lambda branch, _: highest.at_origin(branch.context)),
    *_TIMES,
)
_CIRCUIT: Wanted = (
    *_DEVICE,
    (What.IB, lambda branch, _: loads.design_current(branch.context, branch.final)),
    (What.VOLT_DROP, lambda branch, _: voltage_drop.circuit_drop(branch.context, branch.final)),
    (
        What.VOLT_DROP_LIMIT,
        lambda branch, _: voltage_drop.drop_limit_of(branch.context, branch.final),
    ),
    *_LOOP,
    (What.FAULT_HIGHEST, lambda branch, _: highest.at_board(branch.context)),
    (What.FAULT_LN, lambda branch, _: highest.line_neutral_at_end(branch.context, branch.final)),
    (What.FAULT_LE, lambda branch, _: highest.line_earth_at_end(branch.context, branch.final)),
    *_TIMES,
)
_READ_ZS: Wanted = ((What.ZS, _read_zs),)
_READ_TIMES: Wanted = ((What.FAULT_LOWEST, _read_lowest), *_TIMES)
_READ_HIGHEST: Wanted = ((What.FAULT_HIGHEST, _read_highest),)
