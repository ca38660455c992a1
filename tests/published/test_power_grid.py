"""Loops, fault currents and voltage drops of generated jobs against power-grid-model.

Conductor figures are typed here from IEC 60228 and BS 5467 (read in secondary copies), not taken
from the program's tables. 0.5 %: the program adds magnitudes, the engine adds vectors.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.context import FEED, circuit_place
from records.expected.formulas.drop import LoadAt, radial_drop, ring_drop
from records.expected.plan import expected
from records.expected.results import What
from tests.expected.jobs import ARMOUR, BOTH, CORE, FLAT, PVC, XLPE, circuit, device, job, ring, run
from tests.published import grid
from tests.published.nodal import between

pytestmark = pytest.mark.slow

SOME = settings(deadline=None, max_examples=40)

COPPER = {
    1: 18.1,
    1.5: 12.1,
    2.5: 7.41,
    4: 4.61,
    6: 3.08,
    10: 1.83,
    16: 1.15,
    25: 0.727,
    35: 0.524,
    50: 0.387,
}
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
    st.sampled_from(sorted(FLAT_CPC)),
    st.floats(1, 60),
)
armoured_runs = st.builds(
    lambda cable, csa, length, cpc: run(cable, csa, length, cpc=cpc, method="D", ambient=20.0),
    st.sampled_from([XLPE, PVC]),
    st.sampled_from(sorted(STEEL_3[XLPE])),
    st.floats(1, 80),
    st.sampled_from([CORE, ARMOUR, BOTH]),
)
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


def hot_2_5(length):
    """Line and neutral of 2.5 mm² at 70 °C [Ω]."""
    return 2 * COPPER[2.5] * (1 + 0.00393 * 50) / 1000 * length


placed = st.lists(
    st.tuples(st.integers(1, 19), st.floats(0.1, 10), st.floats(0, 8)), min_size=1, max_size=6
)  # place in twentieths, current [A], spur [m]


def with_spurs(edges, loads, nodes):
    """Return the loads at nodes of their own, each behind its spur."""
    more, at = list(edges), {}
    for count, (place, current, spur) in enumerate(loads):
        end = 100 + count
        more.append((nodes[place], end, complex(hot_2_5(max(spur, 1e-4)), 0)))
        at[end] = current
    return more, at


@SOME
@given(loads=placed, length=st.floats(5, 60))
def test_voltage_drop_of_a_radial_with_loads_and_spurs_where_they_are(loads, length):
    step = hot_2_5(length) / 20
    nodes = [1 + n for n in range(21)]
    edges = [(n, n + 1, complex(step, 0)) for n in nodes[:-1]]
    edges, at = with_spurs(edges, loads, nodes)
    own = [LoadAt(current, place * step, hot_2_5(spur)) for place, current, spur in loads]

    worst = max(grid.voltage_drop(edges, at, each) for each in (*at, nodes[-1]))

    assert radial_drop(own, 20 * step) == pytest.approx(worst, rel=0.005, abs=0.002)


@SOME
@given(loads=placed, length=st.floats(20, 100))
def test_voltage_drop_round_a_ring_with_loads_and_spurs_where_they_are(loads, length):
    step = hot_2_5(length) / 20
    nodes = [1 + n for n in range(20)]
    edges = [(n, n + 1, complex(step, 0)) for n in nodes[:-1]] + [(20, 1, complex(step, 0))]
    edges, at = with_spurs(edges, loads, nodes)
    own = [LoadAt(current, place * step, hot_2_5(spur)) for place, current, spur in loads]

    worst = max(grid.voltage_drop(edges, at, each) for each in at)

    found = ring_drop(own, 20 * step, movable=0.0, spread=0.0)
    assert found == pytest.approx(worst, rel=0.005, abs=0.002)


@SOME
@given(
    load=st.floats(5, 32), length=st.floats(20, 100), fixed=st.integers(1, 39), own=st.floats(0, 10)
)
def test_voltage_drop_round_a_ring_with_the_rest_at_its_worst_place(load, length, fixed, own):
    """The rest of the load is put at each of forty places in turn; the engine's worst counts."""
    pieces = 40
    step = complex(hot_2_5(length) / pieces, 0)
    edges = [(n, n + 1, step) for n in range(1, pieces)] + [(pieces, 1, step)]
    spread = dict.fromkeys(range(2, pieces + 1), load / 2 / pieces)

    def drop(place):
        at = dict(spread)
        at[1 + fixed] += own
        at[1 + place] += load / 2
        return grid.voltage_drop(edges, at, 1 + place)

    worst = max(map(drop, range(1, pieces)))
    found = ring_drop(
        [LoadAt(own, fixed * step.real, 0.0)],
        pieces * step.real,
        movable=load / 2,
        spread=load / 2,
    )

    assert found == pytest.approx(worst, rel=0.006)
    assert found >= worst * (1 - 1e-6)
