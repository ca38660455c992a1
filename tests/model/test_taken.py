"""Readings of a slot are found, in every copy of a record."""

from __future__ import annotations

from records.model.reading import Quantity
from records.terms import Stage
from tests.taking.job import slot, small_job, with_figure

R1 = slot(Quantity.R1, Stage.DEAD, "C1")
RN = slot(Quantity.RN, Stage.DEAD, "C1")


def test_attempts_come_oldest_first_and_another_slot_has_none():
    job = with_figure(with_figure(small_job(), R1, 0.9), R1, 0.3)

    assert [each.taken.value for each in job.taken(R1)] == [0.9, 0.3]
    assert job.taken(RN) == ()


def test_a_copy_with_another_reading_does_not_answer_from_the_original():
    job = with_figure(small_job(), R1, 0.9)
    assert len(job.taken(R1)) == 1

    grown = with_figure(job, R1, 0.3)

    assert len(grown.taken(R1)) == 2
    assert len(job.taken(R1)) == 1
