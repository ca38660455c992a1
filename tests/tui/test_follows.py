"""What follows from the design, beside the fields and behind F2."""

from pathlib import Path

from records.demo import demo_record
from records.expected.results import What, Worked
from records.model.reading import Place
from records.store.file import RecordFile
from records.terms import Part, Step
from tests.tui.driving import NARROW, WIDE, blank, wizard


async def test_the_figures_of_what_is_in_view_follow_and_a_change_for_the_worse_is_said_at_once(
    tmp_path: Path,
) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path, size=WIDE, begin=Step.CIRCUITS) as driver:
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
        assert "✗ outside" not in driver.screen

        await driver.pilot.resize_terminal(*NARROW)
        await driver.settled()
        assert "✗ outside" not in driver.screen
        await driver.keys("f6", "3")
        await driver.settled()
        feed = Place(part=Part.FEED)
        loop = f"✓ Zs {design[feed, What.ZS]} of {design[feed, What.ZS_LIMIT]}"
        assert loop in driver.screen, "a narrow window says the loop and its limit under the form"

        await driver.keys("f6", "2")
        await driver.settled()
        await driver.row("Ze")
        await driver.fill("1.9")
        await driver.keys("f6", "5")
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()
        for size in (NARROW, WIDE):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "✗ outside" in driver.screen, size
        await driver.keys("escape")
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
