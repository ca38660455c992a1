"""Whether the protective conductors survive a fault: their size and the least one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from records.errors import FarboardError, NotTabulated
from records.evidence import Source
from records.expected import sources as cited
from records.expected.formulas.adiabatic import LONGEST, SHORTEST, least_by_table, least_size
from records.expected.formulas.disconnection import Opening
from records.expected.highest import Driven
from records.expected.results import Worked
from records.expected.runs import cpc_as_made
from records.expected.workings import Missing, need, placed
from records.model.wiring import Run
from records.tables import protective
from records.tables.conductors import armour_area, flat_cpc
from records.tables.devices import fuse_curve
from records.tables.known_sizes import must_be, no_such_rating, no_such_size
from records.tables.table import Published
from records.terms import CableKind, Cpc, DeviceKind
from records.units import Ampere, Second, SquareMillimetre, Unit

Opens = Callable[[float], tuple[Opening, tuple[Source, ...]]]
"""When the fault is disconnected at a current, by whichever device is first, and the sources."""


@dataclass(slots=True)
class Fault:
    """An earth fault on a circuit, for its cpc."""

    kind: DeviceKind
    rating: Ampere
    highest: Callable[[], Driven]
    """Asked for only where Table 54.7 isn't enough, as is the lowest."""
    lowest: Callable[[], float]
    """[A]"""
    opens: Opens


@dataclass(frozen=True, slots=True)
class _Conductor:
    area: SquareMillimetre
    k: Published[float]
    what: str
    sources: tuple[Source, ...]
    by_table: Worked
    """The least size by Table 54.7."""


@dataclass(slots=True)
class _Least:
    """The least size that a current asks for."""

    size: SquareMillimetre
    current: float
    time: float
    sources: tuple[Source, ...]
    by_class_3: bool = False


def sizes(runs: Sequence[Run], at: str, fault: Fault) -> tuple[Worked, Worked]:
    """Return the cpc's size and the least it may have, for the run with least in hand.

    Either the table or the calculation is enough (BS 7671, Regulation 543.1.1).

    Args:
        runs: Of a feed or a circuit.
        at: Where they stand in the record.
        fault: What it has to survive.
    Raises:
        Missing: If an input isn't there, or no disconnection is assured.
    """
    if not runs:
        raise Missing(f"no run of cable is entered yet ({at}).")
    each = [_of_run(run, f"{at}, run {number}", fault) for number, run in enumerate(runs, start=1)]
    return min(each, key=lambda pair: pair[0].value / pair[1].value)


def _of_run(run: Run, at: str, fault: Fault) -> tuple[Worked, Worked]:
    cable = need(run.cable, "the kind of cable is", at)
    line = SquareMillimetre(need(run.csa, "the line's cross-section is", at))
    cpc = need(run.cpc, "what serves as cpc is", at)
    if no_such_size(cable, line):
        raise placed(NotTabulated(no_such_size(cable, line)), at)
    if cpc is Cpc.NONE:
        raise Missing(f"the earth is not exported by this run ({at}).")
    if cpc is Cpc.SEPARATE:
        need(run.cpc_csa, "the size of the separate cpc is", at)
    conductor = _conductor(cable, run.cores, line, cpc, run.cpc_csa)
    size = Worked(
        "S",
        conductor.area,
        Unit.SQUARE_MILLIMETRE,
        f"size of the {conductor.what}",
        at,
        conductor.sources,
        digits=1,
    )
    if conductor.area >= conductor.by_table.value:
        return size, conductor.by_table
    return size, _calculated(conductor, fault, at)


@lru_cache(maxsize=1024)
def _conductor(
    cable: CableKind, cores: int, line: SquareMillimetre, cpc: Cpc, own: float | None
) -> _Conductor:
    row = protective.least_by_line(line)
    if cpc is Cpc.ARMOUR:
        steel = armour_area(cable, cores, line)
        k1, k2 = protective.k_live(cable), protective.k_armour(cable)
        least = least_by_table(row.value, k1.value, k2.value)
        text = f"{row.value:g} × {k1.value:g}/{k2.value:g}"
        table = _by_table(least, text, (row.source, k2.source))
        return _Conductor(steel.value, k2, "armour", (steel.source,), table)
    table = _by_table(row.value, f"{row.value:g}", (row.source,))
    if cpc is Cpc.SEPARATE:
        # In a conduit with single cores it is bunched with them (Table 54.3).
        bunched = cable is CableKind.SINGLES
        k = protective.k_core(cable) if bunched else protective.k_separate()
        area = SquareMillimetre(own or line)
        return _Conductor(area, k, "separate cpc", (cited.DECLARED_CABLE,), table)
    # Core and armour together: the core alone has to do, since nobody knows how the fault
    # current shares out once a gland has corroded.
    area = SquareMillimetre(own or cpc_as_made(cable, line))
    made = flat_cpc(line).source if cable is CableKind.FLAT else cited.DECLARED_CABLE
    source = cited.DECLARED_CABLE if own else made
    return _Conductor(area, protective.k_core(cable), "cpc core", (source,), table)


def _by_table(least: SquareMillimetre, text: str, sources: tuple[Source, ...]) -> Worked:
    return Worked(
        "S", least, Unit.SQUARE_MILLIMETRE, "by Table 54.7", text, sources, digits=1, side="least"
    )


def _calculated(cpc: _Conductor, fault: Fault, at: str) -> Worked:
    lowest = fault.lowest()
    least = _at_current(cpc, fault, lowest, at)
    if fault.kind.is_fuse:
        return _least(cpc, fault, _before_the_fuse(cpc, fault, least, lowest, at))
    # A breaker's energy rises with the current, a fuse's falls.
    driven = fault.highest()
    if driven.known is not None:
        least = _larger(least, _at_current(cpc, fault, driven.known, at))
    most = _larger(least, _at_current(cpc, fault, driven.most, at))
    figure = _least(cpc, fault, least)
    if most.size <= least.size:
        return figure
    how = "which is assumed" if driven.assumed else "if the meter's uncertainty went that way"
    note = f"At {most.current:.0f} A, {how}, it would be {most.size:.1f} mm²."
    return figure.up_to(most.size, note, driven.assumed)


def _before_the_fuse(
    cpc: _Conductor, fault: Fault, least: _Least, lowest: float, at: str
) -> _Least:
    """Return what an RCD before a fuse asks for, which is the more the higher the current is.

    A fuse lets through the less the more current flows, so the lowest decides. An RCD takes as
    long at any current: up to where the fuse is as quick its energy rises.
    """
    quick = fuse_curve(fault.kind, fault.rating)[0].high
    if lowest >= quick:
        return least
    try:
        most = min(quick, fault.highest().most)
    except FarboardError:
        most = quick
    return _larger(least, _at_current(cpc, fault, max(most, lowest), at))


def _larger(one: _Least, other: _Least) -> _Least:
    return other if other.size > one.size else one


def _least(cpc: _Conductor, fault: Fault, least: _Least) -> Worked:
    k = cpc.k
    if least.by_class_3:
        return Worked(
            "S",
            least.size,
            Unit.SQUARE_MILLIMETRE,
            "behind a class 3 breaker",
            ("{:g} A {}, {:.0f} A", fault.rating, fault.kind.value, least.current),
            least.sources,
            digits=1,
            note="Taken for granted: energy limiting class 3, a 3 in a box on it.",
            side="least",
        )
    return Worked(
        "S",
        least.size,
        Unit.SQUARE_MILLIMETRE,
        "S = √(I²t) / k",
        ("√({:.0f}² × {:.2g}) / {:g}", least.current, least.time, k.value),
        (cited.ADIABATIC, k.source, *least.sources),
        note="No heat leaves the conductor: on the safe side.",
        side="least",
    )


def _at_current(cpc: _Conductor, fault: Fault, current: float, at: str) -> _Least:
    kind, rating = fault.kind, fault.rating
    if kind.is_fuse:
        must_be(no_such_rating(kind, rating))
        # Beyond its shortest known time a fuse lets through no more energy than there.
        current = min(current, fuse_curve(kind, rating)[0].high)
    found, sources = fault.opens(current)
    latest = found.latest
    if latest is None or latest > LONGEST:
        raise Missing(
            f"at {current:.0f} A disconnection within 5 s is not assured, which the formula "
            f"needs ({at})."
        )
    time = max(latest, SHORTEST)
    least = least_size(Ampere(current), Second(time), cpc.k.value)
    if latest <= SHORTEST and cpc.what == "cpc core" and not kind.is_fuse:
        limited = protective.least_behind_class_3(kind.curve or "", rating, Ampere(current))
        if limited is not None and limited.value < least:
            return _Least(limited.value, current, time, (limited.source,), by_class_3=True)
    return _Least(least, current, time, sources)
