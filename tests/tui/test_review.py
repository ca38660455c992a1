"""The review: findings, remedies, re-tests, by keys alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.interlock.comes_off import ZE
from records.model.reading import Quantity, Slot
from records.model.record import Record
from records.taking import desk
from records.terms import Stage, Step, Verdict, WorkKind
from tests.taking.job import slot, small_job, with_figure
from tests.tui.at_bench import Clock, again, at, go, in_hand, past_cautions, said, to_slot, values
from tests.tui.driving import NARROW, WIDE, Driver
from tui.steps.review import Review

IR = slot(Quantity.IR_LE, Stage.DEAD, "C1")


def faulty() -> Record:
    """Return the small job with one insulation reading far under its limit."""
    job = with_figure(small_job(), IR.model_copy(update={"stage": Stage.BEFORE_COVERING}), 999)
    return with_figure(job, IR, 0.2)


async def on_top(driver: Driver) -> Review:
    screen = driver.app.screen
    assert isinstance(screen, Review)
    assert screen.listing.current is not None
    return screen


async def choose(driver: Driver, wanted: str | Slot) -> None:
    """Walk down the list to the verdict on a slot, or whose title has these words."""
    screen = await on_top(driver)
    for _ in range(150):
        current = screen.listing.current
        if current is not None and (current.slot == wanted or str(wanted) in current.title):
            return
        await driver.keys("down")
    raise AssertionError(f"No “{wanted}” in the review:\n{driver.screen}")


@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_the_worst_stands_first_with_all_there_is_to_say_about_it(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at(tmp_path, Step.REVIEW, faulty(), size=size) as driver:
        screen = await on_top(driver)
        assert "✗ 1 outside" in driver.words
        assert "✗ outside C1 insulation L-E: 0.20 MΩ" in driver.words
        assert screen.listing.current.slot == IR

        await driver.keys("enter")
        await driver.settled()
        whole = driver.words
        for key in ("pagedown", "pagedown", "end"):
            await driver.keys(key)
            await driver.settled()
            whole += driver.words

    for words in (
        "Reading: 0.20 MΩ",
        "limit at least 1.0 MΩ",
        "Source: BS 7671:2018+A2:2022, Table 64",
        "Likely cause: 1.",
        "Do next:",
        "1st: 0.20 MΩ",
    ):
        assert words in whole


async def test_verdicts_run_from_outside_to_not_taken(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.keys("end")
        screen = await on_top(driver)
        assert screen.listing.current.verdict is Verdict.NOT_TAKEN
        assert "· not taken" in driver.words


async def test_a_failing_reading_gets_a_remedy_and_a_re_test_and_the_first_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.keys("r", "down", "down", "enter")
        await driver.type("Screw drawn <b>, [/] cable cut back\n\n")
        await driver.settled()
        assert "On record" in said(driver)
        assert "done, test again" in driver.words

        await again(driver)
        await driver.type(">999")
        await driver.settled()
        assert "= > 999 MΩ" in driver.words
        assert "✓ within" in driver.words
        await driver.keys("enter")
        await driver.settled()

        record = driver.record
        assert values(record, IR) == ["0.2", ">999"]
        (remedy,) = record.remedies
        assert remedy.done == "Screw drawn <b>, [/] cable cut back"
        assert remedy.by == "A1"
        assert remedy.kind is WorkKind.CABLE
        assert remedy.about == (IR,)
        lines = driver.app.session.review.of(IR)
        assert lines[0].verdict is Verdict.WITHIN
        assert lines[0].attempts[0].taken.value == 0.2
        assert "outside" not in said(driver)

        await driver.type("fff")
        await driver.settled()
        await choose(driver, IR)
        await driver.keys("enter")
        await driver.settled()
        await driver.keys("end")
        await driver.settled()
        assert "0.20 MΩ" in driver.words
        assert "Screw drawn" in driver.words


@pytest.mark.parametrize("typed", ["", "ok"])
async def test_a_remedy_says_what_was_done(tmp_path: Path, typed: str) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.keys("r", "enter")
        await driver.type(f"{typed}\n\n")

        assert "few words" in driver.words
        assert driver.record.remedies == ()


async def test_escape_clears_a_wrong_value_of_the_re_test_and_only_then_leaves_it(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await again(driver)
        await driver.type("1,250\n")
        assert "1.250 or 1250" in said(driver)
        assert (await on_top(driver)).field.text == "1,250"
        await driver.keys("escape")
        assert (await on_top(driver)).field.text == ""
        await driver.type("0.1")
        await driver.keys("escape", "a")
        await driver.settled()
        assert (await on_top(driver)).field.text == "0.1"
        assert values(driver.record, IR) == ["0.2"]


async def test_g_goes_to_the_bench_at_that_very_reading(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.type("g")
        await driver.settled()

        assert driver.app.screen.step is Step.DEAD_TESTS
        assert in_hand(driver) == IR
        await driver.type("a>999\n")
        await driver.settled()
        await past_cautions(driver)


async def test_a_live_re_test_from_here_waits_for_the_dead_tests(tmp_path: Path) -> None:
    job = with_figure(small_job(), slot(Quantity.ZS, Stage.LIVE, "C1"), 9.0)
    async with at(tmp_path, Step.REVIEW, job) as driver:
        await choose(
            driver, "C1 Bench sockets: Zs at the furthest point (earth fault loop impedance)"
        )
        await again(driver)

        assert "Nothing goes live yet" in said(driver)
        assert len(driver.record.readings) == 1


async def test_no_re_test_while_the_earth_is_off(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, with_figure(faulty(), ZE, 0.35)) as driver:
        await choose(driver, IR)
        await again(driver)

        assert "is the earth back on its bar" in said(driver)


async def test_a_design_finding_leads_to_its_design_and_has_no_field(tmp_path: Path) -> None:
    ring, light, heater = small_job().circuits
    long = light.model_copy(
        update={"runs": (light.runs[0].model_copy(update={"length": 400.0}),), "load": 6.0}
    )
    job = small_job().model_copy(update={"circuits": (ring, long, heater)})
    async with at(tmp_path, Step.REVIEW, job) as driver:
        await choose(driver, "voltage drop")
        await again(driver)
        assert "press g" in said(driver)
        await driver.type("g")
        await driver.settled()

        assert driver.app.screen.step is Step.CIRCUITS


async def test_the_filter_goes_round_and_the_place_is_kept(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.type("f")
        await driver.settled()
        assert "f problems" in driver.words
        assert "not taken C" not in driver.words
        await driver.type("f")
        await driver.settled()
        assert "f put right" in driver.words
        await driver.type("f")
        await driver.settled()
        assert "f within" in driver.words
        await go(driver, Step.DEAD_TESTS)
        await go(driver, Step.REVIEW)

        assert "f within" in driver.words


async def test_a_record_open_for_looking_takes_no_remedy(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()):
        pass
    async with at(tmp_path, Step.REVIEW, read_only=True) as driver:
        await driver.type("r")
        await driver.settled()

        assert "for reading only" in said(driver)


async def test_from_the_bench_a_remedy_can_be_noted_before_the_re_test(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, faulty()) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.IR_LE, "C1")
        await driver.type("t\n\nScrew drawn\njoint\n")
        await driver.settled()
        await driver.type("a")
        await past_cautions(driver)
        await driver.type(">999\n")

        assert values(driver.record, IR) == ["0.2", ">999"]
        assert driver.record.remedies[0].done == "Screw drawn"
        assert driver.record.remedies[0].kind is WorkKind.JOINT


async def test_a_dead_re_test_shows_what_to_make_sure_of_first_and_once(tmp_path: Path) -> None:
    """Safe isolation before any dead test: HSE HSG85 (from memory)."""
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.type("a")
        await driver.settled()
        assert "Before the first dead test" in driver.words
        assert "Prove dead at the place of work" in driver.words

        await driver.keys("n")
        await driver.settled()
        assert not driver.app.screen.has_class("-testing")

        assert await again(driver) == 2  # safe isolation, then insulation
        assert driver.app.screen.has_class("-testing")
        await driver.keys("escape")
        assert await again(driver) == 0


async def test_a_reading_that_turned_good_by_itself_is_answered_for_by_keys(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, with_figure(faulty(), IR, 999)) as driver:
        await choose(driver, "what was done")
        await driver.keys("r", "end", "enter")
        await driver.settled()
        assert "Why was the first reading wrong?" in driver.words
        await driver.type("probe slipped\ntomorrow\n")
        assert "is not a day" in driver.words
        assert driver.record.remedies == ()
        await driver.keys(*["backspace"] * len("tomorrow"))
        await driver.keys("enter")
        await driver.settled()

        (remedy,) = driver.record.remedies
        assert remedy.kind is WorkKind.MISREAD
        lines = driver.app.session.review.of(IR)
        assert [each.verdict for each in lines] == [Verdict.WITHIN]
        await driver.type("ff")
        await driver.settled()
        await choose(driver, IR)
        await driver.keys("enter")
        await driver.settled()
        whole = driver.words
        for key in ("pagedown", "pagedown", "end"):
            await driver.keys(key)
            await driver.settled()
            whole += driver.words
        assert "Found: 0.20 MΩ ✗ outside" in whole
        assert "first reading was wrong: probe slipped" in whole


async def test_what_the_work_makes_void_is_said_at_once(tmp_path: Path) -> None:
    job = with_figure(faulty(), slot(Quantity.R1, Stage.DEAD, "C1"), 0.3)
    async with at(tmp_path, Step.REVIEW, job) as driver:
        await choose(driver, IR)
        await driver.keys("r", "down", "down", "enter")
        await driver.type("cut back\n\n")
        await driver.settled()

        assert "Then repeat C1 Bench sockets" in said(driver)
