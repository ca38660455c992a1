"""Readings taken one by one, by keys alone."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events

from records.model.reading import Quantity
from records.terms import Stage, Step
from tests.taking.job import slot
from tests.tui.at_bench import again, at, go, in_hand, past_cautions, said, screen, to_slot, values
from tests.tui.driving import WIDE

R1 = slot(Quantity.R1, Stage.DEAD, "C1")


async def test_the_card_has_all_that_is_needed_before_a_value_is_typed(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)

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


async def test_what_is_typed_is_echoed_in_full_and_judged_before_it_counts(tmp_path: Path) -> None:
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

        assert values(driver.record, slot(Quantity.IR_LN, Stage.DEAD, "C1")) == [">999"]
        assert in_hand(driver) == slot(Quantity.IR_LE, Stage.DEAD, "C1")
        assert "insulation L-N: within. > 999 MΩ" in said(driver)


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("35 m", "mohm"),
    ],
)
async def test_wrong_input_is_refused_with_what_is_right_and_stays_in_the_field(
    tmp_path: Path, typed: str, why: str
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type(typed + "\n")

        assert why in said(driver)
        assert screen(driver).field.text == typed
        assert not driver.record.readings
        assert in_hand(driver) == R1


async def test_a_quick_hand_puts_each_value_where_it_belongs(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        keys = [*"0.28", "enter", *"0.29", "enter", *".47", "enter"]
        for key in keys:
            driver.app.post_message(events.Key(key, key if len(key) == 1 else None))
        await driver.settled()

        ring = (Quantity.R1, Quantity.RN, Quantity.R2)
        taken = [values(driver.record, slot(each, Stage.DEAD, "C1")) for each in ring]
        assert taken == [["0.28"], ["0.29"], ["0.47"]]


async def test_a_second_reading_needs_its_key_and_the_first_stays(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
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


async def test_could_not_and_not_needed_want_a_reason_in_words(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("c\n")
        assert "Give the reason" in driver.words
        await driver.type("board [/] locked\n")
        await driver.settled()
        assert values(driver.record, R1) == ["board [/] locked"]

        await driver.type("x")
        await driver.type("one leg only\n")
        await driver.settled()

        assert values(driver.record, slot(Quantity.RN, Stage.DEAD, "C1")) == ["one leg only"]
        await driver.keys("up", "up")
        assert "could not be taken" in driver.words
        assert "board [/] locked" in driver.words


async def test_a_reason_left_with_escape_is_there_again(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("cneighbour at")
        await driver.keys("escape")
        assert not driver.record.readings
        await driver.type("c home\n")
        await driver.settled()

        assert values(driver.record, R1) == ["neighbour at home"]


async def test_250_volts_need_a_reason_and_hold_for_that_circuit_only(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LN, "C2")
        await past_cautions(driver)
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
    assert next_one.method == ""


async def test_a_note_and_a_method_go_with_the_next_reading_only(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("tlong lead\nrained\n")
        await driver.settled()
        assert "method: long lead" in driver.words
        await driver.type("0.28\n0.28\n")

        first, second = driver.record.readings
    assert (first.method, first.note) == ("long lead", "rained")
    assert (second.method, second.note) == ("", "")


async def test_the_order_can_be_changed_and_the_place_is_kept(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LN, "C1")
        await driver.keys("ctrl+o")
        await driver.settled()
        assert in_hand(driver) == slot(Quantity.IR_LN, Stage.DEAD, "C1")
        assert "0 of 29 taken · none open · by circuit" in driver.words
        await driver.keys("pagedown")
        assert in_hand(driver).place.circuit == "C2"
        await driver.keys("pageup")
        assert in_hand(driver).quantity is Quantity.R1


async def test_a_half_typed_value_outlives_leaving_resizing_and_moving(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("0.2")
        await driver.pilot.resize_terminal(120, 40)
        await driver.pilot.resize_terminal(62, 20)
        await driver.settled()
        assert screen(driver).field.text == "0.2"
        await driver.keys("down")
        assert screen(driver).field.text == ""
        await driver.keys("f3")
        await go(driver, Step.DEAD_TESTS)
        await to_slot(driver, Quantity.R1)

        assert screen(driver).field.text == "0.2"
        await driver.type("8\n")
        assert values(driver.record, R1) == ["0.28"]


async def test_a_reading_that_is_not_on_disk_is_not_taken_and_stays_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from records.errors import CannotWrite

    def full(*_: object, **__: object) -> None:
        raise CannotWrite("The disk is full: free some space, then press Enter again.")

    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        monkeypatch.setattr(driver.app.session.file, "change", full)
        await driver.type("0.28\n")

        assert "The disk is full" in said(driver)
        assert in_hand(driver) == R1
        assert screen(driver).field.text == "0.28"
        assert "NOT ON DISK" in driver.screen
        monkeypatch.undo()
        await driver.keys("enter")
        assert values(driver.record, R1) == ["0.28"]


async def test_a_record_open_for_looking_takes_nothing(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS):
        pass
    async with at(tmp_path, Step.DEAD_TESTS, read_only=True) as driver:
        await driver.type("0.28c\n")

        assert "for reading only" in said(driver)
        assert not driver.record.readings


async def test_why_shows_the_whole_of_a_verdict_and_how_it_is_taken(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1)
        await driver.type("w")
        await driver.settled()
        assert "Limit" in driver.words
        await driver.keys("end")
        await driver.settled()

        assert "How it is taken" in driver.words


async def test_the_text_of_the_record_is_shown_as_it_is(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, size=WIDE) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1_R2, "C2")

        assert "C2 Light [loft] · R1+R2" in driver.words


@pytest.mark.parametrize("size", [(60, 18), (48, 14)])
async def test_a_small_window_still_shows_what_is_typed_and_what_it_must_not_pass(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, size=size) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LE, "C1")
        await past_cautions(driver)
        await driver.type("1.3")

        assert "Reading ▸ 1.3 = 1.30 MΩ" in driver.words
        assert "at least 1.0 MΩ" in driver.words
        await go(driver, Step.REVIEW)
        await again(driver)
        await driver.type("7")
        assert "Reading ▸ 7" in driver.words


@pytest.mark.parametrize(
    ("word", "seen"),
    [("could not be", "Why not?"), ("grid", "F9 list"), ("order of", "^O by test")],
)
async def test_the_palette_has_the_keys_of_the_bench_too(
    tmp_path: Path, word: str, seen: str
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        await driver.type("0.2")
        await driver.keys("ctrl+p")
        await driver.type(word)
        await driver.settled()
        await driver.keys("enter")
        await driver.settled()

        assert seen in driver.words
