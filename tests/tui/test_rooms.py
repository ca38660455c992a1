"""Rooms of points: asked for with the points, and what is missing listed by them."""

from __future__ import annotations

from pathlib import Path

from records.model.reading import Quantity
from records.model.record import Record
from records.model.slots import slots
from records.terms import Stage, Step
from tests.judgement.jobs import sound_job
from tests.judgement.test_walking import with_rooms
from tests.taking.job import small_job
from tests.tui.at_bench import at, bench, in_hand, past_cautions, said, screen
from tests.tui.driving import NARROW, WIDE, Driver
from tui.dialogs.missing import Missing

_LIST = "Still to test"


def read(driver: Driver) -> str:
    """Return the words in the box that stands over the step, without the mark of the line."""
    box = driver.app.screen.query_one("#dialog").content_region
    lines = driver.screen.splitlines()[box.y : box.bottom]
    words = " ".join(line[box.x : box.right] for line in lines)
    return " ".join(words.replace("▸", " ").split())


async def test_a_room_is_asked_for_and_those_named_before_are_suggested(tmp_path: Path) -> None:
    async with at(tmp_path, Step.CIRCUITS) as driver:
        await driver.keys("enter")
        await driver.row("Points")
        await driver.keys("enter")
        await driver.row("Room or place")
        assert "listed room by room" in driver.words
        await driver.type("Weaving room\n")
        assert driver.record.circuits[0].points[0].room == "Weaving room"
        assert "Room or place: Weaving room is on disk" in driver.words

        await driver.keys(*["down"] * 7)
        assert "Type how one begins, → takes the rest. Named so far: Weaving room." in driver.words
        await driver.type("we")
        await driver.settled()
        assert driver.record.circuits[0].points[1].room == ""
        await driver.keys("right", "enter")
        assert driver.record.circuits[0].points[1].room == "Weaving room"

        await driver.keys(*["down"] * 7)
        await driver.type("Wash\n")  # a suggestion that is not taken is not typed
        assert [each.room for each in driver.record.circuits[0].points] == [
            "Weaving room",
            "Weaving room",
            "Wash",
        ]


async def test_a_job_without_rooms_is_listed_as_well(tmp_path: Path) -> None:
    async with at(tmp_path, Step.LIVE_TESTS, small_job(), size=WIDE) as driver:
        await driver.keys("n")  # locked, it can be looked at
        await driver.settled()
        await driver.keys("m")
        words = read(driver)
        assert words.index("At the house Origin polarity") < words.index("At the sub-board Board")
        assert "No room named C1 Zs" in words


async def test_what_is_missing_is_listed_by_room_and_enter_goes_there(tmp_path: Path) -> None:
    job = with_rooms()
    async with at(tmp_path, Step.DEAD_TESTS, job) as driver:
        await past_cautions(driver)
        assert "m missing" in driver.words
        for size in ((48, 14), WIDE, NARROW):
            await driver.pilot.resize_terminal(*size)
            await driver.keys("m")
            await driver.settled()
            assert _LIST in driver.words, size
            assert "Esc back" in driver.words, size
            await driver.keys("escape")
        await driver.keys("m")
        assert isinstance(driver.app.screen, Missing)
        words = read(driver)
        assert f"{_LIST}: {len(slots(job, Stage.DEAD))}" in words
        assert words.index("At the sub-board") < words.index("Feed R1+R2") < words.index("C1 r1")
        assert "Esc back" in words

        await driver.keys("end")
        words = read(driver)
        heads = ["store, again", "hall, again", "No room named, again", "At the sub-board, again"]
        found = [words.index(each) for each in heads if each in words]
        assert found
        assert found == sorted(found)
        await driver.keys("enter")
        assert screen(driver).step is Step.DEAD_TESTS
        assert in_hand(driver).quantity is Quantity.PUT_BACK  # after all that comes off

        await driver.keys("m", "up", "up", "up", "up", "enter")  # it stands where the person is
        assert in_hand(driver).place.point == "P4"
        await driver.keys("m", "escape")
        assert in_hand(driver).place.point == "P4"
        await driver.type(".18")
        await driver.keys("m")  # in a field with text it is a letter
        assert screen(driver).field.text == ".18m"


async def test_the_card_says_in_which_room_one_stands_and_with_nothing_missing_it_says_so(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, with_rooms(sound_job())) as driver:
        here = bench(driver)
        (where,) = (
            number
            for number, each in enumerate(here.queue.entries)
            if each.slot.quantity == "R1+R2" and each.slot.place.circuit == "C2"
        )
        here.enter(where)
        screen(driver).show_all()
        await driver.settled()
        assert "C2 Radial (loft) · R1+R2" in driver.words
        await driver.keys("m")
        assert "Everything of this stage has something entered" in said(driver)


async def test_hand_over_lists_what_is_missing_in_walking_order(tmp_path: Path) -> None:
    async with at(tmp_path, Step.HAND_OVER, _without_dead_tests(), size=(120, 60)) as driver:
        words = driver.words
        heads = [
            "At the sub-board · Feed:",
            "store · C1 Ring:",
            "hall · C1 Ring:",
            "loft · C2 Radial: R1+R2 and polarity still to test.",
            "At the sub-board, again · C2 Radial:",
            "store, again · C1 Ring:",
        ]
        assert [words.index(each) for each in heads] == sorted(map(words.index, heads))


def _without_dead_tests() -> Record:
    job = with_rooms(sound_job())
    kept = tuple(each for each in job.readings if each.slot.stage is not Stage.DEAD)
    assert len(kept) < len(job.readings)
    return job.model_copy(update={"readings": kept})
