"""Fault currents that contradict the supply, the loop beside them, or their own unit."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity
from records.model.supply import Ground
from records.terms import Earthing, Part, Stage, Verdict
from tests.judgement.jobs import ISLAND, SOUND, ZDB, ZE, at, findings, over, own, sound_job, spoilt
from tests.judgement.test_loop_scenes import DECLARED, with_origin

LIVE = Stage.LIVE
LN, LE = (at(each, stage=LIVE) for each in (Quantity.FAULT_LN, Quantity.FAULT_LE))
ORIGIN_LN, ORIGIN_LE = (
    at(each, stage=LIVE, part=Part.ORIGIN) for each in (Quantity.FAULT_LN, Quantity.FAULT_LE)
)
TT_ISLAND = with_origin(Earthing.TT, 90.0, Ground.MEASURED, ISLAND)


def line(slot, taken, job=SOUND):
    return own(spoilt((slot, taken), record=sound_job(job)), slot)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (0.05, "unlikely"),
        (0.3, "unlikely"),
        (0.6, "within"),
        (0.77, "within"),
        (0.95, "within"),
        (1.15, "unlikely"),
    ],
)
def test_what_the_feed_leaves_of_the_fault_current_is_worked_out_from_the_origin(value, verdict):
    """1.2 kA is 0.19 Ω, the feed adds 0.11 Ω there and back: 230 / 0.30 = 0.77 kA."""
    found = line(LN, value)

    assert found.verdict.value == verdict
    assert ("fault-against-origin" in found.patterns) == (verdict != "within")
    if value < 0.77 and verdict != "within":
        assert "a bad joint of line or neutral" in found.causes[0]


def test_a_fault_current_well_above_the_one_entered_is_doubted():
    """Breaking capacities were checked against what was entered."""
    found = line(ORIGIN_LN, 2.0)

    assert found.verdict is Verdict.UNLIKELY
    assert "fault-above-entered" in found.patterns
    assert "Origin" in found.next_check


@pytest.mark.parametrize(("value", "doubted"), [(0.4, True), (1.1, False), (1.4, False)])
def test_a_measured_fault_current_is_found_again(value, doubted):
    found = line(ORIGIN_LN, value)

    assert ("fault-changed" in found.patterns) is doubted


def test_less_than_what_the_operator_declares_is_no_surprise():
    assert line(ORIGIN_LN, 0.7, DECLARED).verdict is Verdict.WITHIN


@pytest.mark.parametrize("slot", [LN, LE, ORIGIN_LN])
@pytest.mark.parametrize("taken", [640.0, over(640.0)])
def test_amperes_typed_as_kiloamperes_are_named_before_the_device_is_blamed(slot, taken):
    """No tester of installations shows more than some 25 kA: common practice."""
    found = line(slot, taken)

    assert found.verdict is Verdict.OUTSIDE
    assert found.causes[0] in ("amperes typed as kiloamperes", "A typed as kA")
    assert "0.64 kA" in found.next_check


def test_an_electrode_of_its_own_is_not_compared_with_the_one_of_the_house():
    """2.6 A at the origin by one electrode, 6 A at the outbuilding by another: both are right."""
    assert not [key for key in findings(sound_job(TT_ISLAND)) if key.endswith("fault current L-E")]


def test_a_voltage_that_can_not_be_is_not_worked_with():
    record = spoilt((at(Quantity.VOLTAGE, stage=LIVE), 400.0))

    assert [key for key in findings(record) if "fault" in key] == []


@pytest.mark.parametrize(("current", "told"), [(2.75, False), (1.4, True)])
def test_close_to_a_strong_supply_the_last_digits_of_the_loop_count(current, told):
    """0.06 Ω goes with 3.98 kA at 239 V, 0.08 Ω with 2.99 kA: no meter tells the two apart."""
    origin = at(Quantity.FAULT_LE, stage=LIVE, part=Part.ORIGIN)
    patterns = own(spoilt((ZE, 0.06), (origin, current)), origin).patterns

    assert ("fault-against-loop" in patterns) is told


def test_the_loop_and_its_current_go_together():
    assert "fault-against-loop" in line(LE, 0.3).patterns
    assert "fault-against-loop" in own(spoilt((ZDB, 0.8)), LE).patterns
