"""How blanks, figures, dates and times are written on the schedule."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta, timezone

from records.days import day_words, moment_words
from records.judgement.wording import amount
from records.model.certifier import all_counted
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


def joined(parts: Iterable[str], by: str = ", ") -> str:
    """Return the parts that are not empty, joined."""
    return by.join(each for each in parts if each)


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number of things: `1 reading`, `3 readings`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


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
        moments = list(_moments(record))
        offsets = {each.utcoffset() for each in moments} or {self._made.utcoffset()}
        self._only = offsets.pop() if len(offsets) == 1 else None
        years = {self._local(each).year for each in moments}
        self._year = years.pop() if len(years) == 1 else None

    @property
    def zone(self) -> str:
        """In which zone times are printed, as a sentence."""
        if self._only is None:
            return "Each time is printed with its distance from UTC."
        return f"All times are {_offset(self._only)}."

    @property
    def year(self) -> str:
        """The year of all that `short` prints without one; empty if there are several."""
        return f"{self._year}" if self._year else ""

    @property
    def made(self) -> str:
        """When the schedule was written."""
        return self.when(self._made)

    def when(self, moment: datetime) -> str:
        """Return a moment as 20 Mar 2026 10:15."""
        at = self._local(moment)
        return f"{moment_words(at)}{self._away(moment)}"

    def short(self, moment: datetime) -> str:
        """Return a moment as 20 Mar 10:15, with its year where not all are of one year."""
        at = self._local(moment)
        year = "" if self._year else f" {at.year}"
        return f"{at.day} {at:%b}{year} {at:%H:%M}{self._away(moment)}"

    def between(self, first: datetime, last: datetime) -> str:
        """Return two moments of one day as 20 Mar 10:15 to 11:40; as one where they are one."""
        until = f" to {self._local(last):%H:%M}" if last != first else ""
        return f"{self.short(first)}{until}"

    def time(self, moment: datetime) -> str:
        """Return the time of a moment as 10:15."""
        return f"{self._local(moment):%H:%M}{self._away(moment)}"

    def day(self, moment: datetime) -> str:
        """Return the day of a moment as 20 Mar 2026."""
        return day(self._local(moment).date())

    def _local(self, moment: datetime) -> datetime:
        return moment if self._only is None else moment.astimezone(timezone(self._only))

    def _away(self, moment: datetime) -> str:
        return "" if self._only is not None else f" {_offset(moment.utcoffset() or timedelta())}"


def _moments(record: Record) -> Iterable[datetime]:
    for reading in all_counted(record).readings:
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
