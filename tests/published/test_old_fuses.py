"""Fuses of standards that have been replaced, against the tables of their own edition.

BS 7671:2008, Tables 41.2 and 41.4 (read in a secondary copy; 5 s from memory) give 230 V / I with
no Cmin, so 0.95 of each printed figure is the most that today's rule allows.
"""

import math

import pytest

from records.expected.protection import opening, time_overcurrent
from records.tables.devices import fuse_curve, is_made, max_zs
from records.terms import DeviceKind

PRINTED_2008 = [
    (DeviceKind.BS_88_2_2, 6, 0.4, 8.52),
    (DeviceKind.BS_88_2_2, 10, 0.4, 5.11),
    (DeviceKind.BS_88_2_2, 16, 0.4, 2.70),
    (DeviceKind.BS_88_2_2, 20, 0.4, 1.77),
    (DeviceKind.BS_88_2_2, 25, 0.4, 1.44),
    (DeviceKind.BS_88_2_2, 32, 0.4, 1.04),
    (DeviceKind.BS_88_2_2, 32, 5.0, 1.84),
    (DeviceKind.BS_88_2_2, 63, 5.0, 0.82),
    (DeviceKind.BS_1361, 5, 0.4, 10.45),
    (DeviceKind.BS_1361, 15, 0.4, 3.28),
    (DeviceKind.BS_1361, 20, 0.4, 1.70),
    (DeviceKind.BS_1361, 30, 0.4, 1.15),
    (DeviceKind.BS_1361, 30, 5.0, 1.84),
    (DeviceKind.BS_1361, 45, 5.0, 0.96),
    (DeviceKind.BS_1361, 60, 5.0, 0.70),
]


@pytest.mark.parametrize(("kind", "rating", "time", "printed"), PRINTED_2008)
def test_limits_are_those_of_2008_with_cmin(kind, rating, time, printed):
    found = max_zs(kind, float(rating), time, 230.0)

    assert found.value == pytest.approx(0.95 * printed, abs=0.02)
    assert "2008" in found.source.work


@pytest.mark.parametrize("kind", [DeviceKind.BS_88_2_2, DeviceKind.BS_1361])
def test_a_loop_at_its_limit_opens_the_fuse_in_time(kind):
    for rating in (5.0, 6.0, 15.0, 20.0, 30.0, 32.0, 45.0, 63.0, 100.0):
        if not is_made(kind, rating):
            continue
        for point in fuse_curve(kind, rating):
            limit = max_zs(kind, rating, point.time, 230.0).value
            found, _ = opening(kind, rating, 0.95 * 230 / limit)

            assert found.latest is not None
            assert found.latest <= point.time * (1 + 1e-9)


def test_old_and_new_stand_apart():
    both = (DeviceKind.BS_88_2_2, DeviceKind.BS_88_2)
    old, new = ([max_zs(kind, r, 5.0, 230.0).value for r in (16.0, 20.0, 25.0)] for kind in both)

    assert old != new
    assert not is_made(DeviceKind.BS_1361, 32.0)
    assert is_made(DeviceKind.BS_1361, 30.0)


def test_no_time_is_made_up_below_the_longest():
    found = time_overcurrent(DeviceKind.BS_1361, 30.0, 100.0)

    assert math.isinf(found.value)
    assert "longer" in found.words
