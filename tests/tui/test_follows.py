"""What follows from the design, beside the fields and behind F2."""

from pathlib import Path

import pytest

from records.demo import demo_record
from records.expected.results import What, Worked
from records.model.reading import Place
from records.store.file import RecordFile
from records.terms import Part
from tests.tui.driving import NARROW, WIDE, blank, wizard


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    return path


async def test_a_wide_window_shows_the_figures_of_the_circuit_in_view(
    demo: Path, tmp_path: Path
) -> None:
    async with wizard(demo, tmp_path, size=WIDE) as driver:
        await driver.keys("f6", "5")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()

        design = driver.app.session.expected.design
        place = Place(part=Part.CIRCUIT, circuit=driver.record.circuits[0].id)
        for what in (What.IB, What.IN, What.IZ, What.ZS, What.TIME, What.VOLT_DROP):
            result = design[place, what]
            assert isinstance(result, Worked)
            assert str(result) in driver.screen, what
        assert f"of {design[place, What.ZS_LIMIT]}" in driver.screen
        assert "✓ within" in driver.screen


async def test_a_narrow_window_says_the_loop_and_its_limit_under_the_form(
    demo: Path, tmp_path: Path
) -> None:
    async with wizard(demo, tmp_path, size=NARROW) as driver:
        await driver.keys("f6", "3")
        await driver.settled()

        design = driver.app.session.expected.design
        feed = Place(part=Part.FEED)
        assert f"✓ Zs {design[feed, What.ZS]} of {design[feed, What.ZS_LIMIT]}" in driver.screen


@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_a_change_for_the_worse_is_said_at_once(
    demo: Path, tmp_path: Path, size: tuple[int, int]
) -> None:
    async with wizard(demo, tmp_path, size=size) as driver:
        await driver.keys("f6", "5")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()
        assert "✗ outside" not in driver.screen
        await driver.keys("f6", "2")
        await driver.settled()
        await driver.row("Ze")
        await driver.fill("1.9")
        await driver.keys("f6", "5")
        await driver.settled()

        assert "✗ outside" in driver.screen
        assert "open" in driver.screen


async def test_what_can_not_be_worked_out_says_what_is_missing(tmp_path: Path) -> None:
    async with blank(tmp_path, step=5, size=WIDE) as driver:
        await driver.fill("")
        await driver.settled()

        assert "not calculated" in driver.screen
        assert "Still wanted in this step" in driver.screen
        await driver.keys("f2")
        await driver.settled()
        assert "not calculated" in driver.screen
