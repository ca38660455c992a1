"""The locks where the clock was wrong, and where a live reading failed."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from records.errors import StaysOwed
from records.expected.plan import expected
from records.interlock.comes_off import EARTH_BACK, ZE, earth_owed
from records.interlock.may_take import Interlock, Lock
from records.judgement.review import review
from records.model.reading import Figure, Quantity, Tick
from records.model.record import Record
from records.taking.desk import Desk
from records.terms import Sign, Stage
from tests.taking.job import slot
from tests.taking.locks import LE, POLARITY, ZS2, ZS3, answered, at_minute, job, supply, took
from tests.taking.seat import opened, read_all

VOLTAGE_NE = slot(Quantity.VOLTAGE_NE, Stage.LIVE)


def _interlock(record: Record, minutes: float) -> Interlock:
    verdicts = review(record, expected(record)).verdicts
    return Interlock(record, verdicts, "A1", at_minute(minutes))


def test_the_earth_can_be_said_back_after_the_clock_was_set_back(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    """A flat battery, and the laptop wakes up last year: the answer is given now all the same."""
    session = opened(tmp_path, job(answered(), took(ZE, 0.35, 70)))
    clock["now"] = at_minute(-500_000)
    at = Desk(session, Stage.LIVE)
    at.take(EARTH_BACK, Tick(good=False))
    assert earth_owed(session.record) is not None
    at.take(EARTH_BACK, Tick(good=True))

    assert earth_owed(session.record) is None
    assert "The clock of this machine" in session.record.readings[-1].note
    session.close()


def test_an_answer_from_a_clock_that_stood_ahead_says_nothing_of_what_comes_off_later() -> None:
    early = took(EARTH_BACK, Tick(good=True), 50_000)
    record = job(answered(), took(ZE, 0.35, 49_999), early, took(ZE, 0.36, 80))

    assert earth_owed(record) is not None
    assert earth_owed(took(EARTH_BACK, Tick(good=True), 50_001)(record)) is None


def test_cautions_can_be_read_after_a_reading_from_a_clock_that_stood_ahead(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job(answered(), took(POLARITY, Tick(good=True), 50_000)))
    at = Desk(session, Stage.DEAD)
    read_all(at, LE)

    assert at.unread(LE) is None
    session.close()


def test_a_circuit_is_not_read_again_while_what_feeds_it_failed() -> None:
    """Its own retest would be live work with voltage on the neutral, or behind a wrong polarity."""
    high = took(ZS2, 9.0, 90)
    for at, wrong in ((POLARITY, Tick(good=False)), (VOLTAGE_NE, Figure(value=60.0))):
        record = job(answered(), supply(), high, took(at, wrong, 95))
        stop = _interlock(record, 120).refusal(ZS2, Figure(value=0.9), ())

        assert stop is not None, at
        assert (stop.lock, stop.first) == (Lock.FAILURE, at)
        assert _interlock(record, 120).refusal(at, None, ()) is None
    assert _interlock(job(answered(), supply(), high), 120).refusal(ZS2, None, ()) is None


def test_a_live_failure_can_not_be_taken_back_to_open_the_others(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    """An open loop locks all that is live: Ctrl+Z is no way round it, a new reading is."""
    session = opened(tmp_path, job(answered(), supply()))
    at = Desk(session, Stage.LIVE)
    read_all(at, ZS2)
    at.take(ZS2, Figure(value=1999, sign=Sign.OVER))
    assert at.refusal(ZS3) is not None
    with pytest.raises(StaysOwed, match="Switch off and lock off"):
        session.undo()
    stop = at.refusal(ZS3)
    assert stop is not None
    assert stop.lock is Lock.FAILURE

    at.take(ZS2, Figure(value=1.4))
    assert session.undo()  # what was right may be taken back: the failure is there again
    assert at.refusal(ZS3) is not None
    session.close()


def test_a_live_reading_that_was_right_can_be_taken_back(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job(answered(), supply()))
    at = Desk(session, Stage.LIVE)
    read_all(at, ZS2)
    at.take(ZS2, Figure(value=1.4))

    assert session.undo()
    assert session.record.taken(ZS2) == ()
    session.close()
