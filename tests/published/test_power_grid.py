"""Loops, fault currents and voltage drops of generated jobs against power-grid-model.

Conductor figures are typed here from IEC 60228 and BS 5467 (read in secondary copies), not taken
from the program's tables. 0.5 %: the program adds magnitudes, the engine adds vectors.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.context import FEED, circuit_place
from records.expected.formulas.drop import AT_END, RING, RING_SPREAD, SPREAD, voltage_drop
from records.expected.plan import expected
from records.expected.results import What
from tests.expected.jobs import ARMOUR, BOTH, CORE, FLAT, PVC, XLPE, circuit, device, job, ring, run
from tests.published import grid
from tests.published.nodal import between

SOME = settings(deadline=None, max_examples=40)

COPPER = {1: 18.1, 1.5: 12.1, 2.5: 7.41, 4: 4.61, 6: 3.08, 10: 1.83, 16: 1.15, 25: 0.727,
          35: 0.524, 50: 0.387}  # fmt: skip
FLAT_CPC = {1: 1, 1.5: 1, 2.5: 1.5, 4: 1.5, 6: 2.5, 10: 4, 16: 6}
STEEL_3 = {
    XLPE: {1.5: 9.5, 2.5: 8.2, 4: 7.5, 6: 6.7, 10: 4.0, 16: 3.5, 25: 2.5, 35: 2.3, 50: 2.0},
    PVC: {1.5: 10.2, 2.5: 8.8, 4: 7.0, 6: 4.6, 10: 3.7, 16: 3.2, 25: 2.4, 35: 2.1, 50: 1.9},
}


def hot_loop(each):
    """Return line and cpc of a run, hot [Ω]: each conductor a branch of its own."""
    cable, csa = each["cable"], each["csa"]
    core = 90 if cable == XLPE else 70
    copper = 1 + 0.00393 * (core - 20)
    steel = 1.1 * (1 + 0.0045 * (core - 10 - 20))
    line = COPPER[csa] * copper
    cpc_core = COPPER[FLAT_CPC[csa] if cable == FLAT else csa] * copper
    branches = [(0, 1, line)]
    if each["cpc"] in (CORE, BOTH):
        branches.append((1, 2, cpc_core))
    if each["cpc"] in (ARMOUR, BOTH):
        branches.append((1, 2, STEEL_3[cable][csa] * steel))
    resistance = between(branches, 0, 2) * each["length"] / 1000
    reactance = 0.0
    if csa >= 25:
        reactance = (0.3 if each["cpc"] == ARMOUR else 0.16) * each["length"] / 1000
    return complex(resistance, reactance)


flat_runs = st.builds(
    lambda csa, length: run(FLAT, csa, length),
    st.sampled_from(sorted(FLAT_CPC)), st.floats(1, 60),
)  # fmt: skip
armoured_runs = st.builds(
    lambda cable, csa, length, cpc: run(cable, csa, length, cpc=cpc, method="D", ambient=20.0),
    st.sampled_from([XLPE, PVC]), st.sampled_from(sorted(STEEL_3[XLPE])), st.floats(1, 80),
    st.sampled_from([CORE, ARMOUR, BOTH]),
)  # fmt: skip
feeds = st.lists(st.one_of(flat_runs, armoured_runs), min_size=1, max_size=3)
circuits = st.lists(flat_runs, min_size=1, max_size=2)


@SOME
@given(ze=st.floats(0.1, 0.8), feed=feeds, runs=circuits)
def test_hot_loops_and_lowest_currents_of_any_job_are_those_of_the_engine(ze, feed, runs):
    record = job(
        origin={"earthing": "TN-S", "ze": ze, "fault_current": 1.5},
        feed={"device": device("BS 88-3 fuse", 32.0), "load": 20.0, "runs": feed},
        circuits=[circuit(runs=runs)],
    )
    edges = [(1, 2, complex(ze, 0))]
    for each in (*feed, *runs):
        edges.append((edges[-1][1], edges[-1][1] + 1, hot_loop(each)))
    board, end = 2 + len(feed), 2 + len(feed) + len(runs)

    design = expected(record).design
    zdb = design[FEED, What.ZS].value
    here = circuit_place(record.circuits[0])

    assert zdb == pytest.approx(grid.loop_impedance(edges, board), rel=0.005)
    assert design[here, What.ZS].value == pytest.approx(grid.loop_impedance(edges, end), rel=0.005)
    assert design[here, What.FAULT_LOWEST].value == pytest.approx(
        0.95 * 230 / grid.loop_impedance(edges, end), rel=0.005
    )


@SOME
@given(length=st.floats(10, 100), ze=st.floats(0.1, 0.8))
def test_the_loop_half_way_round_a_ring_is_that_of_the_engine(length, ze):
    record = job(
        origin={"earthing": "TN-S", "ze": ze, "fault_current": 1.5},
        circuits=[ring(length=length)],
    )
    feed = hot_loop(run(XLPE, 6.0, 30.0))
    half = hot_loop(run(FLAT, 2.5, length / 2))
    edges = [(1, 2, complex(ze, 0)), (2, 3, feed), (3, 4, half), (3, 4, half)]

    found = expected(record).design[circuit_place(record.circuits[0]), What.ZS]

    assert found.value == pytest.approx(grid.loop_impedance(edges, 4), rel=0.005)


@SOME
@given(load=st.floats(1, 32), length=st.floats(5, 60), csa=st.sampled_from([2.5, 4, 6, 10]))
def test_voltage_drop_with_the_load_at_the_end_or_spread(load, length, csa):
    per_metre = 2 * COPPER[csa] * (1 + 0.00393 * 50) / 1000
    pieces = 40
    edges = [(n, n + 1, complex(per_metre * length / pieces, 0)) for n in range(1, 1 + pieces)]
    end = 1 + pieces
    spread = dict.fromkeys(range(2, end), load / pieces) | {end: load / pieces / 2}

    assert voltage_drop(per_metre, load, length, AT_END) == pytest.approx(
        grid.voltage_drop(edges, {end: load}, end), rel=0.005
    )
    assert voltage_drop(per_metre, load, length, SPREAD) == pytest.approx(
        grid.voltage_drop(edges, spread, end), rel=0.005
    )


@SOME
@given(load=st.floats(5, 32), length=st.floats(20, 100))
def test_voltage_drop_round_a_ring(load, length):
    per_metre = 2 * COPPER[2.5] * (1 + 0.00393 * 50) / 1000
    pieces = 40
    step = complex(per_metre * length / pieces, 0)
    edges = [(n, n + 1, step) for n in range(1, pieces)] + [(pieces, 1, step)]
    half_way = 1 + pieces // 2
    spread = dict.fromkeys(range(2, pieces + 1), load / pieces)

    assert voltage_drop(per_metre, load, length, RING) == pytest.approx(
        grid.voltage_drop(edges, {half_way: load}, half_way), rel=0.005
    )
    assert voltage_drop(per_metre, load, length, RING_SPREAD) == pytest.approx(
        grid.voltage_drop(edges, spread, half_way), rel=0.005
    )
