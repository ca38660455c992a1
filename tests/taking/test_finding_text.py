"""What is said of a finding: each fact once, under its label, and none that it hasn't."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.judgement.review_types import Judged, Life
from records.model.reading import Quantity, Remedy
from records.model.record import Record
from records.taking import finding_text
from records.taking.card import limit_line
from records.taking.finding_text import (
    Show,
    awaits_test,
    detail,
    how_bad,
    listed,
    short_name,
    value_of,
    would_mend,
)
from records.terms import Verdict, WorkKind
from tests.judgement.jobs import (
    SOUND,
    START,
    at,
    circuit,
    flat,
    line,
    over,
    own,
    read,
    reviewed,
    sound_job,
    spoilt,
    without,
    zs,
)

LE = at(Quantity.IR_LE, "C2")


def facts(record: Record, judged: Judged) -> dict[str, str]:
    return {each.label: each.text for each in detail(record, judged)}


def test_a_reading_outside_says_reading_and_limit_once_then_what_to_do() -> None:
    record = spoilt((LE, 0.4))
    judged = own(record, LE)
    found = facts(record, judged)

    assert list(found)[:3] == ["Reading", "Do next", "Likely cause"]
    assert found["Reading"] == "0.40 MΩ; limit at least 1.0 MΩ"
    assert "Limit" not in found  # it stands beside the reading
    assert "Check" not in found
    assert "Calculated" not in found
    assert found["Stage"] == "dead tests"
    assert found["State"] == "open"
    assert len(found["Likely cause"].splitlines()) == 3
    assert "Table 64" in found["Source"]
    assert found["Attempts"].startswith("1st: 0.40 MΩ · 16 Mar 2026 10:27 · M1")
    assert (value_of(judged), how_bad(judged)) == ("0.40 MΩ", "0.40 MΩ, at least 1.0 MΩ")
    assert short_name(record, judged, value_of(judged)) == "C2 insulation L-E: 0.40 MΩ · Radial"


def test_a_reading_that_is_missing_says_its_limit_and_what_is_expected() -> None:
    record = without(LE)
    found = facts(record, own(record, LE))

    assert found["Reading"] == "not taken yet"
    assert found["Limit"] == "at least 1.0 MΩ"
    assert found["Expected"].startswith("No expected value: new wiring usually reads > 200 MΩ")
    assert "Attempts" not in found
    assert value_of(own(record, LE)) == ""


def test_an_unlikely_reading_is_told_with_what_was_expected() -> None:
    """Zdb is 0.36 Ω: a circuit behind it can't have 0.20 Ω."""
    record = spoilt((zs("C2"), 0.2))
    judged = own(record, zs("C2"))

    assert judged.verdict is Verdict.UNLIKELY
    assert how_bad(judged) == "0.20 Ω, expected 0.70 Ω"
    assert facts(record, judged)["Working"].startswith("Zs = Zdb + (R1+R2)")


def test_a_figure_of_the_design_is_calculated_and_has_a_limit() -> None:
    record = circuit(SOUND, "C2", runs=(flat(2.5, 90.0),))
    judged = line(record, "circuit/C2/-/design/Zs")
    found = facts(record, judged)

    assert found["Check"].startswith("Zs 2.49 Ω; must be at most 2.19 Ω.")
    assert (found["Calculated"], found["Limit"]) == ("2.49 Ω", "at most 2.19 Ω")
    assert not {"Reading", "Why", "Stage", "Expected", "Attempts"} & set(found)
    assert how_bad(judged) == "2.49 Ω, at most 2.19 Ω"
    (mend,) = would_mend(record, judged)
    assert mend.text.startswith("1. C2: ")
    assert would_mend(SOUND, own(sound_job(), LE)) == ()


def test_a_limit_is_said_with_its_note_if_it_has_one() -> None:
    plain, noted = own(sound_job(), LE).limit, own(sound_job(), zs("C2")).limit

    assert plain is not None
    assert noted is not None
    assert limit_line(None) == "none"
    assert limit_line(plain) == str(plain)
    assert limit_line(noted) == f"{noted} ({noted.note})"
    assert "0.8 of the tabulated" in noted.note


def test_what_was_found_before_stands_with_its_verdict_and_when() -> None:
    record = spoilt((LE, 0.4), read(900, LE, over(999.0), 910))
    judged = own(record, LE)
    found = facts(record, judged)

    assert judged.verdict is Verdict.WITHIN
    assert found["Found"].startswith("0.40 MΩ ✗ outside · 16 Mar 2026 10:27")
    first, second = found["Attempts"].splitlines()
    assert first.endswith("outside")
    assert second.startswith("2nd: > 999 MΩ")
    assert second.endswith("within")


def test_what_was_done_is_told_and_waits_for_its_test() -> None:
    record = spoilt((LE, 0.4))
    judged = own(record, LE)
    assert not awaits_test(judged)
    remedy = Remedy(
        id="W1",
        finding=judged.key,
        done="gland remade",
        at=START + timedelta(minutes=900),
        kind=WorkKind.JOINT,
    )
    mended = record.model_copy(update={"remedies": (remedy,)})
    now = own(mended, LE)

    assert now.life is Life.REMEDIED
    assert awaits_test(now)
    assert "gland remade" in facts(mended, now)["Done"]
    assert not awaits_test(own(sound_job(), LE))


@pytest.mark.parametrize("kind", [WorkKind.JOINT, WorkKind.CABLE])
def test_the_tests_that_work_makes_void_are_named_by_place(kind: WorkKind) -> None:
    """A joint that was opened can leave any conductor of its circuit loose or swapped."""
    record = spoilt((LE, 0.4))
    remedy = Remedy(
        id="W1",
        finding=own(record, LE).key,
        done="gland remade",
        at=START + timedelta(minutes=900),
        kind=kind,
    )
    mended = record.model_copy(update={"remedies": (remedy,)})
    words = finding_text.tests_after(mended, reviewed(mended), remedy)

    assert words.startswith("C2 Radial: ")
    assert "R1+R2" in words
    assert "polarity" in words
    other = remedy.model_copy(update={"id": "W9"})
    assert finding_text.tests_after(mended, reviewed(mended), other) == ""
    assert finding_text.tests_after(record, reviewed(record), remedy) == ""


def test_each_list_has_what_its_name_says() -> None:
    record = without(at(Quantity.R1_R2, "C2"), record=spoilt((LE, 0.4)))
    review = reviewed(record)
    shown = {show: listed(review, show) for show in Show}

    assert LE in [each.slot for each in shown[Show.FINDINGS]]
    missing = [each for each in review.findings if each.verdict is Verdict.NOT_TAKEN]
    assert missing
    assert set(shown[Show.FINDINGS]) - set(shown[Show.PROBLEMS]) == set(missing)
    assert {each.verdict for each in shown[Show.WITHIN]} == {Verdict.WITHIN}
    assert shown[Show.ALL][: len(review.findings)] == review.findings
    fine = {each for each in review.lines if not each.verdict.is_finding}
    assert set(shown[Show.ALL][len(review.findings) :]) == fine
    assert shown[Show.PUT_RIGHT] == review.put_right


def test_every_list_is_come_by_going_on_from_the_first() -> None:
    seen = [Show.FINDINGS]
    while seen[-1].next is not Show.FINDINGS:
        seen.append(seen[-1].next)

    assert seen == list(Show)
