"""A record opened in the wizard is copied first; a past state is shown as what it is."""

from __future__ import annotations

from pathlib import Path

from records.store.copies import Copies
from records.store.edits import put
from records.store.file import RecordFile
from tests.store.conftest import small_record
from tests.tui.driving import NARROW, Driver, wizard
from tui.app import FarboardApp
from tui.local_state import Kept


async def test_opening_for_writing_keeps_a_copy_and_looking_does_not(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    RecordFile.create(path, small_record()).close()
    copies = Copies(tmp_path / "kept" / "copies")

    async with wizard(path, tmp_path, read_only=True) as driver:
        assert "READ ONLY" in driver.screen
    assert copies.of(path) == []
    async with wizard(path, tmp_path) as driver:
        await driver.fill("J-9")
        assert driver.record.job.reference == "J-9"

    (kept,) = copies.of(path)
    with RecordFile.open(kept) as copy:
        assert copy.record == small_record()


async def test_a_past_state_says_which_it_is_and_takes_no_entry(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    with RecordFile.create(path, small_record()) as file:
        file.change(put("/job/place", "Behind the pear tree"))
        file.change(put("/job/place", "Beside the pond"))
    before = path.read_bytes()

    app = FarboardApp(path, kept=Kept(tmp_path / "kept"), at=2)
    async with app.run_test(size=NARROW) as pilot:
        driver = Driver(app, pilot)
        await driver.settled()
        assert "AS AFTER CHANGE 2" in driver.screen
        assert "Behind the pear tree" in driver.screen
        assert "Beside the pond" not in driver.screen
        await driver.fill("J-9")
        assert driver.record.job.reference == "T-1"
        assert "reading only" in driver.words
    assert path.read_bytes() == before


async def test_a_file_swapped_underneath_is_said_at_the_next_entry(tmp_path: Path) -> None:
    path, other = tmp_path / "job.farboard", tmp_path / "other.farboard"
    RecordFile.create(path, small_record()).close()
    RecordFile.create(other).close()
    async with wizard(path, tmp_path) as driver:
        await driver.fill("J-9")
        other.replace(path)
        taken = path.read_bytes()
        await driver.row("Reference")
        await driver.fill("J-10")
        await driver.settled()

        assert "NOT ON DISK" in driver.screen
        assert "changed by something else" in driver.words
        assert driver.record.job.reference == "J-9"
        assert path.read_bytes() == taken
    (kept,) = tmp_path.glob("*as it was here*.farboard")
    with RecordFile.open(kept) as aside:
        assert aside.record.job.reference == "J-9"
