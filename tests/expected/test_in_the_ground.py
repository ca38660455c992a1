"""Cable in the ground: laid direct or in a duct, by soil, depth and distance.

BS 7671, Tables 4B3, 4B4, 4C2 and 4C3, all from memory.
"""

import pytest

from records.expected.context import FEED
from records.expected.plan import expected
from records.expected.results import What
from tests.expected.jobs import PVC, XLPE, device, job, run


def capacity(cable=XLPE, **laid):
    laid = {"method": "D", "ambient": 20.0, "cores": 3, **laid}
    feed = {
        "device": device("circuit-breaker type B", 32.0),
        "load": 20.0,
        "runs": [run(cable, 10.0, 30.0, **laid)],
    }
    return expected(job(feed=feed)).design[FEED, What.IZ]


def ratio(**laid):
    return capacity(**laid).value / capacity().value


@pytest.mark.parametrize(
    ("soil", "direct", "duct"),
    [
        (0.5, 1.88, 1.28),
        (1.0, 1.5, 1.18),
        (1.01, 1.28, 1.1),
        (2.0, 1.12, 1.05),
        (2.5, 1.0, 1.0),
        (2.51, 0.9, 0.96),
        (3.0, 0.9, 0.96),
    ],
)
def test_soil_counts_less_in_a_duct(soil, direct, duct):
    assert ratio(soil=soil) == pytest.approx(direct)
    assert ratio(soil=soil, duct=True) == pytest.approx(duct)


@pytest.mark.parametrize(
    ("depth", "direct", "duct"), [(0.7, 1.0, 1.0), (0.71, 0.98, 0.99), (1.0, 0.96, 0.97)]
)
def test_depth_counts_less_in_a_duct(depth, direct, duct):
    assert ratio(depth=depth) == pytest.approx(direct)
    assert ratio(depth=depth, duct=True) == pytest.approx(duct)


@pytest.mark.parametrize(
    ("gap", "direct", "duct"),
    [
        (0.0, 0.75, 0.85),
        (0.124, 0.75, 0.85),
        (0.125, 0.85, 0.85),
        (0.25, 0.9, 0.9),
        (0.5, 0.9, 0.95),
        (1.0, 0.9, 0.95),
    ],
)
def test_two_circuits_by_how_far_they_lie_apart(gap, direct, duct):
    assert ratio(grouped=2, gap=gap) == pytest.approx(direct)
    assert ratio(grouped=2, gap=gap, duct=True) == pytest.approx(duct)


def test_the_working_says_how_it_lies():
    assert "In a duct" in capacity(duct=True).note
    assert "Laid direct" in capacity().note


def test_a_duct_means_nothing_on_a_wall():
    assert ratio(method="C", ambient=30.0, duct=True) == pytest.approx(
        ratio(method="C", ambient=30.0)
    )


def test_terminals_for_90_degrees_let_90_degree_cable_carry_its_own_rating():
    """BS 7671, Tables 4D4A and 4E4A (the latter read in a supplier's copy), and 512.1.5."""
    cold, hot = capacity(), capacity(hot_terminals=True)

    assert hot.value > cold.value
    assert "70 °C" in cold.note
    assert "70 °C" not in hot.note
    assert capacity(PVC, hot_terminals=True).value == capacity(PVC).value
