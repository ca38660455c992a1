"""Cards, cautions and the schedule: what comes off has its state before it, as in advice.

Grounds: Electricity at Work Regulations 1989, regulations 12 to 14, and HSE HSR25 (from memory).
"""

from __future__ import annotations

import pytest

from records.document.fixed_text import CAUTIONS, EVERY_PAGE
from records.entering import design_cautions as cautions
from records.judgement.advice import Act, State
from records.judgement.fabric.bisection import HOW_TO_SPLIT
from records.model.measurements import MEASUREMENTS, Measurement
from records.notices import SERVICES
from records.taking.cautions import SHOCK, TINGLE, before
from records.taking.families import families
from records.taking.stage_help import stage_help
from records.terms import Stage
from tests.judgement.advice.speech import acts_in, unsafe

NOTES = [each for name, each in vars(cautions).items() if name.isupper() and isinstance(each, str)]


def _card(entry: Measurement) -> str:
    return f"{entry.first} {entry.between}"


def _live_only(entry: Measurement) -> bool:
    return tuple(entry.stages) == (Stage.LIVE,)


@pytest.mark.parametrize("entry", MEASUREMENTS, ids=lambda each: f"{each.part} {each.quantity}")
def test_a_card_says_the_state_before_what_comes_off_or_is_opened(entry):
    """A card is what is read after the first hour."""
    text = _card(entry)
    for act in unsafe(text):
        # Live cards stand behind the live question, which asks whether somebody is competent.
        assert _live_only(entry), text
        if act.needs is State.DEAD:
            # What comes off with the supply still there can only be locked off.
            assert act is Act.EARTH_OFF, text
            assert "locked off" in text[: dict(acts_in(text))[act]], text


DEAD = sorted({family for family, _ in families(Stage.DEAD)})


@pytest.mark.parametrize("family", DEAD)
def test_a_caution_before_a_dead_test_says_the_state_too(family):
    for each in before(Stage.DEAD, family):
        text = " ".join(each.lines)
        assert not unsafe(text), text


HELPS = [stage_help(each) for each in Stage]


@pytest.mark.parametrize("text", [*CAUTIONS, EVERY_PAGE, *NOTES, *HELPS, HOW_TO_SPLIT, SERVICES])
def test_schedule_design_and_help_ask_for_nothing_without_its_state(text):
    assert not unsafe(text)


def test_there_is_something_to_read():
    assert len(NOTES) > 5
    assert len(MEASUREMENTS) > 40
    assert sum(bool(list(acts_in(_card(entry)))) for entry in MEASUREMENTS) > 5


@pytest.mark.parametrize("stage", Stage)
def test_the_help_of_every_stage_says_what_to_do_at_a_shock(stage):
    """First aid: HSE's electric shock poster (from memory). 105: the networks' number."""
    assert stage_help(stage).endswith(f"{SHOCK}\n\n{TINGLE}")
    assert "\n\nType y.\n\n" in stage_help(stage, "Type y.")
