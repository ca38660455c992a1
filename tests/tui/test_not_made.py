"""A size or a rating that nobody makes is kept as typed, and said at the field at once."""

from pathlib import Path

from records.model.circuit import Circuit
from records.model.record import Record
from records.model.wiring import Device, Run
from records.store.file import RecordFile
from records.terms import CableKind, DeviceKind
from tests.tui.driving import wizard


async def test_a_size_or_a_rating_that_is_not_made_is_said_and_what_there_is(
    tmp_path: Path,
) -> None:
    path = tmp_path / "job.farboard"
    circuit = Circuit(
        id="C1", device=Device(kind=DeviceKind.BREAKER_B), runs=(Run(cable=CableKind.FLAT),)
    )
    RecordFile.create(path, Record(circuits=(circuit,))).close()
    async with wizard(path, tmp_path) as driver:
        await driver.keys("f6", "5")
        await driver.settled()
        driver.app.screen.open(("C1",))
        await driver.settled()
        await driver.row("In")
        await driver.fill("33")
        await driver.settled()
        assert "No circuit-breaker type B of 33 A is made; there are 1, 2, 3" in driver.words
        await driver.row("In")
        await driver.fill("32")
        await driver.settled()
        assert "is made" not in driver.words

        driver.app.screen.open(("C1", "run", "0"))
        await driver.settled()
        await driver.row("Line conductor")
        await driver.fill("3")
        await driver.settled()
        assert driver.record.circuits[0].runs[0].csa == 3
        assert "3 mm² is no tabulated size of flat twin-and-earth" in driver.words
        assert "there are 1, 1.5, 2.5, 4, 6, 10, 16 mm²" in driver.words
        await driver.row("Line conductor")
        await driver.fill("2.5")
        await driver.settled()
        assert "no tabulated size" not in driver.words
