"""A sound job of our own making, with every reading as it should be, to spoil one thing at a time.

A feed of armoured cable on a BS 88-2 fuse from a TN-S house; a ring, a radial, lights, a heater.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, date, datetime, timedelta
from functools import cache
from typing import Any

from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.review import review
from records.judgement.review_types import Judged, Review
from records.model.circuit import Circuit, Point
from records.model.job import Instrument, InstrumentKind, Job
from records.model.measurements import MEASUREMENTS
from records.model.outbuilding import Board, Feed
from records.model.reading import (
    Figure,
    LiveGate,
    NotNeeded,
    NotTaken,
    Place,
    Quantity,
    Reading,
    Slot,
    Tick,
)
from records.model.record import Record
from records.model.slots import measured_by, offered, slots
from records.model.supply import Ground, Origin
from records.model.wiring import Device, Rcd, Run
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    EarthingLaid,
    Form,
    Method,
    OutbuildingEarth,
    Part,
    RcdType,
    Sign,
    Stage,
    Use,
    Verdict,
)
from records.units import Unit

START = datetime(2026, 3, 16, 8, 0, tzinfo=UTC)
Taken = Figure | Tick | NotTaken | NotNeeded


def flat(csa: float, length: float, **more: Any) -> Run:
    return Run(cable=CableKind.FLAT, csa=csa, cpc=Cpc.CORE, length=length, method=Method.C, **more)


def rcbo(rating: float) -> dict[str, Any]:
    return {
        "device": Device(kind=DeviceKind.RCBO_B, rating=rating, breaking=6.0),
        "rcd": Rcd(residual=30.0, type=RcdType.A),
    }


RING = Circuit(
    id="C1",
    name="Ring",
    use=Use.SOCKETS,
    form=Form.RING,
    outdoors=False,
    hidden=True,
    runs=(flat(2.5, 50.0),),
    points=tuple(
        Point(id=f"P{count}", name=f"S{count}", at=at)
        for count, at in enumerate((6.0, 15.0, 25.0, 36.0, 45.0), start=1)
    ),
    **rcbo(32.0),
)
RADIAL = Circuit(
    id="C2",
    name="Radial",
    use=Use.SOCKETS,
    form=Form.RADIAL,
    outdoors=False,
    hidden=True,
    runs=(flat(2.5, 18.0),),
    points=(Point(id="P1", at=18.0),),
    **rcbo(20.0),
)
LIGHTS = Circuit(
    id="C3",
    name="Lights",
    use=Use.LIGHTING,
    form=Form.RADIAL,
    load=1.2,
    outdoors=True,
    hidden=True,
    runs=(flat(1.5, 25.0),),
    points=(Point(id="P1", at=25.0),),
    **rcbo(6.0),
)
HEATER = Circuit(
    id="C4",
    name="Heater",
    use=Use.FIXED,
    form=Form.FCU,
    power=2.0,
    fuse=13.0,
    outdoors=False,
    hidden=False,
    runs=(flat(2.5, 9.0),),
    points=(Point(id="P1", at=9.0),),
    **rcbo(16.0),
)

SOUND = Record(
    job=Job(
        reference="T-1",
        place="Test shed",
        description="Shed",
        started=date(2026, 3, 1),
        ambient=15.0,
        instruments=(
            Instrument(
                id="M1",
                kind=InstrumentKind.MULTIFUNCTION,
                serial="1",
                calibrated=date(2025, 12, 1),
                due=date(2026, 12, 1),
                uncertainty=8.0,
                leads=0.08,
                nulled=True,
            ),
        ),
    ),
    origin=Origin(
        earthing=Earthing.TN_S,
        ze=0.25,
        ze_ground=Ground.MEASURED,
        fault_current=1.2,
        fault_current_ground=Ground.MEASURED,
    ),
    feed=Feed(
        device=Device(kind=DeviceKind.BS_88_2, rating=40.0, breaking=80.0),
        load=26.0,
        runs=(
            Run(
                cable=CableKind.SWA_XLPE,
                cores=3,
                csa=10.0,
                cpc=Cpc.CORE,
                length=30.0,
                method=Method.D,
                ambient=20.0,
            ),
        ),
    ),
    board=Board(
        place="By the door",
        main_switch=63.0,
        surge_protection=False,
        earth=OutbuildingEarth.CARRIED_OVER,
        earthing_csa=10.0,
        metal_in_ground=False,
    ),
    circuits=(RING, RADIAL, LIGHTS, HEATER),
)

ISLAND = SOUND.model_copy(
    update={
        "board": Board(
            place="By the door",
            main_switch=63.0,
            surge_protection=False,
            earth=OutbuildingEarth.OWN_ELECTRODE,
            electrode="one rod",
            earthing_csa=10.0,
            earthing_laid=EarthingLaid.PROTECTED,
            metal_in_ground=False,
            rcd=Rcd(residual=100.0, type=RcdType.A, delayed=True),
        ),
        "feed": SOUND.feed.model_copy(
            update={"runs": (SOUND.feed.runs[0].model_copy(update={"cpc": Cpc.NONE}),)}
        ),
    }
)


def place(circuit: str | None = None, point: str | None = None, part: Part | None = None) -> Place:
    return Place(
        part=part or (Part.CIRCUIT if circuit else Part.BOARD), circuit=circuit, point=point
    )


def at(
    quantity: Quantity,
    circuit: str | None = None,
    stage: Stage = Stage.DEAD,
    *,
    point: str | None = None,
    part: Part | None = None,
) -> Slot:
    """Return a slot; without a circuit at the board, unless a part is said."""
    return Slot(quantity=quantity, place=place(circuit, point, part), stage=stage)


FEED_R1_R2 = at(Quantity.R1_R2, part=Part.FEED)
ZE = at(Quantity.ZE, stage=Stage.LIVE, part=Part.ORIGIN)
ZDB = at(Quantity.ZDB, stage=Stage.LIVE)


def zs(circuit: str) -> Slot:
    return at(Quantity.ZS, circuit, Stage.LIVE)


def over(value: float) -> Figure:
    return Figure(value=value, sign=Sign.OVER)


def under(value: float) -> Figure:
    return Figure(value=value, sign=Sign.UNDER)


def read(
    number: int, slot: Slot, taken: Taken | float, minutes: float | None = None, **more: Any
) -> Reading:
    """Return a reading, `minutes` after the start of the tests."""
    if isinstance(taken, int | float):
        taken = Figure(value=float(taken))
    when = START + timedelta(minutes=3 * number if minutes is None else minutes)
    more.setdefault("instrument", "M1")
    return Reading(id=f"R{number}", slot=slot, taken=taken, at=when, **more)


_TYPICAL = {
    Quantity.EARTHING: 0.02,
    Quantity.BONDING: 0.02,
    Quantity.ARMOUR_EARTHED: 0.02,
    Quantity.VOLTAGE: 239.0,
    Quantity.ELECTRODE: 40.0,
}


def _good(slot: Slot, record: Record, meter: Mapping[Slot, Any], count: int) -> Taken:
    quantity = slot.quantity
    if measured_by(slot).is_check:
        return Tick(good=True)
    if measured_by(slot).unit is Unit.MEGOHM:
        return over(999.0)
    if quantity is Quantity.RCD_TIME:
        delayed = slot.place.part is Part.BOARD and record.board.rcd.delayed
        return Figure(value=210.0 if delayed else 24.0 + count % 7)
    if quantity in _TYPICAL:
        return Figure(value=_TYPICAL[quantity])
    expectation = meter[slot]
    assert isinstance(expectation, Worked), (slot, expectation)
    # A hundredth of scatter, as between any two readings by hand.
    scatter = 0.01 * (count % 2) if quantity is Quantity.ZS else 0.0
    return Figure(value=round(expectation.value + scatter, 2))


@cache
def sound_job(record: Record = SOUND) -> Record:
    """Return a job with every reading as it should be."""
    readings: tuple[Reading, ...] = ()
    for count, slot in enumerate(_taken(record), start=1):
        sofar = record.model_copy(update={"readings": readings})
        meter = expected(sofar).meter if slot.quantity in _NEEDS_ELECTRODE else _meter(record)
        readings = (*readings, read(count, slot, _good(slot, record, meter, count)))
    return record.model_copy(update={"readings": readings, "live_gate": answers(readings)})


def answers(readings: tuple[Reading, ...]) -> tuple[LiveGate, ...]:
    """Return answers to the question before the live tests that hold for the rest of the day."""
    live = min(each.at for each in readings if each.slot.stage is Stage.LIVE)
    return tuple(
        LiveGate(at=live + timedelta(hours=4 * count, minutes=-1), isolation_understood=True)
        for count in range(4)
    )


def _taken(record: Record) -> list[Slot]:
    """Return what the job needs, and Ze with the earth put back even where Ze is known."""
    wanted = [s for s in offered(record) if s.quantity in (Quantity.ZE, Quantity.EARTH_BACK)]
    kinds = [(each.part, each.quantity) for each in MEASUREMENTS]
    return sorted(
        (*slots(record), *wanted),
        key=lambda s: (list(Stage).index(s.stage), kinds.index((s.place.part, s.quantity))),
    )


_NEEDS_ELECTRODE = (Quantity.ZDB, Quantity.ZS, Quantity.FAULT_LE)


@cache
def _meter(record: Record) -> Mapping[Slot, Any]:
    return expected(record).meter


def spoilt(*changes: tuple[Slot, Taken | float] | Reading, record: Record | None = None) -> Record:
    """Return the sound_job job with some readings changed in place, or put in beside the others."""
    record = sound_job() if record is None else record
    new = {each[0]: each[1] for each in changes if isinstance(each, tuple)}
    more = tuple(each for each in changes if isinstance(each, Reading))
    readings = [
        each.model_copy(update={"taken": _figure(new[each.slot])}) if each.slot in new else each
        for each in record.readings
    ]
    known = {each.slot for each in record.readings}
    assert set(new) <= known, set(new) - known
    return record.model_copy(update={"readings": (*readings, *more)})


def without(*gone: Slot, record: Record | None = None) -> Record:
    """Return the sound_job job without some readings."""
    record = sound_job() if record is None else record
    kept = tuple(each for each in record.readings if each.slot not in gone)
    return record.model_copy(update={"readings": kept})


def _figure(taken: Taken | float) -> Taken:
    return Figure(value=float(taken)) if isinstance(taken, int | float) else taken


def reviewed(record: Record) -> Review:
    return review(record, expected(record))


def own(record: Record, slot: Slot) -> Judged:
    """Return the line of a reading itself."""
    return reviewed(record).of(slot)[0]


def shown(record: Record, slot: Slot) -> Verdict:
    """Return what the last reading of a slot shows, whenever it was taken."""
    return reviewed(record).verdicts[record.taken(slot)[-1].id]


def line(record: Record, end: str) -> Judged:
    """Return the line whose key ends so."""
    found = [each for each in reviewed(record).lines if each.key.endswith(end)]
    assert len(found) == 1, [each.key for each in found]
    return found[0]


OUT_OF_ORDER = (
    "taken with the earth off",
    "taken before the board was right",
    "taken while locked off",
    "taken after a live failure",
    "taken before polarity",
    "taken before Zdb",
    "load on too early",
    "taken without an answer",
)
"""What is said of live readings beside tests that were spoilt here after them: tried apart, in
`tests/judgement/test_out_of_order.py`."""


def found(record: Record) -> tuple[Judged, ...]:
    """Return all findings but that live readings stand beside what was spoilt."""
    return tuple(
        each for each in reviewed(record).findings if not set(each.patterns) & set(OUT_OF_ORDER)
    )


def findings(record: Record) -> dict[str, str]:
    """Return key and verdict of all findings but that live readings stand beside them."""
    return {each.key: each.verdict.value for each in found(record)}


def circuit(record: Record, id: str, **changes: Any) -> Record:
    """Return the record with a circuit changed."""
    circuits = tuple(
        each.model_copy(update=changes) if each.id == id else each for each in record.circuits
    )
    return record.model_copy(update={"circuits": circuits})
