"""Outbuildings at random, what they really are, and what a meter makes of that.

Physics of our own, apart from the program's: resistances of IEC 60228 and of armour (BS 5467, as
makers print it), 0.00393 and 0.0045 per kelvin, runs in series. Cable is up to 6 % better than the
table; a meter is off by a gain that stays for the job, by scatter and by its last digits, inside
what data sheets of testers and BS EN 61557 allow.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from records.model.circuit import Circuit, Point
from records.model.outbuilding import Board, Feed
from records.model.reading import Figure, Quantity, Slot, Tick
from records.model.record import Record
from records.model.slots import measured_by
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
    Use,
)
from records.units import Unit
from tests.judgement.jobs import SOUND, Taken, _taken, answers, flat, over, read

COPPER = {1.0: 18.1, 1.5: 12.1, 2.5: 7.41, 4.0: 4.61, 6.0: 3.08, 10.0: 1.83, 16.0: 1.15}
ARMOUR = {
    (2, 6.0): 7.0,
    (2, 10.0): 6.0,
    (2, 16.0): 3.7,
    (3, 6.0): 6.7,
    (3, 10.0): 4.0,
    (3, 16.0): 3.5,
}
IN_FLAT = {1.0: 1.0, 1.5: 1.0, 2.5: 1.5, 6.0: 2.5, 10.0: 4.0, 16.0: 6.0}
FEEDS = {6.0: 25.0, 10.0: 32.0, 16.0: 50.0}
DELAYED = Rcd(residual=100.0, type=RcdType.A, delayed=True)
PERSONS = Rcd(residual=30.0, type=RcdType.A)
Change = Callable[[Slot, Taken], Taken | None]


def figure(value: float) -> Figure:
    return Figure(value=round(float(value), 2))


def per_metre(run: Run, theta: float) -> tuple[float, float]:
    """Return line and cpc of a cable [Ω/m]."""
    assert run.csa is not None
    copper, steel = 1 + 0.00393 * (theta - 20), 1 + 0.0045 * (theta - 20)
    line = COPPER[run.csa] * copper / 1000
    core = COPPER[IN_FLAT[run.csa] if run.cable is CableKind.FLAT else run.csa] * copper / 1000
    if run.cpc in (Cpc.ARMOUR, Cpc.CORE_AND_ARMOUR):
        armour = ARMOUR[run.cores, run.csa] * steel / 1000
        return line, armour if run.cpc is Cpc.ARMOUR else core * armour / (core + armour)
    return line, 0.0 if run.cpc is Cpc.NONE else core


def outbuilding(chance: random.Random) -> Record:
    """Return the design of an outbuilding, with nothing read."""
    earthing = chance.choice([Earthing.TN_S, Earthing.TN_C_S, Earthing.TN_C_S, Earthing.TT])
    island = chance.random() < (0.5 if earthing is Earthing.TT else 0.3)
    least, most = {
        Earthing.TN_S: (0.2, 0.6),
        Earthing.TN_C_S: (0.12, 0.3),
        Earthing.TT: (25.0, 120.0),
    }[earthing]
    csa, cores = chance.choice([6.0, 10.0, 16.0]), chance.choice([2, 3, 3])
    cpc = (
        Cpc.NONE
        if island
        else Cpc.ARMOUR
        if cores == 2
        else chance.choice([Cpc.CORE, Cpc.CORE_AND_ARMOUR, Cpc.ARMOUR])
    )
    runs = [
        Run(
            cable=CableKind.SWA_XLPE,
            cores=cores,
            csa=csa,
            cpc=cpc,
            method=Method.D,
            ambient=20.0,
            length=round(chance.uniform(8, 40), 1),
        )
    ]
    if chance.random() < 0.4:
        indoors = flat(csa, round(chance.uniform(4, 12), 1))
        runs.insert(0, indoors.model_copy(update={"cpc": Cpc.NONE}) if island else indoors)
    tt = island or earthing is Earthing.TT
    own = chance.random() < 0.6 or tt
    rcd = Rcd.blank() if own and not island else DELAYED if own else PERSONS
    return SOUND.model_copy(
        update={
            "job": SOUND.job.model_copy(update={"ambient": chance.choice([5.0, 10.0, 20.0, 25.0])}),
            "origin": Origin(
                earthing=earthing,
                ze=round(chance.uniform(least, most), 2),
                ze_ground=Ground.MEASURED,
                fault_current=16.0,
                fault_current_ground=Ground.DECLARED,
            ),
            "feed": Feed(
                device=Device(kind=DeviceKind.BS_88_2, rating=FEEDS[csa], breaking=80.0),
                rcd=DELAYED if earthing is Earthing.TT else Rcd.blank(),
                load=22.0,
                runs=tuple(runs),
            ),
            "board": Board(
                place="By the door",
                main_switch=63.0,
                surge_protection=False,
                metal_in_ground=False,
                earthing_csa=16.0,
                rcd=rcd,
                electrode="rod" if island else "",
                earth=OutbuildingEarth.OWN_ELECTRODE if island else OutbuildingEarth.CARRIED_OVER,
                earthing_laid=EarthingLaid.PROTECTED if island else None,
            ),
            "circuits": _circuits(chance, own=own),
        }
    )


def _circuits(chance: random.Random, *, own: bool) -> tuple[Circuit, ...]:
    def device(rating: float) -> dict[str, Any]:
        kind = DeviceKind.RCBO_B if own else DeviceKind.BREAKER_B
        return {
            "device": Device(kind=kind, rating=rating, breaking=10.0),
            "rcd": PERSONS if own else Rcd.blank(),
        }

    around = round(chance.uniform(28, 55), 1)
    ats = [round(around * share, 1) for share in (0.1, 0.3, 0.5, 0.65, 0.9)]
    points = [Point(id=f"P{n}", name=f"S{n}", at=at) for n, at in enumerate(ats, start=1)]
    if chance.random() < 0.5:
        points.append(Point(id="P6", name="S6", at=ats[2], spur=round(chance.uniform(2, 6), 1)))
    radial, lights, heater = (
        round(chance.uniform(*ends), 1) for ends in ((5, 18), (6, 28), (3, 12))
    )
    common: dict[str, Any] = {"outdoors": False, "hidden": True}
    return (
        Circuit(
            id="C1",
            name="Ring",
            use=Use.SOCKETS,
            form=Form.RING,
            points=tuple(points),
            runs=(flat(2.5, around),),
            **common,
            **device(32.0),
        ),
        Circuit(
            id="C2",
            name="Bench",
            use=Use.SOCKETS,
            form=Form.RADIAL,
            load=8.0,
            runs=(flat(2.5, radial),),
            points=(Point(id="P1", at=radial),),
            **common,
            **device(16.0),
        ),
        Circuit(
            id="C3",
            name="Lights",
            use=Use.LIGHTING,
            form=Form.RADIAL,
            load=0.8,
            runs=(flat(1.5, lights),),
            points=(Point(id="P1", at=lights),),
            **common,
            **device(6.0),
        ),
        Circuit(
            id="C4",
            name="Heater",
            use=Use.FIXED,
            form=Form.FCU,
            power=2.0,
            fuse=13.0,
            runs=(flat(2.5, heater),),
            points=(Point(id="P1", at=heater),),
            **common,
            **device(16.0),
        ),
    )


@dataclass
class Real:
    """What an outbuilding is: cables better than the table, a soil, a supply."""

    record: Record
    chance: random.Random
    cable: dict[str | None, float] = field(default_factory=dict)
    electrode: float = 0.0
    ze: float = 0.0
    neutral: float = 0.0

    def __post_init__(self) -> None:
        for each in (None, *(each.id for each in self.record.circuits)):
            self.cable[each] = self.chance.uniform(0.94, 1.0)
        self.electrode = self.chance.uniform(20, 150)
        self.ze = (self.record.origin.ze or 0.0) * self.chance.uniform(0.97, 1.03)
        pme = self.record.origin.earthing is Earthing.TN_C_S
        self.neutral = self.ze if pme else self.chance.uniform(0.1, 0.3)

    def along(self, circuit: Circuit | None, at: float = 1e9) -> tuple[float, float]:
        """Return line and cpc from the board to a distance [Ω]."""
        runs = self.record.feed.runs if circuit is None else circuit.runs
        line = back = 0.0
        for run in runs:
            part = min(run.length or 0.0, max(at, 0.0))
            at -= part
            one, other = per_metre(run, self.record.job.ambient or 20.0)
            line, back = line + one * part, back + other * part
        share = self.cable[None if circuit is None else circuit.id]
        return line * share, back * share

    def spur(self, circuit: Circuit, point: Point, *, earth: bool) -> float:
        line, back = per_metre(circuit.runs[0], self.record.job.ambient or 20.0)
        return (line + (back if earth else line)) * (point.spur or 0.0) * self.cable[circuit.id]

    def crossed(self, circuit: Circuit, point: Point, *, earth: bool) -> float:
        """Return what a point of a ring shows with opposite legs joined [Ω]."""
        whole, before = self.along(circuit), self.along(circuit, point.at or 0.0)
        other = 1 if earth else 0
        one = before[0] + whole[other] - before[other]
        two = whole[0] - before[0] + before[other]
        return one * two / (one + two) + self.spur(circuit, point, earth=earth)

    def r1_r2(self, circuit: Circuit) -> float:
        line, back = self.along(circuit)
        if circuit.form is not Form.RING:
            return line + back
        found = []
        for point in circuit.points:
            to_line, to_back = self.along(circuit, point.at or 0.0)
            ring = to_line * (line - to_line) / line + to_back * (back - to_back) / back
            found.append(ring + self.spur(circuit, point, earth=True))
        return max(found)

    def zdb(self) -> float:
        line, back = self.along(None)
        if self.record.board.earth is OutbuildingEarth.OWN_ELECTRODE:
            return self.electrode + line + 5.0
        return self.ze + line + back

    def value(self, slot: Slot) -> float:
        """Return what is there to read: Ω, kA, V or ms."""
        at_board = slot.place.part is Part.BOARD
        circuit = self.record.circuit(slot.place.circuit) if slot.place.circuit else None
        match slot.quantity:
            case Quantity.R1_R2 if circuit is None:
                return sum(self.along(None))
            case Quantity.R1_RN:
                return 2 * self.along(None)[0]
            case Quantity.ELECTRODE:
                return self.electrode
            case Quantity.ZE:
                return self.ze
            case Quantity.ZDB:
                return self.zdb()
            case Quantity.VOLTAGE:
                return self.chance.uniform(232, 244)
            case Quantity.FAULT_LN:
                return 0.235 / (self.neutral + (2 * self.along(None)[0] if at_board else 0.0))
            case Quantity.FAULT_LE:
                return 0.235 / (self.zdb() if at_board else self.ze)
            case Quantity.RCD_TIME:
                part = self.record.board if at_board else circuit or self.record.feed
                return self.chance.uniform(*((160, 330) if part.rcd.delayed else (16, 38)))
        return 0.01 if circuit is None else self._on(circuit, slot)

    def _on(self, circuit: Circuit, slot: Slot) -> float:
        match slot.quantity:
            case Quantity.R1 | Quantity.RN:
                return self.along(circuit)[0]
            case Quantity.R2:
                return self.along(circuit)[1]
            case Quantity.CROSS_LN | Quantity.CROSS_LE:
                point = next(each for each in circuit.points if each.id == slot.place.point)
                return self.crossed(circuit, point, earth=slot.quantity is Quantity.CROSS_LE)
            case Quantity.ZS:
                return self.zdb() + self.r1_r2(circuit)
        return self.r1_r2(circuit)


class Meter:
    """One tester: off by a share of its own, the same in all readings, and by its last digits."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.gain = {
            kind: 1 + chance.uniform(-most, most)
            for kind, most in {"low": 0.02, "loop": 0.04, "earth": 0.03, "current": 0.05}.items()
        }

    def shows(self, slot: Slot, value: float) -> float:
        """Return what it shows."""
        unit, quantity = measured_by(slot).unit, slot.quantity
        some = self.chance.uniform
        if unit in (Unit.VOLT, Unit.MILLISECOND):
            return round(value, 1)
        if unit is Unit.KILOAMPERE:
            return round(value * self.gain["current"] * some(0.99, 1.01), 2)
        if quantity is Quantity.ELECTRODE:
            return round(value * self.gain["earth"] * some(0.98, 1.02), 1)
        if quantity in (Quantity.ZE, Quantity.ZDB, Quantity.ZS):
            found = value * self.gain["loop"] * some(0.99, 1.01)
            return round(found, 1) if value > 10 else round(found + some(-0.02, 0.02), 2)
        return max(0.0, round(value * self.gain["low"] + some(-0.01, 0.02), 2))


def read_all(real: Real, change: Change = lambda _slot, _taken: None) -> Record:
    """Return the record with all its readings, some of them as a fault changes them."""
    meter = Meter(real.chance)
    found = []
    for count, slot in enumerate(_taken(real.record), start=1):
        entry = measured_by(slot)
        taken: Taken = Tick(good=True) if entry.is_check else over(999.0)
        if not entry.is_check and entry.unit is not Unit.MEGOHM:
            taken = figure(meter.shows(slot, real.value(slot)))
        changed = change(slot, taken)
        found.append(read(count, slot, taken if changed is None else changed))
    readings = tuple(found)
    return real.record.model_copy(update={"readings": readings, "live_gate": answers(readings)})


def made(seed: int) -> Real:
    """Return an outbuilding by its number."""
    chance = random.Random(seed)
    return Real(outbuilding(chance), chance)
