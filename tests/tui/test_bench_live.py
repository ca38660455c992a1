"""Live tests stand behind a question, and the earth goes back before anything else."""

from __future__ import annotations

from pathlib import Path

from records.interlock.comes_off import EARTH_BACK, ZE
from records.model.reading import Quantity
from records.model.record import Record
from records.taking.act_names import KEYS
from records.taking.prompt import LOCKED as LOCKED_WORDS
from records.terms import Stage, Step
from tests.taking.job import put_back, ready_job, slot, with_figure
from tests.tui.at_bench import at, in_hand, past_cautions, said, screen, to_slot, values
from tests.tui.driving import NARROW, WIDE, Driver
from tui.dialogs.reader import Reader

BAD_R1 = slot(Quantity.R1, Stage.DEAD, "C1")
LOCKED = LOCKED_WORDS.format(KEYS.ask)
TITLE = "Is the installation safe to test live"


def with_a_fault() -> Record:
    return put_back(with_figure(ready_job(), BAD_R1, 9.9))


async def open_gate(driver: Driver) -> None:
    await driver.keys("end", "y")
    await driver.settled()


async def test_refusing_locks_the_step_and_records_nothing_but_all_can_be_looked_at(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.LIVE_TESTS, ready_job()) as driver:
        before = driver.app.session.fingerprint
        for no in ("n", "escape"):
            assert TITLE in driver.words
            await driver.keys(no)
            await driver.settled()
            assert driver.app.screen.step is Step.LIVE_TESTS
            assert LOCKED in driver.words
            assert in_hand(driver).quantity is Quantity.POLARITY  # at the origin
            assert "Before the first live" not in driver.words  # a caution says that Enter goes on
            if no == "n":
                await driver.type("0.35\n")  # Enter in the field that took nothing asks again
                await driver.settled()
        for key in ("c", "x", "t", "a", "o", "y"):
            await driver.keys(key)
            assert LOCKED in said(driver), key
            assert driver.app.screen is screen(driver)

        assert "Enter asks the question" in driver.words
        await driver.keys("down", "down", "m")
        assert "Still to test" in driver.words, "what is missing can be looked at"
        await driver.keys("escape", "w")
        assert isinstance(driver.app.screen, Reader)
        await driver.keys("escape", "f9")
        assert LOCKED in driver.words
        assert driver.record.live_gate == ()
        assert driver.record.readings == ready_job().readings
        assert driver.app.session.fingerprint == before


async def test_who_refuses_walks_on_and_back_and_is_not_held_up_again(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, ready_job()) as driver:
        await driver.keys("f4")
        await driver.settled()
        await driver.keys("n")
        await driver.settled()
        for key, step in (
            ("f4", Step.REVIEW),
            ("f3", Step.LIVE_TESTS),
            ("f3", Step.DEAD_TESTS),
            ("f4", Step.LIVE_TESTS),
            ("f4", Step.REVIEW),
        ):
            await driver.keys(key)
            await driver.settled()
            assert driver.app.screen.step is step
            assert TITLE not in driver.words
        await driver.keys("f3")
        await driver.settled()
        assert LOCKED in driver.words

        await driver.keys("enter")
        await driver.settled()
        assert TITLE in driver.words
        await open_gate(driver)
        assert LOCKED not in driver.words
        assert len(driver.record.live_gate) == 1


async def test_yes_counts_once_the_end_was_on_the_screen_and_says_what_may_go_live(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.LIVE_TESTS, with_a_fault()) as driver:
        await driver.keys("enter")
        assert "Press one of the two" in driver.words, "Enter is no answer"
        for size in (WIDE, NARROW):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "These stay locked off until they are satisfactory" in driver.words, size
            assert "C1 Bench sockets: r1 " in driver.words, size
        assert "Local rules and a competent person on the spot" not in driver.words
        for _ in range(3):
            await driver.keys("y")
            await driver.settled()
            assert "Read it to the end first" in driver.words
            assert driver.record.live_gate == ()
        await driver.keys("pagedown")
        await driver.settled()
        await driver.keys("end")
        await driver.settled()
        assert "May go live, one circuit at a time: C2 Light [loft] and C3 Heater." in driver.words
        await driver.keys("y")
        await driver.settled()

        (gate,) = driver.record.live_gate
        assert gate.isolation_understood
        assert gate.by == "A1"
        assert gate.may_go_live == ("C2", "C3")
        assert any("C1 Bench sockets: r1 " in each for each in gate.locked_off)


async def test_nothing_goes_live_before_feed_and_board_are_right(tmp_path: Path) -> None:
    """There is no “in spite of that” for what everything else hangs on: common practice."""
    async with at(tmp_path, Step.LIVE_TESTS) as driver:
        assert (
            "Feed, board and earths must be satisfactory before anything goes live" in driver.words
        )
        await driver.keys("y")
        await driver.settled()
        assert driver.record.live_gate == ()
        await driver.keys("n")
        await driver.settled()
        await driver.type("y\n")

        assert driver.record.readings == ()


async def test_each_family_has_its_caution_and_after_ze_the_earth_comes_before_all_else(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.LIVE_TESTS, ready_job()) as driver:
        await open_gate(driver)
        assert "Before the first live reading at the origin" in driver.words
        await past_cautions(driver)
        await to_slot(driver, Quantity.ZE)
        assert "Before Ze" in driver.words
        while "Before Ze" in driver.words and "earth goes back FIRST" not in driver.words:
            await driver.keys("enter")
        assert "earth goes back FIRST" in driver.words
        await past_cautions(driver)
        await driver.type("0.35\n")
        assert values(driver.record, ZE) == ["0.35"]
        assert in_hand(driver) == EARTH_BACK
        assert "is the earth back on its bar" in driver.words

        await driver.keys("down")
        await driver.type("2.2\n")
        assert in_hand(driver) == EARTH_BACK
        assert "is the earth back" in said(driver)
        await driver.type("n\n")
        assert in_hand(driver) == EARTH_BACK
        assert [each.slot for each in driver.record.readings][-2:] == [ZE, EARTH_BACK]
        await driver.type("ay\n")
        assert values(driver.record, EARTH_BACK) == [False, True]
        assert in_hand(driver) == slot(Quantity.ZE, Stage.LIVE).model_copy(
            update={"quantity": Quantity.FAULT_LN}
        )
        assert screen(driver).field.text == "2.2", "what was typed meanwhile waits in its field"
        await driver.keys("enter")
        assert len(driver.record.readings) == len(ready_job().readings) + 4

        await to_slot(driver, Quantity.VOLTAGE)
        assert "Before you energise the board" in driver.words
        await past_cautions(driver)
        await to_slot(driver, Quantity.RCD_TIME, "C1")
        assert "Take the polarity of the supply first" in driver.words
