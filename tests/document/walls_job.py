"""A north wall of our own making, with a slope, a door, two circuits and one bad route."""

from __future__ import annotations

from records.model.fabric import (
    Box,
    Fabric,
    Fixture,
    Frame,
    Hole,
    Leg,
    Spot,
    Surface,
    SurfaceKind,
    Timber,
)
from tests.judgement.jobs import circuit, sound_job

NORTH = Surface(
    id="W1",
    name="North wall, inside",
    kind=SurfaceKind.WALL,
    width=4800.0,
    height=2400.0,
    height_far=2100.0,
    thick=140.0,
    board=12.5,
    frame=Frame.TIMBER,
    centres=600.0,
    first_stud=300.0,
    frame_depth=95.0,
    other_side="W2",
)
OUTSIDE = Surface(id="W2", name="North face", kind=SurfaceKind.OUTSIDE, width=5080.0, height=2500.0)


def _spot(along, up, box=Box.TWO_GANG, **more):
    return Spot(surface="W1", along=float(along), up=float(up), box=box, **more)


def _leg(id, circuit, x0, y0, x1, y1, **more):
    return Leg(
        id=id,
        circuit=circuit,
        surface="W1",
        along=float(x0),
        up=float(y0),
        to_along=float(x1),
        to_up=float(y1),
        deep=40.0,
        **more,
    )


def walls():
    record = sound_job()
    spots = (
        _spot(900, 450),
        _spot(1900, 450),
        _spot(1400, 1100),
        _spot(2900, 450, Box.ONE_GANG),
        _spot(4550, 450),
    )
    points = tuple(
        each.model_copy(update={"spot": spot})
        for each, spot in zip(record.circuit("C1").points, spots, strict=True)
    )
    record = circuit(record, "C1", points=points)
    lamp = (
        record.circuit("C3")
        .points[0]
        .model_copy(update={"name": "L1", "spot": _spot(2400, 1900, Box.ROUND)})
    )
    record = circuit(record, "C3", points=(lamp,))
    hole = Hole(timber=Timber.STUD, at=200.0, size=20.0, deep=95.0, from_face=37.5)
    legs = (
        _leg("L1", "C1", 450, 1400, 450, 490),
        _leg("L2", "C1", 450, 490, 2900, 490, holes=(hole,)),
        _leg("L3", "C1", 1400, 1100, 1400, 2230),
        _leg("L4", "C3", 450, 1550, 450, 2300),
        _leg("L5", "C3", 450, 2300, 2400, 2180),
        _leg("L6", "C3", 2400, 2180, 2400, 1960),
        _leg("L7", "C2", 450, 800, 2500, 800),
    )
    fixtures = (
        Fixture(id="X1", name="Board", spot=_spot(450, 1400, Box.BOARD)),
        Fixture(
            id="X2",
            name="Door",
            is_opening=True,
            spot=Spot(surface="W1", along=3800.0, up=0.0, width=800.0, height=2000.0),
        ),
        Fixture(
            id="X3",
            name="Lamp <out> & co",
            spot=Spot(surface="W2", along=1000.0, up=2000.0, box=Box.ONE_GANG),
        ),
    )
    fabric = Fabric(surfaces=(NORTH, OUTSIDE), fixtures=fixtures, legs=legs)
    return record.model_copy(update={"fabric": fabric})
