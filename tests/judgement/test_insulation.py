"""Insulation resistance: 1.0 MΩ at 500 V, and what new wiring shows."""

from __future__ import annotations

from typing import Any

import pytest

from records.model.reading import Figure, Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement import jobs
from tests.judgement.jobs import at, over, own, read, reviewed, sound_job, spoilt, under, without

LN, LE, NE = (at(each, "C2") for each in (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE))
EARLY = [
    at(each, "C2", Stage.BEFORE_COVERING)
    for each in (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
]


def retaken(slot, value, **more: Any):
    """The job with one reading taken again, with what matters of how."""
    return spoilt(read(900, slot, value, **more), record=without(slot))


def fresh(*changes):
    """The job without readings from before covering."""
    return spoilt(*changes, record=without(*EARLY))


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (over(999.0), "within"),
        (over(200.0), "within"),
        (over(1.0), "unlikely"),
        (over(0.5), "outside"),
        (250.0, "within"),
        (100.0, "within"),
        (99.0, "unlikely"),
        (2.0, "unlikely"),
        (1.0, "unlikely"),
        (0.99, "outside"),
        (0.0, "outside"),
        (under(5.0), "outside"),
    ],
)
def test_against_the_limit_and_new_work(value, verdict):
    """BS 7671 Table 64: 1.0 MΩ. New work shows 100 MΩ or more: common practice."""
    assert own(fresh((LE, value)), LE).verdict.value == verdict


def test_over_range_below_the_limit_says_what_to_do():
    line = own(fresh((LE, over(0.5))), LE)

    assert "> 0.5 MΩ" in line.why
    assert "That is no proof of at least 1.0 MΩ: use a range that reaches it." in line.why


def test_line_to_neutral_low_with_the_others_high_is_a_load_left_in():
    line = own(fresh((LN, 0.004)), LN)

    assert line.verdict is Verdict.OUTSIDE
    assert line.causes[0].startswith("a load, lamp, driver")
    assert "the other pairs are high, so the cable is likely sound" in line.next_check


def test_line_to_neutral_of_nought_may_be_crushed():
    line = own(fresh((LN, 0.0)), LN)

    assert "a crushed cable" in line.causes
    assert "test each half" in line.next_check


def test_neutral_to_earth_near_nought_asks_for_the_switch_and_the_bar_first():
    """On TN-C-S a closed main switch joins them: the commonest slip (common practice)."""
    line = own(fresh((NE, 0.0)), NE)

    assert line.verdict is Verdict.OUTSIDE
    assert "main switch is closed" in line.causes[0]
    assert line.next_check.startswith("Stop: it may not be isolated. Isolate, lock off")
    assert "Main switch off, this neutral out of its bar" in line.next_check
    assert "The links stay out." in line.next_check


def test_a_fall_since_covering_on_one_pair_is_a_screw():
    line = own(spoilt((LE, 3.2)), LE)

    assert line.verdict is Verdict.UNLIKELY
    assert "Before covering this pair showed > 999 MΩ" in line.why
    assert "the other pairs are still high" in line.why
    assert "screw or nail" in line.causes[0]


def test_a_fall_of_every_pair_is_damp():
    found = jobs.found(spoilt((LN, 30.0), (LE, 20.0), (NE, 25.0)))

    assert [each.key for each in found] == ["circuit/C2/-/dead/all pairs low"]
    assert found[0].about == (LN, LE, NE)
    assert "water" in found[0].causes[0]


def test_a_pair_outside_stays_a_finding_of_its_own_in_the_damp():
    found = jobs.found(spoilt((LN, 30.0), (LE, 0.5), (NE, 25.0)))

    assert {each.key for each in found} == {
        "circuit/C2/-/dead/all pairs low",
        "circuit/C2/-/dead/ir-le",
    }


def test_no_fall_while_the_reading_is_still_high():
    assert own(spoilt((LE, 400.0)), LE).verdict is Verdict.WITHIN


def test_at_250_volt_with_a_reason_the_lower_figure_is_sound():
    """BS 7671, Regulation 643.3.3: equipment that can't be disconnected; the limit stays."""
    record = retaken(LE, 46.0, test_voltage=250.0, method="L and N joined, drivers left in")

    assert own(record, LE).verdict is Verdict.WITHIN


def test_at_250_volt_without_a_reason_it_is_near():
    line = own(retaken(LE, 300.0, test_voltage=250.0), LE)

    assert line.verdict is Verdict.NEAR
    assert "it doesn't say why" in line.why


def test_at_100_volt_nothing_is_shown():
    line = own(retaken(LE, over(999.0), test_voltage=100.0, method="low battery"), LE)

    assert line.verdict is Verdict.UNLIKELY
    assert "Tested at 100 V d.c.; 500 V is asked for." in line.why


def test_much_better_at_250_than_at_500_volt_is_electronics():
    early = read(900, LE, 60.0, 700, test_voltage=250.0, method="to compare")
    late = read(901, LE, 0.4, 705, test_voltage=500.0)
    line = own(spoilt(early, late, record=without(LE)), LE)

    assert line.verdict is Verdict.OUTSIDE
    assert "At 250 V it was 60 MΩ: electronics do that, a cable rarely." in line.why
    assert line.causes[0] == "surge protection"
    assert "Disconnect it and repeat at 500 V." in line.next_check


def test_the_same_finite_figure_everywhere_is_doubted():
    same = [
        (each.slot, 250.0)
        for each in sound_job().readings
        if each.slot.quantity.value.startswith("insulation") and each.slot.stage is Stage.DEAD
    ]
    found = reviewed(spoilt(*same)).findings

    assert [each.key for each in found] == ["board/-/-/dead/identical insulation"]
    assert "15 of 15 insulation readings are exactly 250 MΩ, in 5 places." in found[0].why


def test_over_range_everywhere_is_what_new_work_shows():
    assert not reviewed(sound_job()).findings


def test_the_feed_is_judged_alike():
    slot = at(Quantity.IR_LE, part=Part.FEED)

    assert own(spoilt((slot, Figure(value=0.2))), slot).verdict is Verdict.OUTSIDE
