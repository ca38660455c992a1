"""Continuity: against the length, against before covering, open, and joints."""

from __future__ import annotations

import pytest

from records.model.outbuilding import Bond
from records.model.reading import NotNeeded, NotTaken, Quantity, Tick
from records.terms import Part, Stage, Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    SOUND,
    at,
    circuit,
    over,
    own,
    read,
    sound_job,
    spoilt,
    under,
)

RADIAL = at(Quantity.R1_R2, "C2")  # 18 m of 2.5/1.5 mm²: 0.34 Ω at 15 °C
EARLY = at(Quantity.R1_R2, "C2", Stage.BEFORE_COVERING)
EARTHING = at(Quantity.EARTHING)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        (0.34, "within"),
        (0.40, "within"),
        (0.42, "unlikely"),
        (0.60, "unlikely"),
        (0.27, "unlikely"),
        (0.29, "within"),
        (over(99.9), "outside"),
        (2.5, "outside"),
        (-0.01, "unlikely"),
    ],
)
def test_r1_r2_against_its_length(value, verdict):
    """Off by more than 0.05 Ω and a fifth: common practice. 2.5 Ω leave no room in 2.19 Ω."""
    both = spoilt((RADIAL, value), (EARLY, value))

    assert own(both, RADIAL).verdict.value == verdict


def test_a_high_run_says_where_to_look():
    line = own(spoilt((RADIAL, 0.60)), RADIAL)

    assert "0.26 Ω above what is expected" in line.why
    assert line.causes[0] == "a loose terminal or a bad joint"
    assert "test each half" in line.next_check


def test_a_low_run_asks_for_the_point():
    line = own(spoilt((RADIAL, 0.10), (EARLY, 0.10)), RADIAL)

    assert "low is not good in itself" in line.why
    assert "nearer point" in line.causes[0]


def test_less_than_nought_is_a_matter_of_the_leads():
    line = own(spoilt((FEED_R1_R2, -0.08)), FEED_R1_R2)

    assert line.verdict is Verdict.UNLIKELY
    assert "nulled with longer leads, or with a poor contact" in line.causes


def test_a_broken_run_is_outside_and_says_so():
    line = own(spoilt((RADIAL, over(99.9))), RADIAL)

    assert "> 99.9 Ω" in line.why
    assert "showed over range" in line.why


def test_a_reading_that_changed_since_covering_is_told():
    """0.39 Ω alone could be the length; from 0.31 Ω before covering it is a joint made since."""
    line = own(spoilt((EARLY, 0.31), (RADIAL, 0.39)), RADIAL)

    assert line.verdict is Verdict.UNLIKELY
    assert "Before covering it was 0.31 Ω." in line.why


def test_without_an_expectation_nothing_is_within():
    record = circuit(sound_job(), "C2", runs=(), device=SOUND.circuits[1].device)

    line = own(record, RADIAL)

    assert line.verdict is Verdict.NOT_TAKEN
    assert "It can't be judged yet" in line.why
    assert line.why.startswith("Read 0.3")


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(0.02, "within"), (0.05, "near limit"), (0.06, "unlikely"), (over(99.9), "outside")],
)
def test_an_earthing_conductor_of_unknown_length(value, verdict):
    """Commonly 0.05 Ω or less for a short one: common practice. Longer ones can't be told."""
    assert own(spoilt((EARTHING, value)), EARTHING).verdict.value == verdict


def test_a_bond_is_held_against_its_length():
    """10 m of 10 mm² have 0.018 Ω; 0.05 Ω come on top for its contacts (common practice)."""
    board = SOUND.board.model_copy(
        update={
            "metal_in_ground": True,
            "bonds": (Bond(id="B1", what="water pipe", csa=10.0, length=10.0),),
        }
    )
    slot = at(Quantity.BONDING, point="B1", part=Part.BOARD)
    record = sound_job(SOUND.model_copy(update={"board": board}))

    assert own(spoilt((slot, 0.06), record=record), slot).verdict is Verdict.WITHIN
    bad = own(spoilt((slot, 0.30), record=record), slot)
    assert bad.verdict is Verdict.OUTSIDE
    assert "paint" in bad.causes[0]


def test_reasons_are_shown_and_are_no_pass():
    taken = own(spoilt((RADIAL, NotTaken(reason="behind the loom"))), RADIAL)
    needed = own(spoilt((RADIAL, NotNeeded(reason="no such run"))), RADIAL)

    assert taken.verdict is Verdict.NOT_TAKEN
    assert "behind the loom" in taken.why
    assert needed.verdict is Verdict.NOT_NEEDED
    assert "no such run" in needed.why


def test_a_tick_is_no_figure():
    line = own(spoilt((RADIAL, Tick(good=True))), RADIAL)

    assert line.verdict is Verdict.NOT_TAKEN
    assert "what is wanted is a figure" in line.why


def test_under_the_range_agrees_only_if_it_can():
    slot = FEED_R1_R2  # about 0.11 Ω

    assert own(spoilt((slot, under(0.2))), slot).verdict is Verdict.WITHIN
    assert own(spoilt((slot, under(0.02))), slot).verdict is Verdict.UNLIKELY


def test_the_first_reading_stays_and_the_last_is_judged():
    again = read(900, RADIAL, 0.34)
    line = own(spoilt((RADIAL, 0.9), again), RADIAL)

    assert line.verdict is Verdict.WITHIN
    assert [each.id for each in line.attempts][-1] == "R900"
    assert len(line.attempts) == 2
