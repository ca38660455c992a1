"""Readings that nobody has to take: never missing, judged like any other once they are there."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.expected.plan import expected
from records.expected.results import Worked
from records.interlock.comes_off import PUT_BACK
from records.judgement.review import preview
from records.judgement.todo.progress import progress
from records.model.measurements import MEASUREMENTS
from records.model.reading import Quantity, Tick
from records.model.slots import measured_by, offered, slots
from records.model.wiring import Rcd
from records.terms import Cpc, Part, Stage, Verdict
from tests.judgement.jobs import (
    ISLAND,
    SOUND,
    at,
    findings,
    over,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
)

LIVE = Stage.LIVE
GOOD, WRONG = Tick(good=True), Tick(good=False)
PARALLEL = SOUND.model_copy(
    update={
        "feed": SOUND.feed.model_copy(
            update={"runs": (SOUND.feed.runs[0].model_copy(update={"cpc": Cpc.CORE_AND_ARMOUR}),)}
        )
    }
)
"""The same job with core and armour of the feed side by side."""
CORE = at(Quantity.R1_R2_CORE, part=Part.FEED)
ARMOUR = at(Quantity.R1_R2_ARMOUR, part=Part.FEED)
GLAND = at(Quantity.GLAND)
R2 = at(Quantity.R2_LONG, "C2")
RN_R2 = at(Quantity.RN_R2, "C2")
RUN = at(Quantity.R1_R2, "C2")
GROUP = at(Quantity.IR_GROUP)
TO_EARTH = at(Quantity.VOLTAGE_LE, stage=LIVE)
NEUTRAL = at(Quantity.VOLTAGE_NE, stage=LIVE)
FIVE = at(Quantity.RCD_FIVE, "C2", LIVE)
RAMP = at(Quantity.RCD_RAMP, "C2", LIVE)
BEFORE = at(Quantity.RCD_BEFORE, "C2", LIVE)


def with_(slot, taken, *more, record=None, **how):
    """The sound job with one reading more."""
    return spoilt(read(900, slot, taken, 900, **how), *more, record=record)


# The mechanism.


@pytest.mark.parametrize("job", [SOUND, PARALLEL, ISLAND])
def test_what_is_offered_is_never_asked_for_and_never_missing(job):
    record = sound_job(job)
    more = [slot for slot in offered(record) if measured_by(slot).waived is None]

    assert more
    assert not set(more) & set(slots(record))
    assert all(measured_by(slot).optional for slot in more)
    assert not {line.slot for line in reviewed(record).lines} & set(more)
    assert not any(
        slot.quantity.value in need
        for standing in progress(record, reviewed(record)).values()
        for need in standing.needs
        for slot in more
    )


def test_what_has_no_place_in_the_job_is_not_offered():
    quantities = {slot.quantity for slot in offered(sound_job())}

    assert not {Quantity.R1_R2_ARMOUR, Quantity.GLAND, Quantity.RCD_BEFORE} & quantities
    assert Quantity.RCD_BEFORE in {slot.quantity for slot in offered(ISLAND)}
    assert Quantity.R1_R2_ARMOUR in {slot.quantity for slot in offered(PARALLEL)}


def test_every_optional_measurement_is_offered_somewhere():
    found = {
        slot.quantity
        for job in (sound_job(), PARALLEL, ISLAND)
        for slot in offered(job)
        if measured_by(slot).optional
    }

    assert found == {each.quantity for each in MEASUREMENTS if each.optional}


def test_it_is_judged_while_it_is_typed_and_its_expectation_is_known_before():
    record = sound_job()
    meter = expected(record).meter

    assert isinstance(meter[R2], Worked)
    assert preview(record, expected(record), read(900, R2, 0.9)).verdict is Verdict.UNLIKELY


@pytest.mark.slow
@pytest.mark.parametrize("job", [SOUND, PARALLEL, ISLAND])
def test_all_of_them_right_finds_nothing(job):
    record = sound_job(job)
    meter = expected(record).meter
    good = {
        Quantity.GLAND: 0.02,
        Quantity.IR_GROUP: over(200.0),
        Quantity.VOLTAGE_LE: 239.0,
        Quantity.VOLTAGE_NE: 0.4,
        Quantity.RCD_FIVE: 22.0,
        Quantity.RCD_RAMP: 23.0,
        Quantity.IR_FOIL: over(999.0),
        Quantity.LOAD_CURRENT: 10.0,
        Quantity.VOLTAGE_LOADED: 237.0,
        Quantity.ELECTRODE_LOOP: 41.0,
        Quantity.LEADS_ZERO: 0.0,
    }
    readings = []
    spare = [
        slot
        for slot in offered(record)
        if measured_by(slot).waived is None or slot.quantity is Quantity.ELECTRODE_LOOP_BACK
    ]
    for count, slot in enumerate(spare, start=1000):
        taken = GOOD if measured_by(slot).is_check else good.get(slot.quantity)
        if slot.place.part is Part.BOARD:  # a delayed one of 100 mA
            taken = {Quantity.RCD_FIVE: 90.0, Quantity.RCD_RAMP: 77.0}.get(slot.quantity, taken)
        if taken is None:
            taken = round(meter[slot].value, 2)
        # Each at the pace and in the order of the work.
        minutes = 3 * count if slot.stage is LIVE else -600 + count % 100
        readings.append(read(count, slot, taken, minutes))
    back = record.taken(PUT_BACK)[-1].at + timedelta(minutes=1)
    again = read(2000, PUT_BACK, GOOD, 0).model_copy(update={"at": back})
    readings.append(again)  # what came off for them is back
    record = spoilt(*readings, record=record)

    assert findings(record) == {}
    assert {own(record, each.slot).verdict for each in readings} == {Verdict.WITHIN}


# The feed by its parts, and glands: IEC 60228 and BS 5467 resistances; common practice.


def test_a_bad_gland_shows_in_the_armour_alone_and_not_in_the_core():
    job = sound_job(PARALLEL)
    sound = expected(job).meter[ARMOUR].value
    record = with_(ARMOUR, round(sound + 0.4, 2), read(901, CORE, 0.11, 901), record=job)
    line = own(record, ARMOUR)

    assert line.verdict is Verdict.UNLIKELY
    assert "gland" in line.causes[0]
    assert line.next_check.endswith("Read across each gland: armour, nut, box, bar.")
    assert own(record, CORE).verdict is Verdict.WITHIN


def test_core_and_armour_side_by_side_are_less_than_either():
    """1/R = 1/core + 1/armour, less the line: two conductors side by side."""
    meter = expected(sound_job(PARALLEL)).meter
    line_ = meter[CORE].value / 2
    core, armour = meter[CORE].value - line_, meter[ARMOUR].value - line_
    both = meter[at(Quantity.R1_R2, part=Part.FEED)].value - line_

    assert both == pytest.approx(core * armour / (core + armour), rel=1e-6)


def test_armour_that_is_not_joined_through_is_outside():
    assert own(with_(ARMOUR, over(99.9), record=sound_job(PARALLEL)), ARMOUR).verdict is (
        Verdict.OUTSIDE
    )


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(0.02, Verdict.WITHIN), (0.05, Verdict.NEAR), (0.06, Verdict.OUTSIDE), (2.0, Verdict.OUTSIDE)],
)
def test_a_gland_has_next_to_no_resistance(value, verdict):
    """0.05 Ω from armour to bar: common practice."""
    assert own(with_(GLAND, value, record=sound_job(PARALLEL)), GLAND).verdict is verdict


# R2 and Rn+R2.


def test_r2_alone_is_held_against_the_length():
    """18 m of 1.5 mm² copper at 12.1 mΩ/m (IEC 60228): 0.22 Ω at 20 °C."""
    assert expected(sound_job()).meter[R2].value == pytest.approx(0.218 * 0.98, abs=0.01)
    assert own(with_(R2, 0.21), R2).verdict is Verdict.WITHIN
    assert own(with_(R2, 0.5), R2).verdict is Verdict.UNLIKELY


def test_no_path_through_neutral_and_cpc_is_a_borrowed_neutral():
    line = own(with_(RN_R2, over(99.9)), RN_R2)

    assert line.verdict is Verdict.OUTSIDE
    assert "another circuit" in line.causes[0]


def test_an_open_line_with_a_closed_neutral_is_a_crossed_neutral_and_cpc():
    record = with_(RN_R2, 0.34, record=spoilt((RUN, over(99.9))))
    line = own(record, RUN)

    assert "Rn+R2 is closed (0.34 Ω)." in line.why
    assert "neutral and cpc are crossed" in line.causes[0]
    assert "crossed" not in own(spoilt((RUN, over(99.9))), RUN).causes[0]


# The whole board's insulation.


def test_a_group_is_lower_than_any_of_its_circuits_and_that_is_no_finding():
    """1/R = Σ 1/Ri: eight readings of 400 MΩ side by side are 50 MΩ."""
    pairs = (Quantity.IR_LE, Quantity.IR_NE)
    sides = [(at(pair, f"C{n}"), 400.0) for n in range(1, 5) for pair in pairs]
    record = with_(GROUP, 50.0, record=spoilt(*sides))

    assert own(record, GROUP).verdict is Verdict.WITHIN


def test_a_group_well_below_what_its_circuits_come_to_is_something_in_the_board():
    record = with_(GROUP, 20.0)
    line = own(record, GROUP)

    assert line.verdict is Verdict.UNLIKELY
    assert "125 MΩ side by side" in line.why
    assert "electronics in the board" in line.causes[0]


def test_a_group_has_the_limit_of_any_insulation():
    assert own(with_(GROUP, 0.8), GROUP).verdict is Verdict.OUTSIDE


# Voltages at the board.


@pytest.mark.parametrize(
    ("value", "verdict", "cause"),
    [
        (0.5, Verdict.WITHIN, ""),
        (5.0, Verdict.WITHIN, ""),
        (6.0, Verdict.OUTSIDE, "a bad joint of the neutral"),
        (238.0, Verdict.OUTSIDE, "line and neutral crossed"),
    ],
)
def test_the_neutral_has_next_to_no_voltage(value, verdict, cause):
    """A few volts with few loads on: common practice."""
    line = own(with_(NEUTRAL, value), NEUTRAL)

    assert line.verdict is verdict
    assert " ".join(line.causes[:1]).startswith(cause)


def test_a_line_without_voltage_to_earth_has_no_earth():
    line = own(with_(TO_EARTH, 90.0), TO_EARTH)

    assert line.verdict is Verdict.OUTSIDE
    assert line.causes[0] == "the earth of the outbuilding isn't joined"


# RCDs at other currents.


@pytest.mark.parametrize(
    ("ms", "verdict"), [(36.0, Verdict.WITHIN), (39.0, Verdict.NEAR), (60.0, Verdict.UNLIKELY)]
)
def test_five_times_the_current_is_kept_and_never_fails_the_work(ms, verdict):
    """40 ms at 5 × IΔn: BS EN 61009-1, Table 1 (read); A2:2022 asks for 1 × IΔn only."""
    line = own(with_(FIVE, ms), FIVE)

    assert line.verdict is verdict
    assert "not by this one" in line.why


@pytest.mark.parametrize(
    ("ma", "verdict"), [(12.0, Verdict.UNLIKELY), (22.0, Verdict.WITHIN), (34.0, Verdict.OUTSIDE)]
)
def test_an_rcd_opens_between_half_and_all_of_its_current(ma, verdict):
    """0.5 to 1 × IΔn: BS EN 61008-1 (from memory)."""
    assert own(with_(RAMP, ma), RAMP).verdict is verdict


@pytest.mark.parametrize(
    ("quantity", "verdict", "cause"),
    [
        (Quantity.RCD_HALF, Verdict.UNLIKELY, "leak already"),
        (Quantity.RCD_IN_LOOP, Verdict.UNLIKELY, "adds to the test current"),
        (Quantity.RCD_LOADED, Verdict.OUTSIDE, "neutral is on another RCD"),
        (Quantity.AFDD_BUTTON, Verdict.OUTSIDE, "isn't supplied"),
    ],
)
def test_what_an_rcd_does_that_it_should_not(quantity, verdict, cause):
    slot = at(quantity, "C2", LIVE)

    assert own(with_(slot, GOOD), slot).verdict is Verdict.WITHIN
    assert own(with_(slot, WRONG), slot).verdict is verdict
    assert cause in own(with_(slot, WRONG), slot).causes[0]


def test_both_rcds_opening_is_a_fault_where_the_first_is_delayed_and_the_design_where_not():
    """BS 7671, Regulation 536.4.1.4 (from memory)."""
    quick = ISLAND.board.model_copy(update={"rcd": Rcd(residual=100.0, type="A")})
    plain = sound_job(ISLAND.model_copy(update={"board": quick}))

    assert own(with_(BEFORE, WRONG, record=sound_job(ISLAND)), BEFORE).verdict is Verdict.OUTSIDE
    assert own(with_(BEFORE, WRONG, record=plain), BEFORE).verdict is Verdict.NEAR


def test_a_lamp_that_stays_joined_with_its_switch_off_is_outside():
    slot = at(Quantity.SWITCHED, "C3")
    line = own(with_(slot, WRONG), slot)

    assert line.verdict is Verdict.OUTSIDE
    assert line.causes[0] == "a switch in the neutral"
