"""What can be put on record about a verdict: the same from the review as at the bench."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from records.errors import BadText, FarboardError
from records.judgement.review_types import Judged
from records.model.record import Record
from records.session import Session
from records.taking.remedies import (
    Asked,
    check_decision,
    check_work,
    done_about,
    kinds_for,
    record_note,
    record_work,
    remedy_asked,
    what_was_done,
)
from records.terms import Verdict, WorkKind
from tests.taking.job import small_job, with_figure
from tests.taking.seat import R1, opened
from tests.taking.test_retest import IR, faulty

pytestmark = pytest.mark.usefixtures("clock")


def of(session: Session, wanted: object) -> Judged:
    return next(each for each in session.review.lines if each.slot == wanted)


def test_work_goes_on_record_and_says_what_to_do_next(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, with_figure(faulty(), R1, 0.3))
    bad = of(session, IR)
    assert remedy_asked(bad) is Asked.WORK
    outcome = record_work(session, bad, WorkKind.CABLE, "Screw drawn", "")
    (made,) = session.record.remedies

    assert (made.done, made.kind, made.by) == ("Screw drawn", WorkKind.CABLE, "A1")
    assert made.at <= clock["now"]
    assert outcome.words.startswith("On record. Press a to test again. Then repeat C1 Bench")
    session.close()


@pytest.mark.parametrize("text", ["", "ok", "--", "123", "  a "])
@pytest.mark.parametrize("asked", Asked)
def test_what_says_nothing_is_refused_at_every_question(
    tmp_path: Path, text: str, asked: Asked
) -> None:
    session = opened(tmp_path, faulty())
    bad = of(session, IR)

    def answered() -> object:
        if asked is Asked.WORK:
            return record_work(session, bad, WorkKind.OTHER, text, "")
        return record_note(session, bad, asked, text)

    with pytest.raises(BadText, match="in a few words"):
        answered()

    assert session.record.remedies == ()
    session.close()


@pytest.mark.parametrize("when", ["tomorrow", "1 Jan 2020", "soon"])
def test_work_that_can_not_have_been_done_then_is_refused(tmp_path: Path, when: str) -> None:
    session = opened(tmp_path, faulty())
    with pytest.raises(FarboardError):
        check_work(session, of(session, IR), WorkKind.JOINT, "cut back", when)
    session.close()


def test_a_decision_stays_a_finding(tmp_path: Path) -> None:
    session = opened(tmp_path, faulty())
    bad = of(session, IR)
    check_decision(bad)
    outcome = record_note(session, bad, Asked.DECISION, "Heater can't be disconnected")

    assert session.record.remedies[0].to_decide
    assert "stays a finding" in outcome.words
    assert of(session, IR).is_finding
    session.close()


def test_nothing_can_be_put_right_where_nothing_is_wrong(tmp_path: Path) -> None:
    session = opened(tmp_path, with_figure(small_job(), IR, 999))
    good, open_one = of(session, IR), of(session, R1)
    assert open_one.verdict is Verdict.NOT_TAKEN
    for each in (good, open_one):
        with pytest.raises(BadText, match="nothing to put right"):
            remedy_asked(each)
    with pytest.raises(BadText, match="nothing to decide"):
        check_decision(good)
    session.close()


def test_tests_that_some_work_made_void_are_asked_for_or_answered_for(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, with_figure(faulty(), R1, 0.3))
    record_work(session, of(session, IR), WorkKind.CABLE, "Screw drawn", "")
    clock["now"] += timedelta(minutes=1)
    void = next(each for each in session.review.findings if "earlier tests again" in each.patterns)
    assert remedy_asked(void) is Asked.WHY_NOT_NEEDED
    outcome = record_note(session, void, Asked.WHY_NOT_NEEDED, "Other cable of the same run")

    assert "not needed, with your reason" in outcome.words
    assert not session.record.remedies[-1].to_decide
    session.close()


def test_only_a_reading_is_misread() -> None:
    from records.expected.plan import expected
    from records.judgement.review import review

    long: Record = small_job()
    run = long.circuits[1].runs[0].model_copy(update={"length": 400.0})
    light = long.circuits[1].model_copy(update={"runs": (run,), "load": 6.0})
    long = long.model_copy(update={"circuits": (long.circuits[0], light, long.circuits[2])})
    lines = review(long, expected(long)).lines
    design = next(each for each in lines if "voltage drop" in each.title and each.is_finding)

    assert WorkKind.MISREAD not in kinds_for(design)
    assert WorkKind.MISREAD in kinds_for(next(each for each in lines if each.slot == IR))
    assert what_was_done(WorkKind.MISREAD) == "Why was the first reading wrong?"
    assert done_about(WorkKind.CABLE).endswith("beside the reading, with your name.")
