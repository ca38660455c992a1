"""Jobs with any number of circuits, each with its own data: no two alike."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

from records.demo import demo_record
from records.expected.plan import expected
from records.expected.results import Result, Worked
from records.model.circuit import Circuit, Point
from records.model.reading import Figure, NotTaken, Reading, Slot, Tick
from records.model.record import Record
from records.model.slots import measured_by, slots
from records.model.wiring import Device, Rcd, Run
from records.terms import CableKind, Cpc, DeviceKind, Form, Method, RcdType, Sign, Use
from records.units import Unit

_ROOMS = (
    "store",
    "workshop",
    "loft",
    "wash house",
    "lean-to",
    "porch",
    "dark room",
    "kiln",
    "yard",
)
_THINGS = (
    "sockets",
    "bench lights",
    "kiln controller",
    "pump",
    "extractor",
    "panel heater",
    "compressor",
    "router table",
    "fridge",
    "charger shelf",
    "gate motor",
    "frost heater for the long tank",
)
_RATINGS = (6.0, 10.0, 16.0)
_START = datetime(2026, 4, 6, 8, 0, tzinfo=UTC)


def job_of(count: int, *, seed: int = 1) -> Record:
    """Return a job with `count` circuits, each with its own data, and readings of nearly all.

    The figures are those that the design gives, a little off as a meter is. One in about sixty
    readings is missing, one in eighty could not be taken, one RCD in twenty is too slow.
    """
    chance = random.Random(seed)
    base = demo_record()
    circuits = tuple(_circuit(at, chance) for at in range(1, count + 1))
    bare = base.model_copy(
        update={"circuits": circuits, "readings": (), "remedies": (), "fabric": type(base.fabric)()}
    )
    readings = tuple(_readings(bare, chance))
    return Record.model_validate(
        bare.model_copy(update={"readings": readings}).model_dump(mode="python")
    )


def _circuit(at: int, chance: random.Random) -> Circuit:
    ring = at % 8 == 1
    use = Use.SOCKETS if ring else (Use.LIGHTING, Use.FIXED, Use.SOCKETS)[at % 3]
    length = round(chance.uniform(5, 28), 1)
    points = tuple(
        Point(
            id=f"P{n}",
            name=f"{chance.choice(_THINGS)} {at}.{n}",
            room=chance.choice(_ROOMS),
            at=round(length * n / 4, 1),
        )
        for n in range(1, 4 if ring else chance.choice((2, 3)))
    )
    rating = 32.0 if ring else chance.choice(_RATINGS)
    kind = DeviceKind.RCBO_B
    return Circuit(
        id=f"C{at}",
        name=f"{chance.choice(_ROOMS).capitalize()}: {chance.choice(_THINGS)} {at}",
        use=use,
        form=Form.RING if ring else Form.RADIAL,
        device=Device(kind=kind, rating=rating, breaking=chance.choice((6.0, 10.0))),
        rcd=Rcd(residual=30.0, type=chance.choice((RcdType.A, RcdType.AC, RcdType.F))),
        load=round(rating * chance.uniform(0.1, 0.3), 1),
        outdoors=at % 5 == 0,
        hidden=at % 2 == 0,
        runs=(
            Run(
                where=f"route {at}: {chance.choice(_ROOMS)} wall",
                cable=CableKind.FLAT,
                csa=2.5 if rating > 10 else 1.5,
                cpc=Cpc.CORE,
                length=length,
                method=Method.C,
            ),
        ),
        points=points,
    )


def _readings(record: Record, chance: random.Random) -> Iterator[Reading]:
    number = 0
    due = expected(record).meter
    for slot in slots(record):
        if chance.random() < 1 / 60:
            continue
        number += 1
        yield Reading(
            id=f"R{number}",
            slot=slot,
            taken=_taken(slot, chance, number, due.get(slot)),
            at=_START + timedelta(minutes=2 * number),
            by="P2",
            instrument="M1",
            test_voltage=500.0 if measured_by(slot).unit is Unit.MEGOHM else None,
        )


def _taken(slot: Slot, chance: random.Random, number: int, due: Result | None) -> Any:
    entry = measured_by(slot)
    if chance.random() < 1 / 80:
        return NotTaken(reason=f"no access to it on the day ({number})")
    if entry.is_check:
        return Tick(good=True)
    if entry.unit is Unit.MEGOHM:
        return Figure(value=999.0, sign=Sign.OVER)
    if entry.unit is Unit.MILLISECOND:
        slow = chance.random() < 0.05
        return Figure(value=float(chance.randrange(310, 380) if slow else chance.randrange(14, 39)))
    if entry.unit is Unit.VOLT:
        return Figure(value=float(chance.randrange(234, 242)))
    value = due.value if isinstance(due, Worked) else 0.02
    return Figure(value=round(value * chance.uniform(0.98, 1.02), entry.digits))
