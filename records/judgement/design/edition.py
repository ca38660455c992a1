"""A job that started after the edition of the limits was withdrawn: the certifier settles it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from records.judgement.advice import Act, do
from records.judgement.design.line import line
from records.judgement.facts import BOARD, Facts
from records.judgement.review_types import Judged
from records.model.record import Record
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


def edition_note(record: Record) -> str:
    """Return what to say of the edition of the limits; empty for a job begun before its end.

    Source:
        BS 7671:2018+A2:2022 withdrawn on 15 October 2026, A4:2026 published on 15 April 2026: two
        trade articles (read there, not in the standard).
    """
    started, settled = record.job.started, record.job.edition_settled
    if started is None or started <= edition.withdrawn_on():
        return ""
    said = (
        f"The limits here are those of {edition.limits_from()}, withdrawn on "
        f"{_day(edition.withdrawn_on())}. This job started on {_day(started)}: "
        f"{edition.current_text()}, published on {_day(edition.current_since())}, is the current "
        "text for new work. No figure here was checked against it."
    )
    if settled:
        return f"{said} The certifier on it: {settled}"
    return f"{said} The certifier decides which text holds."


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"
