"""Days as people write them: taken where they can mean one day only."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from records.errors import BadQuantity
from tests.tui.driving import blank
from tui.widgets.entering import echo, read_field
from tui.widgets.rows import Field, Kind

DAY = Field("/job/started", "Started on", Kind.DATE)


@pytest.mark.parametrize(
    "typed",
    ["2026-03-20", "2026-3-20", "2026/03/20", "20/03/2026", "20.3.2026", "20-03-2026", "3/20/2026",
     "20 March 2026", "20 mar 2026", "20th March, 2026", "March 20, 2026", "20-Mar-2026"],
)  # fmt: skip
def test_what_can_mean_one_day_only_is_taken_and_spelled_out(typed: str) -> None:
    assert read_field(DAY, typed) == date(2026, 3, 20)
    assert echo(DAY, typed) == "= 20 March 2026"


def test_day_and_month_that_are_the_same_number_can_not_be_swapped() -> None:
    assert read_field(DAY, "04/04/2026") == date(2026, 4, 4)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (
            "04/03/2026",
            "“04/03/2026” could be 4 March 2026 or 3 April 2026: type 2026-03-04 or 2026-04-03.",
        ),
        ("20/03/26", "type the year with four digits, like 2026-03-20."),
        ("20 Mar 26", "type the year with four digits, like 2026-03-20."),
        ("31/06/2026", "is not a day: type year, month and day, like 2026-03-20."),
        ("1 Sommer 2026", "is not a day: type year, month and day, like 2026-03-20."),
        ("٢٠/03/2026", "is not a day: type year, month and day, like 2026-03-20."),
    ],
)
def test_what_could_be_two_days_or_none_is_refused_with_what_to_type(typed: str, said: str) -> None:
    with pytest.raises(BadQuantity) as refusal:
        read_field(DAY, typed)
    assert str(refusal.value).endswith(said)
    assert echo(DAY, typed) == "…"


async def test_a_british_date_is_kept_from_the_field(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.row("Started on")
        await driver.fill("20/03/2026")
        assert driver.record.job.started == date(2026, 3, 20)
