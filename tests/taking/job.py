"""A small invented job: one ring, one lighting circuit, and a heater on a connection unit."""

from __future__ import annotations

from datetime import UTC, datetime

from records.expected.plan import expected
from records.expected.results import Worked
from records.interlock.comes_off import PUT_BACK
from records.model.circuit import Circuit, Point
from records.model.job import Duty, Instrument, InstrumentKind, Job, Person
from records.model.outbuilding import Board, Feed
from records.model.reading import Figure, Place, Quantity, Reading, Slot, Tick
from records.model.record import Record, next_id
from records.model.slots import measured_by, slots
from records.model.supply import Ground, Origin
from records.model.wiring import Device, Rcd, Run
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    Form,
    Method,
    OutbuildingEarth,
    Part,
    RcdType,
    Sign,
    Stage,
    Use,
)
from records.units import Unit

AT = datetime(2026, 11, 16, 9, 0, tzinfo=UTC)
FLAT = CableKind.FLAT


def small_job() -> Record:
    """Return the job with its design and without a single reading."""
    return Record(
        job=Job(
            reference="J-7",
            place="Apple store",
            ambient=10.0,
            people=(Person(id="A1", name="Wren Oakes", duty=Duty.INSTALLS),),
            instruments=(
                Instrument(id="M1", kind=InstrumentKind.MULTIFUNCTION, serial="0412", nulled=True),
            ),
        ),
        origin=Origin(
            earthing=Earthing.TN_S,
            ze=0.8,
            ze_ground=Ground.TYPICAL,
            fault_current=6.0,
            fault_current_ground=Ground.DECLARED,
        ),
        feed=Feed(
            device=Device(kind=DeviceKind.BREAKER_B, rating=32, breaking=6),
            load=25.0,
            runs=(
                Run(
                    cable=CableKind.SWA_XLPE,
                    cores=3,
                    csa=10.0,
                    cpc=Cpc.CORE,
                    cpc_csa=10.0,
                    length=22.0,
                    method=Method.D,
                    ambient=20.0,
                ),
            ),
        ),
        board=Board(
            place="by the door",
            main_switch=63,
            earth=OutbuildingEarth.CARRIED_OVER,
            earthing_csa=10.0,
            metal_in_ground=False,
            surge_protection=False,
        ),
        circuits=(_ring(), _light(), _heater()),
    )


def _ring() -> Circuit:
    return Circuit(
        id="C1",
        name="Bench sockets",
        use=Use.SOCKETS,
        form=Form.RING,
        device=Device(kind=DeviceKind.RCBO_B, rating=32, breaking=6),
        rcd=Rcd(residual=30, type=RcdType.A),
        load=20.0,
        runs=(Run(cable=FLAT, csa=2.5, cpc=Cpc.CORE, length=40.0, method=Method.C),),
        points=(
            Point(id="P1", name="S1", at=10.0),
            Point(id="P2", name="S2", at=20.0),
            Point(id="P3", name="S3", at=30.0),
        ),
    )


def _light() -> Circuit:
    return Circuit(
        id="C2",
        name="Light [loft]",
        use=Use.LIGHTING,
        form=Form.RADIAL,
        device=Device(kind=DeviceKind.RCBO_B, rating=6, breaking=6),
        rcd=Rcd(residual=30, type=RcdType.A),
        load=1.0,
        runs=(Run(cable=FLAT, csa=1.5, cpc=Cpc.CORE, length=18.0, method=Method.C),),
        points=(Point(id="P1", name="L1", at=18.0),),
    )


def _heater() -> Circuit:
    return Circuit(
        id="C3",
        name="Heater",
        use=Use.FIXED,
        form=Form.FCU,
        fuse=13,
        device=Device(kind=DeviceKind.RCBO_B, rating=16, breaking=6),
        rcd=Rcd(residual=30, type=RcdType.A),
        power=2.0,
        runs=(Run(cable=FLAT, csa=2.5, cpc=Cpc.CORE, length=12.0, method=Method.C),),
        points=(Point(id="P1", name="Heater", at=12.0),),
    )


def slot(
    quantity: Quantity, stage: Stage, circuit: str | None = None, point: str | None = None
) -> Slot:
    """Return a slot on a circuit, else on the part of the installation that has the quantity."""
    if circuit is not None:
        place = Place(part=Part.CIRCUIT, circuit=circuit, point=point)
    else:
        part = {Quantity.ZE: Part.ORIGIN, Quantity.EARTH_BACK: Part.ORIGIN}.get(quantity)
        place = Place(part=part or Part.BOARD)
    return Slot(quantity=quantity, place=place, stage=stage)


def with_figure(record: Record, where: Slot, value: float, sign: Sign = Sign.EQUAL) -> Record:
    """Return the record with one more figure in it."""
    return _with(record, where, Figure(value=value, sign=sign))


def with_answer(record: Record, where: Slot, good: bool) -> Record:
    """Return the record with one more answer to a check in it."""
    return _with(record, where, Tick(good=good))


def _with(record: Record, where: Slot, taken: Figure | Tick) -> Record:
    reading = Reading(
        id=next_id("R", record.readings), slot=where, taken=taken, at=AT, by="A1", instrument="M1"
    )
    return record.model_copy(update={"readings": (*record.readings, reading)})


def ready_job(record: Record | None = None) -> Record:
    """Return the job with its dead tests taken and satisfactory, and all that came off put back."""
    record = small_job() if record is None else record
    due = expected(record).meter
    for where in slots(record, Stage.DEAD):
        test = measured_by(where)
        if test.is_check:
            record = with_answer(record, where, good=True)
        elif test.unit is Unit.MEGOHM:
            record = with_figure(record, where, 999.0, Sign.OVER)
        else:
            found = due.get(where)
            record = with_figure(
                record, where, round(found.value, 2) if isinstance(found, Worked) else 0.01
            )
    return record


def put_back(record: Record) -> Record:
    """Return the record with the answer that all that came off for the dead tests is put back."""
    return with_answer(record, PUT_BACK, good=True)
