"""What was done about a finding, and when: as people type it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from records.errors import BadQuantity, BadText
from records.taking.typed_work import Turning, kind_named, read_done_at, read_work, turning
from records.terms import WorkKind
from tests.judgement.jobs import read, reviewed, sound_job, spoilt
from tests.judgement.test_remedies import LE

NOW = datetime(2026, 3, 20, 15, 0, tzinfo=UTC)
BAD = datetime(2026, 3, 18, 10, 0, tzinfo=UTC)
AGAIN = datetime(2026, 3, 19, 9, 0, tzinfo=UTC)
OPEN, TURNED, DESIGN = Turning(BAD, None), Turning(BAD, AGAIN), Turning(None, None)
SECOND = timedelta(seconds=1)


CALLED = {
    WorkKind.DEVICE: "device rcd RCBO breaker mcb fuse switch",
    WorkKind.JOINT: "joint gland terminal connection",
    WorkKind.CABLE: "cable run",
    WorkKind.POINT: "point socket lamp outlet",
    WorkKind.EARTH: "earth bond bonding electrode",
    WorkKind.OTHER: "other",
    WorkKind.MISREAD: "misread wrong",
}
"""What people call each kind of work: what has to be tested again goes by it."""


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", WorkKind.OTHER),
        ("Gland or joint remade", WorkKind.JOINT),
        ("first  reading was wrong", WorkKind.MISREAD),
        *((word, kind) for kind, words in CALLED.items() for word in words.split()),
    ],
)
def test_a_kind_is_known_by_its_word_and_by_what_people_call_it(text, kind):
    assert read_work(text, OPEN, NOW).kind is kind


def test_every_kind_can_be_typed_as_it_is_shown():
    assert {kind_named(each.words) for each in WorkKind} == set(WorkKind)


def test_another_word_is_refused_with_those_that_are_known():
    with pytest.raises(BadText, match="device, joint, cable, point, earth, other, misread"):
        read_work("stuff", OPEN, NOW)


@pytest.mark.parametrize(
    ("text", "between", "when"),
    [
        ("", OPEN, NOW),
        ("now", DESIGN, NOW),
        ("", TURNED, AGAIN - SECOND),
        ("today", OPEN, NOW),
        ("yesterday", OPEN, datetime(2026, 3, 19, 23, 59, 59, tzinfo=UTC)),
        ("19 March 2026", TURNED, AGAIN - SECOND),
        ("2026-03-18", TURNED, datetime(2026, 3, 18, 23, 59, 59, tzinfo=UTC)),
        ("2026-03-18 10:00", OPEN, BAD),
        ("14:30", OPEN, datetime(2026, 3, 20, 14, 30, tzinfo=UTC)),
        ("14:30", TURNED, datetime(2026, 3, 20, 14, 30, tzinfo=UTC)),
        ("today", TURNED, NOW),
    ],
)
def test_a_day_alone_lies_after_the_bad_reading_and_before_the_next_of_that_day(
    text, between, when
):
    assert read_done_at(text, between, NOW) == when


def test_a_second_between_two_readings_is_never_before_the_first():
    assert read_done_at("", Turning(BAD, BAD), NOW) == BAD


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2026-03-18 09:59", "before the reading it is about, of 18 Mar 2026 10:00"),
        ("2026-03-17", "before the reading"),
        ("2026-03-21", "still to come"),
        ("2026-03-20 15:01", "still to come"),
        ("some day", "is not a day"),
    ],
)
def test_a_time_at_which_it_cannot_have_been_is_refused(text, words):
    with pytest.raises(BadQuantity, match=words):
        read_done_at(text, OPEN, NOW)


def test_work_lies_between_the_last_bad_reading_and_the_next_one():
    def found(record):
        review = reviewed(record)
        return turning(review, review.of(LE)[0])

    first = sound_job().taken(LE)[0].at
    assert found(spoilt((LE, 0.4))) == Turning(first, None)
    again = read(900, LE, 480.0, 910)
    assert found(spoilt((LE, 0.4), again)) == Turning(first, again.at)
    third = read(901, LE, 0.2, 920)
    assert found(spoilt((LE, 0.4), again, third)) == Turning(third.at, None)


def test_work_on_the_design_lies_between_no_readings():
    review = reviewed(sound_job())
    design = next(each for each in review.lines if each.slot is None)

    assert turning(review, design) == DESIGN
