"""States of a job in which something live, or anything at all, may not be taken."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.interlock.may_take import Lock
from records.model.job import Duty, Person
from records.model.reading import (
    CautionRead,
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
from records.model.record import Record, next_id
from records.terms import Part, Sign, Stage
from tests.taking.job import AT, ready_job, slot

NOW = AT + timedelta(hours=2)
"""When somebody tries it: two hours after the dead tests."""
LIVE, DEAD = Stage.LIVE, Stage.DEAD
POLARITY, ZDB = slot(Quantity.POLARITY, LIVE), slot(Quantity.ZDB, LIVE)
FAULT_LE = Slot(quantity=Quantity.FAULT_LE, place=Place(part=Part.ORIGIN), stage=LIVE)
FAULT_LN = FAULT_LE.model_copy(update={"quantity": Quantity.FAULT_LN})
FEED_R1_R2 = Slot(quantity=Quantity.R1_R2, place=Place(part=Part.FEED), stage=DEAD)
RUN, LE = slot(Quantity.R1_R2, DEAD, "C2"), slot(Quantity.IR_LE, DEAD, "C2")
ZS1, ZS2, ZS3 = (slot(Quantity.ZS, LIVE, each) for each in ("C1", "C2", "C3"))
GOOD: dict[Slot, Figure | Tick] = {
    ZE: Figure(value=0.35),
    EARTH_BACK: Tick(good=True),
    FAULT_LN: Figure(value=2.2),
    FAULT_LE: Figure(value=0.66),
    POLARITY: Tick(good=True),
    ZDB: Figure(value=0.43),
    slot(Quantity.VOLTAGE, LIVE): Figure(value=236.0),
}
"""What the supply and the board show on a sound job, in the order of the tests."""

CERTIFIER = Person(id="A2", name="Ash Reed", duty=Duty.CERTIFIES)
Entry = Figure | Tick | NotTaken | NotNeeded
Change = Callable[[Record], Record]


def at_minute(minutes: float) -> datetime:
    return AT + timedelta(minutes=minutes)


def took(where: Slot, taken: Entry | float, minutes: float, by: str = "A1") -> Change:
    """Return what puts one more reading into a record."""
    value = Figure(value=taken) if isinstance(taken, int | float) else taken

    def change(record: Record) -> Record:
        made = Reading(
            id=next_id("R", record.readings),
            slot=where,
            taken=value,
            at=at_minute(minutes),
            by=by,
            instrument="M1",
        )
        return record.model_copy(update={"readings": (*record.readings, made)})

    return change


def answered(minutes: float = 60, by: str = "A1", *, yes: bool = True) -> Change:
    gate = LiveGate(at=at_minute(minutes), by=by, isolation_understood=yes)
    return lambda record: record.model_copy(update={"live_gate": (*record.live_gate, gate)})


def read_before(where: Slot, minutes: float, by: str = "A1") -> Change:
    read = CautionRead(key=f"before {where.quantity}", before=where, at=at_minute(minutes), by=by)
    return lambda record: record.model_copy(update={"cautions_read": (*record.cautions_read, read)})


def supply(*, until: Slot | None = None, begin: float = 70) -> Change:
    """Return what takes the live tests of supply and board, up to one of them."""

    def change(record: Record) -> Record:
        for count, (where, taken) in enumerate(GOOD.items()):
            if where == until:
                break
            record = took(where, taken, begin + count)(record)
        return record

    return change


def job(*changes: Change) -> Record:
    """Return a job with its dead tests right and a certifier, changed step by step."""
    record = ready_job()
    people = (*record.job.people, CERTIFIER)
    record = record.model_copy(
        update={"job": record.job.model_copy(update={"people": people}), "live_gate": ()}
    )
    for each in changes:
        record = each(record)
    return record


def spoilt(where: Slot, taken: Entry | float) -> Change:
    """Return what makes a reading that is there another one."""
    value = Figure(value=taken) if isinstance(taken, int | float) else taken
    return lambda record: record.model_copy(
        update={
            "readings": tuple(
                each.model_copy(update={"taken": value}) if each.slot == where else each
                for each in record.readings
            )
        }
    )


def without(where: Slot) -> Change:
    return lambda record: record.model_copy(
        update={"readings": tuple(each for each in record.readings if each.slot != where)}
    )


def formless(id: str) -> Change:
    """Return what forgets how a circuit is laid out, with the readings that rest on it."""
    return lambda record: record.model_copy(
        update={
            "circuits": tuple(
                each.model_copy(update={"form": None}) if each.id == id else each
                for each in record.circuits
            )
        }
    )


@dataclass(frozen=True)
class State:
    """A state of a job, something that may not be taken in it, and why."""

    record: Record
    slot: Slot
    lock: Lock
    kept_as: str = ""
    """The name of the finding that the same reading gets if it comes in a file; empty: of the state
    itself, which is a finding already."""
    minutes: float = 120


STATES: dict[str, State] = {
    "the earth is off after Ze": State(
        job(answered(), took(ZE, 0.35, 70)), FAULT_LN, Lock.EARTH, "taken with the earth off"
    ),
    "the earth is off, and a circuit is tried": State(
        job(answered(), took(ZE, 0.35, 70)), ZS2, Lock.EARTH, "taken with the earth off"
    ),
    "the earth is off, and a dead test is tried": State(
        job(answered(), took(ZE, 0.35, 70)), RUN, Lock.EARTH, "taken with the earth off"
    ),
    "the caution before Ze was read, and Ze passed by": State(
        job(answered(), read_before(ZE, 69)), FAULT_LN, Lock.EARTH
    ),
    "Ze could not be read after its caution": State(
        job(answered(), read_before(ZE, 69), took(ZE, NotTaken(reason="leads too short"), 70)),
        FAULT_LN,
        Lock.EARTH,
    ),
    "the earth was found off": State(
        job(answered(), took(ZE, 0.35, 70), took(EARTH_BACK, Tick(good=False), 71)),
        FAULT_LN,
        Lock.EARTH,
        "taken with the earth off",
    ),
    "the earth could not be put back": State(
        job(answered(), took(ZE, 0.35, 70), took(EARTH_BACK, NotTaken(reason="too tired"), 71)),
        FAULT_LN,
        Lock.EARTH,
        "taken with the earth off",
    ),
    "the earth is not needed": State(
        job(answered(), took(ZE, 0.35, 70), took(EARTH_BACK, NotNeeded(reason="later"), 71)),
        FAULT_LN,
        Lock.EARTH,
        "taken with the earth off",
    ),
    "the earth was back before Ze, by the times": State(
        job(answered(), took(ZE, 0.35, 70), took(EARTH_BACK, Tick(good=True), 65)),
        FAULT_LN,
        Lock.EARTH,
        "taken with the earth off",
    ),
    "Ze was read again after the earth was back": State(
        job(answered(), supply(until=FAULT_LN), took(ZE, 0.36, 90)),
        FAULT_LN,
        Lock.EARTH,
        "taken with the earth off",
    ),
    "nobody answered the question": State(job(), ZE, Lock.ANSWER, "taken without an answer"),
    "another person answered it": State(
        job(answered(by="A2")), ZE, Lock.ANSWER, "taken without an answer"
    ),
    "it was answered more than four hours ago": State(
        job(answered()), ZE, Lock.ANSWER, "taken without an answer", minutes=60 + 241
    ),
    "it was answered yesterday": State(
        job(answered(14.9 * 60)), ZE, Lock.ANSWER, "taken without an answer", minutes=15.1 * 60
    ),
    "the answer was taken back": State(job(answered(), answered(65, yes=False)), ZE, Lock.ANSWER),
    "a dead test was taken since the answer": State(
        job(answered(), took(RUN, 0.29, 80), took(PUT_BACK, Tick(good=True), 81)), ZE, Lock.ANSWER
    ),
    "a dead test of the feed is outside": State(
        job(spoilt(FEED_R1_R2, 9.0), answered(), supply()),
        ZS2,
        Lock.BOARD,
        "taken before the board was right",
    ),
    "a dead test of the feed is missing": State(
        job(without(FEED_R1_R2), answered(), supply()),
        ZS2,
        Lock.BOARD,
        "taken before the board was right",
    ),
    "a dead test of the feed is set aside": State(
        job(spoilt(FEED_R1_R2, NotNeeded(reason="no time")), answered(), supply()),
        ZS2,
        Lock.BOARD,
        "taken before the board was right",
    ),
    "the earthing conductor could not be tested": State(
        job(
            spoilt(slot(Quantity.EARTHING, DEAD), NotTaken(reason="no access")),
            answered(),
            supply(),
        ),
        ZS2,
        Lock.BOARD,
        "taken before the board was right",
    ),
    "nobody said that all is put back": State(
        job(without(PUT_BACK), answered(), supply()), ZS2, Lock.PUT_BACK
    ),
    "a link went in since all was put back": State(
        job(took(RUN, 0.29, 30), answered(), supply()), ZS2, Lock.PUT_BACK
    ),
    "a dead test of the circuit is outside": State(
        job(spoilt(LE, 0.2), answered(), supply()), ZS2, Lock.CIRCUIT, "taken while locked off"
    ),
    "a dead test of the circuit is missing": State(
        job(without(LE), answered(), supply()), ZS2, Lock.CIRCUIT, "taken while locked off"
    ),
    "a dead test of the circuit is set aside": State(
        job(spoilt(LE, NotNeeded(reason="no time")), answered(), supply()),
        ZS2,
        Lock.CIRCUIT,
        "taken while locked off",
    ),
    "the cpc of the circuit is open": State(
        job(spoilt(RUN, Figure(value=99.9, sign=Sign.OVER)), answered(), supply()),
        ZS2,
        Lock.CIRCUIT,
        "taken while locked off",
    ),
    "the circuit has no form": State(
        job(formless("C2"), answered(), supply()), ZS2, Lock.CIRCUIT, "taken while locked off"
    ),
    "the polarity of the supply is wrong": State(
        job(answered(), supply(until=POLARITY), took(POLARITY, Tick(good=False), 90)),
        ZDB,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "the wrong polarity was set aside": State(
        job(
            answered(),
            supply(until=POLARITY),
            took(POLARITY, Tick(good=False), 90),
            took(POLARITY, NotNeeded(reason="no time"), 91),
        ),
        ZDB,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "polarity was not taken": State(
        job(answered(), supply(until=POLARITY)), ZS2, Lock.POLARITY, "taken before polarity"
    ),
    "polarity could not be taken": State(
        job(answered(), supply(until=POLARITY), took(POLARITY, NotTaken(reason="dark"), 90)),
        ZS2,
        Lock.POLARITY,
        "taken before polarity",
    ),
    "Zdb was not taken": State(
        job(answered(), supply(until=ZDB)), ZS2, Lock.POLARITY, "taken before Zdb"
    ),
    "no earth at the origin": State(
        job(
            answered(),
            took(ZE, Figure(value=1999, sign=Sign.OVER), 70),
            took(EARTH_BACK, Tick(good=True), 71),
        ),
        POLARITY,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "no earth at the board": State(
        job(answered(), supply(until=ZDB), took(ZDB, Figure(value=1999, sign=Sign.OVER), 90)),
        ZS2,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "no current to earth": State(
        job(answered(), supply(until=FAULT_LE), took(FAULT_LE, 0.0, 90)),
        POLARITY,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "the voltage of a line on the neutral": State(
        job(answered(), supply(), took(slot(Quantity.VOLTAGE_NE, LIVE), 231.0, 90)),
        ZS2,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "an open loop on another circuit": State(
        job(answered(), supply(), took(ZS1, Figure(value=1999, sign=Sign.OVER), 90)),
        ZS2,
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "a loop over its limit, and the same circuit": State(
        job(answered(), supply(), took(ZS3, 9.0, 90)),
        slot(Quantity.RCD_TIME, LIVE, "C3"),
        Lock.FAILURE,
        "taken after a live failure",
    ),
    "a kettle on before any loop was read": State(
        job(answered(), supply()), slot(Quantity.LOAD_CURRENT, LIVE), Lock.LOAD, "load on too early"
    ),
    "a load on the circuit before its RCD was timed": State(
        job(answered(), supply(), took(ZS2, 1.4, 90)),
        slot(Quantity.RCD_LOADED, LIVE, "C2"),
        Lock.LOAD,
    ),
}
"""The ways round that were tried once, and more of their kind."""


def true_entry(where: Slot) -> Figure | Tick:
    """Return a reading as a sound job would show it in a slot."""
    if where.quantity in (Quantity.POLARITY, Quantity.RCD_LOADED):
        return Tick(good=True)
    values = {
        Quantity.ZE: 0.35,
        Quantity.FAULT_LN: 2.2,
        Quantity.ZDB: 0.43,
        Quantity.R1_R2: 0.3,
        Quantity.RCD_TIME: 24.0,
        Quantity.LOAD_CURRENT: 10.0,
    }
    return Figure(value=values.get(where.quantity, 1.2))
