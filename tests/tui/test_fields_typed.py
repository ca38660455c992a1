"""Typing into a field on a real screen: echoed, refused, kept, taken back.

What a field reads out of a text stands in `test_entering.py`.
"""

from pathlib import Path

import pytest
from textual import events

from records.model.supply import Ground
from records.store.file import RecordFile
from tests.tui.driving import WIDE, blank

ODD = "Sockets [/] [ring] \\x1b[5m <x> & é Ω {{ 7*7 }}"


async def test_a_figure_is_refused_in_words_echoed_in_full_and_on_disk_when_the_screen_says_so(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("Ze")
        await driver.fill("0.3 5")
        assert "is not one figure: type Ω, like 0.35" in driver.words
        assert "0.3 5 " in driver.screen, "it stays as typed"
        assert driver.record.origin.ze is None
        assert driver.app.screen.query_one("#form").row.label == "Ze"

        await driver.keys("ctrl+u")
        await driver.type("350 mohm")
        await driver.settled()
        assert "= 0.35 Ω" in driver.screen
        assert driver.record.origin.ze is None, "an echo is not kept"
        await driver.keys("enter")
        assert driver.record.origin.ze == 0.35
        assert "✓ kept" in driver.screen
        with RecordFile.open(tmp_path / "job.farboard", read_only=True) as other:
            assert other.record.origin.ze == 0.35

        await driver.keys("f4", "ctrl+z")
        assert driver.record.origin.ze is None
        assert "Taken back: Origin, Ze: now not said" in driver.words
        await driver.keys("ctrl+y")
        assert driver.record.origin.ze == 0.35
        assert "Made again: Origin, Ze: now 0.35" in driver.words

        await driver.keys("f3", "f3")
        await driver.settled()
        await driver.row("Temperature at the tests")
        await driver.fill("55")
        assert "must be at least -10 and at most 40 °C" in driver.words, "a limit of the model"
        assert driver.record.job.ambient is None


async def test_an_emptied_field_goes_back_to_not_said_and_esc_to_what_was_accepted(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.keys("ctrl+z")
        assert "There is nothing to take back" in driver.screen
        await driver.row("Ze")
        await driver.fill("0.35")
        await driver.keys("up")
        await driver.type("9x")
        await driver.keys("enter", "escape")
        assert "9x" not in driver.screen
        assert "is not" not in driver.screen
        await driver.keys("enter")
        assert driver.record.origin.ze == 0.35

        await driver.keys("up", "backspace", "enter")
        assert driver.record.origin.ze is None
        await driver.row("Earthing of the supply")
        await driver.fill("tt")
        assert driver.record.origin.earthing == "TT"
        await driver.keys("up")
        await driver.fill("not said")
        assert driver.record.origin.earthing is None


async def test_arrows_accept_what_is_right_and_what_is_refused_waits_as_a_draft(
    tmp_path: Path,
) -> None:
    async with blank(tmp_path, step=2) as driver:
        await driver.row("U0")
        driver.burst(*"240", "enter", *"0.4", "enter", *"ty", "enter")
        await driver.settled()
        origin = driver.record.origin
        assert (origin.u0, origin.ze) == (240.0, 0.4), "keys of one burst, each in its row"
        assert origin.ze_ground is Ground.TYPICAL

        await driver.row("Ze")
        await driver.keys("ctrl+u")
        await driver.type("0.5")
        await driver.keys("down")
        assert driver.record.origin.ze == 0.5, "arrows accept what is right"

        await driver.row("Ze")
        await driver.keys("ctrl+u")
        await driver.type("9x")
        await driver.keys("down", "down")
        assert "! “9x” is not kept yet" in driver.screen
        await driver.keys("f4", "f3")
        await driver.settled()
        assert "9x" in driver.screen, "it is there again after leaving the step"
        await driver.row("Note")
        await driver.type("half a sen")
        await driver.keys("ctrl+z")
        assert driver.record.origin.ze == 0.4
        assert "half a sen" in driver.screen, "undo keeps what is half typed"
        await driver.row("Ze")
        await driver.keys(*["backspace"] * 2)
        await driver.fill("0.6")
        assert driver.record.origin.ze == 0.6
        assert "/origin/ze" not in driver.app.session.drafts


async def test_odd_text_is_shown_as_typed_and_never_as_markup(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
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
        await driver.pilot.resize_terminal(*WIDE)
        for _ in range(5):
            await driver.settled()
            assert "[/]" in driver.screen
            assert "\x1b" not in driver.screen
            await driver.keys("f3")


async def test_a_paste_that_would_be_cut_or_cleaned_is_refused_aloud(tmp_path: Path) -> None:
    async with blank(tmp_path) as driver:
        for pasted, said in (
            ("0.35\n0.36\n0.37", "3 lines were pasted, and this takes one: none was taken"),
            ("\x1b[31mred", "control character that can't be shown"),
            ("a\x07b", "control character"),
            ("a\tb", "control character"),
        ):
            driver.app.focused.post_message(events.Paste(pasted))
            await driver.settled()
            assert said in driver.words, pasted
            await driver.keys("enter", "up")
            assert driver.record.job.reference == "", pasted
            assert said not in driver.words, pasted

        driver.app.focused.post_message(events.Paste("J-9 & co\n"))
        await driver.settled()
        await driver.keys("enter")
        assert driver.record.job.reference == "J-9 & co", "one line is taken"


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
