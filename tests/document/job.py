"""An invented job with hand-made figures and verdicts: the document is tried on its own."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

from records.document.context import context
from records.evidence import COMMON_PRACTICE, Source
from records.expected.results import Expected, NotWorkedOut, What, Worked
from records.judgement.review_types import Judged, Limit, Review, Sense, Stood
from records.judgement.todo.progress import progress
from records.model.circuit import Circuit, Point
from records.model.job import Duty, Instrument, InstrumentKind, Job, Person
from records.model.outbuilding import Board, Bond, Feed
from records.model.reading import (
    Figure,
    LiveGate,
    NotNeeded,
    NotTaken,
    Place,
    Quantity,
    Reading,
    Remedy,
    Slot,
    Tick,
)
from records.model.record import Record
from records.model.supply import Ground, Origin
from records.model.wiring import Device, Rcd, Run
from records.terms import (
    Basis,
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
    Verdict,
)
from records.units import Unit

MADE = datetime(2026, 3, 21, 17, 30, tzinfo=UTC)
FINGERPRINT = "3F2A-91BC-07DE-55AA"
SUMMER = timezone(timedelta(hours=1))
TABLE = Source("BS 7671:2018+A2:2022", "Table 41.3", Basis.READ)
LOOP = Source("IET Guidance Note 3", "loop impedance", Basis.MEMORY)

C1 = Place(part=Part.CIRCUIT, circuit="C1")
FEED = Place(part=Part.FEED)
ORIGIN = Place(part=Part.ORIGIN)
BOARD = Place(part=Part.BOARD)

ZS = Slot(quantity=Quantity.ZS, place=C1, stage=Stage.LIVE)
IR = Slot(quantity=Quantity.IR_LE, place=C1, stage=Stage.DEAD)
ZE = Slot(quantity=Quantity.ZE, place=ORIGIN, stage=Stage.LIVE)
ZDB = Slot(quantity=Quantity.ZDB, place=BOARD, stage=Stage.LIVE)
SURGE = Slot(quantity=Quantity.SURGE, place=BOARD, stage=Stage.LIVE)
POLARITY = Slot(quantity=Quantity.POLARITY, place=C1, stage=Stage.DEAD)
CROSS = Slot(
    quantity=Quantity.CROSS_LN,
    place=Place(part=Part.CIRCUIT, circuit="C1", point="S2"),
    stage=Stage.DEAD,
)
IR_KEY = "circuit/C1/-/dead/ir-le"
ZS_KEY = "circuit/C1/-/live/Zs"


def _at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 3, day, hour, minute, tzinfo=SUMMER)


def _reading(id: str, slot: Slot, taken: Any, at: datetime, **more: Any) -> Reading:
    return Reading(id=id, slot=slot, taken=taken, at=at, by="P1", instrument="M1", **more)


def record() -> Record:
    """Return a small job: a ring off a TN-S feed, one re-test, one remedy."""
    return Record(
        job=Job(
            reference="SHED-7",
            place="Potting shed",
            description="Brick shed with a bench",
            started=date(2026, 3, 2),
            ambient=8.0,
            people=(
                Person(id="P1", name="The installer", duty=Duty.INSTALLS),
                Person(id="P2", name="The certifying electrician", duty=Duty.CERTIFIES),
            ),
            instruments=(
                Instrument(
                    id="M1",
                    kind=InstrumentKind.MULTIFUNCTION,
                    serial="1234",
                    calibrated=date(2025, 11, 3),
                    due=date(2026, 11, 3),
                    leads=0.05,
                    nulled=True,
                ),
            ),
        ),
        origin=Origin(earthing=Earthing.TN_S, ze=0.35, ze_ground=Ground.TYPICAL, note="Sound."),
        feed=Feed(
            device=Device(kind=DeviceKind.BS_88_2, rating=40.0, breaking=80.0),
            runs=(
                Run(
                    where="Trench under the lawn",
                    cable=CableKind.SWA_XLPE,
                    cores=3,
                    csa=10.0,
                    cpc=Cpc.CORE_AND_ARMOUR,
                    length=38.5,
                    method=Method.D,
                    ambient=20.0,
                ),
            ),
        ),
        board=Board(
            place="By the door",
            main_switch=63.0,
            surge_protection=True,
            earth=OutbuildingEarth.CARRIED_OVER,
            earthing_csa=16.0,
            metal_in_ground=True,
            bonds=(Bond(id="B1", what="Water pipe", csa=10.0, length=4.0),),
        ),
        circuits=(
            Circuit(
                id="C1",
                name="Sockets [/] [ring]",
                use=Use.SOCKETS,
                form=Form.RING,
                device=Device(kind=DeviceKind.RCBO_B, rating=32.0, breaking=6.0),
                rcd=Rcd(residual=30.0, type=RcdType.A),
                outdoors=False,
                hidden=True,
                runs=(Run(cable=CableKind.FLAT, csa=2.5, cpc=Cpc.CORE, length=41.0),),
                points=(
                    Point(id="S1", name="by the door", at=4.0),
                    Point(id="S2", name="bench", at=12.5, spur=2.0),
                ),
            ),
        ),
        readings=(
            _reading("R1", IR, Figure(value=0.4, typed="0,4"), _at(14, 10), test_voltage=500.0),
            _reading(
                "R2",
                IR,
                Figure(value=999.0, sign=Sign.OVER, typed=">999M"),
                _at(14, 15),
                test_voltage=500.0,
                note="driver out",
            ),
            _reading("R3", POLARITY, Tick(good=True), _at(14, 15, 30)),
            _reading("R4", ZE, NotTaken(reason="intake locked"), _at(15, 9)),
            _reading("R5", SURGE, NotNeeded(reason="fitted in the house board"), _at(15, 9, 5)),
            _reading(
                "R6",
                ZS,
                Figure(value=1.52, typed="1.52"),
                _at(15, 10),
                method="no-trip",
                from_notes=_at(16, 20),
            ),
        ),
        remedies=(
            Remedy(id="A1", finding=IR_KEY, done="Lamp driver taken out", at=_at(14, 14), by="P1"),
        ),
        live_gate=(
            LiveGate(
                at=_at(15, 8),
                by="P1",
                isolation_understood=True,
                despite=("· Ring final circuit: cross-connected L-N at S2 not taken.",),
            ),
        ),
    )


def expected() -> Expected:
    """Return figures for `record()`; made up, but the sum is one."""
    zs = Worked(
        "Zs",
        1.02,
        Unit.OHM,
        "Zs = Zdb + (R1+R2)",
        "0.55 + 0.47",
        (LOOP,),
        low=1.0,
        high=1.04,
        note="Added as magnitudes: errs towards refusing.",
    )
    iz = NotWorkedOut("Iz", "no rating for this method in the table (Circuits, C1).")
    return Expected(
        meter={ZS: Worked("Zs", 0.91, Unit.OHM, "Zs = Zdb + (R1+R2)", "0.5 + 0.41", (LOOP,))},
        design={
            (C1, What.ZS): zs,
            (C1, What.IZ): iz,
            (C1, What.IB): Worked("Ib", 32.0, Unit.AMPERE, "Ib = In", "32", (), digits=0),
            (FEED, What.VOLT_DROP): Worked(
                "ΔU", 3.9, Unit.PERCENT, "ΔU = mV·Ib·L", "4.7 × 40 × 38.5", (TABLE,), digits=1
            ),
        },
        measured={(C1, What.ZS): Worked("Zs", 1.52, Unit.OHM, "as measured", "", ())},
    )


def review(job: Record) -> Review:
    """Return verdicts for `record()`, one of each kind."""
    remedy = job.remedies
    return Review(
        lines=(
            Judged(
                ZS_KEY,
                Verdict.OUTSIDE,
                C1,
                "C1, loop at the far point",
                "1.52 Ω is over the 1.37 Ω of the table.",
                slot=ZS,
                expected=expected().meter[ZS],
                limit=Limit(Sense.MOST, 1.37, Unit.OHM, TABLE),
                attempts=job.taken(ZS),
                causes=("a loose cpc", "a longer run than entered"),
                next_check="Take R1+R2 again at the far point.",
                weight=9,
            ),
            Judged(
                "feed/-/-/design/voltage drop",
                Verdict.NEAR,
                FEED,
                "Feed, voltage drop",
                "3.9 % leaves 1.1 % for the circuits.",
                what=What.VOLT_DROP,
                expected=expected().design[FEED, What.VOLT_DROP],
                source=COMMON_PRACTICE,
            ),
            Judged(
                "circuit/C1/-/live/loop-sum",
                Verdict.UNLIKELY,
                C1,
                "C1, the loops add up",
                "Zs is far above Zdb and R1+R2 together.",
                about=(ZS, ZDB),
            ),
            Judged(
                "circuit/C1/S2/dead/cross-ln",
                Verdict.NOT_TAKEN,
                CROSS.place,
                "C1, ring crossed L-N at S2",
                "Not taken yet.",
                slot=CROSS,
            ),
            Judged(
                "origin/-/-/live/Ze",
                Verdict.NOT_TAKEN,
                ORIGIN,
                "Ze: external earth fault loop impedance",
                "It could not be taken.",
                slot=ZE,
                attempts=job.taken(ZE),
            ),
            Judged(
                IR_KEY,
                Verdict.WITHIN,
                C1,
                "C1, insulation L and earth",
                "Over range.",
                slot=IR,
                limit=Limit(Sense.LEAST, 1.0, Unit.MEGOHM, TABLE),
                attempts=job.taken(IR),
                remedies=remedy,
                stood=(Stood(Verdict.OUTSIDE, "Low."), Stood(Verdict.WITHIN, "Over range.")),
            ),
            Judged(
                "circuit/C1/-/dead/polarity",
                Verdict.WITHIN,
                C1,
                "C1, polarity",
                "Right.",
                slot=POLARITY,
                attempts=job.taken(POLARITY),
            ),
            Judged(
                "board/-/-/live/surge-back",
                Verdict.NOT_NEEDED,
                BOARD,
                "Surge protection: its flag shows good",
                "Set aside.",
                slot=SURGE,
                attempts=job.taken(SURGE),
            ),
        )
    )


def filled_context(job: Record | None = None) -> dict[str, Any]:
    """Return the context that the hand-made job gives."""
    job = job or record()
    verdicts = review(job)
    return context(
        job, expected(), verdicts, progress(job, verdicts), fingerprint=FINGERPRINT, made=MADE
    )
