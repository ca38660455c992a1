"""What to say of the edition of the limits, where a job started after it was withdrawn.

Apart from the check that says it: the first step shows it before anything is judged.
"""

from __future__ import annotations

from datetime import date

from records.model.record import Record
from records.tables import edition


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
