"""The earth goes back on after Ze, and nothing else is asked before that is answered."""

from __future__ import annotations

from records.model.reading import Quantity
from records.taking.earth_back import EARTH_BACK, ZE, owed
from records.terms import Stage
from tests.taking.job import slot, small_job, with_answer, with_figure


def test_nothing_is_owed_before_ze():
    job = with_figure(small_job(), slot(Quantity.ZDB, Stage.LIVE), 0.4)

    assert owed(job) is None


def test_after_ze_the_earth_is_owed_until_it_is_found_right():
    """Practice: the earthing conductor lifted for Ze is the step most often forgotten."""
    taken = with_figure(small_job(), ZE, 0.3)

    assert owed(taken) == EARTH_BACK
    assert owed(with_answer(taken, EARTH_BACK, good=False)) == EARTH_BACK
    assert owed(with_answer(taken, EARTH_BACK, good=True)) is None


def test_a_second_ze_owes_it_again():
    job = with_answer(with_figure(small_job(), ZE, 0.3), EARTH_BACK, good=True)

    assert owed(with_figure(job, ZE, 0.31)) == EARTH_BACK
