"""At the bench a reading says that a changed design judges it anew, and what changed."""

from __future__ import annotations

from pathlib import Path

from records.model.reading import Figure, Quantity, Reading
from records.store.edits import append, put
from records.store.file import RecordFile
from records.terms import Stage, Step
from tests.taking.job import AT, slot, small_job
from tests.tui.at_bench import at, past_cautions, to_slot

CHANGED = "Judged again, for the design changed since it was read: Circuit C2, run 1, Length: "


def made(folder: Path) -> Path:
    """Return a record with a reading, whose circuit was made longer afterwards."""
    path = folder / "job.farboard"
    taken = Figure(value=0.3)
    first = Reading(id="R1", slot=slot(Quantity.R1_R2, Stage.DEAD, "C2"), taken=taken, at=AT)
    with RecordFile.create(path, small_job()) as file:
        file.change(append("/readings", first))
        file.change(put("/circuits/1/runs/0/length", 90.0))
    return path


async def test_the_card_says_what_changed_since_it_was_read(tmp_path: Path) -> None:
    made(tmp_path)
    async with at(tmp_path, Step.DEAD_TESTS) as driver:
        await to_slot(driver, Quantity.R1_R2, "C2")
        await past_cautions(driver)

        assert CHANGED in driver.words
        assert "→ 90 m" in driver.words
        await driver.keys("f9")
        await driver.settled()
        assert "Judged again: the design changed since." in driver.words

        await driver.keys("f9")
        await driver.settled()
        await to_slot(driver, Quantity.R1, "C1")  # nothing was read there
        assert "anew" not in driver.words
