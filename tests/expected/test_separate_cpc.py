"""A cpc beside its cable: how warm it gets, and what it survives."""

from __future__ import annotations

import math

import pytest

from records.expected.context import circuit_place
from records.expected.plan import expected
from records.expected.results import What, Worked
from records.model.reading import place_of
from records.model.record import Record
from records.terms import Part
from tests.expected.jobs import FLAT, XLPE, circuit, device, job, run

SEPARATE = "a separate conductor"
SINGLES = "single cores in conduit or trunking, 70 °C"
FEED = place_of(Part.FEED)


def value(record: Record, what: What, circuit: str | None = None) -> float:
    place = FEED if circuit is None else place_of(Part.CIRCUIT, circuit)
    return expected(record).design[place, what].value


def test_a_cpc_in_one_conduit_with_single_cores_gets_as_warm_as_they_do():
    """BS 7671, Table 54.3 (bunched with cables: from 70 °C; read in a secondary copy).

    By hand, 20 m of 2.5 with 1.5 mm²: 20 x (7.41 + 12.1) x (1 + 0.00393 x 50) mΩ.
    """
    own = run(SINGLES, 2.5, 20.0, cpc=SEPARATE, cpc_csa=1.5, method="B", cores=2)
    record = job(circuits=[circuit(runs=[own])])

    assert value(record, What.R1_R2, "C1") == pytest.approx(0.02 * 19.51 * 1.1965, abs=1e-4)


def test_one_clipped_by_itself_stays_at_the_air_round_it():
    """BS 7671, Table 54.2 (30 °C; from memory)."""
    own = run(FLAT, 2.5, 20.0, cpc=SEPARATE, cpc_csa=4.0)
    record = job(circuits=[circuit(runs=[own])])
    by_hand = 0.02 * (7.41 * 1.1965 + 4.61 * 1.0393)

    assert value(record, What.R1_R2, "C1") == pytest.approx(by_hand, abs=1e-4)


@pytest.mark.parametrize(
    ("cable", "k"),
    [(SINGLES, 115.0), (FLAT, 143.0), (XLPE, 143.0)],
    ids=["singles", "flat", "xlpe"],
)
def test_what_it_survives_follows_from_its_own_insulation(cable, k):
    """S = √(I²t) / k. Table 54.2: 143 for a 70 °C conductor by itself; Table 54.3: 115 bunched
    (read in a secondary copy). The 176 of a 90 °C conductor isn't that of the cable beside it."""
    runs = [
        run(cable, 10.0, 20.0, cpc=SEPARATE, cpc_csa=2.5, method="B" if cable == SINGLES else "C")
    ]
    record = job(feed={"device": device("BS 88-2 fuse", 63.0), "load": 40.0, "runs": runs})
    current = value(record, What.FAULT_LOWEST)
    time = value(record, What.TIME)

    assert value(record, What.CPC_LEAST) == pytest.approx(
        current * math.sqrt(max(time, 0.1)) / k, rel=0.01
    )


def test_before_a_fuse_an_rcd_lets_through_more_the_more_flows():
    """63 A BS 88-2 fuse behind a delayed RCD: up to 500 A, which the fuse opens in 0.4 s, the RCD
    is first, within 150 ms (BS EN 61008-1, Table 1): √(500² x 0.15) / 143 = 1.35 mm²."""
    runs = [run(XLPE, 10.0, 24.0, cpc=SEPARATE, cpc_csa=1.5)]
    feed = {"device": device("BS 88-2 fuse", 63.0), "load": 40.0, "runs": runs}
    alone = job(feed=feed)
    behind = job(feed={**feed, "rcd": {"residual": 100.0, "delayed": True}})

    assert value(behind, What.FAULT_LOWEST) < 400
    assert value(behind, What.CPC_LEAST) == pytest.approx(500 * math.sqrt(0.15) / 143, rel=0.05)
    assert value(alone, What.CPC_LEAST) > value(behind, What.CPC_LEAST)


@pytest.mark.parametrize(("entered", "source"), [(None, "BS 6004"), (1.5, "as entered")])
def test_a_cpc_says_whether_its_size_was_entered_or_is_that_of_the_cable(entered, source):
    record = job(circuits=[circuit(runs=[run(FLAT, 2.5, 18.0, cpc_csa=entered)])])
    found = expected(record).design[circuit_place(record.circuit("C1")), What.CPC_SIZE]

    assert isinstance(found, Worked)
    assert found.value == 1.5
    assert source in str(found.sources[0])
