"""The bench run line by line on a small job, and what is in its file after."""

from __future__ import annotations

from pathlib import Path

from records.model.reading import Figure, Quantity
from records.model.record import Record
from records.store.file import RecordFile
from records.terms import Stage
from tests.commands.conftest import Ran, Run
from tests.taking.job import slot

R1 = slot(Quantity.R1, Stage.DEAD, "C1")
ZE = slot(Quantity.ZE, Stage.LIVE)


def made(folder: Path, record: Record) -> Path:
    """Return a file with a job in it."""
    path = folder / "job.farboard"
    RecordFile.create(path, record, by="Wren Oakes").close()
    return path


def record_of(job: Path) -> Record:
    """Return what a file says."""
    with RecordFile.open(job, read_only=True) as file:
        return file.record


def talk(
    run: Run, job: Path, *answers: str, stage: str = "dead", more: tuple[str, ...] = ()
) -> Ran:
    """Run the bench line by line on a stage, with answers through a pipe."""
    return run(
        "bench", job, "--plain", "--stage", stage, *more, typed="".join(f"{a}\n" for a in answers)
    )


def figures(job: Path) -> list[tuple[str, float]]:
    """Return the readings of a file: which, and what."""
    return [
        (each.slot.quantity.value, each.taken.value)
        for each in record_of(job).readings
        if isinstance(each.taken, Figure)
    ]
