"""What a person has read before each act that can hurt them.

Grounds: HSE GS38 and HSR25, IET Guidance Note 3 (from memory).
"""

from __future__ import annotations

import pytest

from records.model.measurements import MEASUREMENTS, Measurement, measurement
from records.model.reading import Quantity
from records.taking.cautions import before
from records.taking.families import family
from records.terms import Part, Stage

DEAD, LIVE = Stage.DEAD, Stage.LIVE
BOARD, CIRCUIT, FEED, ORIGIN = Part.BOARD, Part.CIRCUIT, Part.FEED, Part.ORIGIN
_Q = Quantity


def told(stage: Stage, part: Part, quantity: Quantity) -> str:
    cautions = before(stage, family(measurement(part, quantity)))
    return " ".join(f"{each.title} {' '.join(each.lines)}" for each in cautions).casefold()


@pytest.mark.parametrize("stage", [Stage.BEFORE_COVERING, Stage.DEAD])
def test_before_every_dead_test_it_is_said_to_lock_off_and_to_prove_dead(stage: Stage) -> None:
    for each in MEASUREMENTS:
        if stage in each.stages:
            words = told(stage, each.part, each.quantity)
            assert "switch off, lock off" in words, each.quantity
            assert "prove dead" in words, each.quantity


@pytest.mark.parametrize("entry", [each for each in MEASUREMENTS if LIVE in each.stages])
def test_before_every_live_test_something_is_read_and_nothing_of_the_dead_ones(
    entry: Measurement,
) -> None:
    words = told(LIVE, entry.part, entry.quantity)

    assert words
    assert "before the first dead test" not in words


@pytest.mark.parametrize(
    ("stage", "part", "quantity", "says"),
    [
        (DEAD, BOARD, _Q.EARTHING, "one at a time"),
        (DEAD, BOARD, _Q.BONDING, "clamp a bond first"),
        (DEAD, FEED, _Q.R1_R2, "no service fuse drawn"),
        (DEAD, CIRCUIT, _Q.IR_LE, "500 v d.c."),
        (DEAD, FEED, _Q.IR_LN, "500 v d.c."),
        (DEAD, BOARD, _Q.ELECTRODE, "no earth meanwhile"),
        (DEAD, BOARD, _Q.ARMOUR_OPEN, "no earth meanwhile"),
        (LIVE, BOARD, _Q.ELECTRODE_LOOP, "live work with the only earth off"),
        (LIVE, BOARD, _Q.ELECTRODE_LOOP, "main switch off and locked off"),
        (LIVE, ORIGIN, _Q.POLARITY, "cat iv"),
        (LIVE, ORIGIN, _Q.FAULT_LE, "cat iv"),
        (LIVE, ORIGIN, _Q.ZE, "the whole installation is isolated"),
        (LIVE, ORIGIN, _Q.ZE, "cat iv"),
        (LIVE, ORIGIN, _Q.ZE, "the incoming terminals stay live"),
        (LIVE, ORIGIN, _Q.ZE, "the earth goes back first"),
        (LIVE, BOARD, _Q.POLARITY, "every dead test satisfactory"),
        (LIVE, BOARD, _Q.VOLTAGE, "every earth and bond back"),
        (LIVE, BOARD, _Q.ZDB, "all earths connected"),
        (LIVE, BOARD, _Q.FAULT_LN, "all earths connected"),
        (LIVE, CIRCUIT, _Q.ZS, "no probes in a lampholder"),
        (LIVE, CIRCUIT, _Q.RCD_TIME, "loads unplugged"),
        (LIVE, CIRCUIT, _Q.RCD_FIVE, "50 v"),
        (LIVE, CIRCUIT, _Q.FUNCTION, "every cover on"),
        (LIVE, BOARD, _Q.LOAD_CURRENT, "a clamp goes on and comes off dead"),
    ],
)
def test_what_is_dangerous_about_a_test_is_said_before_it(
    stage: Stage, part: Part, quantity: Quantity, says: str
) -> None:
    assert says in told(stage, part, quantity)


def test_the_two_ways_to_read_an_electrode_have_a_caution_each() -> None:
    """Dead, with three poles, all is isolated; live, the only earth is off."""
    dead, live = (told(each, BOARD, _Q.ELECTRODE) for each in (DEAD, LIVE))

    assert "only earth off" not in dead
    assert "look for buried services" not in live


def test_the_keys_tell_stage_and_act_apart_so_that_none_counts_as_read_for_another() -> None:
    keys = {
        (stage, family(each)): before(stage, family(each))[-1].key
        for each in MEASUREMENTS
        for stage in each.stages
        if len(before(stage, family(each))) > (stage is not LIVE)
    }

    assert len(set(keys.values())) == len(keys)
