"""An electrode at the outbuilding on a TN feed, its armour earthed at the house end only.

BS 7671, Regulations 411.5.3 and 542.1.3.3 in substance (from memory); that the armour then stays
unconnected at the outbuilding is common practice. Conductor figures: IEC 60228 and BS 5467.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.expected.context import BOARD, FEED, circuit_place
from records.expected.plan import expected
from records.expected.results import NotWorkedOut, What
from records.model.reading import Quantity
from records.terms import Stage
from tests.expected.jobs import FLAT, NONE, XLPE, circuit, job, reading, run
from tests.published.nodal import between

HOT_90, HOT_70 = 1 + 0.00393 * 70, 1 + 0.00393 * 50
STEEL_80 = 1.1 * (1 + 0.0045 * 60)
R_6, R_2_5, R_1_5, ARMOUR_6 = 3.08e-3, 7.41e-3, 12.1e-3, 6.7e-3
"""Copper of 6, 2.5 and 1.5 mm², armour of 3-core 6 mm² XLPE cable [Ω/m] at 20 °C."""


def island(feed_length, length, electrode, ze=0.3, readings=True):
    return job(
        origin={"earthing": "TN-S", "ze": ze, "fault_current": 1.2},
        feed={
            "device": {"kind": "BS 88-3 fuse", "rating": 32.0},
            "load": 20.0,
            "runs": [run(XLPE, 6.0, feed_length, cpc=NONE, method="D", ambient=20.0)],
        },
        board={"earth": "own earth electrode", "rcd": {"residual": 100.0}},
        circuits=[circuit(runs=[run(FLAT, 2.5, length)], rcd={"residual": 30.0})],
        readings=[reading("R1", "RA", "board", electrode)] if readings else [],
    )


def meter(result, quantity, place):
    (found,) = (
        each
        for slot, each in result.meter.items()
        if (slot.quantity, slot.place, slot.stage) == (quantity, place, Stage.LIVE)
    )
    return found


def test_the_loop_is_electrode_and_line_of_the_feed_and_ze_has_no_part_in_it():
    """By hand, RA 80 Ω, 30 m of 6 mm², 20 m of 2.5/1.5 mm²: Zdb = RA + R1, Zs = Zdb + R1+R2.

    Cold, at 20 °C: 80 + 0.0924 = 80.0924 Ω, + 0.3902 = 80.4826 Ω; hot: + 0.1178, + 0.4669.
    """
    record = island(30.0, 20.0, 80.0)
    result = expected(record)
    end = circuit_place(record.circuits[0])

    assert meter(result, Quantity.ZDB, BOARD).value == pytest.approx(80.0924, abs=1e-4)
    assert meter(result, Quantity.ZS, end).value == pytest.approx(80.4826, abs=1e-4)
    assert result.design[BOARD, What.ZDB].value == pytest.approx(80.1178, abs=1e-4)
    assert result.design[end, What.ZS].value == pytest.approx(80.5847, abs=1e-4)
    other = expected(island(30.0, 20.0, 80.0, ze=0.8))
    assert other.design[end, What.ZS].value == result.design[end, What.ZS].value


def test_the_rcd_limits_the_loop_and_disconnects_while_the_breaker_does_not():
    """50 V / 30 mA = 1667 Ω for the circuit, 50 V / 100 mA = 500 Ω for the electrode (411.5.3).

    If = 0.95 × 230 V / (80.58 Ω + up to 21 Ω of the supply's own electrode), about 2.15 A: over
    5 × 30 mA, far under 5 × 32 A.
    """
    record = island(30.0, 20.0, 80.0)
    design = expected(record).design
    end = circuit_place(record.circuits[0])

    assert design[end, What.ZS_LIMIT].value == 1667
    assert design[BOARD, What.RA_LIMIT].value == pytest.approx(50 / 0.100)
    assert design[end, What.ZS].high - design[end, What.ZS].value == pytest.approx(21.0)
    assert design[end, What.FAULT_LOWEST].value == pytest.approx(218.5 / 101.585, rel=1e-3)
    assert design[end, What.TIME_RCD].value <= 0.04
    assert design[end, What.TIME].high is None
    assert design[end, What.TIME_REQUIRED].value == pytest.approx(0.2)


def test_a_fault_in_the_feed_itself_still_returns_by_the_armour_to_the_house():
    """By hand: 0.3 + 30 m × (3.08 × 1.2751 + 6.7 × 1.1 × 1.27) mΩ/m = 0.6986 Ω; 5 s, as TN."""
    record = island(30.0, 20.0, 80.0)
    design = expected(record).design

    assert design[FEED, What.ZS].value == pytest.approx(0.6986, abs=2e-4)
    assert design[FEED, What.TIME_REQUIRED].value == 5.0


def test_without_a_reading_of_the_electrode_no_loop_behind_it_is_made_up():
    record = island(30.0, 20.0, 80.0, readings=False)
    result = expected(record)
    end = circuit_place(record.circuits[0])

    for found in (result.design[BOARD, What.ZDB], result.design[end, What.ZS]):
        assert isinstance(found, NotWorkedOut)
        assert "RA" in found.why


@settings(deadline=None, max_examples=30)
@given(
    feed_length=st.floats(5, 100),
    length=st.floats(2, 60),
    electrode=st.floats(5, 400),
    ze=st.floats(0.05, 0.8),
)
def test_loops_of_both_kinds_of_fault_are_those_of_a_nodal_analysis(
    feed_length, length, electrode, ze
):
    """One network: house 1, sub-board 2, far end 3, cpc of the circuit 4, armour 5.

    The star point is node 6: the house's earth comes back to it by Ze (line side taken as 0), the
    electrode by the ground. The armour ends in the air at the outbuilding.
    """
    nothing = 1e-9
    network = [
        (6, 1, nothing),
        (1, 2, R_6 * HOT_90 * feed_length),
        (2, 3, R_2_5 * HOT_70 * length),
        (4, 7, R_1_5 * HOT_70 * length),  # circuit cpc to the earth bar of the sub-board
        (7, 6, electrode),
        (5, 8, ARMOUR_6 * STEEL_80 * feed_length),  # armour from the far end to the house's earth
        (8, 6, ze),
    ]
    record = island(feed_length, length, electrode, ze)
    design = expected(record).design
    end = circuit_place(record.circuits[0])

    # What a fault meets is the network seen from its two terminals, with the source as a short.
    assert design[end, What.ZS].value == pytest.approx(between(network, 3, 4), rel=0.001)
    assert design[BOARD, What.ZDB].value == pytest.approx(between(network, 2, 7), rel=0.001)
    assert design[FEED, What.ZS].value == pytest.approx(between(network, 2, 5), rel=0.001)
