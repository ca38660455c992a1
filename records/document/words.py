"""How blanks, figures, long texts, dates and times are written on the schedule."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta, timezone

from records.days import day_words, moment_words
from records.judgement.wording import amount
from records.model.record import Record
from records.terms import Verdict
from records.units import Unit

NOT_GIVEN = "not given"
"""What stands for a blank: an empty cell could be taken for a pass."""


def given(text: str) -> str:
    """Return a free text, or that there is none."""
    return text or NOT_GIVEN


def figure(value: float | None, unit: Unit, digits: int = 0) -> str:
    """Return a design input with its unit, or that it is not given."""
    return NOT_GIVEN if value is None else amount(value, unit, digits)


def yes_no(answer: bool | None) -> str:
    """Return an answer, or that it is not given."""
    return NOT_GIVEN if answer is None else "yes" if answer else "no"


def shortened(text: str, most: int) -> str:
    """Return the text, cut at `most` characters with a sign that it was cut.

    For cells that repeat a name on each row; the whole name stands once in what was built.
    """
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"


def joined(parts: Iterable[str], by: str = ", ") -> str:
    """Return the parts that are not empty, joined."""
    return by.join(each for each in parts if each)


def day(value: date | None) -> str:
    """Return a date as 20 Mar 2026, or that it is not given."""
    return NOT_GIVEN if value is None else day_words(value)


class Clock:
    """Prints moments in one zone, if all of the record's are in one; else each with its own."""

    def __init__(self, record: Record, made: datetime) -> None:
        """Look through the record for the zones in it.

        Args:
            record: The job.
            made: When the schedule is written; without a zone it is taken as UTC.
        """
        self._made = made if made.tzinfo else made.replace(tzinfo=UTC)
        offsets = {each.utcoffset() for each in _moments(record)} or {self._made.utcoffset()}
        self._only = offsets.pop() if len(offsets) == 1 else None

    @property
    def zone(self) -> str:
        """In which zone times are printed, as a sentence."""
        if self._only is None:
            return "Each time is printed with its distance from UTC."
        return f"All times are {_offset(self._only)}."

    @property
    def made(self) -> str:
        """When the schedule was written."""
        return self.when(self._made)

    def when(self, moment: datetime) -> str:
        """Return a moment as 20 Mar 2026 10:15."""
        if self._only is not None:
            return f"{moment_words(moment.astimezone(timezone(self._only)))}"
        return f"{moment_words(moment)} {_offset(moment.utcoffset() or timedelta())}"


def _moments(record: Record) -> Iterable[datetime]:
    for reading in record.readings:
        yield reading.at
        if reading.from_notes:
            yield reading.from_notes
    yield from (each.at for each in record.remedies)
    yield from (each.at for each in record.live_gate)


def _offset(offset: timedelta) -> str:
    minutes = round(offset.total_seconds() / 60)
    if not minutes:
        return "UTC"
    return f"UTC{'+' if minutes > 0 else '−'}{abs(minutes) // 60:02d}:{abs(minutes) % 60:02d}"


def unmarked(finding: str) -> str:
    """Return a finding as part of a sentence: there the mark before it says nothing."""
    return finding.lstrip("".join(each.mark for each in Verdict) + " ").rstrip(".")
