"""Dead readings: leads taken off, a ring whose ends are the trouble, links and words."""

from __future__ import annotations

import pytest

from records.model.reading import Figure, Quantity
from records.terms import Stage, Verdict
from tests.judgement.jobs import SOUND, at, findings, own, reviewed, sound_job, spoilt, without
from tests.judgement.test_patterns import LOW

RUN = at(Quantity.R1_R2, "C2")
R1, RN, R2 = (at(each, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2))


def less_leads(taken_off: float | None, off: float):
    """Return the job with all dead low-resistance readings off by so much, leads taken off."""
    changes = [
        (each.slot, Figure(value=round(each.taken.value + off, 2), leads=taken_off))
        for each in sound_job().readings
        if each.slot.quantity in LOW
        and each.slot.stage is Stage.DEAD
        and isinstance(each.taken, Figure)
    ]
    return spoilt(*changes)


def patterns(record) -> set[str]:
    return {name for each in reviewed(record).lines for name in each.patterns}


def test_leads_that_were_taken_off_twice_show_in_all_readings():
    """The meter had nulled them already: every reading is low by the same lead resistance."""
    record = less_leads(0.08, -0.08)
    found = [each for each in reviewed(record).findings if "leads taken off twice" in each.patterns]

    assert len(found) == 1
    assert "about 0.08 Ω below what is expected, and 0.08 Ω of leads was taken" in found[0].why
    assert "nulls" in found[0].causes[0]
    assert own(record, RUN).part_of == found[0].key


def test_nothing_is_taken_off_twice_where_nothing_was_taken_off_or_all_agrees():
    assert "leads taken off twice" not in patterns(less_leads(None, -0.08))
    assert "leads taken off twice" not in patterns(less_leads(0.08, 0.0))
    assert patterns(less_leads(0.08, 0.0)) == set()


def test_leads_not_nulled_says_what_the_record_does_about_them():
    found = reviewed(less_leads(None, 0.14)).findings
    (line,) = (each for each in found if "leads not nulled" in each.patterns)

    assert "nothing is taken off here" not in line.next_check


# A ring whose ends are off.


def test_an_end_that_is_off_is_told_once_and_not_by_every_point():
    found = findings(spoilt((R1, 0.1)))

    assert "circuit/C1/-/dead/r1" in found
    assert not [key for key in found if "cross-connected" in key]


def test_points_that_are_off_the_design_too_are_told_beside_their_ends():
    point = at(Quantity.CROSS_LN, "C1", point="P3")
    found = findings(spoilt((R1, 0.1), (point, 0.4)))

    assert "circuit/C1/P3/dead/cross-ln" in found


def test_points_without_their_ends_are_held_against_the_design():
    """A ring with points missing, or ends: each is asked for, and no other one passes for it."""
    point = at(Quantity.CROSS_LN, "C1", point="P3")
    record = spoilt((point, 0.4), record=without(R1, RN, R2))
    found = findings(record)

    assert found[f"circuit/C1/P3/dead/{Quantity.CROSS_LN.code}"] == "unlikely"
    assert [found[f"circuit/C1/-/dead/{end}"] for end in ("r1", "rn", "r2")] == (["not taken"] * 3)


@pytest.mark.parametrize("value", [0.0, 0.01])
def test_a_ring_end_of_nothing_is_a_lead_on_the_wrong_leg(value):
    found = own(spoilt((R1, value)), R1)

    assert found.verdict is Verdict.UNLIKELY
    assert "both leads on the same leg" in " ".join(found.causes)


def test_a_run_of_nothing_is_read_at_the_board():
    assert "at the board" in own(spoilt((RUN, 0.0)), RUN).causes[0]
    assert "at the board" not in " ".join(own(spoilt((RUN, 0.2)), RUN).causes)


def test_sound_jobs_are_still_sound():
    assert findings(sound_job(SOUND)) == {}
