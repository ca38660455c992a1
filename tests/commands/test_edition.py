"""The edition of the limits: named by every output, and what came after it said once.

BS 7671:2018+A2:2022 (with A3:2024) was withdrawn on 15 October 2026, and A4:2026 published on
15 April 2026: read in two trade articles, not in the standard.
"""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from records.document.schedule import write_schedule
from records.judgement import cite
from records.judgement.design.edition_note import edition_note
from records.model.record import Record
from records.store.exchange import to_json
from records.tables import edition
from records.terms import Verdict
from tests.commands.conftest import Run
from tests.document.reading_back import margins, opened, text
from tests.judgement.jobs import SOUND, reviewed

KEY = "board/-/-/design/edition"


def begun(day: date | None, **more: str) -> Record:
    job = SOUND.job.model_copy(update={"started": day, **more})
    return SOUND.model_copy(update={"job": job})


LATE = begun(date(2026, 10, 16))


@pytest.mark.parametrize(
    ("day", "is_said"),
    [
        (None, False),
        (date(2026, 3, 1), False),
        (date(2026, 10, 15), False),
        (date(2026, 10, 16), True),
        (date(2027, 1, 1), True),
    ],
)
def test_a_job_begun_after_the_day_asks_the_certifier_once(day, is_said):
    found = [each for each in reviewed(begun(day)).findings if each.key == KEY]

    assert len(found) == is_said
    for each in found:
        assert each.verdict is Verdict.NEAR
        assert "withdrawn on 15 Oct 2026" in each.why
        assert "BS 7671:2018+A4:2026, published on 15 Apr 2026, is the current text" in each.why
        assert "The certifier decides" in each.why
        assert "Ask the certifier" in each.next_check


def test_it_is_settled_by_what_the_certifier_decided():
    record = begun(date(2026, 11, 30), edition_settled="A2:2022 holds: designed in May (P2)")
    (line,) = (each for each in reviewed(record).lines if each.key == KEY)

    assert line.verdict is Verdict.WITHIN
    assert "designed in May" in line.why


def test_check_and_json_name_the_edition_of_the_limits_not_what_was_typed(run: Run, tmp_path: Path):
    path = tmp_path / "late.json"
    job = LATE.job.model_copy(update={"edition": "the orange one"})
    path.write_text(to_json(LATE.model_copy(update={"job": job})), encoding="utf-8")

    said = " ".join(run("check", path).stdout.split())
    assert "Limits: BS 7671:2018+A2:2022; the certifier confirms them." in said
    assert "Entered as worked to: the orange one." in said
    assert said.count("withdrawn on 15 Oct 2026") == 2, "in the list, and in its details"
    data = json.loads(run("check", path, "--json").stdout)
    assert data["edition"] == "BS 7671:2018+A2:2022"
    assert data["edition_entered"] == "the orange one"


def test_the_first_page_of_the_document_says_it_once(tmp_path: Path):
    for record, times in ((LATE, 1), (begun(date(2026, 10, 15)), 0)):
        out = tmp_path / f"{times}.docx"
        write_schedule(record, out, fingerprint="", made=datetime(2026, 11, 30, tzinfo=UTC))
        document = opened(out.read_bytes())
        words = text(document)
        front = words.partition("Findings, the worst first")[0]
        assert front.count("withdrawn on 15 Oct 2026") == times
        assert "BS 7671:2018+A2:2022" in front
        assert all("BS 7671:2018+A2:2022" in each for each in margins(document))


def test_there_is_one_edition():
    assert edition.limits_from() == cite.EDITION
    assert edition_note(begun(None)) == ""
