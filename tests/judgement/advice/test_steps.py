"""Advice in words: the state that an act needs stands before it, and what follows stands after.

Grounds: Electricity at Work Regulations 1989, regulations 12 to 14, and HSE HSR25 (from memory).
"""

from __future__ import annotations

import pytest

from records.judgement.advice import NONE, Act, State, do, plan
from records.terms import Part, Stage

DEAD = [act for act in Act if act.needs is State.DEAD]
OPENED = do(Act.OPEN, "Split the run half way and read each half.")


@pytest.mark.parametrize("act", DEAD)
@pytest.mark.parametrize("part", list(Part))
@pytest.mark.parametrize("stage", [None, *Stage])
def test_whoever_opens_lifts_or_changes_is_told_to_prove_dead_between_all_three_first(
    act, part, stage
):
    text = do(act, "Do it.").text(stage, part)

    assert "prove dead (L-N, L-E, N-E)" in text[: text.index("Do it.")]
    if stage is not Stage.BEFORE_COVERING:
        assert "house" in text[: text.index("Do it.")].casefold()


@pytest.mark.parametrize("part", [Part.FEED, Part.ORIGIN])
def test_at_the_house_the_cut_out_meter_and_tails_are_left_alone(part):
    assert "Cut-out, meter and tails stay live: not yours." in OPENED.text(Stage.DEAD, part)


def test_at_first_fix_nothing_is_taken_for_disconnected():
    text = OPENED.text(Stage.BEFORE_COVERING, Part.CIRCUIT)

    assert text.startswith("See that nothing is connected at either end; prove dead")


def test_what_a_step_needs_is_said_once_and_before_the_first_that_needs_it():
    text = (do(Act.LEAVE_OFF, "Switch it off and lock it off.") + OPENED + OPENED).text()

    assert text.startswith("Switch it off and lock it off. Lock off at the house too; prove")
    assert text.count("prove dead") == 1
    assert text.count("Split the run") == 1


def test_what_was_opened_is_tested_again():
    """BS 7671, Regulation 643.1 (from memory): a repair voids the tests before it."""
    assert OPENED.text().endswith("Repeat continuity, insulation and polarity of what you opened.")


def test_an_earth_that_comes_off_goes_back_before_anything_is_live():
    text = (do(Act.EARTH_OFF, "Take the conductor off.") + do(Act.AGAIN, "Read again.")).text()

    assert text.index("Back and tight at once") < text.index("Read again.")
    both = (do(Act.EARTH_OFF, "Take the conductor off.") + do(Act.READ_DEAD, "Read both.")).text()
    assert both.index("Back and tight at once") < both.index("Read both.")


def test_a_live_reading_is_for_the_competent_and_a_rod_needs_the_services_looked_for():
    assert do(Act.READ_LIVE, "Read Zs again.").text().startswith("Live test: competent person only")
    assert "buried services" in do(Act.DRIVE, "Drive it deeper.").text()


@pytest.mark.parametrize("live", [do(Act.READ_LIVE, "Read it."), do(Act.AGAIN, "Read it again.")])
def test_what_was_made_live_again_is_proved_dead_again(live):
    text = (OPENED + live + do(Act.CHANGE, "Change it.")).text(Stage.LIVE, Part.CIRCUIT)

    assert text.count("prove dead") == 2
    assert text.rindex("prove dead") > text.index("Read it")
    # The tests of what was opened come before it is live.
    assert text.index("Repeat continuity") < text.index("Read it")
    assert (OPENED + live).text().count("Repeat continuity") == 1


def test_a_link_is_never_put_back_with_the_loads():
    text = (do(Act.UNLINK, "Take the links out.") + do(Act.LIFT, "Loads out.") + OPENED).text()

    assert "The links stay out. Put each back" in text
    assert text.index("Split the run") < text.index("Put each back")


def test_what_needs_no_state_says_none():
    assert do(Act.ASK, "Ask the certifier.").text(Stage.LIVE, Part.BOARD) == "Ask the certifier."
    assert not NONE
    assert NONE.text() == ""


def test_a_change_of_the_design_is_not_made_in_a_live_board():
    assert plan("Thicker cable.").endswith("isolate, lock off at the house, prove dead first.")
