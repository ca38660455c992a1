"""A circuit read live after a dead test that had failed, was doubted or came later.

By the readings' own times, never by the time of entry. Ground: BS 7671, Regulation 643.1; IET
Guidance Note 3, order of tests (from memory).
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.judgement.harm import Harm
from records.model.reading import Quantity
from records.model.record import Record
from records.terms import Verdict
from tests.judgement.jobs import at, read, reviewed, sound_job, spoilt, zs
from tests.taking.locks import ZE, answered, at_minute, job, took

LE, RUN = at(Quantity.IR_LE, "C2"), at(Quantity.R1_R2, "C2")
NAME = "taken while locked off"


def told(record: Record) -> list[str]:
    """Return the circuits that were read live too early."""
    lines = [each for each in reviewed(record).lines if NAME in each.patterns and not each.slot]
    return [each.place.circuit for each in lines if each.is_finding]


def minutes(slot) -> float:
    """Return when a reading of the sound job was taken, in minutes from the start."""
    record = sound_job()
    return (record.taken(slot)[0].at - record.readings[0].at).total_seconds() / 60 + 3


@pytest.mark.parametrize(("slot", "value"), [(LE, 0.4), (RUN, 0.9)])
def test_after_a_dead_test_that_had_failed_or_was_doubted(slot, value):
    found = [each for each in reviewed(spoilt((slot, value))).findings if NAME in each.patterns]

    assert told(spoilt((slot, value))) == ["C2"]
    assert found[0].verdict is Verdict.OUTSIDE
    assert found[0].harm is Harm.DANGER
    assert zs("C2") in found[0].about


@pytest.mark.parametrize(("after", "early"), [(-1, []), (1, ["C2"])])
def test_before_the_dead_test_was_taken(after, early):
    good = sound_job().taken(LE)[0]
    moved = good.model_copy(
        update={"at": sound_job().taken(zs("C2"))[0].at + timedelta(minutes=after)}
    )
    others = tuple(each for each in sound_job().readings if each.slot != LE)

    assert told(sound_job().model_copy(update={"readings": (*others, moved)})) == early


@pytest.mark.parametrize(("at_minute", "early"), [(-1, []), (1, ["C2"])])
def test_a_test_that_was_put_right_counts_from_when_it_was_read_again(at_minute, early):
    again = read(900, LE, 480.0, minutes(zs("C2")) + at_minute)

    assert told(spoilt((LE, 0.4), again)) == early


def test_when_a_reading_was_entered_makes_no_difference():
    good = sound_job().taken(LE)[0]
    noted = good.model_copy(update={"from_notes": good.at + timedelta(days=3)})
    others = tuple(each for each in sound_job().readings if each.slot != LE)

    assert told(sound_job().model_copy(update={"readings": (*others, noted)})) == []


def test_a_sound_job_and_another_circuit_are_not_told():
    assert told(sound_job()) == []
    assert "C3" not in told(spoilt((LE, 0.4)))


@pytest.mark.parametrize(("taken_at", "without"), [(59, True), (60, False), (61, False)])
def test_an_answer_holds_for_what_was_read_after_it_not_for_notes_from_before(taken_at, without):
    """Entered while the answer holds; but it was live before anybody had answered."""
    noted = job(answered(60), took(ZE, 0.35, taken_at))
    *others, last = noted.readings
    last = last.model_copy(update={"from_notes": at_minute(62)})
    record = noted.model_copy(update={"readings": (*others, last)})
    found = [
        each for each in reviewed(record).findings if "taken without an answer" in each.patterns
    ]

    assert bool(found) is without
    assert all(ZE in each.about for each in found)
