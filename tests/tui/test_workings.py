"""F2 holds the working of every figure of the part that the page is about."""

from pathlib import Path

from records.demo import demo_record
from records.expected.results import Worked
from records.store.file import RecordFile
from tests.tui.driving import wizard


async def test_the_lists_of_all_parts_hold_every_figure_that_was_worked_out(tmp_path: Path) -> None:
    path = tmp_path / "demo.farboard"
    RecordFile.create(path, demo_record()).close()
    async with wizard(path, tmp_path) as driver:
        listed = []
        for step in "234":
            await driver.keys("f6", step)
            await driver.settled()
            listed += [result for _, result in driver.app.screen.figures()]
        await driver.keys("f6", "5")
        await driver.settled()
        for circuit in driver.record.circuits:
            driver.app.screen.open((circuit.id,))
            await driver.settled()
            figures = driver.app.screen.figures()
            assert len({name for name, _ in figures}) == len(figures), circuit.id
            listed += [result for _, result in figures]
        expected = driver.app.session.expected

        for kind in ("design", "meter", "measured"):
            worked = {k: v for k, v in getattr(expected, kind).items() if isinstance(v, Worked)}
            assert worked, kind
            for key, result in worked.items():
                assert result in listed, (kind, key)
