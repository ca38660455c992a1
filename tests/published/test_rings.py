"""Ring readings against the rules of IET Guidance Note 3 and a nodal analysis."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.formulas.ring import cross_connected, in_service, same_leg_joined, with_spur
from tests.published.nodal import between

QUICK = settings(deadline=None, max_examples=60)
ohms = st.floats(0.05, 3.0)
place = st.floats(0.02, 0.98)


def ring(first, second, x, joined):
    """Return what the point shows, from the conductors themselves.

    Nodes: 0 line of leg 1 at the board, 1 line of leg 2, 2 other of leg 1, 3 other of leg 2,
    4 line at the point, 5 other conductor at the point.
    """
    branches = [
        (0, 4, first * x),
        (4, 1, first * (1 - x)),
        (2, 5, second * x),
        (5, 3, second * (1 - x)),
        *((a, b, 1e-9) for a, b in joined),
    ]
    return between(branches, 4, 5)


@QUICK
@given(first=ohms, second=ohms, x=place)
def test_opposite_legs_joined_read_as_the_circuit_of_the_conductors_does(first, second, x):
    """Nodal analysis of the four lengths and two joints; numerical error only."""
    assert cross_connected(first, second, x) == pytest.approx(
        ring(first, second, x, [(0, 3), (2, 1)]), rel=1e-5
    )


@QUICK
@given(first=ohms, second=ohms, x=place)
def test_the_same_leg_joined_reads_as_the_circuit_of_the_conductors_does(first, second, x):
    """The wrong joint: line and other conductor of one leg together."""
    assert same_leg_joined(first, second, x) == pytest.approx(
        ring(first, second, x, [(0, 2), (1, 3)]), rel=1e-5, abs=1e-7
    )


@QUICK
@given(first=ohms, second=ohms, x=place)
def test_a_closed_ring_in_service_has_the_loop_of_its_two_ways(first, second, x):
    """Board to point: line ends together, other ends together, joined at the point."""
    branches = [
        (0, 1, first * x),
        (0, 1, first * (1 - x)),
        (2, 1, second * x),
        (2, 1, second * (1 - x)),
    ]
    assert in_service(first, second, x) == pytest.approx(between(branches, 0, 2), rel=1e-9)


@pytest.mark.parametrize("x", [0.0, 0.1, 0.5, 0.77, 1.0])
def test_equal_conductors_read_a_quarter_of_the_sum_everywhere(x):
    """IET Guidance Note 3: (r1 + rn)/4 at each point (from memory)."""
    assert cross_connected(0.74, 0.74, x) == pytest.approx((0.74 + 0.74) / 4)


def test_a_smaller_cpc_reads_a_quarter_of_the_sum_half_way_round():
    """IET Guidance Note 3: (r1 + r2)/4 (from memory); 0.52 and 0.85 Ω give 0.34 Ω."""
    assert cross_connected(0.52, 0.85, 0.5) == pytest.approx((0.52 + 0.85) / 4)
    assert round(cross_connected(0.52, 0.85, 0.5), 2) == 0.34


def test_a_smaller_cpc_reads_the_two_side_by_side_at_the_board():
    """Worked out: r1·r2/(r1 + r2) at either end, a little below the quarter of the sum."""
    assert cross_connected(0.52, 0.85, 0.0) == pytest.approx(0.52 * 0.85 / 1.37)
    assert cross_connected(0.52, 0.85, 1.0) == pytest.approx(0.52 * 0.85 / 1.37)


def test_a_100_metre_ring_of_2_5_with_1_5_mm2():
    """IEC 60228: 0.741 Ω line, 1.21 Ω cpc end to end; (r1 + r2)/4 = 0.488 Ω (worked by hand)."""
    assert cross_connected(0.741, 1.21, 0.5) == pytest.approx(0.48775)


def test_a_spur_adds_its_own_two_conductors():
    """5 m of 2.5 + 1.5 mm²: 5 × 19.51 mΩ on top (IET On-Site Guide, Table I1)."""
    assert with_spur(0.30, 5 * 19.51e-3) == pytest.approx(0.39755)


def test_the_nodal_analysis_itself_knows_two_resistors():
    assert between([(0, 1, 2.0), (1, 2, 3.0)], 0, 2) == pytest.approx(5.0)
    assert between([(0, 1, 2.0), (0, 1, 3.0)], 0, 1) == pytest.approx(1.2)
    assert np.isfinite(between([(0, 1, 1.0), (2, 3, 1.0)], 0, 1))
