"""Hand over: what is missing, and a document that opens."""

from __future__ import annotations

from pathlib import Path

import pytest
from docx import Document

from records.model.reading import Quantity
from records.terms import Stage, Step
from tests.taking.job import slot, small_job, with_figure
from tests.tui.at_bench import at, go, past_cautions, said
from tests.tui.driving import WIDE, Driver

R1 = slot(Quantity.R1, Stage.DEAD, "C1")


async def written(driver: Driver) -> None:
    """Wait until the document is written, or is not."""
    await driver.settled()
    assert "ritten" in driver.words, driver.screen


def text_of(path: Path) -> str:
    document = Document(str(path))
    cells = (cell.text for table in document.tables for row in table.rows for cell in row.cells)
    return "\n".join((*(each.text for each in document.paragraphs), *cells))


async def test_it_says_step_by_step_what_is_missing_and_what_a_reader_has_to_know(
    tmp_path: Path,
) -> None:
    async with at(tmp_path, Step.DEAD_TESTS, size=(100, 90)) as driver:
        await past_cautions(driver)
        await driver.type("cfeed is live\n\n")
        await driver.settled()
        await go(driver, Step.HAND_OVER)

        assert "Dead tests begun" in driver.words
        assert "still to test" in driver.words
        assert "could not be taken: feed is live" in driver.words
        assert "installer's test record" in driver.words
        assert "certifies nothing" in driver.words


async def test_the_document_is_written_where_it_may_be_opens_and_replaces_nothing_unasked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from records.document import schedule
    from records.errors import CannotWrite

    def full(*_: object, **__: object) -> None:
        raise CannotWrite("The disk is full.")

    job = with_figure(small_job(), R1, 0.28)
    async with at(tmp_path, Step.HAND_OVER, job) as driver:
        for typed, why in (
            ("", "Type a file name"),
            ("no such folder/a.docx", "no folder"),
            ("schedule.pdf", ".docx"),
            ("job.farboard", ".docx"),
            (".", "folder"),
            ("~nobody-here/a.docx", "no such person"),
        ):
            await driver.keys("enter")
            await driver.settled()
            await driver.keys("ctrl+u")
            await driver.type(typed + "\n")
            assert why in driver.words, typed
            await driver.keys("escape")
        assert not list(tmp_path.glob("*.docx"))

        with monkeypatch.context() as patch:
            patch.setattr(schedule, "write_schedule", full)
            await driver.keys("enter")
            await driver.settled()
            assert "~nobody-here/a.docx" in driver.words, "what was refused stays"
            await driver.keys("ctrl+u")
            await driver.type("job\n")
            await written(driver)
            assert "The document was not written: The disk is full." in driver.words
            assert not (tmp_path / "job.docx").exists()

        (tmp_path / "job.docx").write_bytes(b"mine")
        await driver.keys("enter", "enter")
        await driver.settled()
        assert "Replace the document" in driver.words
        await driver.keys("n")
        await driver.settled()
        assert (tmp_path / "job.docx").read_bytes() == b"mine"
        assert "Nothing was written" in said(driver)
        await driver.keys("enter", "enter")
        await driver.settled()
        await driver.keys("y")
        await written(driver)
        text = text_of(tmp_path / "job.docx")
        for words in ("J-7", "Light [loft]", "0.28 Ω"):
            assert words in text

    (tmp_path / "job.docx").unlink()
    async with at(tmp_path, Step.HAND_OVER, size=WIDE) as driver:
        await driver.keys("enter")
        await driver.settled()
        assert "job.docx" in driver.words
        await driver.keys("enter")
        await written(driver)
        assert "Written:" in driver.words
        assert driver.app.session.fingerprint in driver.words
        assert "0.28 Ω" in text_of(tmp_path / "job.docx"), "beside the record"
        await driver.keys("enter")
        await driver.settled()
        await driver.keys("ctrl+u")
        await driver.type("shed 7.2\n")
        await written(driver)
        assert (tmp_path / "shed 7.2.docx").is_file(), "a name with a point is kept whole"
