"""Printed figures that are off: what stands there, what is right, and which one is used here."""

import math
from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

import pytest

from records.expected.formulas.electrode import highest_electrode
from records.expected.protection import cold_limit, loop_limit
from records.tables import conductors, disconnection, ratings
from records.tables.devices import fuse_curve, max_zs
from records.tables.table import table
from records.terms import CableKind, DeviceKind, Method

CENT = Decimal("0.01")


def test_half_of_the_breaker_table_is_rounded_up_past_what_its_formula_allows():
    """BS 7671, Table 41.3: 32 A type B is printed 1.37, the formula gives 1.3656 (from memory).

    A loop of 1.37 Ω lets 159.5 A flow at 0.95 × 230 V, not 160 A. The printed figure is kept: it is
    what a certifier compares with; it is off by no more than 0.005 Ω.
    """
    page = table("max_zs_breaker")
    up = []
    for curve, time in (("B", "0.4 s"), ("C", "0.4 s"), ("D", "0.4 s"), ("D", "5 s")):
        multiple = table("breaker_current").printed(curve, time)
        for rating in page.under(curve, time):
            exact = Decimal("218.5") / (Decimal(str(multiple)) * Decimal(rating))
            printed = page.printed(curve, time, rating)
            assert abs(printed - exact) <= Decimal("0.005")
            up.append(printed > exact)
    assert 0.3 < sum(up) / len(up) < 0.7
    assert max_zs(DeviceKind.BREAKER_B, 32.0, 0.4, 230.0).value == 1.37
    assert 218.5 / 1.37 < 160


def test_20_a_type_b_is_a_tie_that_the_table_rounds_up():
    """BS 7671, Table 41.3: 218.5 / 100 = 2.185, printed 2.19; to even it would be 2.18."""
    exact = Decimal("218.5") / 100

    assert exact.quantize(CENT, ROUND_HALF_EVEN) == Decimal("2.18")
    assert exact.quantize(CENT, ROUND_HALF_UP) == Decimal("2.19")
    assert max_zs(DeviceKind.BREAKER_B, 20.0, 0.4, 230.0).value == 2.19


def test_45_a_type_b_is_0_97_and_not_the_0_93_of_a_sum_with_two_slips():
    """BS 7671, Table 41.3, last column: 0.95 × 230 / (5 × 45) = 0.971.

    A 0.93 in circulation is 225 / 230 × 0.95: the operating current over the voltage, upside down.
    """
    assert pytest.approx(0.93, abs=0.005) == 225 / 230 * 0.95
    assert max_zs(DeviceKind.BREAKER_B, 45.0, 0.4, 230.0).value == 0.97


def test_3_a_bs_1362_at_5_s_is_printed_under_what_its_current_gives():
    """BS 7671, Table 41.4: 22.0 (from memory); 218.5 / 9.9 A is 22.07, which rounds to 22.1.

    The lower, printed figure is kept: it errs towards refusing.
    """
    point = next(each for each in fuse_curve(DeviceKind.BS_1362, 3.0) if each.time == 5)
    printed = max_zs(DeviceKind.BS_1362, 3.0, 5.0, 230.0).value

    assert printed == 22.0
    assert pytest.approx(22.07, abs=0.001) == 218.5 / 9.9
    assert point.low <= 9.9 <= point.high
    assert printed < 218.5 / point.low


def test_50_a_bs_88_2_at_0_4_s_is_cut_where_its_neighbours_are_rounded():
    """BS 7671, Table 41.2: 218.5 / 380 A is 0.575 exactly, printed 0.57 (from memory).

    Rounded half up, as Table 41.3 is, it would be 0.58. The printed figure errs towards refusing.
    """
    exact = Decimal("218.5") / 380

    assert exact == Decimal("0.575")
    assert exact.quantize(CENT, ROUND_HALF_UP) == Decimal("0.58")
    assert max_zs(DeviceKind.BS_88_2, 50.0, 0.4, 230.0).value == 0.57


@pytest.mark.parametrize(("residual", "printed"), [(30, 1667), (300, 167)])
def test_the_electrode_table_is_rounded_up_past_50_v(residual, printed):
    """BS 7671, Table 41.5: 50 V / 30 mA is 1666.7 Ω; 1667 Ω × 30 mA is 50.01 V.

    Here the exact quotient is the limit, the printed one is only quoted.
    """
    assert disconnection.rcd_max_ra(residual).value == printed
    assert printed * residual / 1000 > 50
    assert highest_electrode(50.0, residual / 1000) < printed


def test_a_cold_limit_is_cut_for_0_8_rounds_some_up_past_itself():
    """BS 7671, Appendix 3, 0.8 × 0.91 Ω = 0.728: 0.73 rounded, 0.72 cut (32 A BS 88-3).

    Both are in use in the trade; the cut one never passes what the rule itself refuses. The IET
    On-Site Guide divides by 1.24 instead: 5.87 against 5.82 for 6 A type B (read, second hand).
    """
    limit = loop_limit(DeviceKind.BS_88_3, 32.0, 0.4, 230.0)
    assert cold_limit(limit, by_rcd=False).value == 0.72
    assert (Decimal("0.8") * Decimal("0.91")).quantize(CENT, ROUND_HALF_UP) == Decimal("0.73")

    six = loop_limit(DeviceKind.BREAKER_B, 6.0, 0.4, 230.0)
    assert cold_limit(six, by_rcd=False).value == 5.82
    assert (Decimal("7.28") / Decimal("1.24")).quantize(CENT, ROUND_DOWN) == Decimal("5.87")


def test_the_ratio_of_a_ring_is_of_resistances_and_not_of_areas():
    """IET Guidance Note 3: r2 about 1.67 × r1 is 2.5/1.5; by IEC 60228 it is 12.1/7.41 = 1.633."""
    ratio = conductors.copper(1.5).value / conductors.copper(2.5).value

    assert ratio == pytest.approx(1.633, abs=0.001)
    assert ratio < 2.5 / 1.5


def test_hot_factors_of_the_guides_come_from_a_rounded_coefficient():
    """IET On-Site Guide, Table I3: 1.20 and 1.28 are 0.004 per K; with 0.00393 1.197 and 1.275."""
    alpha = conductors.alpha("copper").value
    for theta, printed in ((70, 1.20), (90, 1.28)):
        assert printed == pytest.approx(1 + 0.004 * (theta - 20))
        assert 1 + alpha * (theta - 20) < printed
        assert 1 + alpha * (theta - 20) == pytest.approx(printed, rel=0.005)


def test_thermal_insulation_has_the_factors_since_the_17th_edition():
    """BS 7671, Table 52.2: 0.88, 0.78, 0.63, 0.51; the 16th had 0.89, 0.81, 0.68, 0.55.

    The old ones are still handed round; they would overrate a cable by up to 8 %.
    """
    old = {50: 0.89, 100: 0.81, 200: 0.68, 400: 0.55}
    new = {50: 0.88, 100: 0.78, 200: 0.63, 400: 0.51}
    for length, factor in new.items():
        assert ratings.insulation_factor(float(length)).value == factor < old[length]


def test_4_mm2_armoured_cable_in_the_ground_carries_the_lower_of_two_printed_figures():
    """BS 7671, Table 4E4A, two-core 4 mm² by method D: copies have 43 and 46 A; 43 A is used."""
    found = ratings.tabulated_rating(CableKind.SWA_XLPE, Method.D, 4.0)

    assert found.value == 43


def test_air_below_30_degrees_gets_less_than_the_formula_would_give():
    """BS 7671, Table 4B1: 1.03 at 25 °C, where √((70 - 25)/(70 - 30)) is 1.06: it errs low."""
    assert ratings.ambient_factor(70.0, 25.0, in_ground=False).value == 1.03
    assert math.sqrt(45 / 40) == pytest.approx(1.06, abs=0.001)
