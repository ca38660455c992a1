"""Disconnection times against the standards' points and bands, and scipy's interpolation."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.formulas.disconnection import (
    Knot,
    breaker_steps,
    fuse_opening,
    rcd_steps,
    step_at,
)
from records.expected.protection import opening, time_rcd
from records.model.wiring import Rcd
from records.tables.devices import fuse_curve, ratings
from records.terms import DeviceKind

FUSES = (
    DeviceKind.BS_88_2,
    DeviceKind.BS_88_3,
    DeviceKind.BS_88_2_2,
    DeviceKind.BS_1361,
    DeviceKind.BS_3036,
    DeviceKind.BS_1362,
)
KNOWN = [
    (kind, rating)
    for kind in FUSES
    for rating in ratings(kind)
    if len(fuse_curve(kind, rating)) > 1
]
BREAKER_B32 = breaker_steps((3.0, 5.0), [(1.45, 3600.0), (2.55, 60.0), (3.0, 45.0)])


@settings(deadline=None, max_examples=80)
@given(which=st.sampled_from(KNOWN), part=st.floats(0.001, 0.999))
def test_between_its_points_a_fuse_is_read_as_scipy_reads_them(which, part):
    """scipy.interpolate.interp1d on logarithms, through the points' late ends: numerical error."""
    from scipy.interpolate import interp1d  # half a second, for this test alone

    curve = [Knot(each.time, each.low, each.high) for each in fuse_curve(*which)]
    logs = interp1d(
        np.log([knot.high for knot in reversed(curve)]),
        np.log([knot.time for knot in reversed(curve)]),
    )
    low, high = np.log(curve[-1].high), np.log(curve[0].high)
    current = float(np.exp(low + part * (high - low)))

    assert fuse_opening(current, curve).latest == pytest.approx(
        float(np.exp(logs(np.log(current)))), rel=1e-6
    )


@pytest.mark.parametrize("kind", FUSES)
def test_at_its_own_points_a_fuse_takes_the_time_of_the_point(kind):
    """BS 7671, Appendix 3 (from memory): no interpolation at the points themselves."""
    for rating in ratings(kind):
        for point in fuse_curve(kind, rating):
            found, _ = opening(kind, rating, point.high)
            assert found.latest == pytest.approx(point.time)


def test_a_30_a_rewirable_fuse_at_210_a_and_at_87_a():
    """BS 7671, Appendix 3: 210 A in 0.4 s, 87 A in 5 s (from memory)."""
    curve = [Knot(0.4, 210.0, 210.0), Knot(5.0, 87.0, 87.0)]

    assert fuse_opening(210.0, curve).latest == 0.4
    assert fuse_opening(87.0, curve).latest == pytest.approx(5.0)
    assert fuse_opening(135.0, curve).words == "1.4 s"


def test_below_its_longest_point_a_fuse_is_longer_than_that_and_nothing_more():
    curve = [Knot(0.4, 210.0, 210.0), Knot(5.0, 87.0, 87.0)]
    found = fuse_opening(86.0, curve)

    assert (found.latest, found.words) == (None, "longer than 5 s")
    assert not found.within(5.0)


def test_above_its_shortest_point_a_fuse_claims_no_shorter_time():
    curve = [Knot(0.4, 210.0, 210.0), Knot(5.0, 87.0, 87.0)]
    found = fuse_opening(9000.0, curve)

    assert (found.earliest, found.latest, found.words) == (0.0, 0.4, "within 0.4 s")


def test_uncertain_points_give_a_range_judged_by_its_late_end():
    curve = [Knot(0.4, 200.0, 220.0), Knot(5.0, 80.0, 95.0)]
    found = fuse_opening(120.0, curve)

    assert found.earliest < found.latest
    assert "to" in found.words


def test_inside_the_range_of_the_last_point_no_time_is_assured():
    curve = [Knot(0.4, 200.0, 220.0), Knot(5.0, 80.0, 95.0)]
    found = fuse_opening(88.0, curve)

    assert found.latest is None
    assert found.words == "about 5 s or longer"


@pytest.mark.parametrize(
    ("current", "latest"),
    [
        (160.0, 0.1),
        (159.0, 45.0),
        (96.0, 45.0),
        (95.0, 60.0),
        (82.0, 60.0),
        (81.0, 3600.0),
        (46.4, 3600.0),
        (46.0, None),
    ],
)
def test_a_32_a_type_b_breaker_by_its_bands(current, latest):
    """BS EN 60898-1, Table 7: 5 In, 3 In, 2.55 In, 1.45 In (bands read, thermal from memory)."""
    assert step_at(current, 32.0, BREAKER_B32).latest == latest


def test_inside_the_band_a_breaker_is_not_assured():
    found = step_at(130.0, 32.0, BREAKER_B32)

    assert found.words.startswith("not assured")
    assert not found.within(5.0)


@pytest.mark.parametrize("rating", [6.0, 10.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0])
@pytest.mark.parametrize(
    ("kind", "multiple"),
    [(DeviceKind.BREAKER_B, 5), (DeviceKind.RCBO_C, 10), (DeviceKind.BREAKER_D, 20)],
)
def test_at_the_top_of_its_band_every_breaker_opens_within_a_tenth_of_a_second(
    kind, multiple, rating
):
    """BS EN 60898-1, Table 7 (read in a secondary copy)."""
    assert opening(kind, rating, multiple * rating)[0].latest == 0.1
    assert opening(kind, rating, multiple * rating * 0.99)[0].latest > 0.1


def test_a_type_d_breaker_between_10_and_20_in():
    """BS EN 60898-1, Table 7, test d: 4 s up to 32 A, 8 s over (from memory)."""
    assert opening(DeviceKind.BREAKER_D, 32.0, 330.0)[0].within(5.0)
    assert not opening(DeviceKind.BREAKER_D, 40.0, 410.0)[0].within(5.0)


@pytest.mark.parametrize(
    ("multiple", "delayed", "longest"),
    [
        (1, False, 0.3),
        (2, False, 0.15),
        (5, False, 0.04),
        (100, False, 0.04),
        (1, True, 0.5),
        (2, True, 0.2),
        (5, True, 0.15),
    ],
)
def test_rcds_open_as_their_standard_says(multiple, delayed, longest):
    """BS EN 61008-1 and BS EN 61009-1, Table 1 (read in a secondary copy)."""
    found = time_rcd(Rcd(residual=100.0, delayed=delayed), 0.1 * multiple, "Board")

    assert found.value == longest


def test_below_its_residual_current_an_rcd_is_not_assured():
    found = step_at(0.029, 0.03, rcd_steps([(1.0, 0.0, 0.3)]))

    assert found.latest is None
    assert not found.within(5.0)
