"""A meter that doesn't null its leads, by keys: what is typed, echoed, kept, and said later."""

from __future__ import annotations

from pathlib import Path

from records.model.reading import Figure, Quantity
from records.store.edits import put
from records.terms import Stage, Step
from tests.taking.job import slot
from tests.taking.test_leads import KNOWN, METER, job_with
from tests.tui.at_bench import at, go, in_hand, past_cautions, said, screen, to_slot
from tests.tui.driving import NARROW, WIDE

R1 = slot(Quantity.R1, Stage.DEAD, "C1")


async def test_what_the_meter_shows_is_typed_and_the_leads_come_off(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, job_with(KNOWN)) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1, "C1")
        assert "less 0.05 Ω leads" in driver.words
        assert "0.05 Ω for its leads is taken off" in screen(driver).help_in_focus()
        await driver.type("10.34")
        for size in (WIDE, (50, 20), NARROW):
            await driver.pilot.resize_terminal(*size)
            await driver.settled()
            assert "= 10.29 Ω" in driver.screen, "no figure of the echo is cut"
        await driver.keys("ctrl+u")
        await driver.type(".34")
        await driver.settled()
        assert "0.34 Ω − 0.05 Ω leads = 0.29 Ω" in driver.screen
        await driver.keys("enter")

        (made,) = driver.record.readings
        assert made.taken == Figure(value=0.29, typed=".34", leads=0.05)
        assert "0.29 Ω (0.34 Ω − 0.05 Ω leads)" in said(driver)
        assert in_hand(driver).quantity is Quantity.RN

        await driver.type(">20")
        await driver.settled()
        assert "= > 20 Ω, no leads taken off" in driver.screen
        await driver.keys("enter")
        assert driver.record.readings[-1].taken == Figure(value=20, sign=">", typed=">20")

        # What is said of the meter later changes nothing that was read with it.
        driver.app.session.change(put("/job/instruments/0/leads", 0.2))
        await driver.settled()
        assert driver.record.readings[0] == made
        await driver.type("0.34")
        await driver.settled()
        assert "0.34 Ω − 0.20 Ω leads = 0.14 Ω" in driver.screen


async def test_a_re_test_in_the_review_takes_them_off_as_well(tmp_path: Path) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, job_with(KNOWN)) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1, "C1")
        await driver.type("9.1\n")
        await go(driver, Step.REVIEW)
        assert "9.05 Ω (9.10 Ω − 0.05 Ω leads)" in driver.words
        await driver.keys("a")
        await driver.settled()
        assert "0.05 Ω for its leads is taken off" in driver.words
        await driver.type("0.34")
        await driver.settled()
        assert "0.34 Ω − 0.05 Ω leads = 0.29 Ω" in driver.screen
        await driver.keys("enter")
        assert [each.taken for each in driver.record.taken(R1)] == [
            Figure(value=9.05, typed="9.1", leads=0.05),
            Figure(value=0.29, typed="0.34", leads=0.05),
        ]


async def test_leads_that_nobody_knows_are_asked_for_until_the_page_of_the_meter_has_them(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, job_with(METER)) as driver:
        await past_cautions(driver)
        await to_slot(driver, Quantity.R1, "C1")
        assert (
            "! Meter 0412 doesn't null its leads, and what they have is not entered" in driver.words
        )
        assert "Join the tips and enter what it shows (step Job)" in driver.words
        await driver.type("0.34\n")
        assert driver.record.readings[0].taken == Figure(value=0.34, typed="0.34")
        await to_slot(driver, Quantity.IR_LN, "C1")
        assert "doesn't null" not in driver.words, "leads don't count there"

        await go(driver, Step.JOB)
        await driver.row("multifunction tester")
        await driver.keys("enter")
        assert "Join the tips and enter the lead resistance" in driver.words
        await driver.row("Lead resistance")
        await driver.type("5\n")
        assert "5 Ω is more than sound leads have" in driver.words

        await go(driver, Step.DEAD_TESTS)
        await to_slot(driver, Quantity.RN, "C1")
        await driver.type("0.34\n")
        assert "Correct the lead resistance of the instrument in the step Job" in said(driver)
        assert screen(driver).field.text == "0.34", "what was refused stays"
        assert len(driver.record.readings) == 1

        await go(driver, Step.JOB)
        if "Lead resistance" not in driver.screen:
            await driver.row("multifunction tester")
            await driver.keys("enter")
        await driver.row("Lead resistance")
        await driver.keys("ctrl+u")
        await driver.type("0.05\n")
        assert "0.05 Ω is taken off each low-resistance reading from now on" in driver.words
        await driver.row("Leads nulled")
        await driver.type("y\n")
        assert "is taken off each" not in driver.words
        assert driver.record.job.instruments[0].nulled is True
