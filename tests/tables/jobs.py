"""Records that between them make use of every published table: invented, one thing each."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache

from records.model.fabric import Fabric
from records.model.reading import Quantity
from records.model.record import Record
from records.model.slots import slots
from records.tables.table import table
from records.terms import DeviceKind, EarthingLaid, Stage
from tests.expected.jobs import ARMOUR, BOTH, FLAT, PVC, XLPE, circuit, device, job, ring, run
from tests.judgement.fabric.walls import WALL, leg
from tests.judgement.jobs import ISLAND, SOUND, at, sound_job, spoilt

SINGLES = "single cores in conduit or trunking, 70 °C"
FLEX = "flexible cable, 60 °C"
SEPARATE = "a separate conductor"


def _feed(fuse: str = "BS 88-3 fuse", rating: float = 63.0, **laid: object) -> Record:
    cable = str(laid.pop("cable", XLPE))
    csa = float(str(laid.pop("csa", 16.0)))
    more = {"method": "D", "ambient": 25.0, "cores": 3, **laid}
    feed = {"device": device(fuse, rating), "runs": [run(cable, csa, 40.0, **more)]}
    return job(feed=feed)


def _final(kind: str, rating: float, **more: object) -> Record:
    breaking = {"breaking": more.pop("breaking")} if "breaking" in more else {}
    return job(circuits=[circuit(device=device(kind, rating, **breaking), **more)])


_RATING = {DeviceKind.BS_1361: 30.0, DeviceKind.BS_3036: 30.0, DeviceKind.BS_1362: 13.0}


@cache
def records() -> tuple[Record, ...]:
    """Return them all; the plainest last, so that a table is tried on what needs it most."""
    return tuple(_records())


def _records() -> Iterator[Record]:
    for fuse in DeviceKind:
        rating = _RATING.get(fuse, 20.0)
        yield _feed(fuse.value, rating)
        yield _final(fuse.value, rating)
    for cable in (XLPE, PVC):
        for cpc in (ARMOUR, BOTH):
            yield _feed(cable=cable, csa=6.0, cpc=cpc)
    yield _feed(grouped=2, soil=2.0, depth=1.0)
    yield _feed(grouped=2, soil=2.0, depth=1.0, duct=True, gap=0.25)
    yield _feed(hot_terminals=True, method="E", ambient=40.0)
    yield _feed("BS 3036 fuse", 60.0)
    yield _feed(csa=50.0)
    yield _final(DeviceKind.BS_1361.value, 30.0, runs=[run(SINGLES, 25.0, method="B", grouped=2)])
    for size, cpc in ((4.0, 1.5), (25.0, 4.0)):
        apart = {"cpc": SEPARATE, "cpc_csa": cpc, "protected": False, "method": "B"}
        yield _final("circuit-breaker type C", 32.0, runs=[run(SINGLES, size, 15.0, **apart)])
    yield _final("circuit-breaker type B", 16.0, runs=[run(FLEX, 2.5, method="E", ambient=35.0)])
    yield _final("circuit-breaker type B", 16.0, runs=[run(FLAT, 1.5, method="B", insulated=100.0)])
    yield _final("circuit-breaker type C", 16.0, runs=[run(FLAT, 1.5, 3.0, method="100")])
    yield _final("circuit-breaker type B", 45.0)
    yield _final("circuit-breaker type B", 32.0, breaking=None)
    meter = SOUND.job.instruments[0].model_copy(update={"uncertainty": None})
    yield spoilt(
        (at(Quantity.ZS, "C2", Stage.LIVE), 0.75),
        record=sound_job(
            SOUND.model_copy(update={"job": SOUND.job.model_copy(update={"instruments": (meter,)})})
        ),
    )
    yield job(
        feed={
            "device": device("BS 88-3 fuse", 63.0),
            "loading": "after household diversity",
            "runs": [run(XLPE, 10.0, 30.0, method="D", ambient=20.0)],
        },
        circuits=[
            ring(),
            circuit("C2"),
            circuit("C3", use="lighting", load=4.0),
            circuit("C4", use="fixed appliance", power=5.0),
            circuit("C5", use="fixed appliance", power=9.0, kind="cooking", cooker_socket=True),
        ],
    )
    for earthing in ("TN-C-S", "TN-S"):
        yield job(
            origin={"earthing": earthing, "neutral_csa": 50.0},
            board={
                "earth": "carried over by the feed",
                "metal_in_ground": True,
                "earthing_csa": 16.0,
                "bonds": [{"id": "B1", "csa": 6.0, "length": 3.0}],
            },
        )
    for delayed in (False, True):
        rcd = {"residual": 30.0, "type": "A", "delayed": delayed}
        older = {**rcd, "standard": "bs-4293", "delay": 100.0}
        for each in (rcd, older):
            yield job(origin={"earthing": "TT", "ze": 90.0}, board={"rcd": each})
    for laid in (EarthingLaid.SHEATHED, EarthingLaid.BARE):
        board = ISLAND.board.model_copy(update={"earthing_laid": laid, "earthing_csa": 10.0})
        yield ISLAND.model_copy(update={"board": board})
    for kept in (True, False):
        apart = {"cpc": SEPARATE, "cpc_csa": 1.5, "protected": kept}
        yield _final("circuit-breaker type B", 16.0, runs=[run(FLAT, 2.5, **apart)])
    late = SOUND.job.model_copy(update={"started": date(2026, 11, 1)})
    yield SOUND.model_copy(update={"job": late})
    yield from _clipped()
    for whole in (SOUND, ISLAND):
        yield sound_job(whole)
        yield low(whole)


def _clipped() -> Iterator[Record]:
    """Cables of every listed size with supports and bends entered, along and up."""
    for kind in (FLAT, XLPE):
        for row in table("overall_flat" if kind is FLAT else "overall_armoured").cells:
            csa, cores = float(row[-1]), int(row[0][0]) if len(row) > 1 else 2
            method = "C" if kind is FLAT else "E"
            laid = run(kind, csa, 20.0, method=method, cores=cores)
            record = _final("circuit-breaker type B", 16.0, runs=[laid])
            for rise in (0.0, 1500.0):
                one = leg(circuit="C1", to_along=500.0 if rise else 2500.0, to_up=800.0 + rise)
                one = one.model_copy(update={"clips": 500.0, "bend": 20.0})
                fabric = Fabric(surfaces=(WALL,), legs=(one,))
                yield record.model_copy(update={"fabric": fabric})


def low(whole: Record) -> Record:
    """Return a job whose readings are all over their limits, or close to them."""
    done = sound_job(whole)
    taken = {each.slot for each in done.readings}
    changes = [
        (each, value)
        for each in slots(whole)
        for quantity, value in _POOR.items()
        if each.quantity is quantity and each in taken
    ]
    return spoilt(*changes, record=done)


_POOR = {
    Quantity.IR_LE: 1.1,
    Quantity.ZS: 1.0,
    Quantity.RCD_TIME: 290.0,
    Quantity.ELECTRODE: 450.0,
    Quantity.VOLTAGE: 215.0,
    Quantity.R1_R2: 0.6,
    Quantity.ZDB: 1.2,
}
