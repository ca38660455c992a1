"""`verify` holds the text of a schedule against the record, as it stood when it was made."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

import pytest
from docx import Document

from records.demo import demo_record
from records.document.package import packed
from records.model.job import Duty
from records.model.reading import Figure, Quantity
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.commands.conftest import Ran, Run

pytestmark = pytest.mark.slow


def edit(path: Path, part: str, old: str, new: str) -> None:
    with zipfile.ZipFile(path) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    text = parts[part].decode()
    assert old in text
    parts[part] = text.replace(old, new).encode()
    path.write_bytes(packed(parts))


def said(ran: Ran) -> str:
    assert "Traceback" not in ran.stderr
    return " ".join((ran.stdout + ran.stderr).split())


def a_time(path: Path) -> str:
    """Return an RCD time that the schedule prints."""
    with zipfile.ZipFile(path) as archive:
        text = archive.read("word/document.xml").decode()
    found = re.search(r">(\d{3}) ms<", text)
    assert found is not None
    return found[1]


def test_a_time_made_shorter_is_named_with_both_figures(run: Run, shed: Path, sheet: Path) -> None:
    time = a_time(sheet)
    edit(sheet, "word/document.xml", f">{time} ms<", ">22 ms<")
    ran = run("verify", sheet, shed)
    assert ran.returncode == 6
    assert "✗ The text differs from the record" in said(ran)
    assert "document: “22 ms ✗ F1”" in said(ran)
    assert f"record: “{time} ms ✗ F1”" in said(ran)


def test_the_record_may_have_gone_on_and_the_text_is_still_that_of_then(
    run: Run, shed: Path, sheet: Path
) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/job/place", "Behind the mill"))
        file.change(put("/origin/ze", 0.31))
    ran = run("verify", sheet, shed)
    assert ran.returncode == 1
    assert "✓ The text is what the record gives" in said(ran)

    edit(sheet, "word/document.xml", f">{a_time(sheet)} ms<", ">22 ms<")
    assert run("verify", sheet, shed).returncode == 6


def test_a_schedule_of_a_later_state_is_made_again_with_the_designs_of_its_readings(
    run: Run, shed: Path, tmp_path: Path
) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/origin/ze", 0.31))
    assert run("schedule", shed, "-o", "later.docx").returncode == 0
    assert run("verify", "later.docx", shed).returncode == 0


def test_a_sentence_written_somewhere_is_a_difference(run: Run, shed: Path, sheet: Path) -> None:
    document = Document(str(sheet))
    document.add_paragraph("All of it passed.")
    document.save(str(sheet))
    ran = run("verify", sheet, shed)
    assert ran.returncode == 6
    assert "document: “All of it passed.” record: nothing" in said(ran)


def test_a_document_that_hides_its_making_is_not_passed(run: Run, shed: Path, sheet: Path) -> None:
    edit(sheet, "docProps/custom.xml", "Farboard made", "Made")
    ran = run("verify", sheet, shed)
    assert ran.returncode == 2
    assert "doesn't say when and with which template" in said(ran)


@pytest.mark.parametrize("time", ["0001-01-01T00:00:00+23:59", "9999-12-31T23:59:59-23:59", "x"])
def test_a_time_that_cannot_be_is_no_time(run: Run, shed: Path, sheet: Path, time: str) -> None:
    with zipfile.ZipFile(sheet) as archive:
        made = re.search(r"20\d\d-[^<]+", archive.read("docProps/custom.xml").decode())
    assert made is not None
    edit(sheet, "docProps/custom.xml", made[0], time)
    assert run("verify", sheet, shed).returncode == 2


def test_why_a_cable_was_chosen_is_compared_too(run: Run, shed: Path, tmp_path: Path) -> None:
    assert run("schedule", shed, "-o", "a.docx", "--why-cable").returncode == 0
    assert run("verify", "a.docx", shed).returncode == 0
    edit(tmp_path / "a.docx", "word/document.xml", "volt drop C4", "volt drop C5")
    assert run("verify", "a.docx", shed).returncode == 6


def test_a_moved_shape_is_spoken_of_and_alone_proves_nothing(
    run: Run, shed: Path, sheet: Path
) -> None:
    """Word processors draw shapes in their own way when they save."""
    with zipfile.ZipFile(sheet) as archive:
        body = archive.read("word/document.xml").decode()
    first = re.search(r'<a:off x="[1-9]\d*"', body)
    assert first is not None
    edit(sheet, "word/document.xml", first[0], '<a:off x="36001"')
    ran = run("verify", sheet, shed)
    assert ran.returncode == 0
    assert "The drawings are not as Farboard draws them" in said(ran)


def test_another_time_of_making_shows_in_the_text(run: Run, shed: Path, tmp_path: Path) -> None:
    assert run("schedule", shed, "-o", "a.docx", "--date", "2026-03-21 17:30").returncode == 0
    edit(tmp_path / "a.docx", "docProps/custom.xml", "2026-03-21", "2026-03-14")
    assert run("verify", "a.docx", shed).returncode == 6


def test_a_template_of_ones_own_is_asked_for_by_its_digest(
    run: Run, shed: Path, tmp_path: Path
) -> None:
    mine = Document()
    mine.add_paragraph("For {{ job.place }}: {{ schedule.fingerprint }}")
    mine.save(str(tmp_path / "mine.docx"))
    assert run("schedule", shed, "-o", "a.docx", "--template", "mine.docx").returncode == 0
    (tmp_path / "kept.docx").write_bytes((tmp_path / "mine.docx").read_bytes())
    mine.add_paragraph("More")
    mine.save(str(tmp_path / "mine.docx"))

    asked = run("verify", "a.docx", shed)
    other = run("verify", "a.docx", shed, "--template", "mine.docx")
    right = run("verify", "a.docx", shed, "--template", "kept.docx")

    assert (asked.returncode, other.returncode, right.returncode) == (2, 2, 0)
    assert "--template MINE.docx" in said(asked)
    assert "is not the template that the document was made with" in said(other)
    edit(tmp_path / "a.docx", "word/document.xml", "For ", "Not for ")
    assert run("verify", "a.docx", shed, "--template", "kept.docx").returncode == 6


def test_the_same_time_gives_the_same_bytes(run: Run, shed: Path, tmp_path: Path) -> None:
    for name in ("a", "b"):
        words = ("-o", f"{name}.docx", "--date", "2026-03-21T17:30:00+01:00")
        assert run("schedule", shed, *words).returncode == 0
    assert (tmp_path / "a.docx").read_bytes() == (tmp_path / "b.docx").read_bytes()


@pytest.mark.parametrize("date", ["soon", "2026-13-01", "0001-01-01", "2026-03-21T25:00"])
def test_a_date_that_is_none_is_refused_with_one_that_is(run: Run, shed: Path, date: str) -> None:
    ran = run("schedule", shed, "-o", "a.docx", "--date", date)
    assert ran.returncode == 2
    assert "21 Mar 2026 17:30" in said(ran)


def test_a_date_is_typed_as_on_the_sheet(run: Run, shed: Path, tmp_path: Path) -> None:
    """Day first, or as ISO 8601 has it: without a zone, both are in that of this computer."""
    for name, date in (("a", "21 Mar 2026 17:30"), ("b", "2026-03-21 17:30")):
        assert run("schedule", shed, "-o", f"{name}.docx", "--date", date).returncode == 0
    assert (tmp_path / "a.docx").read_bytes() == (tmp_path / "b.docx").read_bytes()


def test_what_the_certifier_read_by_the_record_is_no_addition(
    run: Run, shed: Path, tmp_path: Path
) -> None:
    """It is printed before their place; what is written in the place is one, a change of it not."""
    demo = demo_record()
    person = next(each.id for each in demo.job.people if each.duty is Duty.CERTIFIES)
    zs = next(
        each
        for each in demo.readings
        if each.slot.quantity is Quantity.ZS and isinstance(each.taken, Figure)
    )
    theirs = zs.model_copy(
        update={"id": "R9001", "by": person, "taken": Figure(value=0.777), "note": ""}
    )
    with RecordFile.open(shed) as file:
        file.change(append("/certifier_readings", theirs))
    assert run("schedule", shed, "-o", "a.docx").returncode == 0
    assert "Written in" not in said(run("verify", "a.docx", shed))

    with zipfile.ZipFile(tmp_path / "a.docx") as archive:
        text = archive.read("word/document.xml").decode()
    cell = re.search(r"0\.7\d+ Ω (?=</w:t></w:r><w:bookmarkStart)", text)
    assert cell is not None
    plain = re.sub(r"<[^>]*>", " ", text)
    assert re.search(r"certifier’s own\s+0\.7", plain)  # in the log of all readings
    edit(tmp_path / "a.docx", "word/document.xml", cell[0], "0.31 Ω ")
    ran = run("verify", "a.docx", shed)
    assert ran.returncode == 6
    assert "0.31" in said(ran)
