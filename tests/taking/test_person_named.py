"""Who is meant by a typed name: somebody of the job, never a guess between two."""

from __future__ import annotations

import pytest

from records.errors import BadText
from records.model.job import Job, Person
from records.model.record import Record
from records.taking.person_named import person_named

JOB = Record(
    job=Job(
        people=(
            Person(id="P1", name="Ann Brook"),
            Person(id="P2", name="Bea Brook"),
            Person(id="P3", name="Ann-Marie Field"),
        )
    )
)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("", None),
        ("  ", None),
        ("p2", "P2"),
        ("Ann Brook", "P1"),
        ("brook ann", "P1"),
        ("P3 Ann-Marie Field", "P3"),
        ("Ann", "P1"),
        ("bea", "P2"),
        ("FIELD", "P3"),
    ],
)
def test_a_name_an_id_or_a_part_that_is_one_persons(typed: str, meant: str | None) -> None:
    assert person_named(JOB, typed) == meant


def test_a_part_that_two_people_have_is_asked_about_by_name() -> None:
    with pytest.raises(BadText, match="type P1 for Ann Brook or P2 for Bea Brook"):
        person_named(JOB, "Brook")


@pytest.mark.parametrize("typed", ["Cal", "An", "Ann Field", "P9"])
def test_who_is_not_in_the_job_is_refused_with_who_is(typed: str) -> None:
    with pytest.raises(BadText, match="P1 Ann Brook; P2 Bea Brook; P3 Ann-Marie Field"):
        person_named(JOB, typed)


def test_a_job_without_people_says_where_they_are_entered() -> None:
    with pytest.raises(BadText, match=r"It has: nobody yet\. People are entered in the step Job"):
        person_named(Record(), "Ann")
