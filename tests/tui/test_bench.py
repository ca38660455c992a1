"""Readings taken one by one, by keys alone: what is shown, kept, refused and taken back."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.model.reading import NotTaken, Quantity
from records.terms import Stage, Step
from tests.taking.job import slot
from tests.tui.at_bench import at, bench, go, in_hand, past_cautions, said, screen, to_slot, values
from tests.tui.driving import Driver

R1, RN, R2 = (slot(each, Stage.DEAD, "C1") for each in (Quantity.R1, Quantity.RN, Quantity.R2))
IR_LN, IR_LE = (slot(each, Stage.DEAD, "C1") for each in (Quantity.IR_LN, Quantity.IR_LE))


async def to_r1(driver: Driver) -> None:
    """Read what comes first and go to the first leg of the ring."""
    await past_cautions(driver)
    await to_slot(driver, Quantity.R1)


async def test_the_card_has_all_that_is_needed_and_what_is_refused_stays_in_the_field(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from records.errors import CannotWrite

    def full(*_: object, **__: object) -> None:
        raise CannotWrite("The disk is full: free some space, then press Enter again.")

    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_r1(driver)
        for words in (
            "C1 Bench sockets · r1",
            "L of leg 1 and L of leg 2",
            "low-resistance ohmmeter (BS EN 61557-4), at least 200 mA",
            "Both legs out of their terminals",
            "expect 0.2",
            "limit",
            "0 of 29 taken",
        ):
            assert words in driver.words

        await driver.type("35 m\n")
        assert "mohm" in said(driver), "what would be right"
        assert screen(driver).field.text == "35 m"
        assert not driver.record.readings
        assert in_hand(driver) == R1
        await driver.keys("escape")
        assert "35 m" not in driver.screen, "Esc clears what was refused"

        with monkeypatch.context() as patch:
            patch.setattr(driver.app.session.file, "change", full)
            await driver.type("0.28\n")
            assert "The disk is full" in said(driver)
            assert in_hand(driver) == R1
            assert screen(driver).field.text == "0.28"
            assert "NOT ON DISK" in driver.screen
        await driver.keys("enter")
        assert values(driver.record, R1) == ["0.28"]


async def test_what_is_typed_is_echoed_and_judged_before_it_counts_and_a_quick_hand_is_followed(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LN, "C1")
        await past_cautions(driver)
        await driver.type(">999")
        assert "= > 999 MΩ" in driver.words
        await driver.settled()
        assert "✓ within" in driver.words
        assert not driver.record.readings
        await driver.keys("enter")
        assert values(driver.record, IR_LN) == [">999"]
        assert in_hand(driver) == IR_LE
        assert "insulation L-N: within. > 999 MΩ" in said(driver)

        await to_slot(driver, Quantity.R1)
        driver.burst(*"0.28", "enter", *"0.29", "enter", *".47", "enter")
        await driver.settled()
        assert [values(driver.record, each) for each in (R1, RN, R2)] == [
            ["0.28"],
            ["0.29"],
            ["0.47"],
        ], "each value of a quick hand where it belongs"
        await driver.keys("ctrl+z")
        assert in_hand(driver) == R2, "after undo one stands on what was taken back"
        assert values(driver.record, R2) == []


async def test_a_second_reading_needs_its_key_and_why_tells_all_of_the_verdict(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_r1(driver)
        await driver.type("1.9\n")
        assert "✗" in driver.words or "?" in driver.words
        await driver.keys("up")
        await driver.type("0.2\n")
        assert values(driver.record, R1) == ["1.9"]

        await driver.keys("up") if in_hand(driver) != R1 else None
        await to_slot(driver, Quantity.R1)
        await driver.type("a0.28\n")
        assert values(driver.record, R1) == ["1.9", "0.28"]
        await driver.keys("up")
        assert "1st: 1.90 Ω" in driver.words
        assert "2nd: 0.28 Ω" in driver.words

        await driver.type("w")
        await driver.settled()
        assert "Limit" in driver.words
        await driver.keys("end")
        await driver.settled()
        assert "How it is taken" in driver.words


async def test_could_not_and_not_needed_want_a_reason_in_words_which_waits_if_it_is_left(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_r1(driver)
        await driver.type("c\n")
        assert "Give the reason" in driver.words
        await driver.type("board [/]")
        await driver.keys("escape")
        assert not driver.record.readings
        await driver.type("c locked\n")
        await driver.settled()
        assert values(driver.record, R1) == ["board [/] locked"], "what was left is there again"

        driver.send("xone leg only\n")  # the key and the words in one burst
        await driver.settled()
        assert values(driver.record, RN) == ["one leg only"]
        assert isinstance(driver.record.readings[0].taken, NotTaken)
        await driver.keys("up", "up")
        assert "could not be taken" in driver.words
        assert "board [/] locked" in driver.words


async def test_what_goes_with_a_reading_is_shown_until_it_is_used_or_ended(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_r1(driver)
        await driver.type("tlong lead\nrained\n")
        await driver.settled()
        assert "method: long lead" in driver.words
        await driver.type("0.28\n0.28\n")
        first, second = driver.record.readings
        assert (first.method, first.note) == ("long lead", "rained")
        assert (second.method, second.note) == ("", ""), "a note is of the next reading only"

        await driver.type("l")
        await driver.type("5 Mar 2026 11:00\n")
        await driver.settled()
        await driver.type("9.31\n")
        assert "NOTES OF 5 Mar 2026 11:00" in driver.words
        await go(driver, Step.REVIEW)
        assert "NOTES OF 5 Mar 2026 11:00" in driver.words, "notes count everywhere until ended"
        await driver.type("l")
        await driver.settled()
        assert "NOTES OF" not in driver.words
        assert f"{driver.record.readings[-1].at:%d %m %Y %H:%M}" == "05 03 2026 11:00"

        await go(driver, Step.DEAD_TESTS)
        await to_slot(driver, Quantity.IR_LN, "C2")
        await past_cautions(driver)
        assert "C2 Light [loft] · insulation L-N" in driver.words, "text of the record as it is"
        assert "500 V d.c." in driver.words
        await driver.type("vdrivers glued in\n")
        await driver.settled()
        assert "250 V d.c." in driver.words
        await driver.type(">500\n")
        await driver.type(">500\n>500\n")
        await driver.type(">999\n")
        here = [each for each in driver.record.readings if each.slot.place.circuit == "C2"]
        next_one = driver.record.readings[-1]
        assert {each.test_voltage for each in here} == {250.0}
        assert here[0].method == "250 V d.c., L and N joined, to earth: drivers glued in"
        assert (next_one.slot.place.circuit, next_one.test_voltage) == ("C3", 500.0)
        assert next_one.method == "", "250 V hold for that circuit only"


async def test_the_order_can_be_changed_and_place_and_half_typed_text_are_kept(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LN, "C1")
        await driver.keys("ctrl+o")
        await driver.settled()
        assert in_hand(driver) == IR_LN
        assert "0 of 29 taken · none open · by circuit" in driver.words
        await driver.keys("pagedown")
        assert in_hand(driver).place.circuit == "C2"
        await driver.keys("pageup")
        assert in_hand(driver).quantity is Quantity.R1

        await past_cautions(driver)
        await driver.type("0.2")
        await driver.keys("down")
        assert screen(driver).field.text == ""
        await driver.keys("f3")
        await go(driver, Step.DEAD_TESTS)
        await to_slot(driver, Quantity.R1)
        assert screen(driver).field.text == "0.2", "half typed, it outlives moving and leaving"
        await driver.type("8\n")
        assert values(driver.record, R1) == ["0.28"]


async def test_a_figure_typed_over_a_caution_waits_and_the_next_one_takes_its_place(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_slot(driver, Quantity.R1)
        assert bench(driver).must_read.caution is not None
        await driver.type("0.31\n")
        assert "0.31 waits in its field" in driver.words
        assert values(driver.record, R1) == []
        await past_cautions(driver)
        assert values(driver.record, R1) == []
        await driver.keys("enter")
        assert values(driver.record, R1) == ["0.31"]

        await to_slot(driver, Quantity.IR_LN, "C1")
        assert bench(driver).must_read.caution is not None
        await driver.type("16\n")
        await past_cautions(driver)
        assert "Reading ▸ 16" in driver.words
        await driver.type("900\n")
        assert values(driver.record, IR_LN) == ["900"], "16 that waits and 900 are no 16900"


async def test_what_to_do_about_a_bad_reading_and_the_keys_are_in_sight(tmp_path: Path) -> None:
    """Whoever reads one line only reads that: an open earth stays locked off."""
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        for quantity, typed in ((Quantity.R1_R2, ">99.9\n"), (Quantity.IR_LE, "0.02\n")):
            await to_slot(driver, quantity)
            await past_cautions(driver)
            await driver.type(typed)
            await driver.settled()
            await driver.keys("up")
            await driver.settled()
            assert "✗ outside" in driver.words
            assert quantity is Quantity.IR_LE or "Do next: It stays locked off" in driver.words
            for key in ("a test again", "t note", "w why"):
                assert key in driver.words, "under a long verdict too"


async def test_a_small_window_shows_the_end_of_each_caution_what_is_typed_and_its_limit(
    tmp_path: Path,
) -> None:
    sizes = [(48, 14), (60, 20)]
    async with at(tmp_path, Step.DEAD_TESTS, size=sizes[0]) as driver:
        read = 0
        while (caution := bench(driver).must_read.caution) is not None:
            last = " ".join(caution.lines[-1].split()[-2:])
            seen = False
            while bench(driver).must_read.caution == caution:
                seen = last in driver.words
                assert seen or "more: " in driver.words
                await driver.keys("enter")
                await driver.settled()
            assert seen, "it counts as read when its last line was on the screen"
            read += 1
            await driver.pilot.resize_terminal(*sizes[read % 2])
            await driver.settled()
        assert read == 2

        await to_slot(driver, Quantity.IR_LE, "C1")
        await past_cautions(driver)
        await driver.type("1.3")
        for size in ((60, 18), (48, 14)):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "Reading ▸ 1.3 = 1.30 MΩ" in driver.words
            assert "at least 1.0 MΩ" in driver.words


async def test_the_palette_has_the_keys_of_the_bench_too(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await driver.type("0.2")
        for word, seen in (
            ("could not be", "Why not?"),
            ("grid", "F9 list"),
            ("order of", "^O by test"),
        ):
            await driver.keys("ctrl+p")
            await driver.type(word)
            await driver.settled()
            await driver.keys("enter")
            await driver.settled()
            assert seen in driver.words
            if word == "could not be":
                await driver.keys("escape")
