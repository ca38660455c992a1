"""What follows from whole records: figures worked out by hand, and what isn't worked out."""

import math

import pytest

from records.expected.context import BOARD, FEED, circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from records.terms import Part, Stage
from tests.expected.jobs import (
    ARMOUR,
    BOTH,
    FLAT,
    PVC,
    XLPE,
    circuit,
    device,
    job,
    reading,
    ring,
    run,
)

COLD_10 = 1 - 0.00393 * 10
HOT_70 = 1 + 0.00393 * 50
HOT_90 = 1 + 0.00393 * 70


def meter(record, quantity, part, circuit=None, point=None, stage=Stage.DEAD):
    found = {
        (slot.quantity.value, slot.place.part, slot.place.circuit, slot.place.point, slot.stage): e
        for slot, e in expected(record).meter.items()
    }
    return found[quantity, part, circuit, point, stage]


def design(record, what, number=0):
    return expected(record).design[circuit_place(record.circuits[number]), what]


def measured(record, what, number=0):
    return expected(record).measured[circuit_place(record.circuits[number]), what]


def test_the_feed_of_two_runs_reads_cold_copper_and_cold_steel():
    """12 m of 6/2.5 flat and 30 m of 2-core 6 mm² armoured at 10 °C, steel at 0.0045 per K."""
    record = job(
        job={"ambient": 10.0},
        feed={
            "device": device("BS 88-3 fuse"),
            "runs": [run(FLAT, 6.0, 12.0), run(XLPE, 6.0, 30.0, cpc=ARMOUR, cores=2)],
        },
    )
    copper = 0.012 * (3.08 + 7.41) + 0.030 * 3.08
    steel = 0.030 * 7.0 * (1 - 0.0045 * 10)

    found = meter(record, "R1+R2", Part.FEED)

    assert found.value == pytest.approx(copper * COLD_10 + steel)
    assert "12 m" in found.put_in
    assert "30 m" in found.put_in


def test_a_core_and_the_armour_together_read_less_than_either():
    def r1_r2(cpc):
        record = job(feed={"device": device(), "runs": [run(XLPE, 6.0, 30.0, cpc=cpc)]})
        return meter(record, "R1+R2", Part.FEED).value

    together = r1_r2(BOTH)
    assert together < r1_r2(ARMOUR)
    assert together < r1_r2("a core of the cable")
    assert together == pytest.approx(0.03 * (3.08 + 3.08 * 6.7 / (3.08 + 6.7)))


def test_a_ring_of_40_metres_at_20_degrees():
    """2.5/1.5 mm²: 0.296 and 0.484 Ω; crossed half way (r1+rn)/4 and (r1+r2)/4 (GN3, memory)."""
    record = job(circuits=[ring()])

    assert meter(record, "r1", Part.CIRCUIT, "C1").value == pytest.approx(0.2964)
    assert meter(record, "rn", Part.CIRCUIT, "C1").value == pytest.approx(0.2964)
    assert meter(record, "r2", Part.CIRCUIT, "C1").value == pytest.approx(0.484)
    assert meter(record, "cross-connected L-N", Part.CIRCUIT, "C1", "P1").value == pytest.approx(
        0.1482
    )
    assert meter(record, "cross-connected L-cpc", Part.CIRCUIT, "C1", "P2").value == pytest.approx(
        (0.2964 + 0.484) / 4
    )


def test_a_spur_adds_its_own_two_conductors_to_a_crossed_reading():
    points = [{"id": "P1", "at": 20.0}, {"id": "P2", "at": 20.0, "spur": 4.0}]
    record = job(circuits=[ring(points=points)])

    on_ring = meter(record, "cross-connected L-cpc", Part.CIRCUIT, "C1", "P1").value
    on_spur = meter(record, "cross-connected L-cpc", Part.CIRCUIT, "C1", "P2").value

    assert on_spur - on_ring == pytest.approx(4 * 19.51e-3)


def test_zdb_and_zs_are_design_ze_with_the_cold_runs():
    record = job(job={"ambient": 10.0})
    zdb = 0.3 + 0.030 * 2 * 3.08 * COLD_10
    zs = zdb + 0.020 * 19.51 * COLD_10

    assert meter(record, "Zdb", Part.BOARD, stage=Stage.LIVE).value == pytest.approx(zdb)
    assert meter(record, "Zs", Part.CIRCUIT, "C1", stage=Stage.LIVE).value == pytest.approx(zs)


def test_design_zs_is_hot_and_never_under_the_cold_reading():
    record = job()
    hot = 0.3 + 0.030 * 2 * 3.08 * HOT_90 + 0.020 * 19.51 * HOT_70

    assert design(record, What.ZS).value == pytest.approx(hot)
    assert hot > meter(record, "Zs", Part.CIRCUIT, "C1", stage=Stage.LIVE).value


def test_armour_as_cpc_counts_a_tenth_more_for_alternating_current_only():
    """PD CLC/TR 50480: R1 + 1.1 R2 for a loop; a meter's d.c. doesn't see it (read, secondary)."""
    record = job(feed={"device": device(), "runs": [run(PVC, 6.0, 30.0, cpc=ARMOUR)]})

    dead = meter(record, "R1+R2", Part.FEED).value
    live = meter(record, "Zdb", Part.BOARD, stage=Stage.LIVE).value - 0.3

    assert dead == pytest.approx(0.03 * (3.08 + 4.6))
    assert live == pytest.approx(0.03 * (3.08 + 1.1 * 4.6))


def test_the_temperature_of_a_reading_goes_before_that_of_the_job():
    slot = reading("R1", "R1+R2", "feed", 0.2, temperature=0.0)
    record = job(readings=[slot])
    factor = 1 - 0.00393 * 20

    assert meter(record, "R1+R2", Part.FEED).value == pytest.approx(0.030 * 2 * 3.08 * factor)


def test_without_a_temperature_20_degrees_are_taken_and_said():
    found = meter(job(job={}), "R1+R2", Part.FEED)

    assert found.value == pytest.approx(0.030 * 2 * 3.08)
    assert "taken as 20 °C" in found.note


def test_limits_of_a_32_a_type_b_socket_circuit():
    """BS 7671, Table 41.3: 1.37 Ω; 0.8 of it cut down is 1.09 (not 1.10)."""
    record = job()

    assert design(record, What.ZS_LIMIT).value == 1.37
    assert design(record, What.ZS_LIMIT_COLD).value == 1.09
    own = 0.020 * 19.51e-3 * 1000
    exact = 1.37 - (HOT_70 - 1) * own
    assert design(record, What.ZS_LIMIT_EXACT).value == pytest.approx(math.floor(exact * 100) / 100)


@pytest.mark.parametrize(
    ("use", "rating", "time"),
    [
        ("sockets", 63.0, 0.4),
        ("sockets", 80.0, 5),
        ("fixed appliance", 32.0, 0.4),
        ("fixed appliance", 40.0, 5),
        ("lighting", 6.0, 0.4),
    ],
)
def test_required_times_in_a_tn_system(use, rating, time):
    """BS 7671, Regulations 411.3.2.2 and 411.3.2.3 (read in a secondary copy)."""
    record = job(circuits=[circuit(use=use, device=device(rating=rating))])

    assert design(record, What.TIME_REQUIRED).value == time
    assert expected(record).design[FEED, What.TIME_REQUIRED].value == 5


def test_the_highest_current_at_the_board_takes_the_worst_angle():
    """1.2 kA at the origin: 0.1917 Ω; √(0.1917² + (2 × 0.0924)²) and U0; L-E: Cmax U0/√(…)."""
    found = expected(job()).design[BOARD, What.FAULT_HIGHEST]
    by_neutral = 230 / math.hypot(230 / 1200, 2 * 0.0924)
    by_ze = 1.1 * 230 / math.hypot(0.3, 2 * 0.0924)

    assert found.value == pytest.approx(max(by_neutral, by_ze) / 1000)


def test_highest_is_over_what_a_meter_shows_and_lowest_under():
    record = job()
    shown = meter(record, "fault current L-E", Part.BOARD, stage=Stage.LIVE).value
    figures = expected(record).design

    assert figures[BOARD, What.FAULT_HIGHEST].value > shown
    assert figures[FEED, What.FAULT_LOWEST].value / 1000 < shown


def test_voltage_drop_of_feed_and_circuit_together():
    """BS 7671, Tables 4E4B and 4D5: 7.9 × 25 × 30 and 18 × 13 × 20, mV."""
    record = job(circuits=[circuit(load=13.0)])

    assert expected(record).design[FEED, What.VOLT_DROP].value == pytest.approx(5.925)
    assert design(record, What.VOLT_DROP).value == pytest.approx(5.925 + 4.68)
    assert design(record, What.VOLT_DROP_LIMIT).value == pytest.approx(11.5)


def test_a_ring_drops_with_20_a_half_way_round_and_the_rest_spread():
    """IET On-Site Guide, basis of circuit lengths (from memory): 20 A/4 + 12 A/8 = 6.5 A."""
    record = job(circuits=[ring()])

    # The feed carries at least the 32 A of the ring: 7.9 mV/A/m, 30 m (Table 4E4B).
    feed = 7.9e-3 * 30 * 32
    assert design(record, What.VOLT_DROP).value == pytest.approx(feed + 18e-3 * 40 * 6.5)


def test_a_feed_without_ib_is_loaded_with_no_more_than_its_device():
    record = job(
        feed={"device": device("BS 88-3 fuse", 32.0), "runs": [run(XLPE, 6.0, 30.0)]},
        circuits=[circuit("C1"), circuit("C2")],
    )
    figures = expected(record).design

    assert figures[FEED, What.IB].value == 64
    assert figures[FEED, What.VOLT_DROP].value == pytest.approx(7.9e-3 * 32 * 30)
    assert "add up to more" in figures[FEED, What.VOLT_DROP].note


def test_capacity_takes_the_worst_run_and_names_it():
    """BS 7671, Table 4D5: method 101 17 A against clipped 27 A."""
    record = job(circuits=[circuit(runs=[run(), run(method="101")])])
    found = design(record, What.IZ)

    assert found.value == 17
    assert "run 2" in found.note


def test_capacity_of_armoured_cable_in_the_ground():
    """As 70 °C cable 46 A, times 0.9 for burial (BS 7671, Tables 4D4A and 4E4A note)."""
    found = expected(job()).design[FEED, What.IZ]

    assert found.value == pytest.approx(46 * 0.9)
    assert "70 °C" in found.note


@pytest.mark.parametrize(
    ("method", "insulated", "iz"),
    [
        ("C", 400.0, 27 * 0.51),
        ("100", 0.0, 21.0),
        ("100", 50.0, 21.0),  # 27 × 0.88 is more: the method's own insulation decides
        ("100", 400.0, 27 * 0.51),
        ("101", 100.0, 17.0),
        ("101", 400.0, 27 * 0.51),
        ("103", 500.0, 13.5),  # that is what 103 means
        ("A", 500.0, 27 * 0.5),
    ],
)
def test_cable_that_insulation_surrounds_carries_no_more_than_its_factor_allows(
    method: str, insulated: float, iz: float
) -> None:
    """2.5 mm² flat cable, BS 7671 Table 4D5: C 27, 100 21, 101 17, A 20, 103 13.5 A; Table 52.2:
    0.88 at 50 mm, 0.78 at 100 mm, 0.51 at 400 mm, 0.5 from 500 mm on, of the open-air rating."""
    found = design(job(circuits=[circuit(runs=[run(method=method, insulated=insulated)])]), What.IZ)

    assert found.value == pytest.approx(iz)
    assert ("method C with Ci" in found.note) is (method in ("100", "101", "A") and iz < 17)


def test_ib_from_power_load_sockets_and_connection_unit():
    def ib(**more):
        return design(job(circuits=[circuit(**more)]), What.IB)

    assert ib(load=7.5).value == 7.5
    assert ib(use="lighting", power=0.23).value == pytest.approx(1.0)
    assert ib(use="sockets").value == 32
    assert (
        ib(use="fixed appliance", form="radial to a fused connection unit", fuse=13.0).value == 13
    )
    assert isinstance(ib(use="lighting"), NotWorkedOut)
    assert "Circuits, C1" in ib(use="lighting").why


def test_cpc_of_flat_cable_behind_a_breaker_is_enough_and_behind_a_slow_fuse_is_calculated():
    """1.5 mm² behind a 32 A type B, class 3, up to 3 kA: IET On-Site Guide (from memory)."""
    behind_breaker = job()
    assert design(behind_breaker, What.CPC_SIZE).value == 1.5
    assert design(behind_breaker, What.CPC_LEAST).value == 1.5

    behind_fuse = job(circuits=[circuit(device=device("BS 3036 fuse", 30.0))])
    least = design(behind_fuse, What.CPC_LEAST)
    assert least.formula == "S = √(I²t) / k"
    # 210 A operates it in 0.4 s: √(210² × 0.4)/115 is 1.15 mm² (BS 7671, Appendix 3, memory).
    assert 1.15 <= least.value < 1.5


def test_armour_that_meets_table_54_7_needs_no_calculation():
    """2-core 6 mm² XLPE: 22 mm² of steel against 6 × 143/46 = 18.7 (read, secondary copies)."""
    record = job(feed={"device": device(), "runs": [run(XLPE, 6.0, 30.0, cpc=ARMOUR, cores=2)]})
    figures = expected(record).design

    assert figures[FEED, What.CPC_SIZE].value == 22
    assert figures[FEED, What.CPC_LEAST].value == pytest.approx(18.65, abs=0.01)
