"""Electrode, fault currents, supply voltage, RCD times, and checks."""

from __future__ import annotations

import pytest

from records.model.reading import Figure, Quantity, Tick
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    ZDB,
    at,
    circuit,
    over,
    own,
    read,
    sound_job,
    spoilt,
    without,
)

RA = at(Quantity.ELECTRODE)
RCD = at(Quantity.RCD_TIME, "C2", Stage.LIVE)
BOARD_RCD = at(Quantity.RCD_TIME, stage=Stage.LIVE)
LE = at(Quantity.FAULT_LE, stage=Stage.LIVE)
LN = at(Quantity.FAULT_LN, stage=Stage.LIVE)
ORIGIN_LN = at(Quantity.FAULT_LN, stage=Stage.LIVE, part=Part.ORIGIN)
VOLTAGE = at(Quantity.VOLTAGE, stage=Stage.LIVE)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (300, "near limit"),
        (271, "within"),
        (280, "near limit"),
        (301, "outside"),
        (24, "within"),
        (0, "unlikely"),
        (over(300.0), "outside"),
        (over(40.0), "outside"),
    ],
)
def test_a_general_rcd_within_300_ms(value, verdict):
    """BS EN 61008-1, Table 1: 300 ms at IΔn (read in a secondary copy)."""
    assert own(spoilt((RCD, value)), RCD).verdict.value == verdict


def test_a_slow_rcd_asks_for_the_probe_first():
    line = own(spoilt((RCD, over(300.0))), RCD)

    assert "with that over the limit" in line.why
    assert line.causes[0] == "the line probe was on the supply side"


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(210, "within"), (129, "outside"), (26, "outside"), (501, "outside"), (130, "near limit")],
)
def test_a_delayed_rcd_between_130_and_500_ms(value, verdict):
    """BS EN 61008-1, Table 1, type S at IΔn (read in a secondary copy)."""
    record = spoilt((BOARD_RCD, value), record=sound_job(ISLAND))

    assert own(record, BOARD_RCD).verdict.value == verdict


def test_a_delayed_rcd_that_does_not_wait_says_what_follows():
    line = own(spoilt((BOARD_RCD, 26), record=sound_job(ISLAND)), BOARD_RCD)

    assert "it can trip together with the one after it" in line.why
    assert "Read its label" in line.next_check


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(40.0, "within"), (190.0, "within"), (210.0, "unlikely"), (3.0, "unlikely"), (501, "outside")],
)
def test_an_electrode(value, verdict):
    """50 V / 100 mA = 500 Ω; over 200 Ω it may not be stable (BS 7671 Table 41.5, note 2)."""
    assert own(spoilt((RA, value), record=sound_job(ISLAND)), RA).verdict.value == verdict


def test_an_electrode_that_is_too_good_asks_to_take_everything_off():
    line = own(spoilt((RA, 3.0), record=sound_job(ISLAND)), RA)

    assert "everything off the electrode" in line.next_check


def test_an_electrode_that_has_risen():
    record = spoilt(read(900, RA, 90.0), record=sound_job(ISLAND))
    line = own(record, RA)

    assert line.verdict is Verdict.UNLIKELY
    assert "It was 40.0 Ω before." in line.why


def test_an_electrode_without_any_rcd_has_no_limit_and_no_pass():
    bare = tuple(
        each.model_copy(update={"rcd": each.rcd.model_copy(update={"residual": None})})
        for each in ISLAND.circuits
    )
    board = ISLAND.board.model_copy(update={"rcd": SOUND.board.rcd})
    record = ISLAND.model_copy(update={"circuits": bare, "board": board})
    record = record.model_copy(update={"readings": (read(1, RA, 40.0),)})

    assert own(record, RA).verdict is Verdict.NOT_TAKEN


def test_a_fault_current_over_the_breaking_capacity():
    """BS 7671, Regulation 434.5.1 (from memory): 6 kA devices at the board."""
    line = own(spoilt((LN, 6.5)), LN)

    assert line.verdict is Verdict.OUTSIDE
    assert str(line.limit) == "at most 6.0 kA"


def test_a_fault_current_that_its_loop_contradicts():
    """239 V / 0.36 Ω are 0.66 kA."""
    line = own(spoilt((LE, 0.30)), LE)

    assert line.verdict is Verdict.UNLIKELY
    assert "Zdb of 0.36 Ω goes with 0.66 kA at 239 V." in line.why


def test_more_at_the_board_than_at_the_origin_is_mixed_up():
    line = own(spoilt((ORIGIN_LN, 0.7), (LN, 0.9)), LN)

    assert line.verdict is Verdict.UNLIKELY
    assert "it can only get less along the feed" in line.why


@pytest.mark.parametrize(
    ("value", "verdict"), [(216, "outside"), (217, "within"), (253, "within"), (254, "outside")]
)
def test_the_supply_voltage(value, verdict):
    """230 V, 10 % up and 6 % down: 216.2 to 253 V (supply regulations of 2002, from memory)."""
    assert own(spoilt((VOLTAGE, value)), VOLTAGE).verdict.value == verdict


@pytest.mark.parametrize(
    ("quantity", "where", "stage"),
    [
        (Quantity.POLARITY, "C2", Stage.DEAD),
        (Quantity.POLARITY, None, Stage.LIVE),
        (Quantity.RCD_BUTTON, "C2", Stage.LIVE),
        (Quantity.FUNCTION, "C3", Stage.LIVE),
    ],
)
def test_a_check_found_wrong_is_outside_with_a_next_step(quantity, where, stage):
    slot = at(quantity, where, stage)
    line = own(spoilt((slot, Tick(good=False))), slot)

    assert line.verdict is Verdict.OUTSIDE
    assert line.causes
    assert line.next_check


def test_the_earth_not_put_back_comes_before_all_else():
    slot = at(Quantity.EARTH_BACK, stage=Stage.LIVE, part=Part.ORIGIN)
    line = own(spoilt((slot, Tick(good=False))), slot)

    assert line.verdict is Verdict.OUTSIDE
    assert "Leave everything off" in line.next_check


def test_a_figure_is_no_answer_to_a_check():
    slot = at(Quantity.POLARITY, "C2")
    line = own(spoilt((slot, Figure(value=1.0))), slot)

    assert line.verdict is Verdict.NOT_TAKEN


def test_a_reading_that_the_design_no_longer_asks_for_is_kept_and_judged():
    from records.terms import Form

    record = circuit(sound_job(), "C1", form=Form.RADIAL)

    line = own(record, at(Quantity.RN, "C1"))

    assert line.attempts


def test_a_reading_at_a_place_where_it_has_no_meaning_is_kept():
    odd = at(Quantity.VOLTAGE, "C2", Stage.LIVE)
    line = own(spoilt(read(900, odd, 240.0)), odd)

    assert line.verdict is Verdict.NOT_NEEDED
    assert "it is kept as it is" in line.why


def test_a_missing_voltage_reading_is_replaced_by_the_nominal_one():
    line = own(spoilt((LE, 0.30), record=without(VOLTAGE)), LE)

    assert "at 230 V" in line.why
    assert own(sound_job(), ZDB).verdict is Verdict.WITHIN
