"""A bad reading that turns good: what was done in between is asked about until it is said."""

from __future__ import annotations

import pytest

from records.judgement.review_types import Life
from records.model.reading import Quantity
from records.terms import Stage, Verdict, WorkKind
from tests.judgement.jobs import (
    findings,
    line,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
)
from tests.judgement.test_patterns import with_leads
from tests.judgement.test_remedies import KEY, LE, RCD, all_back, done


def test_a_bad_reading_that_turns_good_by_itself_is_asked_about():
    record = spoilt((LE, 0.4), read(900, LE, 480.0, 910))
    found = line(record, "/what was done")

    assert own(record, LE).verdict is Verdict.WITHIN
    assert found.verdict is Verdict.UNLIKELY
    assert found.is_finding
    assert found.about == (LE,)
    assert "0.40 MΩ (outside)" in found.why
    assert "480 MΩ" in found.why
    assert any("screw or nail" in each for each in found.causes)
    assert "first reading was wrong" in found.next_check


@pytest.mark.parametrize("kind", [*WorkKind, None])
@pytest.mark.parametrize("minutes", [899, 905])
def test_what_was_done_answers_it_whatever_its_kind_and_by_when_it_was_done(kind, minutes):
    record = done(
        spoilt(read(900, LE, 0.4, 899), read(901, LE, 480.0, 910)), KEY, minutes, kind=kind
    )

    assert not [key for key in findings(record) if key.endswith("what was done")]
    assert own(record, LE).life is Life.RETESTED
    assert own(record, LE).found


def test_work_from_before_the_bad_reading_explains_nothing():
    record = done(spoilt(read(900, LE, 0.4, 905), read(901, LE, 480.0, 910)), KEY, 904)

    assert line(record, "/what was done").is_finding


def test_passing_it_to_the_certifier_is_no_answer_to_what_was_done():
    record = done(spoilt((LE, 0.4), read(900, LE, 480.0, 910)), KEY, 905, to_decide=True)

    assert line(record, "/what was done").is_finding


def test_the_question_itself_can_be_answered_and_the_answer_goes_to_the_reading():
    record = spoilt((LE, 0.4), read(900, LE, 480.0, 910))
    key = line(record, "/what was done").key
    record = done(
        record, key, 920, "probe on the wrong terminal", kind=WorkKind.MISREAD, about=(LE,)
    )
    found = own(record, LE)

    assert findings(all_back(record)) == {}
    assert found.life is Life.RETESTED
    assert "The first reading was wrong (probe on the wrong terminal); it is kept." in found.why


def test_a_note_with_the_re_test_says_why_as_well():
    record = spoilt((LE, 0.4), read(900, LE, 480.0, 910, note="noted in the wrong row"))

    assert findings(all_back(record)) == {}


def test_each_turn_is_asked_about_and_the_second_answer_is_not_the_first():
    again = (read(900, LE, 480.0, 910), read(901, LE, 0.3, 920), read(902, LE, 500.0, 930))
    record = done(spoilt((LE, 0.4), *again), KEY, 905)
    assert line(record, "/what was done").is_finding
    assert "0.30 MΩ" in line(record, "/what was done").why

    record = done(record, KEY, 925, id="X2", kind=WorkKind.MISREAD)
    assert not [key for key in findings(record) if key.endswith("what was done")]


def test_one_that_is_near_its_limit_may_be_read_again_without_a_word():
    near = spoilt((RCD, 290.0), read(900, RCD, 25.0, 900))

    assert findings(near) == {}


def test_readings_that_one_cause_spoilt_are_asked_about_once():
    """Leads that were not nulled: common practice."""
    record = with_leads(0.14)
    slots = [
        each.slot
        for each in record.readings
        if each.slot.quantity is Quantity.R1_R2 and each.slot.stage is Stage.DEAD
    ]
    good = {each.slot: each.taken for each in sound_job().readings}
    again = [read(900 + n, slot, good[slot], 910 + n) for n, slot in enumerate(slots)]
    record = spoilt(*again, record=record)
    asked = [each for each in reviewed(record).findings if each.patterns[:1] == ("what was done",)]

    assert len(asked) == 1
    assert set(asked[0].about) <= set(slots)
    assert len(asked[0].about) > 1
    assert any("lead resistance" in each for each in asked[0].causes)
    record = done(record, asked[0].key, 1000, kind=WorkKind.MISREAD, about=asked[0].about)
    assert not [key for key in findings(record) if key.endswith("what was done")]
