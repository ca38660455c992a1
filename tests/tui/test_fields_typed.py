"""Typing into a field on a real screen: echoed, refused, kept, taken back.

What a field reads out of a text stands in `test_entering.py`.
"""

from pathlib import Path

import pytest
from textual import events

from records.model.supply import Ground
from records.store.file import RecordFile
from tests.tui.driving import WIDE, blank, wizard

ODD = "Sockets [/] [ring] \\x1b[5m <x> & é Ω {{ 7*7 }}"


async def test_a_wrong_figure_is_refused_in_words_and_stays_as_typed(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.fill("0.3 5")

        assert "is not one figure: type Ω, like 0.35" in driver.words
        assert "0.3 5 " in driver.screen
        assert driver.record.origin.ze is None
        assert driver.app.screen.query_one("#form").row.label == "Ze"


async def test_a_figure_is_echoed_in_full_before_it_is_accepted(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.type("350 mohm")
        await driver.settled()
        assert "= 0.35 Ω" in driver.screen
        assert driver.record.origin.ze is None

        await driver.keys("enter")
        assert driver.record.origin.ze == 0.35


async def test_an_accepted_value_is_on_disk_when_the_screen_says_so(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.fill("0.35")
        assert "✓ kept" in driver.screen

        with RecordFile.open(tmp_path / "job.farboard", read_only=True) as other:
            assert other.record.origin.ze == 0.35


async def test_a_model_limit_is_said_with_what_would_be_right(tmp_path: Path) -> None:
    async with blank(tmp_path, step=1) as driver:
        await driver.row("Temperature at the tests")
        await driver.fill("55")

        assert "must be at least -10 and at most 40 °C" in driver.words
        assert driver.record.job.ambient is None


async def test_an_emptied_field_goes_back_to_not_said(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.fill("0.35")
        await driver.keys("up", "backspace", "enter")
        assert driver.record.origin.ze is None

        await driver.row("Earthing of the supply")
        await driver.fill("tt")
        assert driver.record.origin.earthing == "TT"
        await driver.keys("up")
        await driver.fill("not said")
        assert driver.record.origin.earthing is None


async def test_escape_puts_the_accepted_value_back(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.fill("0.35")
        await driver.keys("up")
        await driver.type("9x")
        await driver.keys("enter", "escape")

        assert "9x" not in driver.screen
        assert "is not" not in driver.screen
        await driver.keys("enter")
        assert driver.record.origin.ze == 0.35


async def test_what_was_refused_may_wait_as_a_draft_and_is_marked(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.type("9x")
        await driver.keys("down", "down")
        assert "! “9x” is not kept yet" in driver.screen

        await driver.keys("f4", "f3")
        await driver.settled()
        assert "9x" in driver.screen
        await driver.row("Ze")
        await driver.keys(*["backspace"] * 2)
        await driver.fill("0.4")
        assert driver.record.origin.ze == 0.4
        assert driver.app.session.drafts == {}


async def test_arrows_accept_what_is_right_on_the_way(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.type("0.4")
        await driver.keys("down")
        assert driver.record.origin.ze == 0.4


async def test_keys_that_come_in_one_burst_land_in_the_row_they_were_meant_for(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("U0")
        entry = driver.app.focused
        for key in ("2", "4", "0", "enter", "0", "full_stop", "4", "enter", "t", "y", "enter"):
            character = {"full_stop": "."}.get(key, key if len(key) == 1 else None)
            entry.post_message(events.Key(key, character))
        await driver.settled()

        origin = driver.record.origin
        assert (origin.u0, origin.ze) == (240.0, 0.4)
        assert origin.ze_ground is Ground.TYPICAL


async def test_undo_and_redo_say_what_they_did(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.keys("ctrl+z")
        assert "There is nothing to take back" in driver.screen
        await driver.row("Ze")
        await driver.fill("0.35")
        await driver.keys("f4", "ctrl+z")
        assert driver.record.origin.ze is None
        assert "Taken back: Origin, Ze: now not said" in driver.words

        await driver.keys("ctrl+y")
        assert driver.record.origin.ze == 0.35
        assert "Made again: Origin, Ze: now 0.35" in driver.words


async def test_undo_keeps_what_is_half_typed(tmp_path: Path) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.fill("0.35", "")
        await driver.keys("escape")
        await driver.row("Note")
        await driver.type("half a sen")
        await driver.keys("ctrl+z")

        assert driver.record.origin.ze is None
        assert "half a sen" in driver.screen


@pytest.mark.parametrize("size", [(80, 24), WIDE])
async def test_odd_text_is_shown_as_typed_and_never_as_markup(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with blank(tmp_path, size=size) as driver:
        await driver.fill(ODD)
        assert driver.record.job.reference == ODD
        await driver.row("Place")
        await driver.fill(ODD)
        await driver.row("+ add a person")
        await driver.fill("", ODD)
        await driver.keys("escape")
        assert "[/] [ring]" in driver.screen
        await driver.keys("f4", "f4")
        await driver.row("+ add a run")
        await driver.fill("", ODD)
        await driver.keys("escape")
        assert "[/]" in driver.screen
        await driver.keys("f4")
        await driver.fill(ODD)
        await driver.row("+ add a bonding conductor")
        await driver.fill("", ODD)
        await driver.keys("escape", "f4")
        await driver.fill("", ODD)
        await driver.keys("escape")
        await driver.settled()

        assert driver.record.circuits[0].name == ODD
        assert "[/]" in driver.screen
        assert "\x1b" not in driver.screen


@pytest.mark.parametrize(
    ("pasted", "said"),
    [
        ("0.35\n0.36\n0.37", "3 lines were pasted, and this takes one: none was taken"),
        ("\x1b[31mred", "control character that can't be shown"),
        ("a\x07b", "control character"),
        ("a\tb", "control character"),
    ],
)
async def test_a_paste_that_would_be_cut_or_cleaned_is_refused_aloud(
    tmp_path: Path, pasted: str, said: str
) -> None:
    async with blank(tmp_path) as driver:
        driver.app.focused.post_message(events.Paste(pasted))
        await driver.settled()

        assert said in driver.words
        await driver.keys("enter")
        assert driver.record.job.reference == ""


async def test_a_paste_of_one_line_is_taken(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        driver.app.focused.post_message(events.Paste("J-9 & co\n"))
        await driver.settled()
        await driver.keys("enter")
        assert driver.record.job.reference == "J-9 & co"


async def test_a_value_that_the_disk_refuses_stays_on_screen_with_the_reason(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from records.errors import CannotWrite

    async with blank(tmp_path, step=2) as driver:
        file = driver.app.session.file

        def full(*_: object, **__: object) -> None:
            raise CannotWrite("The disk is full; nothing was written.")

        await driver.row("Ze")
        with monkeypatch.context() as patch:
            patch.setattr(file, "change", full)
            await driver.fill("0.35")
            assert "The disk is full" in driver.words
            assert "NOT ON DISK" in driver.screen
            assert "0.35" in driver.screen
            assert driver.record.origin.ze is None
            await driver.keys("down", "up")
            assert "NOT ON DISK" in driver.screen
        await driver.keys("enter")

        assert driver.record.origin.ze == 0.35
        assert "NOT ON DISK" not in driver.screen


async def test_a_record_open_to_look_takes_nothing_and_says_so(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    RecordFile.create(path).close()
    async with wizard(path, tmp_path, read_only=True) as driver:
        assert "READ ONLY" in driver.screen
        await driver.fill("J-1")
        assert "open for reading only" in driver.words
        await driver.row("+ add a person")
        await driver.keys("escape", "enter")
        assert "open for reading only" in driver.words
        assert driver.record.job.people == ()


async def test_a_field_that_comes_up_does_not_get_what_is_typed_for_the_next(
    tmp_path: Path,
) -> None:
    """A job begun after the edition was withdrawn asks the certifier: below, not in between."""
    async with blank(tmp_path) as driver:
        await driver.row("Started on")
        await driver.fill("3 Nov 2026", "9")
        assert driver.record.job.ambient == 9
        assert driver.record.job.edition_settled == ""
        assert "Certifier on the edition" in driver.screen
