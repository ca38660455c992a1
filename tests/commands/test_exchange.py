"""`export`, `import`, `history`, `schedule`, `sources`, `demo`: files out and in."""

from __future__ import annotations

import zipfile
from pathlib import Path

from rich.cells import cell_len

from records.demo import demo_record
from records.store.edits import put
from records.store.exchange import from_json
from records.store.file import RecordFile
from records.tables.catalogue import all_tables
from tests.commands.conftest import Run


def test_export_and_import_lose_nothing(run: Run, shed: Path, tmp_path: Path) -> None:
    exported = run("export", shed)
    assert exported.returncode == 0
    assert from_json(exported.stdout) == demo_record()

    ran = run("import", "-", "-o", "again.farboard", "--by", "Ada", typed=exported.stdout)
    assert ran.returncode == 0, ran.stderr
    with RecordFile.open(tmp_path / "again.farboard") as file:
        assert file.record == demo_record()
        assert [change.by for change in file.history()] == ["Ada"]
        assert file.fingerprint in ran.stdout


def test_nothing_is_written_over_unless_forced(run: Run, shed: Path, tmp_path: Path) -> None:
    kept = tmp_path / "kept"
    kept.write_text("mine")
    (tmp_path / "job.json").write_text("{}")

    for words in (
        ("export", shed, "-o", "kept"),
        ("import", "job.json", "-o", "kept"),
        ("import", "job.json", "-o", shed),
    ):
        ran = run(*words)
        assert ran.returncode == 2
        assert "is there already" in ran.stderr
    assert kept.read_text() == "mine"
    assert run("export", shed, "-o", "kept", "--force").returncode == 0
    assert from_json(kept.read_text()) == demo_record()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["job.json", "kept", shed.name]


def test_a_place_that_takes_no_file_is_said(run: Run, shed: Path) -> None:
    for words, sentence in (
        (("export", shed, "-o", "no/folder.json"), "no folder"),
        (("export", shed, "-o", "."), "is a folder"),
        (("import", shed, "-o", "x.farboard"), "not text in UTF-8"),
        (("schedule", shed, "-o", "no/x.docx"), "no folder"),
        (("schedule", shed, "-o", "x.txt"), ".docx"),
    ):
        ran = run(*words)
        assert (ran.returncode, ran.stdout) == (2, "")
        assert sentence in ran.stderr
        assert "Traceback" not in ran.stderr


def test_history_says_who_and_what(run: Run, shed: Path) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/job/reference", "L-2"), by="Ada")
        file.undo(by="Ben")

    whole = run("history", shed)
    last = run("history", shed, "--last", "1")

    assert whole.returncode == 0
    assert "The record is made" in whole.stdout
    assert f"Job, Reference: {demo_record().job.reference} → L-2" in whole.stdout
    assert "The record is made" not in last.stdout
    assert "UTC  Ben" in last.stdout
    assert "Takes back change 2" in last.stdout


def test_the_schedule_is_a_document_and_is_not_replaced_by_accident(
    run: Run, shed: Path, tmp_path: Path
) -> None:
    made = run("schedule", shed)
    assert made.returncode == 0, made.stderr
    with zipfile.ZipFile(tmp_path / "shed.docx") as document:
        assert "word/document.xml" in document.namelist()

    again = run("schedule", shed)
    assert again.returncode == 2
    assert "--force" in again.stderr
    assert run("schedule", shed, "--force").returncode == 0


def test_every_published_value_is_listed_with_its_source(run: Run) -> None:
    ran = run("sources")

    assert ran.returncode == 0
    lines = [line.strip() for line in ran.stdout.splitlines()]
    flat = " ".join(" ".join(lines).split())
    for entry in all_tables():
        assert " ".join(str(entry.source).split()) in flat
        assert any(
            line.startswith(entry.row) and line.endswith(entry.printed) for line in lines
        ) or (f"{entry.row} {entry.printed}" in flat)
    assert max(map(cell_len, ran.stdout.splitlines())) <= 80


def test_sources_can_be_narrowed_to_a_word(run: Run) -> None:
    some = run("sources", "60228")
    assert 0 < len(some.stdout) < len(run("sources").stdout) / 2
    none = run("sources", "no such word")
    assert none.returncode == 2
    assert "No table" in none.stderr


def test_the_demo_is_copied_and_never_over_anything(run: Run, tmp_path: Path) -> None:
    for name in ("loom-shed.farboard", "loom-shed-2.farboard"):
        ran = run("demo", "--no-wizard")
        assert ran.returncode == 0
        assert ran.stdout == f"The demo job is in {tmp_path / name}\n"
    with RecordFile.open(tmp_path / "loom-shed.farboard") as file:
        assert file.record == demo_record()
