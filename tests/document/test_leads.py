"""The schedule says what the meter showed and what was taken off it, beside what counts."""

from __future__ import annotations

from docx.document import Document as Doc

from records.document.context import context
from records.document.filling import filled
from records.document.package import TEMPLATE
from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.todo.progress import progress
from records.model.reading import Figure, Quantity, Reading
from records.terms import Stage
from tests.document import job
from tests.document.reading_back import opened, table, text
from tests.taking.job import AT, slot
from tests.taking.test_leads import KNOWN, job_with

R1 = slot(Quantity.R1, Stage.DEAD, "C1")


def schedule() -> Doc:
    taken = (
        Figure(value=9.05, typed="9.1", leads=0.05),
        Figure(value=0.25, typed="300 mohm", leads=0.05),
    )
    readings = tuple(
        Reading(
            id=f"R{number}",
            slot=R1,
            taken=each,
            at=AT.replace(minute=number),
            by="A1",
            instrument="M1",
        )
        for number, each in enumerate(taken, start=1)
    )
    record = job_with(KNOWN).model_copy(update={"readings": readings})
    due = expected(record)
    verdicts = review(record, due)
    said = context(record, due, verdicts, progress(record, verdicts), fingerprint="", made=job.MADE)
    return opened(filled(TEMPLATE.read_bytes(), said, job.MADE))


def test_each_attempt_is_printed_with_what_was_taken_off() -> None:
    made = schedule()
    lines = table(made, "Every reading")
    at = next(at for at, each in enumerate(lines) if each[0] == "r1" and "9.05" in each[4])

    assert lines[at][4].startswith("9.05 Ω")
    assert "9.10 Ω − 0.05 Ω leads" in lines[at + 1][0]
    assert lines[at + 2][4].startswith("0.25 Ω")
    assert "0.30 Ω − 0.05 Ω leads; typed “300 mohm”" in lines[at + 2][0]
    assert "0.05 Ω, not nulled" in text(made)
