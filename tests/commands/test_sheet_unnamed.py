"""A sheet whose rows don't say who read them or with what: as at the bench, or said that not."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from records.model.job import Duty, Instrument, InstrumentKind, Person
from records.model.reading import Figure, Reading
from records.model.record import Record
from records.model.slots import measured_by
from records.store.file import RecordFile
from records.taking.stage_settings import StageSettings
from records.taking.typed_reading import reading, understand
from tests.commands.conftest import Run
from tests.commands.sheets import (
    IR,
    POLARITY,
    R1,
    RN,
    ZE,
    ZS,
    all_of,
    filled_in,
    put,
    record_of,
)
from tests.taking.test_leads import KNOWN, METER, job_with

DAY = "2026-03-20 14:30"
BUTTON = "circuit/C2/-/live/rcd-button"
ELSE = Instrument(id="M2", kind=InstrumentKind.LOW_OHM, serial="88", nulled=True)
OTHER = Person(id="A2", name="Rook Alder", duty=Duty.INSTALLS)


def made(
    tmp_path: Path, *more: Instrument, people: tuple[Person, ...] = (), meter: Instrument = KNOWN
) -> Path:
    """Make the small job with these instruments and people beside its own."""
    record = job_with(meter)
    job = record.job.model_copy(
        update={
            "instruments": (*record.job.instruments, *more),
            "people": (*record.job.people, *people),
        }
    )
    path = tmp_path / "job.farboard"
    RecordFile.create(path, record.model_copy(update={"job": job}), by="Wren Oakes").close()
    return path


def at_the_bench(record: Record, taken: Reading, typed: str) -> Reading:
    """Return the reading as the bench makes it of the same words."""
    test = measured_by(taken.slot)
    settings, notes_of = StageSettings(), datetime.fromisoformat(DAY).astimezone()
    blank = record.model_copy(update={"readings": ()})
    around = settings.around(blank, taken.slot.stage, taken.slot, test, "", notes_of)
    assert taken.from_notes is not None
    return reading(blank, taken.slot, understand(typed, test), around, taken.from_notes)


@pytest.mark.parametrize(
    ("key", "typed"),
    [
        (R1, "0.49"),
        (R1, ">20"),
        (IR, ">999"),
        (ZS, "0.9"),
        (POLARITY, "y"),
        (BUTTON, "y"),
        (ZE, "0.3"),
    ],
)
def test_a_row_goes_on_record_as_it_does_at_the_bench(
    run: Run, tmp_path: Path, key: str, typed: str
) -> None:
    path = made(tmp_path)
    ran = filled_in(run, path, put(key, reading=typed, at=DAY))
    assert ran.returncode == 0, ran.stderr
    record = record_of(path)

    (taken,) = record.readings
    assert taken == at_the_bench(record, taken, typed)


def test_what_was_put_down_is_said_with_how_many_rows(run: Run, tmp_path: Path) -> None:
    """A plain low-resistance meter shows its leads too (IET Guidance Note 3, from memory)."""
    path = made(tmp_path)
    rows = all_of(
        put(R1, reading="0.49", at=DAY),
        put(RN, reading="0.49", at=DAY, instrument="M1", by="A1"),
        put(ZS, reading="0.9", at=DAY),
    )
    said = " ".join(filled_in(run, path, rows).stdout.split())

    assert "A1 Wren Oakes, the only one who installs, was put down for 2 rows without “by”." in said
    assert (
        "M1 multifunction tester 0412, the only one of this job that can, was put down for 2 rows "
        "without “instrument”." in said
    )
    assert "The leads were taken off 2 of them" in said
    taken = [each.taken for each in record_of(path).readings]
    assert [each.value for each in taken if isinstance(each, Figure)] == [0.44, 0.44, 0.9]


def test_where_several_could_have_it_nothing_is_guessed_and_that_is_said(
    run: Run, tmp_path: Path
) -> None:
    path = made(tmp_path, ELSE, people=(OTHER,))
    ran = filled_in(run, path, all_of(put(R1, reading="0.49", at=DAY), put(IR, reading=">999")))
    said = " ".join(ran.stdout.split())
    first, second = record_of(path).readings

    assert (first.by, first.instrument) == (None, None)
    assert first.taken == Figure(value=0.49, typed="0.49")
    assert second.instrument == "M1"
    assert (
        "No instrument was put down for 1 row without “instrument”, and no leads were taken off: "
        "it could be M1 multifunction tester 0412 or M2 low-resistance ohmmeter 88." in said
    )
    assert (
        "Nobody was put down for 2 rows without “by”: it could be A1 Wren Oakes or A2 Rook Alder."
        in said
    )
    assert "take the sheet back (Ctrl+Z in the wizard), fill in “instrument” and read it" in said
    assert "was put down for 1 row without “instrument”." in said


def test_a_sheet_taken_back_can_be_read_again_with_the_meter_named(
    run: Run, tmp_path: Path
) -> None:
    path = made(tmp_path, ELSE)
    filled_in(run, path, put(R1, reading="0.49", at=DAY))
    with RecordFile.open(path) as file:
        file.undo()
    filled_in(run, path, put(R1, reading="0.49", at=DAY, instrument="M1"))

    (taken,) = record_of(path).readings
    assert taken.taken == Figure(value=0.44, leads=0.05, typed="0.49")


def test_the_name_after_by_goes_before_the_only_one(run: Run, tmp_path: Path) -> None:
    path = made(tmp_path, people=(Person(id="A2", name="Rook Alder", duty=Duty.CERTIFIES),))
    ran = filled_in(run, path, put(R1, reading="0.49", at=DAY), by="A2")

    assert record_of(path).readings[0].by == "A2"
    assert "without “by”" not in ran.stdout


def test_leads_that_nobody_entered_are_said_as_at_the_bench(run: Run, tmp_path: Path) -> None:
    path = made(tmp_path, meter=METER)
    said = " ".join(filled_in(run, path, put(R1, reading="0.49", at=DAY)).stdout.split())

    assert "Meter 0412 doesn't null its leads, and what they have is not entered" in said


def test_a_job_without_people_and_instruments_says_so(run: Run, tmp_path: Path) -> None:
    record = job_with(KNOWN)
    bare = record.job.model_copy(update={"instruments": (), "people": ()})
    path = tmp_path / "job.farboard"
    RecordFile.create(path, record.model_copy(update={"job": bare})).close()
    said = " ".join(filled_in(run, path, put(R1, reading="0.49", at=DAY)).stdout.split())

    assert "without “by”: this job names no one yet" in said
    assert "without “instrument”: this job has none that can take them" in said
