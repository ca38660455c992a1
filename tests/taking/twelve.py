"""An invented board of twelve circuits, and its readings as testers type them."""

from __future__ import annotations

from dataclasses import dataclass

from records.expected.results import Expected, What, Worked
from records.model.circuit import Circuit, Point
from records.model.measurements import Measurement
from records.model.reading import Figure, Quantity, Slot, Tick
from records.model.record import Record
from records.model.slots import measured_by
from records.model.wiring import Device, Rcd, Run
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, Part, RcdType, Sign, Use
from records.units import Unit
from tests.taking.job import small_job

B, C = DeviceKind.RCBO_B, DeviceKind.RCBO_C
RINGS = (("Sockets, north wall", 52.0, 3), ("Sockets, bench", 36.0, 2))
OTHERS: tuple[tuple[str, Use, Form, DeviceKind, float, float, float, float | None], ...] = (
    # Name, use, form, device, rating [A], line conductor [mm²], length [m], fuse [A].
    ("Sockets by the gate", Use.SOCKETS, Form.RADIAL, B, 20, 2.5, 19, None),
    ("Lights, shed", Use.LIGHTING, Form.RADIAL, B, 6, 1.5, 21, None),
    ("Lights, loft", Use.LIGHTING, Form.RADIAL, B, 6, 1.5, 26, None),
    ("Lights, yard", Use.LIGHTING, Form.RADIAL, B, 6, 1.5, 31, None),
    ("Panel heater", Use.FIXED, Form.FCU, B, 16, 2.5, 14, 13),
    ("Extract fan", Use.FIXED, Form.FCU, B, 16, 2.5, 17, 3),
    ("Lathe", Use.FIXED, Form.RADIAL, C, 16, 2.5, 9, None),
    ("Water heater", Use.FIXED, Form.RADIAL, B, 16, 2.5, 12, None),
    ("Air pump", Use.FIXED, Form.RADIAL, C, 10, 2.5, 16, None),
    ("Door opener", Use.FIXED, Form.RADIAL, B, 10, 1.5, 11, None),
)


def twelve() -> Record:
    """Return the small job's supply and feed with twelve circuits behind them, nothing measured."""
    rings = [_ring(at, *each) for at, each in enumerate(RINGS, start=1)]
    others = [_other(at, *each) for at, each in enumerate(OTHERS, start=len(RINGS) + 1)]
    return small_job().model_copy(update={"circuits": (*rings, *others)})


def _run(csa: float, length: float) -> tuple[Run, ...]:
    return (Run(cable=CableKind.FLAT, csa=csa, cpc=Cpc.CORE, length=length, method=Method.C),)


def _ring(at: int, name: str, length: float, count: int) -> Circuit:
    points = tuple(
        Point(id=f"P{number}", name=f"S{number}", at=round(length * number / (count + 1), 1))
        for number in range(1, count + 1)
    )
    return Circuit(
        id=f"C{at}",
        name=name,
        use=Use.SOCKETS,
        form=Form.RING,
        device=Device(kind=B, rating=32, breaking=6),
        rcd=Rcd(residual=30, type=RcdType.A),
        load=12.0,
        runs=_run(2.5, length),
        points=points,
    )


def _other(
    at: int,
    name: str,
    use: Use,
    form: Form,
    kind: DeviceKind,
    rating: float,
    csa: float,
    length: float,
    fuse: float | None,
) -> Circuit:
    return Circuit(
        id=f"C{at}",
        name=name,
        use=use,
        form=form,
        fuse=fuse,
        device=Device(kind=kind, rating=rating, breaking=6),
        rcd=Rcd(residual=30, type=RcdType.A),
        load=2.0,
        runs=_run(csa, length),
        points=(Point(id="P1", name="far end", at=length),),
    )


@dataclass(frozen=True, slots=True)
class Typed:
    """What a tester types for one reading, and what it has to become."""

    text: str
    value: float = 0.0
    sign: Sign = Sign.EQUAL
    good: bool | None = None
    """The answer to a check; None for a figure."""

    def is_in(self, record: Record, slot: Slot) -> bool:
        """Whether the last reading of a slot is this, with the keys as they were typed."""
        taken = record.taken(slot)[-1].taken
        if self.good is not None:
            return taken == Tick(good=self.good)
        assert isinstance(taken, Figure)
        same = abs(taken.value - self.value) < 1e-9 and taken.sign is self.sign
        return same and taken.typed == self.text


FIGURES: dict[tuple[Part, Quantity], float] = {
    # What no design gives, or what the job declares worse than a meter would find it.
    (Part.ORIGIN, Quantity.ZE): 0.35,
    (Part.ORIGIN, Quantity.FAULT_LN): 2.2,
    (Part.ORIGIN, Quantity.FAULT_LE): 0.66,
    (Part.BOARD, Quantity.VOLTAGE): 236,
    (Part.BOARD, Quantity.ZDB): 0.43,
    (Part.BOARD, Quantity.FAULT_LE): 0.53,
    (Part.BOARD, Quantity.EARTHING): 0.01,
    (Part.CIRCUIT, Quantity.RCD_TIME): 24,
}
YES = ("y", "yes", "Y", "right", "y ")
HIGH = (
    Typed(">999", 999, Sign.OVER),
    Typed("> 999", 999, Sign.OVER),
    Typed("640", 640),
    Typed(">200M", 200, Sign.OVER),
    Typed("0,9 GΩ", 900),
    Typed(">500 Mohm", 500, Sign.OVER),
)


def sound(slot: Slot, expected: Expected, number: int) -> Typed:
    """Return what a meter might show for a slot on a sound job, in one of many ways of typing it.

    Args:
        slot: What is measured.
        expected: What follows from the record so far: the figure is taken from here.
        number: Counts up, so that the ways take turns.
    """
    test = measured_by(slot)
    if test.is_check:
        return Typed(YES[number % len(YES)], good=True)
    if test.unit is Unit.MEGOHM:
        return HIGH[number % len(HIGH)]
    known = FIGURES.get((slot.place.part, slot.quantity))
    if known is None:
        live = expected.measured.get((slot.place, What.ZS)) if test.symbol == "Zs" else None
        due = live or expected.meter[slot]
        assert isinstance(due, Worked), slot
        known = round(due.value, test.digits)
    return Typed(_ways(known, test)[number % 5], known)


def _ways(value: float, test: Measurement) -> tuple[str, ...]:
    """Return five ways to type a figure."""
    plain = f"{value:.{test.digits}f}"
    bare, comma = plain.removeprefix("0") or plain, plain.replace(".", ",")
    if test.unit is Unit.OHM:
        return plain, bare, comma, f"{value * 1000:.0f} mohm", f"{plain}Ω"
    if test.unit is Unit.KILOAMPERE:
        return plain, f"{value * 1000:.0f}A", f"{comma} kA", bare, f"{plain}kA"
    unit = test.unit.value
    return plain, f"{plain}{unit}", f"{plain} {unit}", plain, f"{plain} {unit}"
