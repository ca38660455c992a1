"""The columns of a feed say what the review says of the same design, in simulated jobs."""

from __future__ import annotations

import random

import pytest

from records.expected.plan import expected
from records.judgement.design.all_checks import design_lines
from records.judgement.facts import Facts
from records.model.circuit import Circuit, Point
from records.model.outbuilding import Board, Feed
from records.model.record import Record
from records.model.supply import Ground, Origin
from records.model.wiring import Device, Rcd, Run
from records.options.assumptions import assumed
from records.options.cell import Check
from records.options.feed import feed_options, with_cable
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    Earthing,
    Form,
    Method,
    OutbuildingEarth,
    RcdType,
    Use,
    Verdict,
)

pytestmark = pytest.mark.slow

FIGURES = {
    Check.LOAD: "Ib",
    Check.RATING: "Iz",
    Check.DROP: "voltage drop",
    Check.LOOP: "Zs",
    Check.TIME: "disconnection time, overcurrent device",
    Check.CPC: "cpc size",
}
BEHIND = (Check.DROP, Check.LOOP, Check.TIME)
"""What the feed decides of the circuits too."""
GRAVEST = (
    Verdict.OUTSIDE,
    Verdict.NOT_TAKEN,
    Verdict.NEAR,
    Verdict.NOT_NEEDED,
    Verdict.WITHIN,
)
FINALS = {
    Use.LIGHTING: ((1.0, 6.0), (1.5, 6.0)),
    Use.SOCKETS: ((2.5, 20.0), (4.0, 20.0)),
    Use.FIXED: ((2.5, 16.0), (4.0, 20.0), (6.0, 32.0)),
}
HOUSE = {
    DeviceKind.BS_88_2: (32.0, 40.0, 63.0),
    DeviceKind.BS_88_3: (32.0, 45.0, 63.0),
    DeviceKind.BREAKER_B: (20.0, 32.0, 50.0),
    DeviceKind.BREAKER_C: (20.0, 32.0),
}


def flat(csa, length):
    return Run(
        cable=CableKind.FLAT, csa=csa, cpc=Cpc.CORE, length=length, method=Method.C, ambient=30.0
    )


def final(chance, number):
    use = chance.choice(list(Use))
    csa, rating = chance.choice(FINALS[use])
    form = Form.RADIAL
    if use is Use.SOCKETS and chance.random() < 0.4:
        form, csa, rating = Form.RING, 2.5, 32.0
    length = round(chance.uniform(3, 60), 1)
    kinds = (DeviceKind.RCBO_B, DeviceKind.RCBO_C, DeviceKind.BREAKER_B)
    count = chance.randint(0, 4)
    points = tuple(
        Point(id=f"P{at}", at=round(length * at / count, 1), load=chance.choice([None, 0.5]))
        for at in range(1, count + 1)
    )
    return Circuit(
        id=f"C{number}",
        use=use,
        form=form,
        device=Device(kind=chance.choice(kinds), rating=rating, breaking=6.0),
        rcd=Rcd(residual=30.0, type=RcdType.A),
        load=chance.uniform(0.3, rating),
        runs=(flat(csa, length),),
        points=points,
    )


def simulated(seed):
    """Return a job all of which is entered but the cable of the last run of its feed."""
    chance = random.Random(seed)
    earthing = chance.choice([Earthing.TN_S, Earthing.TN_C_S, Earthing.TT])
    earth = chance.choice([*[OutbuildingEarth.CARRIED_OVER] * 3, OutbuildingEarth.OWN_ELECTRODE])
    known = chance.random() < 0.7
    kind = chance.choice(list(HOUSE))
    rating = chance.choice(HOUSE[kind])
    method = chance.choice([Method.D, Method.C, Method.E])
    runs = [Run(length=round(chance.uniform(3, 90), 1), method=method, ambient=20.0)]
    if chance.random() < 0.4:
        runs.insert(0, flat(chance.choice([6.0, 10.0, 16.0]), round(chance.uniform(2, 10), 1)))
    delayed = Rcd(residual=100.0, type=RcdType.A, delayed=True)
    return Record(
        origin=Origin(
            earthing=earthing,
            ze=chance.uniform(5, 90) if earthing is Earthing.TT else chance.uniform(0.1, 0.7),
            ze_ground=Ground.MEASURED if known else Ground.DECLARED,
            fault_current=chance.uniform(0.4, 6) if known else None,
            fault_current_ground=Ground.MEASURED if known else None,
        ),
        feed=Feed(
            device=Device(kind=kind, rating=rating, breaking=80.0),
            rcd=delayed if earthing is Earthing.TT else Rcd.blank(),
            load=chance.choice([None, chance.uniform(5, rating)]),
            runs=tuple(runs),
        ),
        board=Board(
            main_switch=100.0,
            earth=earth,
            rcd=delayed if earth is OutbuildingEarth.OWN_ELECTRODE else Rcd.blank(),
            metal_in_ground=chance.choice([True, False, None]),
        ),
        circuits=tuple(final(chance, at) for at in range(1, chance.randint(2, 6))),
    )


def in_review(record, check):
    """Return the gravest verdict of the review's lines that a column is made of."""
    lines = design_lines(Facts.of(record, expected(record)))
    island = record.board.earth is OutbuildingEarth.OWN_ELECTRODE
    parts = {"feed"}
    if check in BEHIND and (check is Check.DROP or not island):
        parts.add("circuit")
    found = [
        each.verdict
        for each in lines
        if each.what is not None
        and each.what.value == FIGURES[check]
        and each.key.split("/")[0] in parts
    ]
    return min(found, key=GRAVEST.index)


@pytest.mark.parametrize("seed", range(12))
def test_each_column_has_the_gravest_verdict_of_its_lines_in_the_review(seed):
    record = simulated(seed)
    at = len(record.feed.runs) - 1
    options = feed_options(record, at).options
    ready = assumed(record).record
    for option in random.Random(seed).sample(options, 3):
        tried = with_cable(ready, at, option.make)
        for cell in option.cells:
            if cell.check in FIGURES:
                assert cell.verdict is in_review(tried, cell.check), (option.make, cell.why)
