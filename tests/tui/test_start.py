"""The start screen: recent records, a new one, the demo, another file, one that can't be opened."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from records.demo import demo_record
from records.store.file import RecordFile
from tests.tui.driving import Driver, wizard
from tui.dialogs.open_file import OpenFile, beginning
from tui.local_state import Kept
from tui.steps.step import Step

REFUSED = "This record can't be opened"


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


async def _ask_for_file(driver: Driver) -> None:
    await driver.row("open another file")
    await driver.keys("enter")
    await driver.settled()
    assert isinstance(driver.app.screen, OpenFile)


async def _close(driver: Driver) -> None:
    await driver.keys("ctrl+p", *"close this", "enter")
    await driver.settled()
    assert "+ a new record" in driver.screen


async def test_a_record_is_chosen_by_arrows_or_by_part_of_its_name(
    tmp_path: Path, jobs: Path
) -> None:
    async with wizard(None, tmp_path) as driver:
        assert str(jobs)[:20] in driver.words or len(str(jobs)) > 60
        await _ask_for_file(driver)
        await driver.keys(*"zzz", "enter")
        await driver.settled()
        assert "There is no file" in driver.words
        assert isinstance(driver.app.screen, OpenFile), "the name stays, to be put right"
        await driver.keys("escape")
        for keys, name in (
            (("enter",), "barn"),
            (("down", "enter"), "byre"),
            ((*"by", "tab", "enter"), "byre"),
            ((*"ba", "enter"), "barn"),
            ((*"old", "tab", "enter"), "mill"),
            ((*"o", "enter", "down", "enter"), "mill"),
            ((*"byre.farboard", "enter"), "byre"),
        ):
            await _ask_for_file(driver)
            await driver.keys(*keys)
            await driver.settled()
            assert isinstance(driver.app.screen, Step), (keys, driver.screen)
            assert driver.app.session.file.path.stem == name, keys
            await _close(driver)


async def test_recent_records_are_offered_the_last_one_first_with_the_keys_at_the_foot(
    tmp_path: Path,
) -> None:
    for name in ("apple", "pear [x]"):
        path = tmp_path / f"{name}.farboard"
        RecordFile.create(path).close()
        Kept(tmp_path / "kept").opened(path)
    async with wizard(None, tmp_path) as driver:
        assert driver.screen.splitlines()[-1].split() == [
            *("F1", "Help", "^Q", "Leave", "^P", "Commands")
        ]
        assert "▸ pear [x]" in driver.screen
        assert "apple" in driver.screen
        await driver.keys("down", "enter")
        await driver.settled()
        assert driver.app.session.file.path.stem == "apple"
        await _close(driver)
        assert "▸ apple" in driver.screen, "what was opened last comes first"
        await driver.keys("down", "enter")
        await driver.settled()
        assert driver.app.session.file.path.stem == "pear [x]"


async def test_a_new_record_needs_a_name_that_can_be_a_file_and_the_demo_is_a_copy(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "there.farboard").touch()
    async with wizard(None, tmp_path) as driver:
        for typed, said in (
            ("", "Type a name"),
            ("there", "is there already"),
            ("no/such/place", "There is no folder"),
            ("n" * 300, "type a plainer one"),
        ):
            await driver.fill("")
            await driver.type(typed)
            await driver.keys("enter")
            assert said in driver.words, typed
            await driver.keys("escape")
            assert "+ a new record" in driver.screen

        await driver.row("the demo: a weaver's loom shed behind an orchard")
        await driver.keys("enter")
        await driver.settled()
        assert driver.record == demo_record()
        await driver.fill("mine now")
        assert driver.record.job.reference == "mine now"


async def test_what_is_no_record_is_a_message_and_no_traceback(tmp_path: Path) -> None:
    path, other = tmp_path / "bad.farboard", tmp_path / "other.farboard"
    path.write_bytes(b"this is no record\n" * 50)
    with sqlite3.connect(other) as made:
        made.execute("create table t (x)")
    async with wizard(path, tmp_path) as driver:
        assert REFUSED in driver.screen
        assert "look only" not in driver.screen
        await driver.keys("enter")
        assert "+ a new record" in driver.screen

        driver.app.open_later(other)
        await driver.settled()
        assert REFUSED in driver.screen, "the database of another program"


async def test_a_record_open_elsewhere_can_be_looked_at(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    with RecordFile.create(path):
        async with wizard(path, tmp_path) as driver:
            assert REFUSED in driver.screen
            await driver.keys("1")
            await driver.settled()
            assert "READ ONLY" in driver.screen
