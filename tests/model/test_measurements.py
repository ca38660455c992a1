"""The catalogue of what can be measured: complete, in the safe order, with the right meters."""

from __future__ import annotations

import pytest

from records.model.measurements import MEASUREMENTS, measurement
from records.model.reading import Quantity
from records.terms import Part, Stage
from records.units import Unit

ENTRIES = {(each.part, each.quantity): each for each in MEASUREMENTS}


def test_each_measurement_is_said_once():
    assert len(ENTRIES) == len(MEASUREMENTS)


def test_every_quantity_is_measured_somewhere():
    assert {each.quantity for each in MEASUREMENTS} == set(Quantity)


@pytest.mark.parametrize("entry", MEASUREMENTS, ids=lambda each: f"{each.part}-{each.quantity}")
def test_a_person_is_told_what_to_join_with_what_and_what_first(entry):
    assert entry.title
    assert entry.between
    assert entry.instrument
    assert entry.first
    assert entry.stages
    assert entry.is_check is (entry.unit is Unit.NUMBER)
    assert entry.symbol in (entry.quantity.value, entry.short)


@pytest.mark.parametrize(
    ("unit", "part_of_standard"),
    [(Unit.MEGOHM, "61557-2"), (Unit.KILOAMPERE, "61557-3"), (Unit.MILLISECOND, "61557-6")],
)
def test_each_kind_of_figure_names_the_instrument_standard(unit, part_of_standard):
    """BS EN 61557-2 insulation, -3 loop, -6 RCD (titles read in secondary copies)."""
    found = [each for each in MEASUREMENTS if each.unit is unit]

    assert found
    assert all(part_of_standard in each.instrument for each in found)


def test_ohms_are_read_by_ohmmeter_when_dead_and_by_loop_tester_when_live():
    """BS EN 61557-4 (200 mA, 4–24 V) and 61557-3; the electrode has 61557-5."""
    for each in MEASUREMENTS:
        if each.unit is not Unit.OHM:
            continue
        if each.quantity is Quantity.ELECTRODE:  # live, by the loop tester, it is another entry
            wanted = "61557-5"
        else:
            wanted = "61557-3" if Stage.LIVE in each.stages else "61557-4"
        assert wanted in each.instrument
        assert ("200 mA" in each.setting) is (wanted == "61557-4")


def test_insulation_is_tested_at_500_volts_before_covering_and_again():
    """BS 7671:2018+A2:2022, Table 64 and Regulation 641.1 (read in secondary copies)."""
    found = [each for each in MEASUREMENTS if each.unit is Unit.MEGOHM]

    assert all(each.setting == "500 V d.c." for each in found)
    pairs = [
        each
        for each in found
        if each.quantity.value.startswith("insulation ") and not each.optional
    ]
    assert {each.part for each in pairs} == {Part.FEED, Part.CIRCUIT}
    assert {each.stages for each in pairs} == {(Stage.BEFORE_COVERING, Stage.DEAD)}


def _order(stage: Stage) -> list[tuple[Part, Quantity]]:
    return [(each.part, each.quantity) for each in MEASUREMENTS if stage in each.stages]


def test_dead_tests_go_continuity_ring_insulation_polarity_electrode():
    """BS 7671:2018+A2:2022, 643.2 to 643.7 (from memory): a test is safe by those before it."""
    order = [quantity for _, quantity in _order(Stage.DEAD)]
    at = {quantity: order.index(quantity) for quantity in set(order)}

    assert at[Quantity.EARTHING] < at[Quantity.BONDING] < at[Quantity.R1]
    assert at[Quantity.R1] < at[Quantity.RN] < at[Quantity.R2] < at[Quantity.CROSS_LN]
    assert at[Quantity.CROSS_LN] < at[Quantity.CROSS_LE] < at[Quantity.IR_LN]
    assert at[Quantity.IR_LN] < at[Quantity.IR_LE] < at[Quantity.IR_NE] < at[Quantity.POLARITY]
    assert at[Quantity.POLARITY] < at[Quantity.ELECTRODE]


def test_live_tests_go_ze_earth_back_polarity_zdb_zs_rcd_button_function():
    """IET Guidance Note 3 (from memory); the button after the timed test: common practice."""
    order = _order(Stage.LIVE)
    path = [
        (Part.ORIGIN, Quantity.POLARITY),
        (Part.ORIGIN, Quantity.ZE),
        (Part.ORIGIN, Quantity.EARTH_BACK),
        (Part.ORIGIN, Quantity.FAULT_LN),
        (Part.BOARD, Quantity.POLARITY),
        (Part.BOARD, Quantity.ZDB),
        (Part.BOARD, Quantity.FAULT_LN),
        (Part.CIRCUIT, Quantity.ZS),
        (Part.CIRCUIT, Quantity.RCD_TIME),
        (Part.CIRCUIT, Quantity.RCD_BUTTON),
        (Part.CIRCUIT, Quantity.FUNCTION),
        (Part.BOARD, Quantity.SURGE),
    ]

    assert [order.index(each) for each in path] == sorted(order.index(each) for each in path)


def test_the_earth_is_asked_back_right_after_ze_and_before_anything_is_switched_on():
    order = _order(Stage.LIVE)

    ze = order.index((Part.ORIGIN, Quantity.ZE))
    assert order.index((Part.ORIGIN, Quantity.EARTH_BACK)) == ze + 1
    assert "Put the earth back" in measurement(Part.ORIGIN, Quantity.ZE).first


def test_every_bond_that_comes_off_for_a_test_is_told_to_go_back():
    for quantity in (Quantity.EARTHING, Quantity.BONDING, Quantity.ELECTRODE):
        first = measurement(Part.BOARD, quantity).first

        assert "solated" in first
        assert "ack and tight" in first


def test_the_rcd_test_warns_whom_it_leaves_without_power():
    for part in (Part.FEED, Part.BOARD, Part.CIRCUIT):
        assert "medical equipment" in measurement(part, Quantity.RCD_TIME).first


def test_what_is_not_measured_at_a_part_is_a_key_error():
    with pytest.raises(KeyError):
        measurement(Part.ORIGIN, Quantity.ZS)
