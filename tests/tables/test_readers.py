"""The readers give SI and refuse what isn't tabulated."""

import pytest

from records.errors import NotTabulated, OutOfRange
from records.tables import conductors, demand, devices, disconnection, drop, protective, ratings
from records.tables import testing as limits
from records.terms import Basis, CableKind, DeviceKind, Earthing, Method


def test_copper_comes_in_ohm_per_metre():
    assert conductors.copper(2.5).value == pytest.approx(7.41e-3)
    assert conductors.copper(2.5, flexible=True).value == pytest.approx(7.98e-3)


def test_a_size_that_is_not_made_is_refused():
    with pytest.raises(NotTabulated, match="mm²"):
        conductors.copper(3.0)


def test_flat_cable_knows_its_cpc():
    assert [conductors.flat_cpc(line).value for line in (1, 1.5, 2.5, 4, 6, 10, 16)] == [
        1,
        1,
        1.5,
        1.5,
        2.5,
        4,
        6,
    ]


def test_armour_is_found_by_cable_cores_and_size():
    assert conductors.armour_resistance(CableKind.SWA_XLPE, 2, 6).value == pytest.approx(7e-3)
    assert conductors.armour_resistance(CableKind.SWA_PVC, 2, 6).value == pytest.approx(6.8e-3)
    assert conductors.armour_area(CableKind.SWA_XLPE, 3, 10).value == 39


def test_five_core_armour_is_refused():
    with pytest.raises(NotTabulated, match="2-core, 3-core, 4-core"):
        conductors.armour_resistance(CableKind.SWA_XLPE, 5, 6)


def test_line_sizes_are_those_of_the_cable():
    assert conductors.line_sizes(CableKind.FLAT)[-1] == 16
    assert conductors.line_sizes(CableKind.FLEX)[-1] == 25
    assert conductors.line_sizes(CableKind.SWA_XLPE)[0] == 1.5
    assert conductors.line_sizes(CableKind.SINGLES)[-1] == 95


def test_operating_temperatures_follow_the_insulation():
    def of(part, cable):
        return conductors.operating_temperature(part, cable).value

    assert of("conductor", CableKind.SWA_XLPE.code) == 90
    assert of("armour", CableKind.SWA_XLPE.code) == 80
    assert of("conductor", CableKind.FLAT.code) == 70
    assert of("separate conductor", "not bunched with the cable") == 30


def test_a_breaker_rating_that_is_not_made_is_refused():
    with pytest.raises(NotTabulated, match=r"7 A.*made are"):
        devices.max_zs(DeviceKind.BREAKER_B, 7.0, 0.4, 230.0)


def test_a_breaker_rating_the_table_does_not_print_says_worked_out():
    found = devices.max_zs(DeviceKind.RCBO_B, 45.0, 0.4, 230.0)

    assert found.value == 0.97
    assert found.source.basis is Basis.WORKED_OUT


def test_a_breaker_at_another_voltage_says_worked_out():
    found = devices.max_zs(DeviceKind.BREAKER_B, 32.0, 0.4, 240.0)

    assert found.value == pytest.approx(1.42)  # 1.425, cut
    assert found.source.basis is Basis.WORKED_OUT


def test_fuses_are_refused_at_another_voltage_time_and_rating():
    with pytest.raises(NotTabulated, match="230 V"):
        devices.max_zs(DeviceKind.BS_3036, 30.0, 0.4, 240.0)
    with pytest.raises(NotTabulated, match=r"0\.2 s"):
        devices.max_zs(DeviceKind.BS_3036, 30.0, 0.2, 230.0)
    with pytest.raises(NotTabulated, match="no row 35"):
        devices.max_zs(DeviceKind.BS_3036, 35.0, 0.4, 230.0)
    with pytest.raises(OutOfRange):
        devices.max_zs(DeviceKind.BS_3036, 0.0, 0.4, 230.0)


def test_a_plug_fuse_of_5_a_has_no_point():
    with pytest.raises(NotTabulated, match="3, 13"):
        devices.fuse_curve(DeviceKind.BS_1362, 5.0)


def test_a_breaker_has_no_curve_and_a_fuse_no_band():
    with pytest.raises(NotTabulated):
        devices.fuse_curve(DeviceKind.BREAKER_B, 6.0)
    with pytest.raises(NotTabulated):
        devices.breaker_band(DeviceKind.BS_3036)


def test_the_range_of_a_fuse_point_contains_its_printed_current():
    for kind in (DeviceKind.BS_88_2, DeviceKind.BS_88_3, DeviceKind.BS_3036, DeviceKind.BS_1362):
        for rating in devices.ratings(kind):
            for point in devices.fuse_curve(kind, rating):
                assert point.low <= point.current <= point.high


def test_longer_times_need_less_current_on_every_fuse_curve():
    for kind in (DeviceKind.BS_88_2, DeviceKind.BS_88_3, DeviceKind.BS_3036, DeviceKind.BS_1362):
        for rating in devices.ratings(kind):
            currents = [point.current for point in devices.fuse_curve(kind, rating)]
            assert currents == sorted(currents, reverse=True)


def test_breaking_capacity_without_a_label_is_the_lowest_usual_one():
    assert devices.breaking_capacity(DeviceKind.RCBO_B).value == 6000
    assert devices.breaking_capacity(DeviceKind.BS_3036).value == 1000


def test_disconnection_times_are_found_by_voltage_and_system():
    assert disconnection.final_circuit_time(230.0, tt=False).value == 0.4
    assert disconnection.final_circuit_time(230.0, tt=True).value == 0.2
    assert disconnection.final_circuit_time(240.0, tt=False).value == 0.2
    assert disconnection.final_circuit_time(110.0, tt=True).value == 0.3
    with pytest.raises(OutOfRange):
        disconnection.final_circuit_time(50.0, tt=False)


def test_an_rcd_without_delay_has_no_shortest_time():
    assert [each.shortest for each in disconnection.rcd_times(delayed=False)] == [0, 0, 0]
    assert [each.longest for each in disconnection.rcd_times(delayed=True)] == [0.5, 0.2, 0.15]


def test_voltage_drop_of_thick_flexible_cable_has_its_reactance_and_says_worked_out():
    found = drop.volt_drop(CableKind.FLEX, 25.0)
    hot = 2 * conductors.copper(25.0, flexible=True).value * (1 + 0.00393 * 40)

    assert found.value == pytest.approx((hot**2 + 0.16e-3**2) ** 0.5)
    assert found.value > hot
    assert found.source.basis is Basis.WORKED_OUT
    assert "reactance" in found.source.place


def test_voltage_drop_of_thick_singles_is_the_tabulated_z():
    found = drop.volt_drop(CableKind.SINGLES, 50.0)

    assert found.value == pytest.approx(1.00e-3)
    assert "4D1B" in found.source.place


def test_voltage_drop_of_flexible_cable_is_that_of_its_conductors_at_60_degrees():
    """BS 7671, Table 4F3B, from memory; 2 × 13.3 mΩ/m × 1.157 = 30.8 is its 32 within 5 %."""
    found = drop.volt_drop(CableKind.FLEX, 1.5)

    assert found.value == pytest.approx(32e-3)
    assert found.value == pytest.approx(2 * 13.3e-3 * (1 + 0.00393 * 40), rel=0.05)


def test_voltage_drop_of_flexible_cable_that_no_table_has_says_worked_out():
    found = drop.volt_drop(CableKind.FLEX, 6.0)

    assert found.value == pytest.approx(2 * 3.3e-3 * (1 + 0.00393 * 40))
    assert found.source.basis is Basis.WORKED_OUT


def test_a_90_degree_cable_on_70_degree_terminals_is_rated_as_70():
    cold = ratings.tabulated_rating(CableKind.SWA_XLPE, Method.D, 6.0, as_70_degrees=True)
    full = ratings.tabulated_rating(CableKind.SWA_XLPE, Method.D, 6.0)

    assert (cold.value, full.value) == (46, 53)


def test_flat_cable_has_no_rating_in_the_ground():
    with pytest.raises(NotTabulated, match="no row D"):
        ratings.tabulated_rating(CableKind.FLAT, Method.D, 2.5)


def test_flexible_cable_is_rated_in_free_air_only():
    assert ratings.tabulated_rating(CableKind.FLEX, Method.E, 1.5).value == 16
    with pytest.raises(NotTabulated, match="free air"):
        ratings.tabulated_rating(CableKind.FLEX, Method.D, 1.5)


@pytest.mark.parametrize(
    ("surroundings", "factor"), [(10.0, 1.03), (25.0, 1.03), (26.0, 1.0), (31.0, 0.94)]
)
def test_between_two_rows_of_ambient_the_hotter_counts(surroundings, factor):
    assert ratings.ambient_factor(70.0, surroundings, in_ground=False).value == factor


def test_beyond_the_table_a_factor_is_refused():
    with pytest.raises(NotTabulated, match="ends at 60"):
        ratings.ambient_factor(70.0, 61.0, in_ground=False)
    with pytest.raises(NotTabulated, match="ends at 20"):
        ratings.grouping_factor(21, Method.B)
    with pytest.raises(OutOfRange):
        ratings.grouping_factor(0, Method.B)


def test_grouping_follows_the_method():
    assert ratings.grouping_factor(1, Method.D).value == 1
    assert ratings.grouping_factor(2, Method.C).value == 0.85
    assert ratings.grouping_factor(2, Method.D).value == 0.75
    assert ratings.grouping_factor(2, Method.E).value == 0.88
    assert ratings.grouping_factor(10, Method.B).value == 0.45
    assert ratings.grouping_factor(2, Method.M101).value == 0.8


def test_insulation_factor_steps_to_the_longer_row_and_ends_at_half():
    lengths = (0.0, 50.0, 60.0, 450.0, 5000.0)

    assert [ratings.insulation_factor(each).value for each in lengths] == [1, 0.88, 0.78, 0.5, 0.5]
    with pytest.raises(OutOfRange):
        ratings.insulation_factor(-1.0)


def test_soil_depth_and_device_factors():
    assert ratings.soil_factor(2.5, in_duct=False).value == 1.0
    assert ratings.soil_factor(2.6, in_duct=False).value == 0.9
    assert ratings.depth_factor(0.65, in_duct=False).value == 1.0
    assert ratings.device_factor(DeviceKind.BREAKER_B, in_ground=False).value == 1
    assert ratings.device_factor(DeviceKind.BREAKER_B, in_ground=True).value == 0.9
    assert ratings.device_factor(DeviceKind.BS_3036, in_ground=False).value == 0.725
    assert ratings.device_factor(DeviceKind.BS_3036, in_ground=True).value == 0.653


def test_protective_conductor_sizes():
    assert protective.least_by_line(6.0).value == 6
    assert protective.least_by_line(25.0).value == 16
    assert protective.least_by_line(70.0).value == 35
    assert protective.least_bond_pme(25.0).value == 10
    assert protective.least_bond_pme(35.5).value == 16
    assert protective.least_bond_pme(300.0).value == 50
    assert protective.least_bond(10.0).value == 6
    assert protective.least_bond(16.0).value == 8
    assert protective.least_bond(95.0).value == 25
    assert protective.least_separate(protected=False).value == 4
    assert protective.least_buried_earthing(against_corrosion=False).value == 25
    with pytest.raises(OutOfRange):
        protective.least_by_line(0.0)


def test_insulation_minimum_is_in_ohms():
    assert limits.insulation_minimum(230.0).value == 1e6
    assert limits.insulation_minimum(12.0, extra_low=True).value == 5e5
    assert limits.insulation_test_voltage(230.0).value == 500


def test_the_worst_meter_that_the_standard_allows():
    assert limits.worst_uncertainty("insulation").value == pytest.approx(0.3)


def test_what_distributors_declare():
    assert demand.typical_ze(Earthing.TN_C_S).value == 0.35
    assert demand.typical_ze(Earthing.TN_S).value == 0.8
    assert demand.typical_fault_current().value == 16_000
    assert demand.diversity("socket circuits, each other").value == 0.4
