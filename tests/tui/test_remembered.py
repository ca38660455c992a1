"""What is remembered from one time to the next: what was half typed, the look, or nothing."""

from __future__ import annotations

from pathlib import Path

from records.store.file import RecordFile
from tests.tui.driving import blank, wizard
from tui.app import FarboardApp
from tui.local_state import Kept
from tui.look import DARK, PAPER


async def test_leaving_asks_about_what_is_half_typed_and_gives_it_back(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.type("0.3")
        await driver.keys("ctrl+q")
        assert "Typed and not accepted: “0.3”" in driver.words
        await driver.keys("escape")
        assert driver.app.is_running
        await driver.keys("f10", "2")

    with RecordFile.open(tmp_path / "job.farboard") as file:
        assert file.record.origin.ze is None
    async with blank(tmp_path, step=2) as driver:
        assert "! “0.3” is not kept yet" in driver.screen
        await driver.row("Ze")
        await driver.type("5")
        await driver.keys("enter")
        assert driver.record.origin.ze == 0.35


async def test_the_look_is_remembered_and_an_unknown_one_falls_back(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        assert driver.app.theme == DARK
        await driver.keys("ctrl+p", *"look", "enter", "down", "enter")
        await driver.settled()
        assert driver.app.theme == PAPER
        assert "The look is now farboard-paper" in driver.words
    assert FarboardApp(kept=Kept(tmp_path / "kept")).theme == PAPER

    (tmp_path / "kept" / "settings.toml").write_text('look = "gone-by-now"')
    async with wizard(None, tmp_path) as driver:
        assert driver.app.theme == DARK
        assert "There is no look “gone-by-now”" in driver.words


async def test_work_goes_on_where_nothing_can_be_remembered(tmp_path: Path) -> None:
    (tmp_path / "kept").write_text("a file where the folder would be")
    async with blank(tmp_path) as driver:
        await driver.keys("ctrl+p", *"look", "enter", "down", "enter")
        await driver.settled()
        assert driver.app.theme == PAPER
        assert "It holds until you leave" in driver.words
        await driver.fill("J-2")
        assert driver.record.job.reference == "J-2"
    (tmp_path / "kept").unlink()
    (tmp_path / "kept").mkdir()
    for name in ("recent.json", "settings.toml"):
        (tmp_path / "kept" / name).write_bytes(b"\xff[{not json")
    async with wizard(None, tmp_path) as driver:
        assert "+ a new record" in driver.screen
