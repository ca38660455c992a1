"""Jobs on which each rule that finds something speaks, by its name: `SPEAKS`."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from records.interlock.comes_off import EARTH_BACK, PUT_BACK
from records.model.circuit import Point
from records.model.job import Duty, InstrumentKind, Person
from records.model.reading import LiveException, NotTaken, Quantity, Remedy, Tick
from records.model.record import Record
from records.model.slots import measured_by
from records.model.wiring import Rcd
from records.terms import Cpc, Part, RcdType, Stage
from records.units import Unit
from tests.judgement.jobs import (
    FEED_R1_R2,
    ISLAND,
    RING,
    SOUND,
    START,
    ZDB,
    ZE,
    at,
    circuit,
    over,
    read,
    sound_job,
    spoilt,
    without,
    zs,
)
from tests.judgement.pairs import board, feed_run
from tests.judgement.test_calibration import with_meter
from tests.judgement.test_dead_scenes import less_leads
from tests.judgement.test_loop_scenes import PME, TT
from tests.judgement.test_optional_more import loaded
from tests.judgement.test_patterns import moved, rushed, times, value_of, with_leads
from tests.judgement.test_said_in_record import second

LIVE, DEAD, EARLY = Stage.LIVE, Stage.DEAD, Stage.BEFORE_COVERING
RUN, LE, LN, NE = (
    at(each, "C2") for each in (Quantity.R1_R2, Quantity.IR_LE, Quantity.IR_LN, Quantity.IR_NE)
)
R1, RN, R2 = (at(each, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2))
TIME = at(Quantity.RCD_TIME, "C2", LIVE)
FAULT = at(Quantity.FAULT_LE, stage=LIVE)
PARALLEL = feed_run(cpc=Cpc.CORE_AND_ARMOUR)
WITH_SURGE = board(surge_protection=True)


def ring(quantity: Quantity, point: str):
    return at(quantity, "C1", point=point)


def crossed(values: list[float]) -> Record:
    slots = [ring(Quantity.CROSS_LN, point.id) for point in RING.points]
    return spoilt(*zip(slots, values, strict=True))


def extra(
    quantity: Quantity,
    taken,
    name: str | None = "C2",
    stage: Stage = DEAD,
    *more,
    part: Part | None = None,
    record: Record | None = None,
) -> Record:
    slot = at(quantity, name, stage, part=part)
    return spoilt(read(900, slot, taken, 900), *more, record=record)


def later(slot, value: float, minutes: float = 900, **how) -> Record:
    return spoilt(read(900, slot, value, minutes, **how))


def early(slot):
    when = START - timedelta(hours=2)
    return moved(sound_job(), lambda each: when if each.slot == slot else None)


def certified(times: float) -> Record:
    """Return the job with Zs of C2 read by the certifier too, so many times as high."""
    people = (Person(id="A2", name="Ash Reed", duty=Duty.CERTIFIES),)
    record = sound_job()
    theirs = read(900, zs("C2"), round(value_of(zs("C2")) * times, 2), 900, by="A2")
    return record.model_copy(
        update={
            "job": record.job.model_copy(update={"people": people}),
            "certifier_readings": (theirs,),
        }
    )


def repaired() -> Record:
    key = "circuit/C2/-/dead/ir-le"
    remedy = Remedy(id="X1", finding=key, done="dried", at=START + timedelta(minutes=900))
    record = spoilt((LE, 0.4)).model_copy(update={"remedies": (remedy,)})
    return spoilt(read(900, LE, 480.0, 910), record=record)


def same_insulation() -> Record:
    pairs = (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
    return spoilt(
        *((each.slot, 450.0) for each in sound_job().readings if each.slot.quantity in pairs)
    )


def coarse() -> Record:
    kinds = (*(each.quantity for each in (R1, RN, R2, RUN, ZDB)), Quantity.ZS)
    return spoilt(
        *(
            (each.slot, round(round(each.taken.value / 0.05) * 0.05, 2))
            for each in sound_job().readings
            if each.slot.quantity in kinds
        )
    )


def backwards() -> Record:
    many = tuple(
        each.model_copy(update={"id": f"C{n}"})
        for n, each in enumerate(SOUND.circuits[1:] * 2, start=1)
    )
    record = sound_job(SOUND.model_copy(update={"circuits": many}))
    runs = {each.slot: each.taken for each in record.readings}
    return spoilt(
        *(
            (zs(each.id), round(value_of(ZDB) + runs[at(Quantity.R1_R2, each.id)].value, 2))
            for each in many
        ),
        record=record,
    )


def by_arithmetic() -> Record:
    where = (0.5, 1.0, 25.0, 49.5)
    points = tuple(Point(id=f"P{n}", at=each) for n, each in enumerate(where, 1))
    runs = (RING.runs[0].model_copy(update={"csa": 4.0}),)
    record = sound_job(circuit(SOUND, "C1", points=points, runs=runs))
    ends = {each.slot: each.taken for each in record.readings}
    even = round((ends[R1].value + ends[R2].value) / 4, 2)
    return spoilt(*((ring(Quantity.CROSS_LE, each.id), even) for each in points), record=record)


def covered_late() -> Record:
    slot = at(Quantity.R1_R2, "C3", EARLY)
    return moved(sound_job(), lambda each: START.replace(day=20) if each.slot == slot else None)


def long_feed() -> Record:
    """A feed so long that its fuse can't open in time, with all readings as the design has them."""
    runs = (SOUND.feed.runs[0].model_copy(update={"length": 240.0}),)
    return sound_job(
        SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update={"runs": runs})})
    )


def all_open() -> Record:
    dead = (each.slot for each in sound_job().readings if each.slot.stage is DEAD)
    return spoilt(*((slot, over(99.9)) for slot in dead if measured_by(slot).unit is Unit.OHM))


def nothing_live() -> Record:
    return spoilt(
        *(
            (each.slot, NotTaken(reason="no supply"))
            for each in sound_job().readings
            if each.slot.stage is LIVE
        )
    )


def slow_at_the_house():
    feed = SOUND.feed.model_copy(update={"rcd": Rcd(residual=100.0, type=RcdType.A)})
    record = SOUND.model_copy(update={"feed": feed})
    slot = at(Quantity.RCD_TIME, stage=LIVE, part=Part.FEED)
    return spoilt((slot, 240.0), record=sound_job(record))


RA = at(Quantity.ELECTRODE)
UNLABELLED = next(each for each in SOUND.circuits if each.id == "C2").device.model_copy(
    update={"breaking": None}
)
C1_TOTAL = round(value_of(ZDB) + value_of(RUN), 2)

EVERY = ("C1", "C2", "C3", "C4")


def on_all(quantity: Quantity, taken, stage: Stage = DEAD) -> Record:
    return spoilt(*((at(quantity, name, stage), taken) for name in EVERY))


def raised_by(more: float, *also) -> Record:
    loops = ((zs(name), round(value_of(zs(name)) + more, 2)) for name in EVERY)
    return spoilt(*loops, *also)


def excepted() -> Record:
    """Return a job whose certifier let a circuit be tested live with a bad dead test."""
    record = spoilt((LE, 0.4))
    made = LiveException(circuit="C2", by="P9", reason="seen and agreed", despite=("LE outside",))
    gates = tuple(each.model_copy(update={"exceptions": (made,)}) for each in record.live_gate)
    people = (Person(id="P9", name="Ash Reed", duty=Duty.CERTIFIES),)
    job = record.job.model_copy(update={"people": people})
    return record.model_copy(update={"job": job, "live_gate": gates})


SPEAKS: dict[str, Callable[[], Record]] = {
    "one pair down": lambda: on_all(Quantity.IR_NE, 0.01),
    "ring open": lambda: spoilt(*((slot, over(99.9)) for slot in (R1, RN, R2))),
    "all loops open": lambda: on_all(Quantity.ZS, over(1999.0), LIVE),
    "loops raised": lambda: raised_by(1.6, (ZDB, round(value_of(ZDB) + 1.6, 2))),
    "loops alike above": lambda: raised_by(0.3),
    "certifier's reading": lambda: certified(2.0),
    "odd zdb": lambda: spoilt((ZDB, 1.1)),
    "equal loops": lambda: on_all(Quantity.ZS, 0.62, LIVE),
    "equal times": lambda: on_all(Quantity.RCD_TIME, 31.0, LIVE),
    "read again": lambda: spoilt(
        (ZDB, round(value_of(ZDB) + 0.6, 2)),
        (FEED_R1_R2, round(value_of(FEED_R1_R2) + 0.6, 2)),
        read(900, FEED_R1_R2, value_of(FEED_R1_R2), 900),
    ),
    "armour-open": lambda: extra(
        Quantity.R1_R2_ARMOUR, over(99.9), None, part=Part.FEED, record=sound_job(PARALLEL)
    ),
    "neutral-borrowed": lambda: extra(Quantity.RN_R2, over(99.9)),
    "one-way-high": lambda: extra(Quantity.R2_LONG, 0.9),
    "one-way-low": lambda: extra(Quantity.R2_LONG, 0.02),
    "near-limit": lambda: spoilt((TIME, 290.0)),
    "limit": lambda: spoilt((LE, 0.4)),
    "no-proof": lambda: spoilt((TIME, over(40.0))),
    "below-nothing": lambda: spoilt((zs("C2"), -0.7)),
    "ra-unstable": lambda: spoilt((RA, 240.0), record=sound_job(ISLAND)),
    "ra-too-good": lambda: spoilt((RA, 2.0), record=sound_job(ISLAND)),
    "ra-risen": lambda: spoilt(read(900, RA, 90.0, 900), record=sound_job(ISLAND)),
    "breaking-assumed": lambda: circuit(sound_job(), "C2", device=UNLABELLED),
    "fault-above-entered": lambda: spoilt((at(Quantity.FAULT_LN, stage=LIVE, part=Part.ORIGIN), 2)),
    "fault-changed": lambda: spoilt((at(Quantity.FAULT_LN, stage=LIVE, part=Part.ORIGIN), 0.3)),
    "fault-against-origin": lambda: spoilt((at(Quantity.FAULT_LN, stage=LIVE), 0.1)),
    "fault-above-origin": lambda: spoilt((at(Quantity.FAULT_LN, stage=LIVE), 1.9)),
    "no-fault-current": lambda: spoilt((FAULT, 0.0)),
    "fault-against-loop": lambda: spoilt((FAULT, 0.1)),
    "cold-limit": lambda: spoilt((zs("C2"), 1.9)),
    "high-by-design": long_feed,
    "rcd-no-time": lambda: spoilt((TIME, 0.0)),
    "unit slips in a row": lambda: spoilt(*((s, value_of(s) * 1000) for s in (R1, RN, R2))),
    "unit-slip": lambda: spoilt((TIME, 0.024)),
    "rcd-too-keen": lambda: extra(Quantity.RCD_RAMP, 11.0, "C2", LIVE),
    "rcd-too-dull": lambda: extra(Quantity.RCD_RAMP, 34.0, "C2", LIVE),
    "rcd-too-quick": lambda: spoilt(
        (at(Quantity.RCD_TIME, stage=LIVE), 30.0), record=sound_job(ISLAND)
    ),
    "rcd-quick-at-five": lambda: extra(
        Quantity.RCD_FIVE, 10.0, None, LIVE, record=sound_job(ISLAND)
    ),
    "rcd-slow-at-five": lambda: extra(Quantity.RCD_FIVE, 60.0, "C2", LIVE),
    "rcd-contradicted": lambda: extra(
        Quantity.RCD_FIVE, 30.0, "C2", LIVE, record=spoilt((TIME, over(300.0)))
    ),
    "rcd-ramp-contradicted": lambda: extra(Quantity.RCD_RAMP, 34.0, "C2", LIVE),
    "rcd-half-contradicted": lambda: extra(
        Quantity.RCD_HALF,
        Tick(good=True),
        "C2",
        LIVE,
        read(901, at(Quantity.RCD_RAMP, "C2", LIVE), 11.0, 901),
    ),
    "polarity-against-point": lambda: spoilt((ring(Quantity.CROSS_LE, "P3"), over(99.9))),
    "meters disagree": lambda: second(0.9, instrument="M2"),
    "worn front": lambda: second(0.5, method="behind the front"),
    "leads not at nought": lambda: extra(Quantity.LEADS_ZERO, 0.14, None),
    "leads open": lambda: extra(Quantity.LEADS_ZERO, over(20.0), None),
    "loop-unsteady": lambda: spoilt(
        read(900, zs("C2"), 0.9, 900), read(901, zs("C2"), 0.6, 901), read(902, zs("C2"), 0.75, 902)
    ),
    "insulation-fallen": lambda: spoilt((LE, 40.0)),
    "insulation-not-new": lambda: spoilt((at(Quantity.IR_LE, "C2", EARLY), 60.0)),
    "insulation-too-good": lambda: spoilt((LE, 400_000.0)),
    "insulation-not-shown": lambda: spoilt((LE, over(20.0))),
    "insulation-joined": lambda: later(LN, 400.0, test_voltage=250.0, method="L and N joined"),
    "insulation-voltage": lambda: later(LE, 400.0, test_voltage=250.0),
    "insulation-electronics": lambda: spoilt(
        read(900, LE, 300.0, 900, test_voltage=250.0, method="drivers in"),
        read(901, LE, 0.6, 901, test_voltage=500.0),
    ),
    "group-below-circuits": lambda: extra(Quantity.IR_GROUP, 20.0, None),
    "earth not shown back": lambda: spoilt(read(900, ZE, 0.26, 900)),
    "surge not shown back": lambda: spoilt(
        read(900, at(Quantity.IR_LE, part=Part.FEED), 480.0, 3000), record=sound_job(WITH_SURGE)
    ),
    "zs-sum-wrong": lambda: spoilt(read(900, zs("C2"), 0.5, 900, method="calc")),
    "zs-above-sum": lambda: spoilt((zs("C2"), round(C1_TOTAL + 0.4, 2))),
    "zs-below-zdb": lambda: spoilt((zs("C2"), 0.15)),
    "zs-below-sum": lambda: spoilt((zs("C2"), round(value_of(ZDB) + 0.02, 2))),
    "loop-open": lambda: spoilt((zs("C2"), over(1999.0))),
    "loop-too-good": lambda: spoilt((ZE, 0.01)),
    "tt-too-low": lambda: spoilt((ZE, 0.4), record=sound_job(TT)),
    "ze-against-neutral": lambda: spoilt((ZE, 0.03)),
    "ze-above-usual": lambda: spoilt((ZE, 0.9)),
    "ze-above-device": lambda: spoilt((ZE, 3.0)),
    "ze-changed": lambda: spoilt((ZE, 0.45)),
    "zdb-high": lambda: spoilt((ZDB, 0.7)),
    "zdb-low": lambda: spoilt((ZDB, 0.15)),
    "unproved": lambda: circuit(sound_job(), "C2", runs=()),
    "ring-ratio": lambda: spoilt((R2, value_of(R1))),
    "ring-point-cpc": lambda: spoilt((ring(Quantity.CROSS_LE, "P3"), over(99.9))),
    "ring-point-both": lambda: spoilt(
        (ring(Quantity.CROSS_LE, "P3"), over(99.9)), (ring(Quantity.CROSS_LN, "P3"), over(99.9))
    ),
    "ring-length": lambda: spoilt((R1, 0.8)),
    "ring-ends-differ": lambda: spoilt((RN, round(value_of(R1) + 0.1, 2))),
    "ring-point-high": lambda: spoilt((ring(Quantity.CROSS_LN, "P3"), 0.6)),
    "ring-point-low": lambda: spoilt((ring(Quantity.CROSS_LN, "P3"), 0.02)),
    "earlier tests again": repaired,
    "what was done": lambda: spoilt((LE, 0.4), read(900, LE, 480.0, 910)),
    "pen-suspected": lambda: spoilt(
        (at(Quantity.VOLTAGE, stage=LIVE), 200.0), record=sound_job(PME)
    ),
    "earth-missing": lambda: extra(Quantity.VOLTAGE_LE, 90.0, None, LIVE),
    "two-lines": lambda: spoilt((at(Quantity.VOLTAGE, stage=LIVE), 400.0)),
    "voltages-apart": lambda: extra(Quantity.VOLTAGE_LE, 228.0, None, LIVE),
    "polarity-contradicted": lambda: extra(Quantity.VOLTAGE_NE, 238.0, None, LIVE),
    "supply-reversed": lambda: extra(Quantity.VOLTAGE_NE, 238.0, None, LIVE),
    "neutral-lifted": lambda: extra(Quantity.VOLTAGE_NE, 9.0, None, LIVE),
    "neutral-cpc-crossed": lambda: extra(
        Quantity.RN_R2, 0.34, "C2", DEAD, record=spoilt((RUN, over(99.9)))
    ),
    "open": lambda: spoilt((RUN, over(99.9))),
    "r1r2-high": lambda: spoilt((RUN, 0.6)),
    "r1r2-low": lambda: spoilt((RUN, 0.1)),
    "continuity-changed": lambda: spoilt((RUN, 0.6)),
    "below-nought": lambda: spoilt((RUN, -0.2)),
    "crossed on the same leg": lambda: crossed([0.08, 0.15, 0.18, 0.14, 0.06]),
    "bridge in the ring": lambda: crossed([0.18, 0.05, 0.06, 0.18, 0.18]),
    "readings swapped": lambda: spoilt(
        (RUN, value_of(at(Quantity.R1_R2, "C3"))), (at(Quantity.R1_R2, "C3"), value_of(RUN))
    ),
    "covered before read": covered_late,
    "before the start": lambda: sound_job().model_copy(
        update={"job": SOUND.job.model_copy(update={"started": date(2026, 3, 17)})}
    ),
    "taken with the earth off": lambda: moved(
        sound_job(), lambda each: START.replace(hour=20) if each.slot == EARTH_BACK else None
    ),
    "taken before the board was right": lambda: early(ZE),
    "taken while locked off": lambda: spoilt((LE, 0.4)),
    "taken after a live failure": lambda: spoilt(
        (at(Quantity.POLARITY, stage=LIVE), Tick(good=False))
    ),
    "taken before polarity": lambda: early(zs("C3")),
    "tested live by exception": excepted,
    "taken before Zdb": lambda: without(ZDB),
    "load on too early": lambda: loaded(238.0, 10.0, 228.0).model_copy(
        update={
            "readings": tuple(
                each
                for each in loaded(238.0, 10.0, 228.0).readings
                if each.slot.quantity is not Quantity.ZS
            )
        }
    ),
    "taken without an answer": lambda: sound_job().model_copy(update={"live_gate": ()}),
    "not shown put back": lambda: without(PUT_BACK),
    "button before time": lambda: early(at(Quantity.RCD_BUTTON, "C2", LIVE)),
    "too fast": lambda: rushed(20, 1, False),
    "all pairs low": lambda: spoilt(*((each, 20.0) for each in (LN, LE, NE))),
    "leads not nulled": lambda: with_leads(0.14),
    "nulled with other leads": lambda: with_leads(-0.14),
    "meter off by a factor": lambda: times(1.6),
    "open leads": all_open,
    "open leads, insulation": lambda: extra(Quantity.TIPS_JOINED, Tick(good=False), None),
    "even steps": lambda: spoilt(
        *((zs(f"C{n}"), round(0.5 + 0.1 * n, 2)) for n in range(1, 7)), record=backwards()
    ),
    "drop-high": lambda: loaded(238.0, 10.0, 228.0),
    "drop-low": lambda: loaded(238.0, 10.0, 243.0),
    "load-too-small": lambda: loaded(238.0, 1.0, 238.0),
    "insulation-falling": lambda: later(LE, 400.0, note="falls while held"),
    "insulation-climbing": lambda: spoilt(read(900, LE, 5.0, 900), read(901, LE, 12.0, 901)),
    "insulation-rising": lambda: spoilt(read(900, LE, 300.0, 900), read(901, LE, 600.0, 901)),
    "leads taken off twice": lambda: less_leads(0.08, -0.08),
    "calibration": lambda: with_meter(due=date(2026, 3, 15)),
    "wrong instrument": lambda: with_meter(kind=InstrumentKind.LOOP),
    "rcd-standard": slow_at_the_house,
    "island joined": lambda: spoilt((ZDB, 0.4), record=sound_job(ISLAND)),
    "worked out backwards": backwards,
    "only fives and noughts": coarse,
    "identical insulation": same_insulation,
    "made by arithmetic": by_arithmetic,
    "much not taken": nothing_live,
}
