"""Opening a record: what is in the folder is listed, and the rest of a name is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.store.file import RecordFile
from tests.tui.driving import Driver, wizard
from tui.dialogs.open_file import OpenFile, beginning
from tui.steps.step import Step


@pytest.fixture
def jobs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with two records, a text and a folder with a record, to be in."""
    folder = tmp_path / "jobs"
    (folder / "older").mkdir(parents=True)
    for name in ("byre", "barn", "older/mill"):
        RecordFile.create(folder / f"{name}.farboard").close()
    (folder / "notes.txt").write_text("no record")
    (folder / ".hidden").mkdir()
    monkeypatch.chdir(folder)
    return folder


@pytest.mark.usefixtures("jobs")
def test_records_come_first_then_folders_and_nothing_else() -> None:
    assert beginning("", ".farboard") == ("barn.farboard", "byre.farboard", "older/")
    assert beginning("BA", ".farboard") == ("barn.farboard",)
    assert beginning("older/", ".farboard") == ("older/mill.farboard",)
    assert beginning("./o", ".farboard") == ("./older/",)
    assert beginning("nowhere/", ".farboard") == ()
    assert beginning("\0", ".farboard") == ()


async def _asked(driver: Driver) -> None:
    await driver.row("open another file")
    await driver.keys("enter")
    await driver.settled()
    assert isinstance(driver.app.screen, OpenFile)


async def _opened(driver: Driver) -> str:
    for _ in range(40):
        await driver.pilot.pause(0.02)
        if isinstance(driver.app.screen, Step):
            return driver.app.session.file.path.stem
    raise AssertionError(driver.screen)


@pytest.mark.parametrize(
    ("keys", "name"),
    [
        (("enter",), "barn"),
        (("down", "enter"), "byre"),
        ((*"by", "tab", "enter"), "byre"),
        ((*"ba", "enter"), "barn"),
        ((*"old", "tab", "enter"), "mill"),
        ((*"o", "enter", "down", "enter"), "mill"),
        ((*"byre.farboard", "enter"), "byre"),
    ],
)
async def test_a_record_is_chosen_by_arrows_or_by_part_of_its_name(
    tmp_path: Path, jobs: Path, keys: tuple[str, ...], name: str
) -> None:
    async with wizard(None, tmp_path) as driver:
        assert str(jobs)[:20] in driver.words or len(str(jobs)) > 60
        await _asked(driver)
        await driver.keys(*keys)
        assert await _opened(driver) == name


@pytest.mark.usefixtures("jobs")
async def test_a_name_that_is_not_there_is_said_and_stays(tmp_path: Path) -> None:
    async with wizard(None, tmp_path) as driver:
        await _asked(driver)
        await driver.keys(*"zzz", "enter")
        await driver.settled()
        assert "There is no file" in driver.words
        assert isinstance(driver.app.screen, OpenFile)
