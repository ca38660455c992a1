"""RCDs and electrodes: too quick, too keen, too good, and what that really says."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity
from records.terms import Stage, Verdict
from tests.judgement.jobs import ISLAND, SOUND, at, over, own, read, sound_job, spoilt, under

LIVE = Stage.LIVE
TIME = at(Quantity.RCD_TIME, "C2", LIVE)
FIVE = at(Quantity.RCD_FIVE, "C2", LIVE)
RAMP = at(Quantity.RCD_RAMP, "C2", LIVE)
SLOW_FIVE = at(Quantity.RCD_FIVE, stage=LIVE)
SLOW_RAMP = at(Quantity.RCD_RAMP, stage=LIVE)
RA = at(Quantity.ELECTRODE)


def taken(slot, value, job=SOUND):
    return own(spoilt(read(900, slot, value, 900), record=sound_job(job)), slot)


def line(slot, value, job=ISLAND):
    return own(spoilt((slot, value), record=sound_job(job)), slot)


def test_a_delayed_rcd_too_quick_at_five_times_is_not_called_slow():
    """50 to 150 ms at 5 × IΔn for type S: BS EN 61008-1, Table 1 (from memory)."""
    quick, slow = taken(SLOW_FIVE, 10.0, ISLAND), taken(SLOW_FIVE, 190.0, ISLAND)

    assert quick.verdict is Verdict.UNLIKELY
    assert quick.patterns == ("rcd-quick-at-five",)
    assert "isn't a delayed one" in quick.causes[0]
    assert slow.patterns == ("rcd-slow-at-five",)


SLOW = at(Quantity.RCD_TIME, stage=LIVE)


@pytest.mark.parametrize("value", [40.0, under(130.0), under(40.0)])
def test_a_delayed_rcd_under_its_least_time_is_never_called_too_slow(value):
    """130 to 500 ms at 1 × IΔn for type S: BS EN 61008-1, Table 1 (from memory)."""
    found = line(SLOW, value)

    assert (found.verdict, found.patterns) == (Verdict.OUTSIDE, ("rcd-too-quick",))
    assert "change the RCD" not in found.next_check


def test_a_delayed_rcd_that_is_too_slow_was_not_taken_for_a_general_one():
    cause = "a delayed RCD taken for a general one"

    assert cause not in line(SLOW, 520.0).causes
    assert cause in line(TIME, 320.0).causes


@pytest.mark.parametrize("value", [14.0, 3.0, under(15.0)])
def test_a_ramp_that_ends_below_half_is_too_keen(value):
    found = taken(RAMP, value)

    assert found.verdict is Verdict.UNLIKELY
    assert found.patterns == ("rcd-too-keen",)
    assert "leak already" in " ".join(found.causes)


@pytest.mark.parametrize("value", [0.0, 0.5])
def test_a_ramp_that_ends_at_nothing_found_the_circuit_off(value):
    assert taken(RAMP, value).causes[0] == "the circuit was already off"


@pytest.mark.parametrize("value", [31.0, over(33.0)])
def test_a_ramp_that_goes_past_the_current_is_too_dull(value):
    found = taken(RAMP, value)

    assert found.verdict is Verdict.OUTSIDE
    assert "rcd-too-dull" in found.patterns
    assert "Lock it off" in found.next_check


def test_an_rcd_that_never_opens_leaves_the_circuit_unprotected():
    for value in (over(300.0), over(1999.0), 400.0):
        check = line(TIME, value, SOUND).next_check
        assert "load side" in check
        assert "Lock it off" in check


def test_milliseconds_typed_as_seconds_are_named():
    assert line(TIME, 0.024, SOUND).causes[0] == "s typed as ms"
    assert "s typed as ms" not in line(TIME, 0.0, SOUND).causes


# Electrodes.


@pytest.mark.parametrize("value", [0.0, 4.9, under(5.0), under(2.0)])
def test_an_electrode_under_the_range_is_too_good_as_well(value):
    found = line(RA, value)

    assert found.verdict is Verdict.UNLIKELY
    assert "ra-too-good" in found.patterns


def test_an_electrode_that_is_too_high_says_which_voltage_stays():
    """RA × IΔn ≤ 50 V (BS 7671, Regulation 411.5.3, read): 600 Ω × 100 mA = 60 V."""
    found = line(RA, 600.0)

    assert found.verdict is Verdict.OUTSIDE
    assert "600 Ω × 100 mA leaves 60 V" in found.why
    assert "an RCD of less IΔn" in found.next_check


def test_an_electrode_that_is_not_found_is_a_lead_first():
    found = line(RA, over(1999.0))

    assert "a lead or the clamp is off" in found.causes[0]
    assert " V on" not in found.why
