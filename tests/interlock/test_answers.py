"""For whom, and how long, an answer or a caution that was read holds.

The four hours are common practice (half a working day): no standard says how often.
"""

from __future__ import annotations

from datetime import timedelta, timezone

import pytest

from records.interlock.answers import competent, holds, live_answer, unread
from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.model.job import Duty, Person
from records.model.reading import Figure, NotNeeded, NotTaken, Reading, Slot, Tick
from records.model.record import Record, next_id
from tests.taking.job import AT
from tests.taking.locks import (
    LE,
    POLARITY,
    RUN,
    ZDB,
    Change,
    Entry,
    answered,
    at_minute,
    job,
    read_before,
    took,
)

SECOND = timedelta(seconds=1)
LATE = at_minute(110)


def from_notes(where: Slot, taken: Entry, minutes: float, entered: float) -> Change:
    """Return what enters a reading later than it was taken."""

    def change(record: Record) -> Record:
        made = Reading(
            id=next_id("R", record.readings),
            slot=where,
            taken=taken,
            at=at_minute(minutes),
            from_notes=at_minute(entered),
            by="A1",
        )
        return record.model_copy(update={"readings": (*record.readings, made)})

    return change


@pytest.mark.parametrize(
    ("later", "good"),
    [
        (timedelta(0), True),
        (-SECOND, False),
        (timedelta(hours=4), True),
        (timedelta(hours=4) + SECOND, False),
    ],
)
def test_what_was_said_holds_for_four_hours_and_not_before_it_was_said(
    later: timedelta, good: bool
) -> None:
    assert holds(AT, "A1", "A1", AT + later) is good
    assert not holds(AT, "A2", "A1", AT + later)


def test_it_does_not_hold_past_midnight_where_the_person_is() -> None:
    """23:30 in the outbuilding is another day in UTC: the day is that of who takes the reading."""
    there = timezone(timedelta(hours=1))
    before = AT.replace(hour=22, minute=30).astimezone(there)
    assert before.hour == 23

    assert holds(before, "A1", "A1", before + timedelta(minutes=29))
    assert not holds(before, "A1", "A1", before + timedelta(minutes=31))


def test_only_a_certifier_with_a_name_decides_that_something_goes_live_all_the_same() -> None:
    people = (
        Person(id="A1", name="Wren Oakes", duty=Duty.INSTALLS),
        Person(id="A2", name=" ", duty=Duty.CERTIFIES),
        Person(id="A3", name="Ash Reed", duty=Duty.CERTIFIES),
    )
    record = job()
    record = record.model_copy(update={"job": record.job.model_copy(update={"people": people})})

    assert [each.id for each in competent(record)] == ["A3"]


@pytest.mark.parametrize(
    ("change", "asked_again"),
    [
        (took(RUN, 0.29, 60), False),  # at the very moment of the answer: it knew of it
        (took(RUN, 0.29, 61), True),
        (took(RUN, Tick(good=True), 61), True),
        (took(RUN, NotTaken(reason="no time left"), 61), False),
        (took(RUN, NotNeeded(reason="no such core"), 61), False),
        (took(PUT_BACK, Tick(good=True), 61), False),
        (took(ZDB, 0.43, 61), False),  # live: it is what the answer was for
        (took(RUN, 0.29, 110), True),
        (took(RUN, 0.29, 111), False),  # from a clock that stood ahead
        (from_notes(RUN, Figure(value=0.29), 30, 60), False),
        (from_notes(RUN, Figure(value=0.29), 30, 61), True),  # taken before, put on record since
    ],
)
def test_a_dead_test_since_the_answer_asks_the_question_again(
    change: Change, asked_again: bool
) -> None:
    """What may go live can have changed with it."""
    assert (live_answer(job(answered(60), change), "A1", LATE) is None) is asked_again


def test_the_last_answer_by_its_time_is_the_one_that_counts() -> None:
    """Answers of two laptops come together in any order."""
    yes, no = answered(60), answered(65, yes=False)

    assert live_answer(job(no, yes), "A1", LATE) is None
    assert live_answer(job(yes, no), "A1", LATE) is None
    again = live_answer(job(answered(70), no, yes), "A1", LATE)
    assert again is not None
    assert again.at == at_minute(70)
    assert live_answer(job(answered(110)), "A1", LATE) is not None  # this very moment
    assert live_answer(job(answered(111)), "A1", LATE) is None  # not said yet


@pytest.mark.parametrize(
    ("change", "where", "again"),
    [
        (took(ZDB, 0.43, 90), LE, True),  # was live since: prove dead and read again
        (took(ZDB, 0.43, 80), LE, False),  # live at the very moment, not after it
        (took(ZDB, NotTaken(reason="no time left"), 90), LE, False),
        (took(ZDB, 0.43, 111), LE, False),  # from a clock that stood ahead
        (took(ZDB, 0.43, 110), LE, True),
        (took(LE, 900.0, 90), LE, False),  # a dead test makes nothing live
        (took(ZDB, 0.43, 90), POLARITY, False),  # one live reading after another
        (took(EARTH_BACK, Tick(good=True), 90), POLARITY, False),
    ],
)
def test_a_caution_is_read_again_before_a_dead_test_once_something_was_live(
    change: Change, where: Slot, again: bool
) -> None:
    record = job(read_before(where, 80), change)
    key = record.cautions_read[-1].key

    assert bool(unread(record, where, [key], "A1", LATE)) is again


def test_the_caution_of_ze_is_read_before_ze_itself_and_again_once_the_earth_was_back() -> None:
    def left(*changes: Change) -> tuple[str, ...]:
        record = job(*changes)
        return unread(record, ZE, ["before ze", "another"], "A1", LATE)

    def read(before: Slot, minutes: float) -> Change:
        def change(record: Record) -> Record:
            found = read_before(before, minutes)(record).cautions_read[-1]
            same = found.model_copy(update={"key": "before ze"})
            return record.model_copy(update={"cautions_read": (*record.cautions_read, same)})

        return change

    assert left(read(ZE, 80)) == ("another",)
    assert left(read(POLARITY, 80)) == ("before ze", "another")
    assert left(read(ZE, 80), took(EARTH_BACK, Tick(good=True), 81)) == ("before ze", "another")
    assert left(read(ZE, 80), took(EARTH_BACK, NotTaken(reason="too cold"), 81)) == ("another",)
    assert left(read(ZE, 80), took(ZDB, 0.43, 81)) == ("another",)
