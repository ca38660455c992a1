"""Whether the protective conductors survive a fault: their size and the least one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from records.errors import NotTabulated
from records.evidence import Source
from records.expected import sources as cited
from records.expected.adiabatic import LONGEST, SHORTEST, least_by_table, least_size
from records.expected.disconnection import Opening
from records.expected.results import Worked
from records.expected.runs import cpc_as_made
from records.expected.workings import Missing, need, placed, worked
from records.model.wiring import Run
from records.tables import protective
from records.tables.conductors import armour_area, flat_cpc
from records.tables.devices import fuse_curve
from records.tables.made import must_be, no_such_rating, no_such_size
from records.tables.table import Published
from records.terms import CableKind, Cpc, DeviceKind
from records.units import Ampere, Second, SquareMillimetre, Unit

Opens = Callable[[float], tuple[Opening, tuple[Source, ...]]]
"""When the fault is disconnected at a current, by whichever device is first, and the sources."""


@dataclass(frozen=True, slots=True)
class Fault:
    """An earth fault on a circuit, for its cpc."""

    kind: DeviceKind
    rating: Ampere
    highest: Callable[[], float]
    lowest: Callable[[], float]
    """Currents [A]; asked for only where Table 54.7 isn't enough."""
    opens: Opens


@dataclass(frozen=True, slots=True)
class _Conductor:
    area: SquareMillimetre
    k: Published[float]
    what: str
    cable: CableKind
    line: SquareMillimetre
    sources: tuple[Source, ...]


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
    cpc = _conductor(run, at)
    size = worked(
        "S", cpc.area, Unit.SQUARE_MILLIMETRE, f"size of the {cpc.what}", at, cpc.sources, digits=1
    )
    row = protective.least_by_line(cpc.line)
    least, text = row.value, f"{row.value:g}"
    sources: tuple[Source, ...] = (row.source,)
    if cpc.what == "armour":
        k1 = protective.k_live(cpc.cable)
        least = least_by_table(row.value, k1.value, cpc.k.value)
        text, sources = f"{row.value:g} × {k1.value:g}/{cpc.k.value:g}", (*sources, cpc.k.source)
    if cpc.area >= least:
        by_table = worked(
            "S", least, Unit.SQUARE_MILLIMETRE, "by Table 54.7", text, sources, digits=1
        )
        return size, by_table
    return size, _calculated(cpc, fault, at)


def _conductor(run: Run, at: str) -> _Conductor:
    cable = need(run.cable, "the kind of cable is", at)
    line = SquareMillimetre(need(run.csa, "the line's cross-section is", at))
    cpc = need(run.cpc, "what serves as cpc is", at)
    if no_such_size(cable, line):
        raise placed(NotTabulated(no_such_size(cable, line)), at)
    if cpc is Cpc.NONE:
        raise Missing(f"the earth is not carried over by this run ({at}).")
    if cpc is Cpc.ARMOUR:
        steel = armour_area(cable, run.cores, line)
        k = protective.k_armour(cable)
        return _Conductor(steel.value, k, "armour", cable, line, (steel.source,))
    if cpc is Cpc.SEPARATE:
        own = SquareMillimetre(need(run.cpc_csa, "the size of the separate cpc is", at))
        k = protective.k_separate(cable)
        return _Conductor(own, k, "separate cpc", cable, line, (cited.DECLARED_CABLE,))
    # Core and armour together: the core alone has to do, since nobody knows how the fault
    # current shares out once a gland has corroded.
    own = SquareMillimetre(run.cpc_csa or cpc_as_made(cable, line))
    made = flat_cpc(line).source if cable is CableKind.FLAT else cited.DECLARED_CABLE
    source = cited.DECLARED_CABLE if run.cpc_csa else made
    return _Conductor(own, protective.k_core(cable), "cpc core", cable, line, (source,))


def _calculated(cpc: _Conductor, fault: Fault, at: str) -> Worked:
    cases = [_at_current(cpc, fault, fault.lowest(), at)]
    if not fault.kind.is_fuse:
        # A breaker's energy rises with the current, a fuse's falls.
        cases.append(_at_current(cpc, fault, fault.highest(), at))
    return max(cases, key=lambda case: case.value)


def _at_current(cpc: _Conductor, fault: Fault, current: float, at: str) -> Worked:
    if fault.kind.is_fuse:
        must_be(no_such_rating(fault.kind, fault.rating))
        # Beyond its shortest known time a fuse lets through no more energy than there.
        current = min(current, fuse_curve(fault.kind, fault.rating)[0].high)
    found, sources = fault.opens(current)
    if found.latest is None or found.latest > LONGEST:
        raise Missing(
            f"at {current:.0f} A disconnection within 5 s is not assured, which the formula "
            f"needs ({at})."
        )
    time = max(found.latest, SHORTEST)
    least = least_size(Ampere(current), Second(time), cpc.k.value)
    if not fault.kind.is_fuse and found.latest <= SHORTEST and cpc.what == "cpc core":
        limited = protective.least_behind_class_3(
            fault.kind.curve or "", fault.rating, Ampere(current)
        )
        if limited is not None and limited.value < least:
            return worked(
                "S", limited.value, Unit.SQUARE_MILLIMETRE, "behind a class 3 breaker",
                f"{fault.rating:g} A {fault.kind.value}, {current:.0f} A", (limited.source,),
                digits=1, note="Taken for granted: energy limiting class 3, a 3 in a box on it.",
            )  # fmt: skip
    return worked(
        "S", least, Unit.SQUARE_MILLIMETRE, "S = √(I²t) / k",
        f"√({current:.0f}² × {time:.2g}) / {cpc.k.value:g}",
        (cited.ADIABATIC, cpc.k.source, *sources), note="No heat leaves the conductor: errs high.",
    )  # fmt: skip
