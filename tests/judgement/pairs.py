"""Pairs of entries that constrain each other: `PAIRS`, with a pair that can't be and one that can.

At the edge where there is one. Sources stand beside them; where none does it is common practice, or
no more than arithmetic.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from records.model.outbuilding import Bond
from records.model.record import Record
from records.model.wiring import Device, Rcd
from records.terms import (
    CableKind,
    Cpc,
    DeviceKind,
    EarthingLaid,
    Form,
    Method,
    RcdStandard,
    RcdType,
    Use,
)
from tests.judgement.jobs import ISLAND, SOUND, circuit, flat

FEED_RUN = SOUND.feed.runs[0]


def feed(**changes: Any) -> Record:
    return SOUND.model_copy(update={"feed": SOUND.feed.model_copy(update=changes)})


def feed_run(**changes: Any) -> Record:
    return feed(runs=(FEED_RUN.model_copy(update=changes),))


def in_circuit(**changes: Any) -> Record:
    return circuit(SOUND, "C2", runs=(flat(2.5, 18.0).model_copy(update=changes),))


def heater(**changes: Any) -> Record:
    return circuit(SOUND, "C4", **changes)


def origin(**changes: Any) -> Record:
    return SOUND.model_copy(update={"origin": SOUND.origin.model_copy(update=changes)})


def board(whole: Record = SOUND, **changes: Any) -> Record:
    return whole.model_copy(update={"board": whole.board.model_copy(update=changes)})


def separate(size: float, protected: bool | None) -> Record:
    return in_circuit(cpc=Cpc.SEPARATE, cpc_csa=size, protected=protected)


def old_rcd(**more: Any) -> Rcd:
    return Rcd(residual=100.0, type=RcdType.A, **more)


def island(size: float, laid: EarthingLaid | None) -> Record:
    return board(ISLAND, earthing_csa=size, earthing_laid=laid)


@dataclass(frozen=True)
class Pair:
    """Two entries: what can't be, what can, and the key and verdict of the finding."""

    key: str
    verdict: str
    bad: Callable[[], Record]
    good: Callable[[], Record]


FLEX = {"cable": CableKind.FLEX, "method": Method.E, "csa": 2.5}
PAIRS: dict[str, Pair] = {
    # IEC 61008-1, clause 5.3.2, preferred values of IΔn (from memory); labels say 0.03 A
    "IΔn, the values that are made": Pair(
        "circuit/C2/-/design/IΔn of the RCD",
        "unlikely",
        lambda: circuit(SOUND, "C2", rcd=Rcd(residual=0.03, type=RcdType.A)),
        lambda: circuit(SOUND, "C2", rcd=Rcd(residual=30.0, type=RcdType.A)),
    ),
    "IΔn of the RCD of the board": Pair(
        "board/-/-/design/IΔn of the RCD",
        "unlikely",
        lambda: board(rcd=Rcd(residual=101.0, type=RcdType.A)),
        lambda: board(rcd=Rcd(residual=100.0, type=RcdType.A)),
    ),
    # cores and cpc: two cores are line and neutral
    "cores of armoured cable, a core as cpc": Pair(
        "feed/-/-/design/core as cpc of run 1",
        "outside",
        lambda: feed_run(cores=2),
        lambda: feed_run(cores=3),
    ),
    "cores of armoured cable, core and armour as cpc": Pair(
        "feed/-/-/design/core as cpc of run 1",
        "outside",
        lambda: feed_run(cores=2, cpc=Cpc.CORE_AND_ARMOUR),
        lambda: feed_run(cores=2, cpc=Cpc.ARMOUR),
    ),
    "cores of flexible cable, a core as cpc": Pair(
        "circuit/C2/-/design/core as cpc of run 1",
        "outside",
        lambda: in_circuit(**FLEX, cores=2),
        lambda: in_circuit(**FLEX, cores=3),
    ),
    "cable, armour as cpc": Pair(
        "circuit/C2/-/design/armour of run 1",
        "outside",
        lambda: in_circuit(cpc=Cpc.ARMOUR),
        lambda: in_circuit(cpc=Cpc.CORE),
    ),
    "cable, fewest cores": Pair(
        "circuit/C2/-/design/cores of run 1",
        "unlikely",
        lambda: in_circuit(cores=1),
        lambda: in_circuit(cores=2),
    ),
    "cable, most cores": Pair(
        "circuit/C2/-/design/cores of run 1",
        "unlikely",
        lambda: in_circuit(cores=4),
        lambda: in_circuit(cores=3),
    ),
    "size of line, size of a core as cpc": Pair(
        "circuit/C2/-/design/cpc size of run 1",
        "unlikely",
        lambda: in_circuit(cpc_csa=4.0),
        lambda: in_circuit(cpc_csa=2.5),
    ),
    "cores of armoured cable are alike": Pair(
        "feed/-/-/design/cpc size of run 1",
        "unlikely",
        lambda: feed_run(cpc_csa=6.0),
        lambda: feed_run(cpc_csa=10.0),
    ),
    "armour alone, a size of cpc": Pair(
        "feed/-/-/design/cpc size of run 1",
        "unlikely",
        lambda: feed_run(cpc=Cpc.ARMOUR, cpc_csa=6.0),
        lambda: feed_run(cpc=Cpc.ARMOUR),
    ),
    # BS 7671, Regulation 543.1.1: 2.5 mm² protected, 4 mm² not (read in a maker's page)
    "separate cpc, protected": Pair(
        "circuit/C2/-/design/separate cpc of run 1",
        "outside",
        lambda: separate(1.5, True),
        lambda: separate(2.5, True),
    ),
    "separate cpc, not protected": Pair(
        "circuit/C2/-/design/separate cpc of run 1",
        "outside",
        lambda: separate(2.5, False),
        lambda: separate(4.0, False),
    ),
    "separate cpc, protection not entered": Pair(
        "circuit/C2/-/design/separate cpc of run 1",
        "not taken",
        lambda: separate(2.5, None),
        lambda: separate(4.0, None),
    ),
    "separate cpc, too thin in any case": Pair(
        "circuit/C2/-/design/separate cpc of run 1",
        "outside",
        lambda: separate(1.5, None),
        lambda: separate(4.0, None),
    ),
    # BS 7671, Table 4A2 and Regulation 522.8.10 (from memory)
    "cable, method in the ground": Pair(
        "circuit/C2/-/design/method of run 1",
        "outside",
        lambda: in_circuit(method=Method.D),
        lambda: in_circuit(method=Method.C),
    ),
    "cable, methods of flat cable": Pair(
        "feed/-/-/design/method of run 1",
        "outside",
        lambda: feed_run(method=Method.M102),
        lambda: feed_run(method=Method.C),
    ),
    "method, depth": Pair(
        "circuit/C2/-/design/ground of run 1",
        "unlikely",
        lambda: in_circuit(depth=0.5),
        lambda: feed_run(depth=0.5),
    ),
    "method, duct": Pair(
        "circuit/C2/-/design/ground of run 1",
        "unlikely",
        lambda: in_circuit(duct=True),
        lambda: feed_run(duct=True),
    ),
    "method, gap in the ground": Pair(
        "circuit/C2/-/design/ground of run 1",
        "unlikely",
        lambda: in_circuit(gap=0.25),
        lambda: feed_run(gap=0.25),
    ),
    "method, soil": Pair(
        "circuit/C2/-/design/ground of run 1",
        "unlikely",
        lambda: in_circuit(soil=1.0),
        lambda: feed_run(soil=1.0),
    ),
    "length, length in insulation": Pair(
        "circuit/C2/-/design/insulation round run 1",
        "unlikely",
        lambda: in_circuit(length=5.0, insulated=5001.0),
        lambda: in_circuit(length=5.0, insulated=5000.0),
    ),
    "cable, terminals for 90 °C": Pair(
        "circuit/C2/-/design/terminals of run 1",
        "unlikely",
        lambda: in_circuit(hot_terminals=True),
        lambda: feed_run(hot_terminals=True),
    ),
    # BS 7671, Table 54.7: as the line up to 16 mm² (read in a secondary copy)
    "earthing conductor, line of the feed": Pair(
        "board/-/-/design/earthing conductor",
        "outside",
        lambda: board(earthing_csa=1.5),
        lambda: board(earthing_csa=10.0),
    ),
    # 543.1.3, k 143: 560 A flow at least, the 40 A fuse opens in 0.4 s: 560 × √0.4 / 143 = 2.48
    "earthing conductor, line of the feed, by calculation": Pair(
        "board/-/-/design/earthing conductor",
        "near limit",
        lambda: board(earthing_csa=2.5),
        lambda: board(earthing_csa=10.0),
    ),
    "earthing conductor to an electrode, line of the feed": Pair(
        "board/-/-/design/earthing conductor",
        "near limit",
        lambda: island(6.0, EarthingLaid.NOT_BURIED),
        lambda: island(10.0, EarthingLaid.NOT_BURIED),
    ),
    # BS 7671, Table 54.1: 16 mm² sheathed, 25 mm² bare (read in a maker's page)
    "earthing conductor, sheathed in the ground": Pair(
        "board/-/-/design/earthing conductor in the ground",
        "outside",
        lambda: island(10.0, EarthingLaid.SHEATHED),
        lambda: island(16.0, EarthingLaid.SHEATHED),
    ),
    "earthing conductor, bare in the ground": Pair(
        "board/-/-/design/earthing conductor in the ground",
        "outside",
        lambda: island(16.0, EarthingLaid.BARE),
        lambda: island(25.0, EarthingLaid.BARE),
    ),
    "earthing conductor, how it lies not entered": Pair(
        "board/-/-/design/earthing conductor in the ground",
        "not taken",
        lambda: island(16.0, None),
        lambda: island(25.0, None),
    ),
    "bonding, metal in the ground": Pair(
        "board/-/-/design/bonding without metal",
        "unlikely",
        lambda: board(bonds=(Bond(id="B1", what="Pipe", csa=10.0),), metal_in_ground=False),
        lambda: board(bonds=(Bond(id="B1", what="Pipe", csa=10.0),), metal_in_ground=True),
    ),
    # devices and their places
    "plug fuse, start of a feed": Pair(
        "feed/-/-/design/place of the device",
        "outside",
        lambda: feed(device=Device(kind=DeviceKind.BS_1362, rating=13.0, breaking=6.0)),
        lambda: feed(device=Device(kind=DeviceKind.BS_3036, rating=30.0, breaking=4.0)),
    ),
    "plug fuse, start of a circuit": Pair(
        "circuit/C2/-/design/place of the device",
        "outside",
        lambda: circuit(SOUND, "C2", device=Device(kind=DeviceKind.BS_1362, rating=13.0)),
        lambda: circuit(SOUND, "C2", device=Device(kind=DeviceKind.BREAKER_B, rating=16.0)),
    ),
    "old fuse, new sub-board": Pair(
        "circuit/C2/-/design/place of the device",
        "unlikely",
        lambda: circuit(SOUND, "C2", device=Device(kind=DeviceKind.BS_3036, rating=30.0)),
        lambda: circuit(SOUND, "C2", device=Device(kind=DeviceKind.BS_88_3, rating=32.0)),
    ),
    # the highest class of each product standard (text book, Table C 4.3; breakers from memory)
    "breaking capacity, kind of fuse": Pair(
        "feed/-/-/design/breaking capacity on the label",
        "unlikely",
        lambda: feed(device=Device(kind=DeviceKind.BS_3036, rating=30.0, breaking=4.1)),
        lambda: feed(device=Device(kind=DeviceKind.BS_3036, rating=30.0, breaking=4.0)),
    ),
    "breaking capacity, breaker": Pair(
        "circuit/C2/-/design/breaking capacity on the label",
        "unlikely",
        lambda: circuit(
            SOUND, "C2", device=Device(kind=DeviceKind.RCBO_B, rating=20.0, breaking=26.0)
        ),
        lambda: circuit(
            SOUND, "C2", device=Device(kind=DeviceKind.RCBO_B, rating=20.0, breaking=25.0)
        ),
    ),
    "device of the feed, main fuse": Pair(
        "feed/-/-/design/supplier's fuse",
        "near limit",
        lambda: origin(cutout=30.0),
        lambda: origin(cutout=40.0),
    ),
    "RCBO, standard of an older RCD": Pair(
        "circuit/C2/-/design/standard of the RCD",
        "unlikely",
        lambda: circuit(SOUND, "C2", rcd=old_rcd(standard=RcdStandard.BS_4293)),
        lambda: circuit(SOUND, "C2", rcd=old_rcd(standard=RcdStandard.EN_61008)),
    ),
    "RCD type, no IΔn": Pair(
        "feed/-/-/design/RCD without IΔn",
        "unlikely",
        lambda: feed(rcd=Rcd(type=RcdType.A)),
        lambda: feed(rcd=old_rcd()),
    ),
    "RCD delay, standard": Pair(
        "feed/-/-/design/delay of the RCD",
        "unlikely",
        lambda: feed(rcd=old_rcd(delayed=True, delay=100.0)),
        lambda: feed(rcd=old_rcd(delayed=True, delay=100.0, standard=RcdStandard.BS_4293)),
    ),
    "RCD delay, not delayed": Pair(
        "feed/-/-/design/delay of the RCD",
        "unlikely",
        lambda: feed(rcd=old_rcd(delay=100.0, standard=RcdStandard.BS_4293)),
        lambda: feed(rcd=old_rcd(standard=RcdStandard.BS_4293)),
    ),
    "delayed RCD to BS 4293, its delay": Pair(
        "feed/-/-/design/delay of the RCD",
        "not taken",
        lambda: feed(rcd=old_rcd(delayed=True, standard=RcdStandard.BS_4293)),
        lambda: feed(rcd=old_rcd(delayed=True, delay=100.0, standard=RcdStandard.BS_4293)),
    ),
    # loads and the fuse of a connection unit (BS 7671, 433.1.1, from memory)
    "load in kW, fuse of the connection unit": Pair(
        "circuit/C4/-/design/load and fuse",
        "outside",
        lambda: heater(power=3.01),
        lambda: heater(power=2.99),
    ),
    # 3 kW at 230 V are 13.04 A: a rounded power on a 13 A fuse is everyday (common practice)
    "3 kW, fuse of the connection unit": Pair(
        "circuit/C4/-/design/load and fuse",
        "near limit",
        lambda: heater(power=3.0),
        lambda: heater(power=2.99),
    ),
    "Ib, fuse of the connection unit": Pair(
        "circuit/C4/-/design/load and fuse",
        "outside",
        lambda: heater(power=None, load=3.1, fuse=3.0),
        lambda: heater(power=None, load=3.0, fuse=3.0),
    ),
    "Ib under the load, fuse of the connection unit": Pair(
        "circuit/C4/-/design/load and fuse",
        "outside",
        lambda: heater(power=3.2, load=10.0),
        lambda: heater(power=2.0, load=10.0),
    ),
    "fuse, what is made": Pair(
        "circuit/C4/-/design/fuse of the connection unit",
        "outside",
        lambda: heater(fuse=16.0),
        lambda: heater(fuse=13.0),
    ),
    "fuse, arrangement": Pair(
        "circuit/C4/-/design/fuse without connection unit",
        "unlikely",
        lambda: heater(form=Form.RADIAL),
        lambda: heater(form=Form.FCU),
    ),
    "Ib, load in kW": Pair(
        "circuit/C4/-/design/Ib and load",
        "unlikely",
        lambda: heater(load=8.2),
        lambda: heater(load=8.3),
    ),
    "ring, use": Pair(
        "circuit/C1/-/design/ring for its use",
        "unlikely",
        lambda: circuit(SOUND, "C1", use=Use.LIGHTING),
        lambda: circuit(SOUND, "C1", use=Use.SOCKETS),
    ),
    # 230 V from line to earth in Great Britain, + 10 % - 6 % where it is read: Electricity Safety,
    # Quality and Continuity Regulations 2002, regulation 27. So 216.2 V and 253 V are the edges.
    "U0, the voltage between two lines": Pair(
        "origin/-/-/design/U0", "outside", lambda: origin(u0=400.0), lambda: origin(u0=230.0)
    ),
    "U0, a figure of Ze": Pair(
        "origin/-/-/design/U0", "outside", lambda: origin(u0=216.1), lambda: origin(u0=230.0)
    ),
    "U0, the meter's figure": Pair(
        "origin/-/-/design/U0", "unlikely", lambda: origin(u0=253.0), lambda: origin(u0=230.0)
    ),
    # 230 V / 0.25 Ω = 0.92 kA; both may be rounded by a tenth
    "Ze, fault current at the origin": Pair(
        "feed/-/-/design/Ze and fault current",
        "unlikely",
        lambda: origin(fault_current=0.83),
        lambda: origin(fault_current=0.84),
    ),
}
ELSEWHERE = {
    "device, rating it is made in": "tests/tables/test_readers.py",
    "cable, size it is made in": "tests/tables/test_readers.py",
    "Ib, In; In, Iz; breaking capacity, fault current; Zs, its limit": "test_design.py",
    "main switch, device of the feed; earth of the outbuilding, cpc of the feed": "test_design.py",
    "cpc, energy let through": "test_design_cpc.py",
    "RCD, use and place": "test_design.py",
    "ring, its device and cable": "test_design.py",
    "point, length of the run; points, their order; days of calibration": "test_design_odd.py",
    "bond, supply neutral or earthing conductor": "test_design.py",
    "standard of the RCD, its reading": "test_older_rcds.py",
}
"""Pairs that other files try."""
