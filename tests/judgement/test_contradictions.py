"""Two readings that can't both be right are found together, with which to repeat first."""

from __future__ import annotations

import pytest

from records.model.reading import Quantity, Tick
from records.terms import Stage, Verdict
from tests.judgement.jobs import at, over, own, read, sound_job, spoilt, without

LIVE = Stage.LIVE
TIME, FIVE, RAMP, BUTTON, HALF = (
    at(each, "C2", LIVE)
    for each in (
        Quantity.RCD_TIME,
        Quantity.RCD_FIVE,
        Quantity.RCD_RAMP,
        Quantity.RCD_BUTTON,
        Quantity.RCD_HALF,
    )
)
POLARITY = at(Quantity.POLARITY, "C1")


def beside(slot, taken, time, record=None):
    """The time at 1 × IΔn, with another test of the same RCD beside it; its button not pressed."""
    record = without(BUTTON) if record is None else record
    return spoilt((TIME, time), read(900, slot, taken, 900), record=record)


@pytest.mark.parametrize(
    ("time", "five", "found"),
    [
        (over(300.0), 30.0, True),
        (over(1999.0), 40.0, True),
        (301.0, 30.0, True),
        (300.0, 30.0, False),
        (over(200.0), 30.0, False),
        (over(300.0), 41.0, False),
        (over(300.0), over(40.0), False),
    ],
)
def test_no_trip_at_its_current_but_in_time_at_five_times(time, five, found):
    """BS EN 61008-1, Table 1: 300 ms at IΔn, 40 ms at 5 × IΔn (read)."""
    line = own(beside(FIVE, five, time), TIME)

    assert ("rcd-contradicted" in line.patterns) is found
    if found:
        assert line.verdict is Verdict.OUTSIDE
        assert f"at 5 × IΔn it opened in {five:g} ms" in line.why
        assert "Repeat the time at 1 × IΔn first, for it decides" in line.next_check


@pytest.mark.parametrize(("ramp", "found"), [(22.0, True), (30.0, True), (31.0, False)])
def test_no_trip_at_its_current_but_below_it_on_the_ramp(ramp, found):
    line = own(beside(RAMP, ramp, over(300.0)), TIME)

    assert ("rcd-contradicted" in line.patterns) is found
    assert (f"on the ramp it opened at {ramp:g} mA" in line.why) is found


def test_no_trip_at_its_current_but_by_its_button():
    record = spoilt((TIME, over(300.0)))

    assert "its test button opens it" in own(record, TIME).why
    assert "contradicts" not in own(spoilt((TIME, over(300.0)), record=without(BUTTON)), TIME).why


@pytest.mark.parametrize(
    ("ramp", "time", "found"),
    [(31.0, 25.0, True), (over(33.0), 300.0, True), (30.0, 25.0, False), (31.0, 301.0, False)],
)
def test_a_ramp_past_its_current_beside_a_good_time(ramp, time, found):
    line = own(beside(RAMP, ramp, time), RAMP)

    assert ("rcd-ramp-contradicted" in line.patterns) is found
    if found:
        assert "Repeat the ramp first" in line.next_check


@pytest.mark.parametrize(
    ("ramp", "held", "found"), [(14.0, True, True), (15.0, True, False), (14.0, False, False)]
)
def test_held_at_half_but_opened_before_it_on_the_ramp(ramp, held, found):
    record = beside(RAMP, ramp, 25.0)
    record = spoilt(read(901, HALF, Tick(good=held), 901), record=record)

    assert ("rcd-half-contradicted" in own(record, RAMP).patterns) is found


@pytest.mark.parametrize(("good", "found"), [(True, True), (False, False)])
def test_a_tick_of_polarity_against_a_reading_at_one_of_its_points(good, found):
    """L-N closed and L-cpc open is line and neutral the wrong way round, or no cpc."""
    point = at(Quantity.CROSS_LE, "C1", point="P3")
    line = own(spoilt((point, over(99.9)), (POLARITY, Tick(good=good))), POLARITY)

    assert ("polarity-against-point" in line.patterns) is found
    if found:
        assert line.verdict is Verdict.UNLIKELY
        assert "C1 Ring, S3 says otherwise: L-N is closed" in line.why
        assert "Repeat the reading at that point first" in line.next_check


def test_a_tick_of_polarity_against_a_switch_or_a_crossed_cpc():
    switched = at(Quantity.SWITCHED, "C3")
    record = spoilt(read(900, switched, Tick(good=False), 900))
    assert "polarity-against-point" in own(record, at(Quantity.POLARITY, "C3")).patterns

    record = spoilt(
        (at(Quantity.R1_R2, "C2"), over(99.9)), read(900, at(Quantity.RN_R2, "C2"), 0.34, 900)
    )
    assert "N-cpc is closed (0.34 Ω)" in own(record, at(Quantity.POLARITY, "C2")).why


def test_a_sound_job_contradicts_itself_nowhere():
    record = spoilt(
        read(900, FIVE, 20.0, 900),
        read(901, RAMP, 22.0, 901),
        read(902, HALF, Tick(good=True), 902),
        record=sound_job(),
    )

    assert own(record, TIME).verdict is Verdict.WITHIN
    assert own(record, RAMP).verdict is Verdict.WITHIN
