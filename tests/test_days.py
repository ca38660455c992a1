"""Days and times as people write them: day first, one reader for every field."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from records.days import day_words, moment_words, read_day, read_moment, read_stamp
from records.errors import BadQuantity
from records.habits import DayOrder

TODAY = date(2026, 11, 16)
NOW = datetime(2026, 11, 16, 9, 5, 33)
MARCH_5 = date(2026, 3, 5)


@pytest.mark.parametrize(
    "typed",
    [
        "5/3/26",
        "05/03/2026",
        "5.3.26",
        "5-3-2026",
        "5 3 26",
        "5 Mar 2026",
        "5 March 2026",
        "5th March, 2026",
        "5 mar 26",
        "5Mar26",
        "5-Mar-2026",
        "March 5, 2026",
        "2026-03-05",
        "2026-3-5",
        "2026/03/05",
        "5/3",
        "5 Mar",
        "5 March",
        "mar 5",
        "5th mar.",
    ],
)
def test_the_day_stands_first(typed: str):
    assert read_day(typed, TODAY) == MARCH_5


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("today", TODAY),
        ("yesterday", date(2026, 11, 15)),
        ("16 Nov", TODAY),
        ("17 Nov", date(2025, 11, 17)),
        ("29 Feb", date(2024, 2, 29)),
        ("12/12", date(2025, 12, 12)),
        ("20/03/27", date(2027, 3, 20)),
        ("1/1/99", date(1999, 1, 1)),
        ("20 sept 26", date(2026, 9, 20)),
        ("3/20/2026", date(2026, 3, 20)),
    ],
)
def test_a_day_without_a_year_is_the_nearest_that_is_not_in_the_future(typed: str, day: date):
    assert read_day(typed, TODAY) == day


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "31/06/2026",
        "30 Feb",
        "1 Sommer 2026",
        "٢٠/03/2026",
        "20",
        "Mar 2026",
        "5//3/26",
        "5/3/026",
        "32/1/26",
        "0/3/26",
        "5/0/26",
        "20260305",
        "5/3/26/1",
        "-5/3/26",
        "5/3/-26",
        "tomorrow",
        "2026-13-40",
        "1e3/3/26",
        "5 mar mar",
        "mar 2026 5",
    ],
)
def test_what_is_no_day_is_refused_with_what_to_type(typed: str):
    with pytest.raises(BadQuantity, match=r"is not a day\. Type day, month and year, like 5/3/26"):
        read_day(typed, TODAY)


@pytest.mark.parametrize(
    ("typed", "when"),
    [
        ("8:30", datetime(2026, 11, 16, 8, 30)),
        ("08.30", datetime(2026, 11, 16, 8, 30)),
        ("8h30", datetime(2026, 11, 16, 8, 30)),
        ("8:30 am", datetime(2026, 11, 16, 8, 30)),
        ("9:06", datetime(2026, 11, 15, 9, 6)),
        ("2:30pm", datetime(2026, 11, 15, 14, 30)),
        ("12:10am", datetime(2026, 11, 16, 0, 10)),
        ("20 Nov, 11:00", datetime(2025, 11, 20, 11, 0)),
        ("5 Mar 11:00", datetime(2026, 3, 5, 11, 0)),
        ("5/3/26 11:00", datetime(2026, 3, 5, 11, 0)),
        ("5.3.26 14.30", datetime(2026, 3, 5, 14, 30)),
        ("11:00 5 Mar", datetime(2026, 3, 5, 11, 0)),
        ("11:00, 5/3/26", datetime(2026, 3, 5, 11, 0)),
        ("today 8:30", datetime(2026, 11, 16, 8, 30)),
        ("yesterday 22:10", datetime(2026, 11, 15, 22, 10)),
        ("2026-11-02 17:45", datetime(2026, 11, 2, 17, 45)),
        ("2026-11-02T17:45:10.5", datetime(2026, 11, 2, 17, 45, 10)),
    ],
)
def test_a_time_may_come_alone_or_with_a_day(typed: str, when: datetime):
    assert read_moment(typed, NOW) == when


@pytest.mark.parametrize(
    "typed", ["", "yesterday", "25:00", "9:60", "13:10pm", "30 Feb 10:00", "11"]
)
def test_what_is_no_time_is_refused(typed: str):
    with pytest.raises(BadQuantity, match=r"is not a day and time\. Type a time, like 14:30"):
        read_moment(typed, NOW)


def test_an_order_that_is_said_is_kept_to():
    assert read_day("5/3/26", TODAY, DayOrder.MONTH_FIRST) == date(2026, 5, 3)
    with pytest.raises(BadQuantity):
        read_day("20/3/26", TODAY, DayOrder.MONTH_FIRST)
    with pytest.raises(BadQuantity):
        read_day("3/20/26", TODAY, DayOrder.DAY_FIRST)


@given(st.dates(date(2000, 1, 1), date(2045, 12, 31)))
def test_what_is_shown_is_read_again_as_the_same_day(day: date):
    for written in (
        day_words(day),
        f"{day:%d/%m/%y}",
        f"{day:%d/%m/%Y}",
        f"{day:%d %B %y}",
        day.isoformat(),
    ):
        assert read_day(written, TODAY) == day


@given(st.dates(TODAY - timedelta(days=364), TODAY))
def test_a_day_of_the_last_year_needs_no_year(day: date):
    assert read_day(f"{day.day} {day:%b}", TODAY) == day
    assert read_day(f"{day.day}/{day.month}", TODAY) == day


@given(st.datetimes(datetime(2001, 1, 1), datetime(2026, 11, 16, 9, 5)))
def test_a_moment_that_is_shown_is_read_again(when: datetime):
    assert read_moment(moment_words(when), NOW) == when.replace(second=0, microsecond=0)


@given(st.text(max_size=20))
def test_any_text_is_a_day_or_is_refused(text: str):
    for read in (lambda: read_day(text, TODAY), lambda: read_moment(text, NOW)):
        with suppress(BadQuantity):
            assert read().year > 0


@pytest.mark.parametrize(
    ("typed", "when"),
    [
        ("2026-03-21T17:30+01:00", datetime(2026, 3, 21, 16, 30, tzinfo=UTC)),
        ("21 Mar 2026 17:30", datetime(2026, 3, 21, 17, 30).astimezone()),
        ("2026-03-21 17:30", datetime(2026, 3, 21, 17, 30).astimezone()),
        ("21 Mar 2026 5:30 pm", datetime(2026, 3, 21, 17, 30).astimezone()),
        ("17:30, 21/3/26", datetime(2026, 3, 21, 17, 30).astimezone()),
        ("21/3/26", datetime(2026, 3, 21).astimezone()),
        ("2026-03-21", datetime(2026, 3, 21).astimezone()),
    ],
)
def test_a_stamp_has_a_zone_and_is_typed_as_any_other_time(typed: str, when: datetime):
    """ISO 8601 has the zone; what is typed without one is in that of this computer."""
    found = read_stamp(typed, NOW.replace(tzinfo=UTC))

    assert found == when
    assert found.tzinfo is not None


@pytest.mark.parametrize("typed", ["", "soon", "2026-13-01", "2026-03-21T25:00", "30 Feb 2026"])
def test_what_is_no_stamp_is_refused(typed: str):
    with pytest.raises(BadQuantity):
        read_stamp(typed, NOW.replace(tzinfo=UTC))
