"""Passing a finding to the certifier, and how each reading stood, by keys alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.judgement.review_types import Life
from records.model.reading import Quantity
from records.model.record import Record
from records.taking import desk
from records.terms import Stage, Step, Verdict
from tests.taking.job import slot, small_job, with_figure
from tests.tui.at_bench import Clock, at, bench, in_hand, past_cautions, said, values
from tests.tui.driving import Driver
from tests.tui.test_review import whole_text

IR = slot(Quantity.IR_LE, Stage.DEAD, "C1")


def faulty() -> Record:
    """Return the small job with one insulation reading far under its limit."""
    return with_figure(small_job(), IR, 0.2)


async def test_a_finding_passed_to_the_certifier_stays_one_with_its_note(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    async with at(tmp_path, Step.REVIEW, faulty()) as driver:
        await driver.type("d\n")
        assert "few words" in driver.words, "passing on without a word is refused"
        assert driver.record.remedies == ()
        await driver.type("Wall is closed [b]; damp store\n")
        await driver.settled()

        assert "to decide by the certifier. It stays a finding." in said(driver)
        assert "✗ 1 outside" in driver.words
        (passed,) = driver.record.remedies
        assert passed.to_decide
        assert passed.done == "Wall is closed [b]; damp store"
        own = driver.app.session.review.of(IR)[0]
        assert (own.verdict, own.life) == (Verdict.OUTSIDE, Life.DECIDE)
        text = await whole_text(driver)
        assert "State: to decide by the certifier" in text
        assert "to the certifier, to decide: Wall is closed [b]; damp store" in text


async def test_a_test_that_nobody_asks_for_can_be_taken_and_is_judged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(desk, "present", Clock())
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await past_cautions(driver)
        before = len(bench(driver).queue.entries)
        await driver.type("o")
        await driver.settled()
        assert "Which test? Nobody asks for these." in driver.words
        group = next(
            at
            for at, line in enumerate(_choices(driver))
            if line.endswith("Insulation resistance of the whole sub-board")
        )
        await driver.keys(*["down"] * group, "enter")
        await driver.settled()
        await past_cautions(driver)

        asked = in_hand(driver)
        assert asked.quantity is Quantity.IR_GROUP
        assert len(bench(driver).queue.entries) == before + 1
        assert "without a reading nothing is missing" in said(driver)
        await driver.type("0.4\n")
        await driver.settled()
        assert values(driver.record, asked) == ["0.4"]
        assert driver.app.session.review.of(asked)[0].verdict is Verdict.OUTSIDE


def _choices(driver: Driver) -> list[str]:
    from tui.dialogs.pick import Pick

    assert isinstance(driver.app.screen, Pick)
    return [words for _, words in driver.app.screen._choices]
