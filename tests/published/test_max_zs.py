"""Highest Zs against BS 7671, Tables 41.2 to 41.5."""

from decimal import ROUND_HALF_UP, Decimal

import pytest

from records.expected.formulas.electrode import highest_electrode
from records.tables.devices import fuse_curve, max_zs
from records.tables.disconnection import rcd_max_ra
from records.tables.table import table
from records.terms import DeviceKind

BREAKERS = {"B": DeviceKind.BREAKER_B, "C": DeviceKind.BREAKER_C, "D": DeviceKind.BREAKER_D}
IA = {
    ("B", "0.4 s"): 5,
    ("B", "5 s"): 5,
    ("C", "0.4 s"): 10,
    ("C", "5 s"): 10,
    ("D", "0.4 s"): 20,
    ("D", "5 s"): 10,
}
FUSES = {
    DeviceKind.BS_88_2: "bs_88_2",
    DeviceKind.BS_88_3: "bs_88_3",
    DeviceKind.BS_3036: "bs_3036",
    DeviceKind.BS_1362: "bs_1362",
}


@pytest.mark.parametrize(("curve", "time"), IA)
def test_the_whole_breaker_table_is_0_95_u0_over_ia_rounded_half_up(curve, time):
    """BS 7671, Table 41.3: 0.95 × 230 V / (k·In), to 0.01 Ω (few figures read, most from memory).

    Half of the figures are rounded up; 20 A type B is an exact tie, printed 2.19.
    """
    page = table("max_zs_breaker")
    for rating in page.under(curve, time):
        exact = Decimal("218.5") / (IA[curve, time] * Decimal(rating))
        printed = page.printed(curve, time, rating)
        assert printed == exact.quantize(Decimal("0.01"), ROUND_HALF_UP)
        assert max_zs(
            BREAKERS[curve], float(rating), float(time.removesuffix(" s")), 230.0
        ).value == float(printed)


@pytest.mark.parametrize(
    ("curve", "rating", "printed"),
    [
        ("B", 6, 7.28),
        ("B", 16, 2.73),
        ("B", 20, 2.19),
        ("B", 32, 1.37),
        ("B", 40, 1.09),
        ("C", 10, 2.19),
        ("C", 16, 1.37),
        ("C", 20, 1.09),
        ("C", 32, 0.68),
        ("D", 16, 0.68),
    ],
)
def test_breaker_limits_known_by_heart(curve, rating, printed):
    """BS 7671, Table 41.3, 0.4 s (6 A and 32 A B read in a secondary copy, others from memory)."""
    assert max_zs(BREAKERS[curve], float(rating), 0.4, 230.0).value == printed


@pytest.mark.parametrize(
    ("kind", "rating", "time", "printed"),
    [
        (DeviceKind.BS_1362, 13, 0.4, 2.30),
        (DeviceKind.BS_3036, 30, 0.4, 1.04),
        (DeviceKind.BS_3036, 30, 5, 2.51),
        (DeviceKind.BS_88_3, 32, 0.4, 0.91),
        (DeviceKind.BS_88_3, 100, 5, 0.38),
        (DeviceKind.BS_88_2, 63, 5, 0.78),
    ],
)
def test_fuse_limits_known_by_heart(kind, rating, time, printed):
    """BS 7671, Tables 41.2 and 41.4 (32 A and 100 A BS 88-3 read, others from memory)."""
    assert max_zs(kind, float(rating), float(time), 230.0).value == printed


@pytest.mark.parametrize("kind", FUSES)
def test_fuse_limits_agree_with_their_currents(kind):
    """BS 7671, Tables 41.2, 41.4 and Appendix 3: Zs = 0.95 × 230 V / Ia, to the printed digits.

    3 A BS 1362 at 5 s is printed 22.0; 9.9 A gives 22.07, which would print as 22.1: one unit of
    the last digit is therefore allowed everywhere.
    """
    page = table(f"max_zs_{FUSES[kind]}")
    checked = 0
    for time, rating in page.cells:
        printed = Decimal(str(page.printed(time, rating)))
        unit = float(Decimal(1).scaleb(int(printed.as_tuple().exponent)))
        points = {point.time: point.current for point in fuse_curve(kind, float(rating))}
        current = points.get(float(time.removesuffix(" s")))
        if current is not None:
            assert 218.5 / current == pytest.approx(float(printed), abs=unit)
            checked += 1
    assert checked == len(page.cells)


@pytest.mark.parametrize("residual", [10, 30, 100, 300, 500])
def test_ra_limits_are_50_v_over_the_residual_current(residual):
    """BS 7671, Table 41.5 (read in a secondary copy): 50 V / IΔn, rounded to whole ohms."""
    exact = highest_electrode(50.0, residual / 1000)

    assert rcd_max_ra(residual).value == pytest.approx(exact, abs=0.5)


def test_a_200_ohm_electrode_passes_with_100_ma_and_fails_with_300_ma():
    """IET On-Site Guide, electrode and RCD (read in a secondary copy)."""
    assert highest_electrode(50.0, 0.1) >= 200
    assert highest_electrode(50.0, 0.3) < 200
