"""A meter out of calibration, or one that can't read what it is said to have read."""

from __future__ import annotations

from datetime import date

import pytest

from records.model.job import Instrument, InstrumentKind
from records.model.record import Record
from records.terms import Verdict
from tests.judgement.jobs import (
    FEED_R1_R2,
    SOUND,
    findings,
    reviewed,
    sound_job,
)
from tests.judgement.test_patterns import keyed


def with_meter(**changes) -> Record:
    meter = SOUND.job.instruments[0].model_copy(update=changes)
    job = SOUND.job.model_copy(update={"instruments": (meter,)})
    return sound_job().model_copy(update={"job": job})


def test_a_meter_out_of_calibration_on_the_day():
    found = keyed(with_meter(due=date(2026, 3, 15)), "/calibration")

    assert found.key == "board/-/M1/live/calibration"
    assert "was due on 15 Mar 2026" in found.why


def test_a_calibration_holds_to_its_last_day():
    assert findings(with_meter(due=date(2026, 3, 16))) == {}


def test_without_a_due_day_a_calibration_is_taken_to_hold_a_year():
    assert findings(with_meter(due=None, calibrated=date(2025, 3, 20))) == {}
    old = with_meter(due=None, calibrated=date(2025, 3, 1))
    assert "was a year old" in keyed(old, "/calibration").why


def test_two_meters_out_of_calibration_are_two_lines():
    other = Instrument(id="M2", kind=InstrumentKind.LOW_OHM, due=date(2026, 1, 1))
    first = SOUND.job.instruments[0].model_copy(update={"due": date(2026, 1, 1)})
    job = SOUND.job.model_copy(update={"instruments": (first, other)})
    readings = tuple(
        each.model_copy(update={"instrument": "M2"}) if each.slot == FEED_R1_R2 else each
        for each in sound_job().readings
    )
    record = sound_job().model_copy(update={"job": job, "readings": readings})

    assert len([each for each in findings(record) if each.endswith("/calibration")]) == 2


def test_a_meter_that_can_not_read_what_it_is_said_to_have_read():
    found = keyed(with_meter(kind=InstrumentKind.LOOP), "/wrong instrument")

    assert "insulation L-N" in found.why
    assert "Zs" not in found.why


def test_a_meter_out_of_calibration_is_one_finding_and_a_small_mark_at_its_readings():
    """IET Guidance Note 3, test instruments (from memory): the certifier decides if they stand."""
    review = reviewed(with_meter(due=date(2026, 3, 15)))
    marked = [each for each in review.lines if each.meter_mark]

    assert [each.patterns for each in review.findings] == [("calibration",)]
    assert {each.slot for each in marked} == set(review.findings[0].about)
    assert {each.verdict for each in marked} == {Verdict.WITHIN}
    assert "Mark: ‡" in review.findings[0].why
    assert not [each for each in reviewed(sound_job()).lines if each.meter_mark]


@pytest.mark.parametrize(
    ("calibrated", "late"), [(date(2025, 3, 15), False), (date(2025, 3, 14), True)]
)
def test_a_year_of_calibration_has_366_days(calibrated, late):
    record = with_meter(due=None, calibrated=calibrated)

    assert bool([key for key in findings(record) if key.endswith("calibration")]) is late
