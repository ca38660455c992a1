"""What would mend a check is the same whether all of a tried design is worked out again or not."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import pytest

from records.demo import demo_record
from records.expected.plan import expected
from records.judgement.remedy import smallest_change
from records.judgement.remedy.smallest_change import Mends, mends
from records.judgement.review import review
from records.model.record import Record
from records.reuse import Once
from records.store.exchange import from_json
from records.terms import Verdict
from tests.document.generated import job_of

T = TypeVar("T")
FOLDER = Path(__file__).parents[2] / "fixtures"
JOBS: dict[str, Callable[[], Record]] = {
    "demo": demo_record,
    "generated": lambda: job_of(9),
    **{
        each.parent.name: lambda path=each: from_json(path.read_text(encoding="utf-8"))
        for each in sorted(FOLDER.glob("*/job.json"))
    },
}


class Anew(Once):
    """Keeps nothing."""

    def once(self, name: object, work: Callable[[], T], *given: object) -> T:
        return work()


@pytest.mark.parametrize("name", JOBS)
def test_all_findings_asked_together_get_what_each_gets_alone(name, monkeypatch):
    record = JOBS[name]()
    failing = [
        each
        for each in review(record, expected(record)).lines
        if each.slot is None and each.verdict in (Verdict.OUTSIDE, Verdict.NEAR)
    ]
    together = Mends(record)

    found = [together.of(each) for each in failing]

    monkeypatch.setattr(smallest_change, "Reuse", Anew)
    for line, mended in zip(failing, found, strict=True):
        assert mended == mends(record, line), line.key


def test_the_jobs_have_findings_that_something_mends():
    record = job_of(9)
    lines = review(record, expected(record)).findings

    assert len([each for each in lines if mends(record, each)]) > 2
