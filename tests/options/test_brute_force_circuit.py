"""The table of a circuit, ring against radial, by plain formulas: every column and every length.

Resistances of IEC 60228, mV/A/m and ratings of Table 4D5 (method C), BS EN 60898 type B; a ring:
20 A half way round, the other 12 A spread (Appendix 15, from memory): z·L·(20/4 + 12/8); its cable
at least 2.5 mm² that carries 20 A (Regulation 433.1.204). All typed here, from memory.
"""

from __future__ import annotations

import math

import pytest

from records.expected.results import Worked
from records.model.circuit import Circuit
from records.model.outbuilding import Board, Feed
from records.model.record import Record
from records.model.supply import Ground, Origin
from records.model.wiring import Device, Rcd, Run
from records.options.cell import Check
from records.options.circuit import METRES, circuit_options
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

U0, HOT = 230.0, 1 + 0.00393 * 50
R20 = {1.0: 18.1, 1.5: 12.1, 2.5: 7.41, 4.0: 4.61, 6.0: 3.08, 10.0: 1.83, 16.0: 1.15}
CPC = {1.0: 1.0, 1.5: 1.0, 2.5: 1.5, 4.0: 1.5, 6.0: 2.5, 10.0: 4.0, 16.0: 6.0}
MV = {1.0: 44, 1.5: 29, 2.5: 18, 4.0: 11, 6.0: 7.3, 10.0: 4.4, 16.0: 2.8}
RATED = {
    Method.C: {1.0: 16, 1.5: 20, 2.5: 27, 4.0: 37, 6.0: 47, 10.0: 64, 16.0: 85},
    Method.M103: {1.0: 8, 1.5: 10, 2.5: 13.5, 4.0: 17.5, 6.0: 23.5, 10.0: 32, 16.0: 42.5},
}
FEED = (10.0, 30.0)
"""mm² and m of the feed: two cores of 10 mm² XLPE, 4.7 mV/A/m, at 90 °C 2 × 1.83 × 1.2751 mΩ/m."""
LOAD = 32.0
ZDB = 0.2 + FEED[1] * 2 * 1.83e-3 * (1 + 0.00393 * 70)
BEFORE = FEED[1] * 4.7e-3 * LOAD


def record(method, length):
    own = Circuit(
        id="C1",
        use=Use.SOCKETS,
        form=Form.RING,
        device=Device(kind=DeviceKind.RCBO_B, rating=32.0, breaking=6.0),
        rcd=Rcd(residual=30.0, type=RcdType.A),
        runs=(
            Run(
                cable=CableKind.FLAT,
                csa=2.5,
                cpc=Cpc.CORE,
                length=length,
                method=method,
                ambient=30.0,
            ),
        ),
    )
    feed = Run(
        cable=CableKind.SWA_XLPE,
        cores=3,
        csa=FEED[0],
        cpc=Cpc.CORE,
        length=FEED[1],
        method=Method.D,
        ambient=20.0,
    )
    return Record(
        origin=Origin(
            earthing=Earthing.TN_S,
            ze=0.2,
            ze_ground=Ground.MEASURED,
            fault_current=1.0,
            fault_current_ground=Ground.MEASURED,
        ),
        feed=Feed(
            device=Device(kind=DeviceKind.BS_88_2, rating=40.0, breaking=80.0),
            load=LOAD,
            runs=(feed,),
        ),
        board=Board(earth=OutbuildingEarth.CARRIED_OVER),
        circuits=(own,),
    )


def most_drop(option, length):
    z = MV[option.csa] / 1000 * length
    if option.form is Form.RING:
        return BEFORE + z * (20 / 4 + 12 / 8)
    return BEFORE + z * option.rating


def zs(option, length):
    whole = (R20[option.csa] + R20[CPC[option.csa]]) / 1000 * length * HOT
    return ZDB + (whole / 4 if option.form is Form.RING else whole)


def limit(option):
    return math.floor(0.95 * U0 / (5 * option.rating) * 100) / 100


def carries(option, method):
    it = RATED[method][option.csa]
    if option.form is Form.RING:
        return option.csa >= 2.5 and it >= 20.0
    return it >= option.rating


def cells(option):
    return {each.check: each for each in option.cells}


@pytest.mark.parametrize("method", [Method.C, Method.M103])
@pytest.mark.parametrize("length", [40.0, 110.0])
def test_each_column_of_each_form_size_and_device(method, length):
    options = circuit_options(record(method, length), "C1", radial=length).options
    seen = set()

    assert {each.form for each in options} == {Form.RING, Form.RADIAL}
    for option in options:
        ours = cells(option)
        drop, loop = most_drop(option, length), zs(option, length)
        for check in (Check.DROP, Check.LOOP):
            assert isinstance(ours[check].result, Worked)
        assert ours[Check.DROP].result.value == pytest.approx(drop, rel=1e-3), option
        assert ours[Check.LOOP].result.value == pytest.approx(loop, rel=2e-3), option
        for check, holds in (
            (Check.RATING, carries(option, method)),
            (Check.DROP, drop <= 11.5),
            (Check.LOOP, loop <= limit(option)),
        ):
            seen.add((check, holds))
            assert (ours[check].verdict is not Verdict.OUTSIDE) == holds, (option, check)
    assert {(Check.RATING, True), (Check.RATING, False)} <= seen


@pytest.mark.parametrize("method", [Method.C, Method.M103])
def test_a_ring_needs_cable_that_carries_20_a_whatever_its_device(method):
    """Regulation 433.1.204: 2.5 mm² in insulation not touching the wall, 13.5 A, is no ring."""
    options = circuit_options(record(method, 40.0), "C1").options
    (ring,) = (each for each in options if each.form is Form.RING and each.csa == 2.5)

    assert ring.rating == 32.0
    assert (cells(ring)[Check.RATING].verdict is Verdict.WITHIN) == (method is Method.C)


def test_the_longest_length_is_where_the_first_of_drop_and_loop_is_reached():
    options = circuit_options(record(Method.C, 40.0), "C1", radial=40.0).options
    compared = 0
    for option in options:
        if not option.longest or option.longest >= 300.0:
            continue
        compared += 1
        assert most_drop(option, option.longest) <= 11.5 + 1e-6
        assert zs(option, option.longest) <= limit(option) * 1.002
        over = option.longest + METRES
        stopped = cells(option)[Check.CPC].verdict is Verdict.NOT_TAKEN
        assert (
            most_drop(option, over) > 11.5 or zs(option, over) > limit(option) * 0.998 or stopped
        ), option
    assert compared > 8


def test_it_is_said_that_the_load_is_at_the_far_end():
    notes = " ".join(circuit_options(record(Method.C, 40.0), "C1").notes)

    assert "The load is at the furthest point" in notes
