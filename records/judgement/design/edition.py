"""A job that started after the edition of the limits was withdrawn: the certifier settles it."""

from __future__ import annotations

from collections.abc import Iterator

from records.judgement.advice import Act, do
from records.judgement.design.edition_note import edition_note
from records.judgement.design.line import line
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.tables import edition
from records.terms import Verdict


def edition_lines(facts: Facts) -> Iterator[Judged]:
    """Return a line if the job started after the edition of the limits was withdrawn."""
    said = edition_note(facts.record)
    if not said:
        return
    base = line(facts, BOARD, "edition", "")._replace(
        title="Edition of BS 7671",
        why=said,
        source=edition.source(),
    )
    if facts.record.job.edition_settled:
        yield base._replace(verdict=Verdict.WITHIN)
        return
    ask = "Ask the certifier which text holds for this job. Enter what was decided (Job)."
    yield base._replace(verdict=Verdict.NEAR, next_check=do(Act.ASK, ask).text(), weight=1)
