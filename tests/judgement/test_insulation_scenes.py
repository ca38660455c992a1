"""Insulation readings that are easily taken for what they aren't."""

from __future__ import annotations

from typing import Any

import pytest

from records.model.reading import Quantity
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import ISLAND, at, over, own, read, sound_job, spoilt, without

LN, LE, NE = (at(each, "C2") for each in (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE))
FEED_NE = at(Quantity.IR_NE, part=Part.FEED)
GROUP = at(Quantity.IR_GROUP)


def retaken(slot, value, **more: Any):
    """The line of one reading taken again, with what matters of how."""
    return own(spoilt(read(900, slot, value, **more), record=without(slot)), slot)


def line(slot, value, job=None):
    return own(spoilt((slot, value), record=sound_job(job) if job else None), slot)


@pytest.mark.parametrize("value", [400_000.0, 999_000.0, over(1e6)])
def test_more_than_testers_reach_may_be_ohms(value):
    """400 000 Ω is 0.4 MΩ, and fails: no installation tester reads past 20 GΩ or so."""
    found = line(LE, value)

    assert found.verdict is Verdict.UNLIKELY
    assert "insulation-too-good" in found.patterns
    assert found.causes[0] == "kΩ or Ω typed as MΩ"


@pytest.mark.parametrize("value", [999.0, 4000.0, over(999.0), over(2000.0)])
def test_what_testers_do_reach_is_believed(value):
    assert line(LE, value).verdict is Verdict.WITHIN


@pytest.mark.parametrize("value", [2.0, 20.0, 50.0])
def test_a_low_range_that_ran_out_does_not_show_that_the_wiring_is_as_new(value):
    """`> 2 MΩ` meets 1.0 MΩ; but 50 MΩ as a figure would be looked into, so a hidden one is."""
    found = line(at(Quantity.IR_LE, "C2", Stage.BEFORE_COVERING), over(value))

    assert found.verdict is Verdict.UNLIKELY
    assert found.patterns[0] == "insulation-not-shown"
    assert "highest range" in found.next_check
    assert line(LE, over(200.0)).verdict is Verdict.WITHIN


@pytest.mark.parametrize("slot", [LN, LE, NE])
def test_a_dead_short_is_first_of_all_a_link_of_the_test_before(slot):
    """L joined to cpc for R1+R2, or a ring's crossed legs: left in, they read 0.00 MΩ."""
    assert "link" in " ".join(line(slot, 0.0).causes[:2])
    assert "link" not in " ".join(line(slot, 0.4).causes)


def test_neutral_to_earth_in_the_middle_is_no_closed_switch():
    """A closed main switch reads next to nothing; 0.4 MΩ is damp, damage or electronics."""
    assert "main switch" in line(NE, 0.02).causes[0]
    found = line(NE, 0.4)
    assert "main switch" not in " ".join(found.causes)
    assert "water" in found.causes[0]


def test_a_closed_switch_joins_neutral_and_earth_on_an_island_too():
    """The neutral is earthed at the supply: tens of ohms by the ground still read 0.00 MΩ."""
    found = line(NE, 0.0, ISLAND)
    assert "TN-C-S" not in " ".join(found.causes)
    assert "main switch is closed" in " ".join(found.causes)


def test_a_higher_voltage_than_asked_for_is_said():
    """BS 7671, Table 64: 500 V d.c. up to 500 V; 1000 V can harm what is connected."""
    found = retaken(LE, over(999.0), test_voltage=1000.0)

    assert found.verdict is Verdict.NEAR
    assert "1000 V d.c.; 500 V is asked for" in found.why
    assert retaken(LE, over(999.0), test_voltage=500.0).verdict is Verdict.WITHIN


def test_between_line_and_neutral_there_is_nothing_to_read_while_they_are_joined():
    """At 250 V with equipment in place L and N are joined and read to earth (643.3.3)."""
    joined = "250 V d.c., L and N joined, to earth: drivers"
    found = retaken(LN, over(999.0), test_voltage=250.0, method=joined)

    assert found.verdict is Verdict.UNLIKELY
    assert found.patterns[0] == "insulation-joined"
    assert "not needed" in found.next_check
    assert retaken(LE, over(999.0), test_voltage=250.0, method=joined).verdict is Verdict.WITHIN


def test_a_group_that_fails_has_causes_and_a_next_check():
    record = spoilt(read(900, GROUP, 0.4, 900))

    assert "electronics in the board" in own(record, GROUP).causes[0]
    assert "one at a time" in own(record, GROUP).next_check


def test_a_low_reading_of_the_feed_does_not_speak_of_lamps():
    found = line(at(Quantity.IR_LN, part=Part.FEED), 0.3)

    assert "lamp" not in " ".join(found.causes)
    assert "surge protection" in " ".join(found.causes)
    assert "main switch" in line(FEED_NE, 0.0).causes[0]
