"""Jobs to choose a feed for: only what the choice needs, invented."""

from __future__ import annotations

from typing import Any

from records.model.circuit import Circuit
from records.model.outbuilding import Board, Feed
from records.model.record import Record
from records.model.supply import Ground, Origin
from records.model.wiring import Device, Run
from records.terms import DeviceKind, Earthing, Method, OutbuildingEarth
from tests.judgement.jobs import HEATER, LIGHTS

BURIED = Run(length=40.0, method=Method.D, ambient=20.0)


def job(
    run: Run = BURIED,
    *,
    kind: DeviceKind = DeviceKind.BS_88_2,
    rating: float = 32.0,
    load: float | None = 25.0,
    earthing: Earthing = Earthing.TN_S,
    ze: float = 0.35,
    earth: OutbuildingEarth = OutbuildingEarth.CARRIED_OVER,
    circuits: tuple[Circuit, ...] = (HEATER, LIGHTS),
    **board: Any,
) -> Record:
    """Return a job with one run of feed that has no cable yet."""
    return Record(
        origin=Origin(
            earthing=earthing,
            ze=ze,
            ze_ground=Ground.MEASURED,
            fault_current=1.2,
            fault_current_ground=Ground.MEASURED,
        ),
        feed=Feed(device=Device(kind=kind, rating=rating, breaking=80.0), load=load, runs=(run,)),
        board=Board(earth=earth, **board),
        circuits=circuits,
    )
