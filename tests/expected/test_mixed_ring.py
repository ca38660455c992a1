"""A ring whose cable changes on its way round: readings at each point with opposite legs joined."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.errors import OutOfRange
from records.expected.formulas.ring import cross_connected, crossed_between
from records.expected.plan import expected
from records.model.reading import Quantity
from tests.expected.jobs import job, ring, run

COPPER = {1.5: 12.1e-3, 2.5: 7.41e-3, 4.0: 4.61e-3}
"""Ω/m at 20 °C: BS EN 60228, class 2."""
CPC = {2.5: 1.5, 4.0: 1.5}
"""Flat twin-and-earth as it is made (BS 6004)."""


def readings(runs, points):
    record = job(circuits=[ring(runs=runs, points=points)])
    return {
        (slot.quantity, slot.place.point): result.value
        for slot, result in expected(record).meter.items()
        if slot.quantity in (Quantity.CROSS_LN, Quantity.CROSS_LE)
    }


def test_each_end_of_a_ring_shows_its_own_conductor_alone_in_its_working():
    """20 m of 2.5/1.5 mm² and 10 m of 4/1.5 mm² at 20 °C: 12.1, 7.41, 4.61 mΩ/m (BS EN 60228)."""
    runs = [run(csa=2.5, length=20.0), run(csa=4.0, length=10.0)]
    meter = expected(job(circuits=[ring(runs=runs, points=[])], job={"ambient": 20.0})).meter
    found = {slot.quantity: result for slot, result in meter.items()}

    assert found[Quantity.R1].put_in == "20 m × 7.41 mΩ/m + 10 m × 4.61 mΩ/m"
    assert found[Quantity.R2].put_in == "20 m × 12.1 mΩ/m + 10 m × 12.1 mΩ/m"


def by_nodes(lengths, at, earth):
    """Return the same from conductances between four nodes, solved as a linear system.

    Nodes: L1 = start of line (joined to the end of the other), L2 = end of line (joined to the
    start of the other), P = line at the point, Q = the other conductor at the point.
    """
    before, after = [0.0, 0.0], [0.0, 0.0]
    left = at
    for csa, length in lengths:
        piece = min(left, length)
        other = CPC[csa] if earth else csa
        for sums, part in ((before, piece), (after, length - piece)):
            sums[0] += COPPER[csa] * part
            sums[1] += COPPER[other] * part
        left -= piece
    matrix = np.zeros((4, 4))
    for a, b, r in ((0, 2, before[0]), (2, 1, after[0]), (1, 3, before[1]), (3, 0, after[1])):
        g = 1 / r
        matrix[[a, b], [a, b]] += g
        matrix[[a, b], [b, a]] -= g
    # 1 A into P and out of Q, which is the node of reference.
    solved = np.linalg.solve(matrix[:3, :3], np.array([0.0, 0.0, 1.0]))
    return float(solved[2])


@settings(deadline=None, max_examples=40)
@given(
    lengths=st.lists(
        st.tuples(st.sampled_from([2.5, 4.0]), st.floats(5, 60)), min_size=1, max_size=3
    ),
    share=st.floats(0.05, 0.95),
)
def test_any_ring_reads_what_its_network_gives(lengths, share):
    around = sum(length for _, length in lengths)
    at = around * share
    found = readings(
        [run(csa=csa, length=length) for csa, length in lengths], [{"id": "P1", "at": at}]
    )

    for quantity, earth in ((Quantity.CROSS_LN, False), (Quantity.CROSS_LE, True)):
        assert found[quantity, "P1"] == pytest.approx(by_nodes(lengths, at, earth), rel=1e-6)


def test_a_spur_is_of_the_cable_where_it_leaves():
    runs = [run(csa=2.5, length=20.0), run(csa=4.0, length=20.0)]
    points = [{"id": "P1", "at": 30.0}, {"id": "P2", "at": 30.0, "spur": 3.0}]
    found = readings(runs, points)

    more = found[Quantity.CROSS_LE, "P2"] - found[Quantity.CROSS_LE, "P1"]
    assert more == pytest.approx(3.0 * (COPPER[4.0] + COPPER[1.5]))


def test_one_cable_throughout_is_the_usual_formula():
    assert crossed_between((0.1, 0.2), (0.3, 0.6)) == pytest.approx(cross_connected(0.4, 0.8, 0.25))


@pytest.mark.parametrize("parts", [((-0.1, 0.1), (0.1, 0.1)), ((0.0, 0.0), (0.0, 0.0))])
def test_a_ring_without_resistance_is_refused(parts):
    with pytest.raises(OutOfRange):
        crossed_between(*parts)
