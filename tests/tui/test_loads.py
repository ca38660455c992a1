"""Loads in the forms, by keys alone at 80 × 24: their kind, what runs together, where they are."""

import shutil
from pathlib import Path

from records.expected.context import FEED
from records.expected.plan import expected
from records.expected.results import What
from records.model.record import Record
from records.store.file import RecordFile
from records.terms import FeedLoad, LoadKind, Step
from tests.expected.jobs import circuit, device, job, run
from tests.tui.driving import wizard

FIXTURES = Path(__file__).parents[2] / "fixtures"


def on_disk(folder: Path, record: Record) -> Path:
    path = folder / "job.farboard"
    RecordFile.create(path, record=record).close()
    return path


def workshop() -> Record:
    fixed = {"use": "fixed appliance", "device": device(rating=20.0)}
    loads = ((1, 16.0, "Saw"), (2, 13.0, "Extractor"), (3, 10.0, "Kiln"))
    circuits = [circuit(f"C{n}", name=name, load=load, **fixed) for n, load, name in loads]
    return job(circuits=circuits, feed={"device": device("BS 88-3 fuse", 63.0, breaking=33.0)})


async def test_each_kind_of_load_asks_for_its_own_and_what_runs_together_is_marked(
    tmp_path: Path,
) -> None:
    async with wizard(on_disk(tmp_path, workshop()), tmp_path, begin=Step.FEED) as driver:
        await driver.row("Feed loaded with")
        await driver.fill("together")
        assert "Mark each circuit that can be on at the same time" in driver.words
        await driver.row("C1 Saw")
        await driver.fill("y", "y", "n")
        assert driver.record.feed.loading is FeedLoad.TOGETHER
        assert [each.together for each in driver.record.circuits] == [True, True, False]
        assert expected(driver.record).design[FEED, What.IB].value == 29

        await driver.keys("f4", "f4")
        await driver.row("C1 Saw")
        await driver.keys("enter")
        await driver.row("Kind of load")
        await driver.fill("motor")
        await driver.row("Starting current")
        await driver.fill("70")
        assert driver.record.circuits[0].starting == 70
        await driver.row("Kind of load")
        await driver.fill("cook")
        assert driver.record.circuits[0].kind is LoadKind.COOKING
        await driver.row("Socket on the cooker control")
        await driver.fill("y")
        assert driver.record.circuits[0].cooker_socket is True


async def test_a_load_is_entered_at_its_point_in_watts_or_at_all_points_at_once(
    tmp_path: Path,
) -> None:
    points = [{"id": f"P{n}", "name": f"L{n}", "at": 10.0 * n} for n in (1, 2, 3)]
    lamps = circuit(name="Lamps", use="lighting", runs=[run(csa=1.5, length=30.0)], points=points)
    async with wizard(
        on_disk(tmp_path, job(circuits=[lamps])), tmp_path, begin=Step.CIRCUITS
    ) as driver:
        await driver.row("C1 Lamps")
        await driver.keys("enter")
        await driver.row("Points")
        await driver.keys("enter")
        await driver.row("Load here, in kW")
        await driver.fill("12 W")
        assert driver.record.circuits[0].points[0].power == 0.012

        await driver.row("the same load at every point")
        await driver.fill("", "twelve")
        assert all(each.load is None for each in driver.record.circuits[0].points)
        await driver.keys("escape")
        await driver.row("the same load at every point")
        await driver.fill("", "0.1 A")

        assert [each.load for each in driver.record.circuits[0].points] == [0.1, 0.1, 0.1]
        assert all(each.power is None for each in driver.record.circuits[0].points)
        assert "0.1 A is entered at 3 points" in driver.words
        assert "Load here, in A" in driver.screen
        await driver.row("‹ back to C1 Lamps")


async def test_a_file_of_the_first_form_takes_a_load_at_a_point(tmp_path: Path) -> None:
    path = Path(shutil.copy(FIXTURES / "format-1.farboard", tmp_path / "old.farboard"))
    async with wizard(path, tmp_path, begin=Step.CIRCUITS) as driver:
        id = driver.record.circuits[1].id
        await driver.row(f"{id} {driver.record.circuits[1].name}".strip())
        await driver.keys("enter")
        await driver.row("Points")
        await driver.keys("enter")
        await driver.row("Load here, in A")
        await driver.fill("0.2")
        assert driver.record.circuits[1].points[0].load == 0.2
    with RecordFile.open(path, read_only=True) as file:
        assert file.record.circuits[1].points[0].load == 0.2
