"""The review: findings, remedies, re-tests, by keys alone."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from records.interlock.comes_off import ZE
from records.model.reading import Quantity, Slot
from records.model.record import Record
from records.taking import desk
from records.terms import Stage, Step, Verdict, WorkKind
from tests.taking.job import slot, small_job, with_figure
from tests.tui.at_bench import Clock, again, at, go, in_hand, past_cautions, said, values
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


async def test_the_worst_stands_first_with_all_there_is_to_say_and_the_filter_goes_round(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        for size in (WIDE, NARROW):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "✗ 1 outside" in driver.words, size
            assert "✗ outside C1 insulation L-E: 0.20 MΩ" in driver.words, size
            assert (await on_top(driver)).listing.current.slot == IR, size
            whole = await whole_text(driver)
            for words in (
                "Reading: 0.20 MΩ",
                "limit at least 1.0 MΩ",
                "Source: BS 7671:2018+A2:2022, Table 64",
                "Likely cause: 1.",
                "Do next:",
                "1st: 0.20 MΩ",
            ):
                assert words in whole, size
            await driver.keys("escape")

        await driver.keys("end")
        assert (await on_top(driver)).listing.current.verdict is Verdict.NOT_TAKEN
        assert "· not taken" in driver.words, "what is not taken comes last"

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
        assert "f within" in driver.words, "the filter is kept"


async def whole_text(driver: Driver) -> str:
    """Open the text of the verdict in hand and return all of it."""
    await driver.keys("enter")
    await driver.settled()
    whole = driver.words
    for key in ("pagedown", "pagedown", "end"):
        await driver.keys(key)
        await driver.settled()
        whole += driver.words
    return whole


async def test_a_failing_reading_gets_a_remedy_and_a_re_test_and_the_first_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    job = with_figure(faulty(), slot(Quantity.R1, Stage.DEAD, "C1"), 0.3)
    async with at(tmp_path, Step.REVIEW, job) as driver:
        await choose(driver, IR)
        await driver.keys("r", "down", "down", "enter")
        for empty in ("\n\n", "ok\n\n"):
            await driver.type(empty)
            assert "few words" in driver.words, "a remedy says what was done"
            await driver.keys("up", "ctrl+u")
        assert driver.record.remedies == ()
        await driver.type("Screw drawn <b>, [/] cable cut back\n\n")
        await driver.settled()
        assert "On record" in said(driver)
        assert "Then repeat C1 Bench sockets" in said(driver), "what the work makes void"
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


async def test_a_dead_re_test_shows_what_to_make_sure_of_and_keeps_what_is_half_typed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Safe isolation before any dead test: HSE HSG85 (from memory)."""
    monkeypatch.setattr(desk, "present", Clock())
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
        assert await again(driver) == 0, "once each"

        await driver.type("1,250\n")
        assert "1.250 or 1250" in said(driver)
        assert (await on_top(driver)).field.text == "1,250"
        await driver.keys("escape")
        assert (await on_top(driver)).field.text == "", "Esc clears a wrong value"
        await driver.type("0.1")
        await driver.keys("escape", "a")
        await driver.settled()
        assert (await on_top(driver)).field.text == "0.1", "and only then leaves it"
        assert values(driver.record, IR) == ["0.2"]

        await driver.keys("enter")
        await driver.settled()
        assert values(driver.record, IR) == ["0.2", "0.1"]
        await choose(driver, IR)
        assert "· ✗ outside" in await whole_text(driver), "the first keeps its own verdict"


async def test_g_goes_to_the_bench_at_that_very_reading_for_remedy_and_re_test(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.type("g")
        await driver.settled()
        assert driver.app.screen.step is Step.DEAD_TESTS
        assert in_hand(driver) == IR

        await driver.type("t\n\nScrew drawn\njoint\n")
        await driver.settled()
        await driver.type("a")
        await past_cautions(driver)
        await driver.type(">999\n")
        assert values(driver.record, IR) == ["0.2", ">999"]
        assert driver.record.remedies[0].done == "Screw drawn"
        assert driver.record.remedies[0].kind is WorkKind.JOINT


async def test_where_no_re_test_helps_or_may_be_it_is_said_what_comes_first(
    tmp_path: Path,
) -> None:
    ring, light, heater = small_job().circuits
    long = light.model_copy(
        update={"runs": (light.runs[0].model_copy(update={"length": 400.0}),), "load": 6.0}
    )
    job = small_job().model_copy(update={"circuits": (ring, long, heater)})
    job = with_figure(job, slot(Quantity.ZS, Stage.LIVE, "C1"), 9.0)
    async with at(tmp_path, Step.REVIEW, job) as driver:
        await choose(
            driver, "C1 Bench sockets: Zs at the furthest point (earth fault loop impedance)"
        )
        await again(driver)
        assert "Nothing goes live yet" in said(driver), "the dead tests come first"
        assert len(driver.record.readings) == 1

        await choose(driver, "voltage drop")
        await again(driver)
        assert "press g" in said(driver), "a design finding has no field"
        await driver.type("g")
        await driver.settled()
        assert driver.app.screen.step is Step.CIRCUITS, "it leads to its design"


async def test_no_re_test_while_the_earth_is_off(tmp_path: Path) -> None:
    async with at(tmp_path, Step.REVIEW, with_figure(faulty(), ZE, 0.35)) as driver:
        await choose(driver, IR)
        await again(driver)

        assert "is the earth back on its bar" in said(driver)


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
        whole = await whole_text(driver)
        assert "Found: 0.20 MΩ ✗ outside" in whole
        assert "first reading was wrong: probe slipped" in whole


async def test_cautions_read_hours_ago_come_again_over_the_field_and_what_is_typed_waits(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    late = timedelta()
    clock = Clock()
    monkeypatch.setattr(desk, "present", lambda: clock() + late)
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await again(driver)
        await driver.type(">999")
        late = timedelta(hours=5)
        await driver.keys("enter")
        await driver.settled()
        assert "Before the first dead test" in driver.words
        for _ in range(2):
            await driver.keys("end", "y")
            await driver.settled()

        assert values(driver.record, IR) == ["0.2"]
        assert ">999 waits in its field" in said(driver)
        await driver.keys("enter")
        await driver.settled()
        assert values(driver.record, IR) == ["0.2", ">999"]
        assert "What was done in between is not said" in said(driver)
