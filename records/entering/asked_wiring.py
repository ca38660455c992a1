"""What a page asks of devices, cables, loads and points: what means something, or holds a value."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from records.entering import design_cautions as cautions
from records.entering.field import Field
from records.entering.remark import Asked, Remark
from records.model.circuit import Circuit, Point
from records.model.outbuilding import Feed
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    FeedLoad,
    Form,
    LoadKind,
    Method,
    RcdStandard,
    Use,
)

_BURIED = (Method.D,)
_ARMOURED_CPC = (Cpc.ARMOUR, Cpc.CORE, Cpc.CORE_AND_ARMOUR, Cpc.NONE, None)
"""What can serve as cpc in armoured cable; none for an earth that is not exported."""


def device_asked(device: Device) -> Iterator[Asked]:
    """Yield what is asked of a protective device."""
    from records.tables.known_sizes import no_such_rating

    yield ("kind", "rating")
    if device.kind is not None and device.rating is not None:
        yield from _doubt(no_such_rating(device.kind, device.rating))
    yield ("breaking",)


def is_rcbo(device: Device | None) -> bool:
    """Whether an RCD is a part of this device."""
    return device is not None and device.kind is not None and device.kind.is_rcbo


def rcd_asked(rcd: Rcd, device: Device | None = None, *, aged: bool = False) -> Iterator[Asked]:
    """Yield what is asked of an RCD.

    Args:
        rcd: As entered.
        device: That it may be a part of.
        aged: Whether it may be older than the work, so that its standard matters.
    """
    built_in = is_rcbo(device)
    there = built_in or rcd.residual is not None
    names = ["residual"]
    names += ["type"] if there or rcd.type is not None else []
    names += ["delayed"] if there or rcd.delayed else []
    older = rcd.standard in (RcdStandard.BS_4293, RcdStandard.BS_7288)
    names += ["standard"] if (rcd.residual is not None and aged) or older else []
    names += ["delay"] if (older and rcd.delayed) or rcd.delay is not None else []
    yield tuple(names)
    if built_in and rcd.residual is None:
        yield Remark("An RCBO has an RCD part: enter its IΔn from the label.", urgent=True)


def run_asked(run: Run) -> Iterator[Asked]:
    """Yield what is asked of a run, and where nothing of such a size is sold."""
    from records.tables.known_sizes import no_such_conductor, no_such_size

    for each in run_fields(run):
        yield (each,)
        if each == "csa" and run.csa is not None and run.cable is not None:
            yield from _doubt(no_such_size(run.cable, run.csa))
        if each == "cpc_csa" and run.cpc_csa is not None:
            yield from _doubt(no_such_conductor(run.cpc_csa))


def run_fields(run: Run) -> Sequence[str]:
    """Return the fields of a run that mean something for its cable and method, or hold a value."""
    plain = Run()
    names = ["where", "cable", "cores", "csa", "cpc"]
    if run.cable is CableKind.FLAT and run.cores == plain.cores and run.cpc is Cpc.CORE:
        names = ["where", "cable", "csa"]  # the cable says both
    sized = run.cpc in (Cpc.CORE, Cpc.SEPARATE, Cpc.CORE_AND_ARMOUR)
    names += ["cpc_csa"] if sized or run.cpc_csa is not None else []
    apart = run.cpc is Cpc.SEPARATE
    names += ["protected"] if apart or run.protected is not None else []
    names += ["length", "method", "ambient", "grouped"]
    buried = run.method in _BURIED
    names += ["insulated"] if not buried or run.insulated != plain.insulated else []
    names += ["depth"] if buried or run.depth is not None else []
    names += ["soil"] if buried or run.soil != plain.soil else []
    names += ["duct"] if buried or run.duct else []
    names += ["gap"] if (buried and run.grouped > 1) or run.gap else []
    hot = run.cable is CableKind.SWA_XLPE
    names += ["hot_terminals"] if hot or run.hot_terminals else []
    return names


def fitting(run: Run, fields: tuple[Field, ...]) -> tuple[Field, ...]:
    """Return fields without the answers that the cable rules out; what is entered stays."""
    if run.cable is None or not run.cable.is_armoured:
        return fields
    fit = (*_ARMOURED_CPC, run.cpc)
    return tuple(
        replace(each, options=tuple(option for option in each.options if option.value in fit))
        if each.key.endswith("/cpc")
        else each
        for each in fields
    )


def feed_load_asked(feed: Feed) -> Iterator[Asked]:
    """Yield Ib, and what stands in for it while it is empty."""
    alone = feed.load is not None and feed.loading is None
    yield ("load",) if alone else ("load", "loading")


def asks_together(feed: Feed) -> bool:
    """Whether it is asked which circuits can be on at once."""
    return feed.load is None and feed.loading is FeedLoad.TOGETHER


def fuse_asked(circuit: Circuit) -> Iterator[Asked]:
    """Yield the fuse of a connection unit, if there is one, and what a plug's fuse is not."""
    if circuit.form is Form.FCU or circuit.fuse is not None:
        yield ("fuse",)
    if circuit.device.kind is DeviceKind.BS_1362:
        yield Remark("A BS 1362 fuse is the fuse of a plug or connection unit.")


def circuit_load_asked(record: Record, circuit: Circuit) -> Iterator[Asked]:
    """Yield what is asked of the load of a circuit and of where it is, for its use and its feed."""
    loading, kind = record.feed.loading, circuit.kind
    fixed = circuit.use is Use.FIXED
    wanted = {
        "kind": fixed or loading is FeedLoad.DIVERSITY,
        "starting": kind in (LoadKind.MOTOR, LoadKind.MACHINE),
        "cooker_socket": kind is LoadKind.COOKING,
        "together": loading is FeedLoad.TOGETHER,
    }
    more = (name for name, ask in wanted.items() if ask or getattr(circuit, name) is not None)
    yield ("load", "power", *more)
    yield ("outdoors", "hidden")
    yield from cautions.of_circuit(record, circuit)


def point_fields(circuit: Circuit, point: Point) -> tuple[str, ...]:
    """Return the fields of a point that mean something in its circuit, or hold a value."""
    spur = ("spur",) if circuit.form is Form.RING or point.spur is not None else ()
    fused = ("fuse",) if spur or point.fuse is not None else ()
    return ("name", "room", "at", *spur, *fused, *_load_of(point), "cpc_ends")


def _load_of(point: Point) -> tuple[str, ...]:
    """Return the load in A and in kW; one of them once the other holds a value."""
    if point.load is not None:
        return ("load",) if point.power is None else ("load", "power")
    return ("power",) if point.power is not None else ("load", "power")


def _doubt(no_such: str) -> Iterator[Remark]:
    """Yield that nothing of that size or rating is sold; it is kept all the same."""
    if no_such:
        yield Remark(f"{no_such} Nothing that depends on it is calculated.", urgent=True)
