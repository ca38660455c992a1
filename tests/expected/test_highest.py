"""What gives a highest fault current, and what doesn't."""

import math

import pytest

from records.expected.context import BOARD, FEED, ORIGIN, circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from tests.expected.jobs import FLAT, XLPE, circuit, device, job, reading, run

LIVE = "live tests"
DECLARED, MEASURED = "declared by the network operator", "measured at the origin"
FEED_LN = 2 * 30 * 3.08e-3
"""6 mm² there and back, 30 m, 20 °C: IEC 60228 (read in a secondary copy)."""


def origin(earthing="TN-C-S", ze=0.35, ground=DECLARED, **more):
    return {"earthing": earthing, "ze": ze, "ze_ground": ground, **more}


def figures(origin, *readings, **parts):
    return expected(job(origin=origin, readings=list(readings), **parts)).design


def behind_feed(volts, impedance):
    return volts / math.hypot(impedance, FEED_LN) / 1000


def test_a_declared_ze_gives_no_highest_current_and_the_typical_16_ka_is_assumed():
    """Ze declared is a largest one. 16 kA: the most that a distributor declares for a
    single-phase supply of 100 A (read in a secondary copy, see supply_typical.toml)."""
    found = figures(origin())

    assert found[ORIGIN, What.FAULT_LN].value == pytest.approx(16.0)
    assert found[ORIGIN, What.FAULT_LE].value == pytest.approx(16.0)
    board = found[BOARD, What.FAULT_HIGHEST]
    assert board.value == pytest.approx(behind_feed(230, 230 / 16000), rel=1e-4)
    assert str(board).endswith("kA, assumed")
    assert "Enter the fault current" in board.assumed


@pytest.mark.parametrize("ground", [DECLARED, "typical maximum, not yet confirmed", None])
def test_only_a_measured_ze_gives_one(ground):
    assert figures(origin(ground=ground))[ORIGIN, What.FAULT_LN].assumed
    # Cmax 1.1: IEC 60909-0, Table 1 (from memory).
    measured = figures(origin(ground=MEASURED))[ORIGIN, What.FAULT_LN]
    assert measured.value == pytest.approx(1.1 * 230 / 0.35 / 1000)
    assert not measured.assumed


def test_a_declared_ze_is_still_the_least_that_the_current_can_be():
    found = figures(origin(ze=0.1, fault_current=1.0))

    assert found[ORIGIN, What.FAULT_LN].value == pytest.approx(1.1 * 230 / 0.1 / 1000)


def test_with_tn_c_s_line_to_earth_gives_as_much_as_line_to_neutral_up_to_the_cut_out():
    found = figures(origin(fault_current=3.0))

    assert found[ORIGIN, What.FAULT_LE].value == pytest.approx(3.0)
    assert found[ORIGIN, What.FAULT_LN].value == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("quantity", "part", "value", "expected_kiloamperes"),
    [
        ("Ze", "origin", 0.05, 1.1 * 230 / 0.05 / 1000),
        ("fault current L-N", "origin", 4.2, 4.2),
        ("fault current L-E", "origin", 4.3, 4.3),
    ],
)
def test_what_was_read_at_the_origin_and_is_worse_counts(
    quantity, part, value, expected_kiloamperes
):
    read = reading("R1", quantity, part, value, stage=LIVE)
    found = figures(origin(ze=0.3, ground=MEASURED, fault_current=1.2), read)

    assert found[FEED, What.FAULT_HIGHEST].value == pytest.approx(expected_kiloamperes)
    assert found[BOARD, What.FAULT_LN].value > 0.7


@pytest.mark.parametrize(("read", "counts"), [(1.2, 1.2), (1.19, 1.2), (1.21, 1.21)])
def test_a_reading_that_is_better_than_what_is_entered_takes_nothing_off(read, counts):
    found = figures(
        origin("TN-S", 0.8, fault_current=1.2),
        reading("R1", "fault current L-N", "origin", read, stage=LIVE),
    )

    assert found[FEED, What.FAULT_HIGHEST].value == pytest.approx(counts)


def test_a_current_over_the_range_counts_as_at_least_that_much():
    read = reading("R1", "fault current L-N", "origin", 20.0, stage=LIVE, sign=">")

    assert figures(origin(fault_current=1.2), read)[ORIGIN, What.FAULT_LN].value == 20.0


def test_a_current_read_at_the_sub_board_leaves_nothing_to_be_assumed_there():
    read = reading("R1", "fault current L-N", "board", 0.9, stage=LIVE)
    found = figures(origin("TN-S", 0.8), read)

    assert found[BOARD, What.FAULT_LN].value == pytest.approx(0.9)
    assert not found[BOARD, What.FAULT_LN].assumed
    assert found[ORIGIN, What.FAULT_LN].assumed


def test_a_lower_loop_read_at_the_sub_board_gives_a_higher_current_for_the_cpc():
    read = reading("R1", "Zdb", "board", 0.15, stage=LIVE)
    plain, found = figures(origin(fault_current=1.2)), figures(origin(fault_current=1.2), read)

    assert found[BOARD, What.FAULT_LE].value == pytest.approx(1.1 * 230 / 0.15 / 1000)
    assert plain[BOARD, What.FAULT_LE].value < found[BOARD, What.FAULT_LE].value


def test_a_measured_loop_of_tn_s_may_be_lower_by_the_meters_uncertainty():
    """BS EN 61557-3 allows 30 % (read in a secondary copy)."""
    found = figures(origin("TN-S", 0.4, MEASURED, fault_current=5.0))[ORIGIN, What.FAULT_LE]

    assert found.value == pytest.approx(1.1 * 230 / 0.4 / 1000)
    assert found.high == pytest.approx(1.1 * 230 / 0.28 / 1000)
    assert found.low == found.value


@pytest.mark.parametrize(
    ("given", "read", "open_to"),
    [
        (None, (), 1.1 * 230 / (0.7 * 0.05) / 1000),
        (4.8, (), None),
        (None, (reading("R2", "fault current L-N", "origin", 4.8, stage="live tests"),), None),
    ],
)
def test_so_may_one_of_tn_c_s_where_no_current_stands_beside_it(given, read, open_to):
    """BS EN 61557-3 allows 30 % (read in a secondary copy): 0.05 Ω may be 0.035 Ω, 7.2 kA."""
    found = figures(origin(ze=0.05, ground=MEASURED, fault_current=given), *read)

    assert found[ORIGIN, What.FAULT_HIGHEST].value == pytest.approx(5.06, abs=0.01)
    assert found[ORIGIN, What.FAULT_HIGHEST].high == (open_to and pytest.approx(open_to))


def test_a_declared_loop_of_tn_s_gives_a_least_and_the_neutral_bounds_it_instead_of_16_ka():
    found = figures(origin("TN-S", 0.8, fault_current=1.5))[ORIGIN, What.FAULT_LE]

    assert found.value == pytest.approx(1.1 * 230 / 0.8 / 1000)
    assert found.high == pytest.approx(1.5)
    assert str(found) == "at least 0.32 kA, at most 1.50 kA"
    assert "Read Ze" in found.assumed


@pytest.mark.parametrize(("cutout", "assumed"), [(100.0, True), (125.0, False)])
def test_the_typical_current_is_not_taken_for_a_supply_over_100_a(cutout, assumed):
    found = figures(origin(cutout=cutout))[FEED, What.FAULT_HIGHEST]

    assert isinstance(found, NotWorkedOut) is not assumed


def thin_cpc(ground=DECLARED, **more):
    """A 50 A breaker before a short feed whose 1.5 mm² core hardly survives."""
    runs = [run(FLAT, 2.5, 2.0)]
    finals = [circuit(device=device("circuit-breaker type C", 50.0), runs=runs)]
    short = {
        "device": device("BS 88-2 fuse", 63.0, breaking=80.0),
        "load": 25.0,
        "runs": [run(XLPE, 16.0, 2.0, method="D", ambient=20.0)],
    }
    return figures(origin(ground=ground, **more), feed=short, circuits=finals)


def test_a_cpc_that_only_the_assumed_current_fails_gets_the_range():
    """√(I²t)/k at 0.1 s, k 115: BS 7671, Regulation 543.1.3 and Table 54.3 (secondary copy)."""
    found = thin_cpc()
    place = circuit_place(job().circuits[0])
    least = found[place, What.CPC_LEAST]

    assert least.value <= 2.0 < least.high
    assert "Enter the fault current" in least.assumed
    assert not thin_cpc(fault_current=0.8)[place, What.CPC_LEAST].assumed


def lowest(ze_read=None, zdb_read=None, sign="="):
    """The lowest current at the far end of a circuit, with readings upstream."""
    readings = []
    if ze_read is not None:
        readings.append(reading("R1", "Ze", "origin", ze_read, stage=LIVE, sign=sign))
    if zdb_read is not None:
        readings.append(reading("R2", "Zdb", "board", zdb_read, stage=LIVE, sign=sign))
    found = figures(origin(ze=0.3, ground=MEASURED, fault_current=1.2), *readings)
    place = circuit_place(job().circuits[0])
    return found[FEED, What.FAULT_LOWEST].value, found[place, What.FAULT_LOWEST].value


@pytest.mark.parametrize(("read", "worse"), [(0.3, False), (0.29, False), (0.31, True)])
def test_a_higher_ze_reaches_the_lowest_currents_and_a_lower_one_does_not(read, worse):
    """Cmin · U0 / Zs: BS 7671, Regulation 411.4.4 (from memory)."""
    plain, found = lowest(), lowest(read)

    for before, after in zip(plain, found, strict=True):
        loop_before, loop_after = 0.95 * 230 / before, 0.95 * 230 / after
        assert loop_after - loop_before == pytest.approx(0.01 if worse else 0.0, abs=1e-9)


def test_a_higher_zdb_reaches_the_circuits_and_the_feed():
    plain, found = lowest(), lowest(zdb_read=0.9)

    assert 0.95 * 230 / found[0] == pytest.approx(0.9)
    assert found[1] < plain[1]
    assert lowest(zdb_read=0.3) == plain


def test_a_loop_over_the_range_counts_as_at_least_that_much():
    assert 0.95 * 230 / lowest(zdb_read=20.0, sign=">")[0] == pytest.approx(20.0)


@pytest.mark.parametrize(("ground", "said"), [(DECLARED, True), (MEASURED, False), (None, True)])
def test_what_a_meter_should_show_by_a_declared_ze_is_a_least(ground, said):
    record = job(origin=origin(ground=ground, fault_current=1.2))
    shown = [
        each
        for slot, each in expected(record).meter.items()
        if slot.quantity.value.startswith("fault current")
    ]

    assert len(shown) == 4
    assert all(("expect more" in each.note) is said for each in shown)


def test_a_cpc_has_to_stand_the_current_that_is_known():
    """16 kA entered fails what 16 kA assumed leaves open, at the same size."""
    place = circuit_place(job().circuits[0])
    assumed, entered = (
        each[place, What.CPC_LEAST] for each in (thin_cpc(), thin_cpc(fault_current=16.0))
    )

    assert entered.value == pytest.approx(assumed.high)
    assert entered.high is None
    assert not entered.assumed


def test_a_current_says_whether_it_was_assumed_entered_or_measured():
    """The certifier weighs a breaking capacity by where the current comes from."""
    entered = origin(fault_current=6.0, fault_current_ground=DECLARED)
    read = reading("R1", "fault current L-N", "origin", 7.5, stage=LIVE)

    assert figures(origin())[ORIGIN, What.FAULT_LN].put_in == "L-N: 16 kA assumed"
    assert figures(entered)[ORIGIN, What.FAULT_LN].put_in == "L-N: 6 kA as entered"
    assert figures(entered, read)[ORIGIN, What.FAULT_LN].put_in == "L-N: 7.5 kA as measured"


def test_a_loop_of_nothing_gives_no_current():
    """0.00 Ω is the meter's last digit, or a slip: an endless current follows from neither."""
    plain = figures(origin("TN-S", 0.4, fault_current=5.0))[ORIGIN, What.FAULT_LE]
    read = reading("R1", "Ze", "origin", 0.0, stage=LIVE)
    found = figures(origin("TN-S", 0.4, fault_current=5.0), read)[ORIGIN, What.FAULT_LE]

    assert (found.value, found.high) == (plain.value, plain.high)
