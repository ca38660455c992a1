"""Changes of one thing in a design, from the smallest on: cable size, length, device, RCD."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

from records.model.circuit import Circuit
from records.model.record import Record
from records.model.wiring import Device, Rcd, Run
from records.tables import conductors, devices
from records.terms import CableKind, Cpc, DeviceKind, Form, RcdType
from records.units import Ampere

_ADDITIONAL = 30.0
_SIZES = conductors.line_sizes(CableKind.SINGLES)
_CLASSES = (6.0, 10.0, 15.0, 20.0, 25.0)
"""Standard breaking capacities from the usual one up [kA] (BS EN 60898-1, from memory)."""
_AS_RCBO = {
    DeviceKind.BREAKER_B: DeviceKind.RCBO_B,
    DeviceKind.BREAKER_C: DeviceKind.RCBO_C,
    DeviceKind.BREAKER_D: DeviceKind.RCBO_D,
}
_CURVES = (
    (DeviceKind.BREAKER_B, DeviceKind.BREAKER_C, DeviceKind.BREAKER_D),
    (DeviceKind.RCBO_B, DeviceKind.RCBO_C, DeviceKind.RCBO_D),
)


@dataclass(frozen=True, slots=True)
class Change:
    """A design with one thing changed."""

    words: str
    """What is changed: `C4: 4 mm² instead of 2.5 mm²`."""
    record: Record
    larger_device: bool = False
    """Whether it lets more current through: then its cable has to be shown to carry it."""


@dataclass(frozen=True, slots=True)
class Owner:
    """The feed, or a circuit: what runs, device and RCD belong to."""

    record: Record
    id: str | None
    """Of a circuit; None for the feed."""

    @property
    def circuit(self) -> Circuit | None:
        """The circuit; None for the feed."""
        return None if self.id is None else self.record.circuit(self.id)

    @property
    def name(self) -> str:
        """How it is called."""
        return self.id or "Feed"

    @property
    def runs(self) -> tuple[Run, ...]:
        """Its runs."""
        return (self.circuit or self.record.feed).runs

    @property
    def device(self) -> Device:
        """Its overcurrent device."""
        return (self.circuit or self.record.feed).device

    @property
    def rcd(self) -> Rcd:
        """Its own RCD."""
        return (self.circuit or self.record.feed).rcd

    def run_name(self, at: int) -> str:
        """Return how one of its runs is called."""
        return self.name if len(self.runs) == 1 else f"{self.name}, run {at + 1}"

    def with_run(self, at: int, **values: Any) -> Record:
        """Return the record with one run changed."""
        runs = list(self.runs)
        runs[at] = runs[at].model_copy(update=values)
        return self.changed(runs=tuple(runs))

    def changed(self, **values: Any) -> Record:
        """Return the record with other runs, other points, another device or another RCD."""
        if self.circuit is None:
            feed = self.record.feed.model_copy(update=values)
            return self.record.model_copy(update={"feed": feed})
        circuits = tuple(
            each.model_copy(update=values) if each.id == self.id else each
            for each in self.record.circuits
        )
        return self.record.model_copy(update={"circuits": circuits})


def thicker(owner: Owner) -> Iterator[Change]:
    """Yield thicker cable: one run one size up, then two sizes and so on; at last all runs."""
    larger = [_larger(run) for run in owner.runs]
    for step in range(max(map(len, larger), default=0)):
        for at, sizes in enumerate(larger):
            if step < len(sizes):
                old = owner.runs[at].csa
                words = f"{owner.run_name(at)}: {sizes[step]:g} mm² instead of {old:g} mm²"
                yield Change(words, owner.with_run(at, **_of_size(owner.runs[at], sizes[step])))
    if len(larger) > 1:
        for csa in sorted({size for sizes in larger for size in sizes}):
            runs = tuple(
                run.model_copy(update=_of_size(run, csa)) if csa in sizes else run
                for run, sizes in zip(owner.runs, larger, strict=True)
            )
            words = f"{owner.name}: every run of at least {csa:g} mm²"
            yield Change(words, owner.changed(runs=runs))


def _larger(run: Run) -> list[float]:
    if run.cable is None or run.csa is None:
        return []
    return [size for size in conductors.line_sizes(run.cable) if size > run.csa]


def _of_size(run: Run, csa: float) -> dict[str, float | None]:
    # Another cable comes with its own cpc core; a separate conductor stays as it is.
    return {"csa": csa} if run.cpc is Cpc.SEPARATE else {"csa": csa, "cpc_csa": None}


def larger_cpc(owner: Owner) -> Iterator[Change]:
    """Yield larger separate protective conductors, run by run."""
    for at, run in enumerate(owner.runs):
        if run.cpc is Cpc.SEPARATE and run.cpc_csa is not None:
            for size in _SIZES:
                if size > run.cpc_csa:
                    words = f"{owner.run_name(at)}: a cpc of {size:g} mm²"
                    yield Change(
                        f"{words} instead of {run.cpc_csa:g} mm²", owner.with_run(at, cpc_csa=size)
                    )


def shorter(owner: Owner, at: int, length: float) -> Change:
    """Return the same with a run of another length [m]."""
    old = owner.runs[at].length or 0.0
    words = f"{owner.run_name(at)}: not longer than {length:g} m instead of {old:g} m"
    runs = list(owner.runs)
    runs[at] = runs[at].model_copy(update={"length": length})
    if owner.circuit is None:
        return Change(words, owner.changed(runs=tuple(runs)))
    if owner.circuit.form is Form.RING:
        # Nobody knows which leg is cut: a point may come to lie half way round, the worst place.
        anywhere = tuple(each.model_copy(update={"at": None}) for each in owner.circuit.points)
        return Change(words, owner.changed(runs=tuple(runs), points=anywhere))
    # The points beyond come nearer with it: left where they are, they would be off the cable.
    most = sum(run.length or 0.0 for run in runs)
    points = tuple(
        each if each.at is None or each.at <= most else each.model_copy(update={"at": most})
        for each in owner.circuit.points
    )
    return Change(words, owner.changed(runs=tuple(runs), points=points))


def other_devices(owner: Owner) -> Iterator[Change]:
    """Yield devices that open on less current: another curve first, then smaller ratings."""
    device = owner.device
    if device.kind is None or device.rating is None:
        return
    kinds = _gentler(device.kind)
    below = [each for each in reversed(devices.ratings(device.kind)) if each < device.rating]
    for kind in kinds[1:]:
        yield _device(owner, kind, device.rating)
    for rating, kind in product(below, kinds):
        yield _device(owner, kind, rating)


def larger_devices(owner: Owner) -> Iterator[Change]:
    """Yield devices of the same kind and larger rating."""
    device = owner.device
    if device.kind is None or device.rating is None:
        return
    for rating in devices.ratings(device.kind):
        if rating > device.rating:
            yield replace(_device(owner, device.kind, rating), larger_device=True)


def thicker_and_larger_device(owner: Owner) -> Iterator[Change]:
    """Yield thicker cable together with a larger device: the cable first, then what it carries."""
    for cable in thicker(owner):
        for device in larger_devices(Owner(cable.record, owner.id)):
            words = f"{cable.words}; then {device.words.removeprefix(f'{owner.name}: ')}"
            yield Change(words, device.record, larger_device=True)


def _gentler(kind: DeviceKind) -> list[DeviceKind]:
    """Return a kind, and those of the same make that open on less current, the nearest first."""
    for curves in _CURVES:
        if kind in curves:
            return list(reversed(curves[: curves.index(kind) + 1]))
    return [kind]


def _device(owner: Owner, kind: DeviceKind, rating: float) -> Change:
    old = owner.device
    device = old.model_copy(update={"kind": kind, "rating": Ampere(rating)})
    was = f"{old.rating:g} A" if kind is old.kind else f"{old.rating:g} A {old.kind}"
    return Change(
        f"{owner.name}: a {rating:g} A {kind} instead of {was}", owner.changed(device=device)
    )


def stronger(owner: Owner) -> Iterator[Change]:
    """Yield the same device with a higher breaking capacity."""
    device = owner.device
    if device.kind is None or device.kind.is_fuse:
        return
    had = device.breaking or devices.breaking_capacity(device.kind).value / 1000
    for breaking in _CLASSES:
        if breaking > had:
            changed = device.model_copy(update={"breaking": breaking})
            words = f"{owner.name}: a device of {breaking:g} kA breaking capacity"
            yield Change(f"{words} instead of {had:g} kA", owner.changed(device=changed))


def with_rcd(owner: Owner) -> Iterator[Change]:
    """Yield an RCD: of 30 mA for a circuit, an RCBO where a breaker is; for the feed a delayed one.

    None where one of 30 mA without delay is there already.
    """
    kind = owner.device.kind
    if kind is None:
        return
    if owner.circuit is None:
        yield from _before_feed(owner)
        return
    there = (owner.rcd, owner.record.board.rcd)
    if any(_gives_additional(each) for each in there):
        return
    rcd = Rcd(residual=_ADDITIONAL, type=owner.rcd.type or RcdType.A, delayed=False)
    rcbo = _AS_RCBO.get(kind)
    if rcbo is not None:
        device = owner.device.model_copy(update={"kind": rcbo})
        words = f"{owner.name}: a 30 mA {rcbo} instead of the circuit-breaker"
        yield Change(words, owner.changed(device=device, rcd=rcd))
    else:
        had = f"{owner.rcd.residual:g} mA" if owner.rcd.residual else ""
        before = f" instead of {had}{', delayed' * owner.rcd.delayed}" if had else ""
        words = f"{owner.name}: an RCD of 30 mA{', not delayed' * owner.rcd.delayed}{before}"
        yield Change(words, owner.changed(rcd=rcd))


def _gives_additional(rcd: Rcd) -> bool:
    """Whether an RCD opens at 30 mA or less, at once."""
    return rcd.residual is not None and rcd.residual <= _ADDITIONAL and not rcd.delayed


def _before_feed(owner: Owner) -> Iterator[Change]:
    """Yield a delayed RCD at the house, so that those of the circuits open first."""
    if owner.rcd.residual is not None:
        return
    rcd = Rcd(residual=_DELAYED, type=RcdType.A, delayed=True)
    words = f"{owner.name}: a delayed RCD of {_DELAYED:g} mA at the house"
    yield Change(words, owner.changed(rcd=rcd))


_DELAYED = 100.0
"""The usual one before others (BS 7671, 536.4.1.4 asks for the delay; the size is common
practice)."""


def rcd_type(owner: Owner) -> Iterator[Change]:
    """Yield type A for every RCD of type AC in front of a circuit, its own first."""
    record = owner.record
    if owner.rcd.type is RcdType.AC:
        rcd = owner.rcd.model_copy(update={"type": RcdType.A})
        yield Change(f"{owner.name}: an RCD of type A instead of AC", owner.changed(rcd=rcd))
    if record.board.rcd.type is RcdType.AC:
        rcd = record.board.rcd.model_copy(update={"type": RcdType.A})
        board = record.board.model_copy(update={"rcd": rcd})
        changed = record.model_copy(update={"board": board})
        yield Change("Board: an RCD of type A instead of AC", changed)


def thicker_bond(record: Record, id: str) -> Iterator[Change]:
    """Yield larger main bonding conductors."""
    bond = next(each for each in record.board.bonds if each.id == id)
    for size in _SIZES:
        if bond.csa is not None and size > bond.csa:
            bonds = tuple(
                each.model_copy(update={"csa": size}) if each.id == id else each
                for each in record.board.bonds
            )
            board = record.board.model_copy(update={"bonds": bonds})
            words = f"Bond, {bond.name}: {size:g} mm² instead of {bond.csa:g} mm²"
            yield Change(words, record.model_copy(update={"board": board}))


def main_switch(record: Record) -> Iterator[Change]:
    """Yield a main switch of the rating of the feed's device."""
    rating, had = record.feed.device.rating, record.board.main_switch
    if rating is not None and had is not None and had < rating:
        board = record.board.model_copy(update={"main_switch": rating})
        words = f"Board: a main switch of at least {rating:g} A instead of {had:g} A"
        yield Change(words, record.model_copy(update={"board": board}))
