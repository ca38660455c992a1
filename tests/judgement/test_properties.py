"""What must hold whatever is read: worse is never better, missing is never right, order is none."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.interlock.comes_off import EARTH_BACK, PUT_BACK
from records.judgement.concern import RANK
from records.model.measurements import MEASUREMENTS
from records.model.reading import Figure, NotTaken, Quantity
from records.model.slots import measured_by, slots
from records.terms import Sign, Stage, Verdict
from records.typed import read_typed
from tests.judgement.jobs import (
    ISLAND,
    ZDB,
    ZE,
    at,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    without,
    zs,
)

pytestmark = pytest.mark.slow

FEW = settings(deadline=None, max_examples=25)
SLOTS = [each.slot for each in sound_job().readings if each.slot in slots(sound_job())]
FIGURES = [each.slot for each in sound_job().readings if isinstance(each.taken, Figure)]

RISING = {
    # Where more is worse from here on: the sound reading.
    "R1+R2": (at(Quantity.R1_R2, "C2"), 0.34, 120.0),
    "rn": (at(Quantity.RN, "C1"), 0.36, 100.0),
    "crossed": (at(Quantity.CROSS_LE, "C1", point="P3"), 0.24, 50.0),
    "earthing": (at(Quantity.EARTHING), 0.02, 20.0),
    "Ze": (ZE, 0.25, 50.0),
    "Zdb": (ZDB, 0.36, 50.0),
    "Zs": (zs("C2"), 0.71, 100.0),
    "RCD": (at(Quantity.RCD_TIME, "C2", Stage.LIVE), 24.0, 2000.0),
    "fault": (at(Quantity.FAULT_LN, stage=Stage.LIVE), 0.8, 30.0),
    "volts": (at(Quantity.VOLTAGE, stage=Stage.LIVE), 239.0, 420.0),
}


@pytest.mark.parametrize("name", RISING)
@given(data=st.data())
@FEW
def test_more_is_never_better_where_less_is_right(name, data):
    slot, start, end = RISING[name]
    low, high = sorted(data.draw(st.tuples(*[st.floats(start, end)] * 2)))

    better, worse = (own(spoilt((slot, value)), slot).verdict for value in (low, high))

    assert RANK.index(worse) <= RANK.index(better), (low, better, high, worse)


BACK = (EARTH_BACK, PUT_BACK)
"""What nothing stands in for: without it an earth may be off."""


@given(values=st.tuples(*[st.floats(0, 999)] * 2))
@FEW
def test_less_insulation_is_never_better(values):
    slot = at(Quantity.IR_LE, "C2")
    low, high = sorted(values)

    worse, better = (own(spoilt((slot, value)), slot).verdict for value in (low, high))

    assert RANK.index(worse) <= RANK.index(better), (low, worse, high, better)


@given(values=st.tuples(*[st.floats(40, 3000)] * 2))
@FEW
def test_a_higher_electrode_is_never_better(values):
    slot = at(Quantity.ELECTRODE)
    low, high = sorted(values)
    record = sound_job(ISLAND)

    better, worse = (
        own(spoilt((slot, value), record=record), slot).verdict for value in (low, high)
    )

    assert RANK.index(worse) <= RANK.index(better)


@given(slot=st.sampled_from(SLOTS))
@FEW
def test_a_reading_that_goes_is_never_within(slot):
    wanted = Verdict.OUTSIDE if slot in BACK else Verdict.NOT_TAKEN  # live readings stand beside

    assert own(without(slot), slot).verdict is wanted


@given(slot=st.sampled_from(SLOTS), spoil=st.sampled_from(FIGURES), value=st.floats(0, 900))
@FEW
def test_a_reading_that_goes_makes_no_other_one_pass_that_had_no_ground_to(slot, spoil, value):
    """What was outside or near its own limit stays so without another reading."""
    record = spoilt((spoil, value))
    if slot == spoil:
        return
    verdict = own(record, spoil).verdict
    after = own(without(slot, record=record), spoil).verdict

    if verdict is Verdict.OUTSIDE and spoil.quantity.value.startswith("insulation"):
        assert after is Verdict.OUTSIDE
    if after is Verdict.WITHIN:
        assert verdict is not Verdict.NOT_TAKEN


@given(slot=st.sampled_from(FIGURES), value=st.floats(0, 900))
@FEW
def test_over_the_range_is_never_better_for_what_has_a_highest_value(slot, value):
    """`> x` can be anything above x: for a highest value it proves nothing."""
    if slot.quantity.value.startswith("insulation"):
        return
    plain = own(spoilt((slot, value)), slot).verdict
    signed = own(spoilt((slot, Figure(value=value, sign=Sign.OVER))), slot).verdict

    assert signed is Verdict.OUTSIDE or RANK.index(signed) <= RANK.index(plain)


@given(slot=st.sampled_from(SLOTS))
@FEW
def test_what_could_not_be_taken_is_never_within(slot):
    record = spoilt((slot, NotTaken(reason="no access")))

    assert own(record, slot).verdict is (Verdict.OUTSIDE if slot in BACK else Verdict.NOT_TAKEN)


@given(seed=st.integers(0, 10_000), values=st.lists(st.floats(0, 10), min_size=1, max_size=4))
@settings(deadline=None, max_examples=15)
def test_the_order_of_entry_makes_no_difference(seed, values):
    """Readings, spoilt and repeated ones among them, entered in any order of the notes."""
    again = [read(900 + n, zs("C2"), value, 800 + 7 * n) for n, value in enumerate(values)]
    record = spoilt(*again)
    shuffled = list(record.readings)
    random.Random(seed).shuffle(shuffled)
    other = record.model_copy(update={"readings": tuple(shuffled)})

    assert reviewed(other).lines == reviewed(record).lines


@given(values=st.dictionaries(st.sampled_from(FIGURES), st.floats(-10, 1e9), max_size=12))
@FEW
def test_whatever_is_read_is_judged_and_told(values):
    record = spoilt(*values.items())
    review = reviewed(record)

    assert {each.slot for each in review.lines if each.slot} >= set(SLOTS)
    assert all(each.why and each.title for each in review.lines)
    assert all(each.why.rstrip()[-1] in ".”?" for each in review.lines)
    for each in review.lines:
        if each.part_of:
            assert each.part_of in {other.key for other in review.lines}
    assert len({each.key for each in review.lines}) == len(review.lines)


def test_every_kind_of_reading_has_a_rule():
    kinds = {
        slot.quantity for slot in (*SLOTS, *(each.slot for each in sound_job(ISLAND).readings))
    }
    optional = {each.quantity for each in MEASUREMENTS if each.optional}

    assert kinds | optional | {
        Quantity.BONDING,
        Quantity.SURGE,
        Quantity.ELECTRODE_LOOP_BACK,
    } == set(Quantity)


@given(slot=st.sampled_from(SLOTS))
@FEW
def test_a_job_that_lacks_a_reading_is_never_without_a_finding(slot):
    assert reviewed(without(slot)).findings


@given(bad=st.sampled_from(sorted(RISING)), other=st.sampled_from(sorted(RISING)), data=st.data())
@FEW
def test_another_reading_that_is_worse_never_clears_the_trouble(bad, other, data):
    """One that is off may explain another one away; then it is itself the trouble."""
    if bad == other:
        return
    slot, _, end = RISING[bad]
    second, start, top = RISING[other]
    worse = data.draw(st.floats(start, top))
    record = spoilt((slot, end), (second, worse))

    assert [each for each in reviewed(record).findings if each.is_trouble]


_TYPED = {
    "R1+R2": (at(Quantity.R1_R2, "C2"), ("0.35", ".35", "0,35", "350 mohm", "0.35 ohm", "0.35Ω")),
    "L-E": (at(Quantity.IR_LE, "C2"), ("0.4", "400 kohm", "0.4 Mohm", "400000 ohm")),
    "fault": (at(Quantity.FAULT_LN, stage=Stage.LIVE), ("0.8", "800 A", "0.8 kA")),
    "RCD": (at(Quantity.RCD_TIME, "C2", Stage.LIVE), ("310", "310 ms", "0.31 s")),
}


@pytest.mark.parametrize("name", _TYPED)
def test_verdicts_do_not_depend_on_the_unit_that_was_typed(name):
    slot, ways = _TYPED[name]
    unit = measured_by(slot).unit
    lines = [
        own(spoilt((slot, Figure(value=read_typed(text, unit, signs=True).value))), slot)
        for text in ways
    ]

    assert len({(each.verdict, each.why, each.causes) for each in lines}) == 1
