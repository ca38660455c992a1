"""Days as people write them: taken where they can mean one day only."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from records.entering.field import Field, Kind
from records.entering.typed_field import echo, read_field
from records.errors import BadQuantity
from tests.tui.driving import blank

DAY = Field("/job/started", "Started on", Kind.DATE)


def test_a_day_is_read_day_first_and_echoed_in_full() -> None:
    assert read_field(DAY, "20/03/2026") == date(2026, 3, 20)
    assert echo(DAY, "20/3/26") == "= 20 Mar 2026"
    assert echo(DAY, "4/3/26") == "= 4 Mar 2026"


def test_what_is_no_day_is_refused_with_what_to_type() -> None:
    with pytest.raises(BadQuantity, match="Type day, month and year, like 5/3/26"):
        read_field(DAY, "31/06/2026")
    assert echo(DAY, "31/06/2026") == "…"


async def test_a_british_date_is_kept_from_the_field(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        await driver.row("Started on")
        await driver.fill("20/03/2026")
        assert driver.record.job.started == date(2026, 3, 20)
