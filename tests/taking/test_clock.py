"""When a reading from notes was taken."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest

from records.errors import BadQuantity
from records.taking.notes_time import read_when

ZONE = timezone(timedelta(hours=1))
NOW = datetime(2026, 11, 16, 9, 5, 33, tzinfo=ZONE)


@pytest.mark.parametrize(
    ("typed", "when"),
    [
        ("8:30", datetime(2026, 11, 16, 8, 30, tzinfo=ZONE)),
        ("08.30", datetime(2026, 11, 16, 8, 30, tzinfo=ZONE)),
        ("22:10", datetime(2026, 11, 15, 22, 10, tzinfo=ZONE)),
        ("2026-11-02 17:45", datetime(2026, 11, 2, 17, 45, tzinfo=ZONE)),
    ],
)
def test_times_are_read_in_the_zone_of_the_clock(typed: str, when: datetime):
    assert read_when(typed, NOW) == when


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("yesterday", "is not a day and time"),
        ("25:00", "is not a day and time"),
        ("2026-02-30 10:00", "is not a day and time"),
        ("2026-11-16 09:06", "still to come"),
        ("", "is not a day and time"),
    ],
)
def test_what_is_no_time_is_refused_with_an_example(typed: str, says: str):
    with pytest.raises(BadQuantity, match=says) as refused:
        read_when(typed, NOW)

    assert "Type " in str(refused.value)
