"""A sound job has no finding, and every reading in it is proved."""

from __future__ import annotations

import pytest

from records.terms import Verdict
from tests.judgement.jobs import ISLAND, SOUND, findings, reviewed, sound_job


@pytest.mark.parametrize("record", [SOUND, ISLAND], ids=["carried over", "own electrode"])
def test_a_sound_job_has_no_finding(record):
    assert findings(sound_job(record)) == {}


@pytest.mark.parametrize("record", [SOUND, ISLAND], ids=["carried over", "own electrode"])
def test_every_reading_of_a_sound_job_is_within(record):
    lines = [each for each in reviewed(sound_job(record)).lines if each.slot is not None]

    assert lines
    assert {each.verdict for each in lines} == {Verdict.WITHIN}


def test_each_line_says_reading_expectation_and_limit():
    line = next(each for each in reviewed(sound_job()).lines if each.key.endswith("C2/-/live/Zs"))

    assert line.why.startswith("Read 0.7")
    assert "expected 0.7" in line.why
    assert "limit at most 1.75 Ω (0.8 of the tabulated 2.19 Ω; from there to" in line.why
    assert "times the uncertainty of the meter (± 8 % by the sheet of meter 1)" in line.why
    assert line.limit is not None
    assert str(line.limit) == "at most 1.75 Ω"


def test_keys_are_of_one_kind_and_no_two_are_the_same():
    keys = [each.key for each in reviewed(sound_job()).lines]

    assert len(set(keys)) == len(keys)
    assert all(key.count("/") == 4 for key in keys)
    assert "circuit/C1/P2/dead/cross-le" in keys
    assert "feed/-/-/design/Iz" in keys


def test_a_job_without_readings_has_nothing_within_but_its_design():
    lines = [each for each in reviewed(SOUND).lines if each.slot is not None]

    assert {each.verdict for each in lines} == {Verdict.NOT_TAKEN}
    assert all(each.why.startswith("Not taken yet") for each in lines)


def test_a_blank_record_is_reviewed_without_trouble():
    from records.model.record import Record

    review = reviewed(Record())

    assert {each.verdict for each in review.findings} == {Verdict.NOT_TAKEN}
