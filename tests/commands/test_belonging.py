"""`verify`, `rescue`, `schema`, and `--at`: a record's past and what belongs to it."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from rich.cells import cell_len

from records.demo import demo_record
from records.model.record import Record
from records.store.edits import put
from records.store.exchange import from_json, schema, to_json
from records.store.file import RecordFile
from tests.commands.conftest import Run

pytestmark = pytest.mark.slow


@pytest.fixture(autouse=True)
def own_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep what goes to the person's data folder within the test."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


def spoil(path: Path, words: bytes) -> None:
    """Alter one letter of what stands in a record file."""
    data = bytearray(path.read_bytes())
    data[data.index(words)] ^= 1
    path.write_bytes(data)


def test_a_document_of_the_record_as_it_stands(run: Run, shed: Path, sheet: Path) -> None:
    ran = run("verify", sheet, shed)
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout.startswith("✓ Same record")
    assert "chain of the file is complete: 1 change." in ran.stdout
    assert "✓ The text is what the record gives" in " ".join(ran.stdout.split())
    assert "Only a fingerprint printed or noted elsewhere" in " ".join(ran.stdout.split())


def test_the_fingerprint_can_be_typed_off_the_page(run: Run, shed: Path) -> None:
    with RecordFile.open(shed, read_only=True) as file:
        mark = file.fingerprint
    typed = run("verify", mark, shed)
    assert typed.returncode == 0
    assert "To learn whether its text was left alone since, name the .docx" in " ".join(
        typed.stdout.split()
    )
    assert run("verify", mark.lower().replace("-", " "), shed).returncode == 0
    slip = run("verify", mark[:-1], shed)
    assert (slip.returncode, "four groups of four" in slip.stderr) == (2, True)


def test_a_record_that_has_gone_on_says_what_changed(run: Run, shed: Path, sheet: Path) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/job/place", "Behind the mill"), by="Ada")
        file.change(put("/origin/ze", 0.31), by="Ben")
        was = demo_record().origin.ze

    ran = run("verify", sheet, shed)

    assert ran.returncode == 1
    words = " ".join(ran.stdout.split())
    assert "! The record has gone on since" in words
    assert "2 changes followed" in words
    assert "UTC Ada Job, Place: " in words
    assert "→ Behind the mill" in words
    assert f"Origin, Ze: {was:g} Ω → 0.31 Ω" in words
    assert max(map(cell_len, ran.stdout.splitlines())) <= 80

    with RecordFile.open(shed) as file:
        file.undo()
        file.undo()
    assert "says again what it said then" in " ".join(run("verify", sheet, shed).stdout.split())


def test_many_changes_are_told_in_part(run: Run, shed: Path, sheet: Path) -> None:
    with RecordFile.open(shed) as file:
        for number in range(50):
            file.change(put("/job/place", f"place {number}"))
    ran = run("verify", sheet, shed)
    assert "place 39" in ran.stdout
    assert "place 41" not in ran.stdout
    assert "10 more: farboard history FILE --last 10" in ran.stdout


def test_another_record_is_not_this_one(run: Run, sheet: Path, tmp_path: Path) -> None:
    RecordFile.create(tmp_path / "twin.farboard", demo_record(), by="Farboard").close()
    ran = run("verify", sheet, "twin.farboard")
    assert ran.returncode == 3
    assert ran.stdout.startswith("✗ Not this record")


def test_a_chain_that_is_not_whole_is_said_with_what_can_still_be_told(
    run: Run, shed: Path, sheet: Path
) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/job/place", "Behind the mill"))
        file.change(put("/job/place", "Before the mill"))
        last = file.fingerprint
    spoil(shed, b"Behind the mill")

    ran = run("verify", sheet, shed)
    assert ran.returncode == 2
    words = " ".join(ran.stdout.split())
    assert "✗ The chain of the file is damaged." in words
    assert "change 2 was altered" in words
    assert "the document was made after change 1 of them" in words
    assert "not made from any of those states" in " ".join(run("verify", last, shed).stdout.split())


def test_what_is_no_document_or_no_record_is_said(
    run: Run, shed: Path, sheet: Path, tmp_path: Path
) -> None:
    from docx import Document

    Document().save(str(tmp_path / "letter.docx"))
    (tmp_path / "note.txt").write_text("note")
    for document, file, sentence in (
        ("letter.docx", shed, "carries no fingerprint"),
        ("note.txt", shed, "can't be read as a .docx"),
        ("none.docx", shed, "There is no document"),
        (sheet, "none.farboard", "There is no file"),
        (sheet, "note.txt", "is not a Farboard record"),
    ):
        ran = run("verify", document, file)
        assert ran.returncode == 2
        assert sentence in " ".join((ran.stdout + ran.stderr).split())
        assert "Traceback" not in ran.stderr
        assert "BadZipFile" not in ran.stdout + ran.stderr


def test_a_damaged_file_is_brought_out_and_stays_as_it_is(
    run: Run, shed: Path, sheet: Path, tmp_path: Path
) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/job/place", "Behind the mill"))
        right = file.record
        file.change(put("/job/reference", "L-2"))
        file.change(put("/job/reference", "L-3"))
    spoil(shed, b"L-2")
    damaged = shed.read_bytes()
    assert run("check", shed).returncode == 2

    ran = run("rescue", shed, "-o", "new.farboard")

    assert ran.returncode == 0, ran.stderr
    words = " ".join(ran.stdout.split())
    assert "change 3 was altered" in words
    assert "all up to change 2" in words
    assert "1 later change" in words
    assert shed.read_bytes() == damaged
    with RecordFile.open(tmp_path / "new.farboard") as file:
        assert file.record == right
    assert run("verify", sheet, "new.farboard").returncode == 1

    again = run("rescue", shed, "-o", "new.farboard")
    assert (again.returncode, "nothing is overwritten" in again.stderr) == (2, True)


def test_a_file_of_nothing_is_said(run: Run, tmp_path: Path) -> None:
    (tmp_path / "x.farboard").write_bytes(bytes(4096))
    ran = run("rescue", "x.farboard", "-o", "y.farboard")
    assert ran.returncode == 2
    assert "Nothing can be brought out" in ran.stderr
    assert not (tmp_path / "y.farboard").exists()


def test_a_past_state_is_exported_and_checked(run: Run, shed: Path) -> None:
    with RecordFile.open(shed) as file:
        file.change(put("/job/place", "Behind the mill"))
        first = file.fingerprints()[0]

    assert from_json(run("export", shed, "--at", "1").stdout) == demo_record()
    assert from_json(run("export", shed, "--at", "2").stdout).job.place == "Behind the mill"
    assert json.loads(run("check", shed, "--at", "1", "--json").stdout)["fingerprint"] == first
    for at, sentence in (("3", "changes 1 to 2"), ("0", "--at"), ("x", "--at")):
        ran = run("export", shed, "--at", at)
        assert (ran.returncode, ran.stdout) == (2, "")
        assert sentence in ran.stderr


def test_the_schema_holds_for_what_is_exported(run: Run) -> None:
    """Against a validator of JSON Schema draft 2020-12."""
    printed = run("schema").stdout
    assert printed == schema()
    validator = jsonschema.Draft202012Validator(json.loads(printed))
    validator.check_schema(validator.schema)

    for record in (Record(), demo_record()):
        assert list(validator.iter_errors(json.loads(to_json(record)))) == []

    for path, value in (("ze", "0.35"), ("ze", -1), ("ze", 1e9), ("unknown", 1), ("earthing", "X")):
        doc = json.loads(to_json(demo_record()))
        doc["origin"][path] = value
        assert list(validator.iter_errors(doc)) != []


def test_every_number_of_the_schema_names_its_unit_or_is_a_count() -> None:
    said = json.loads(schema())
    bare = [
        f"{name}.{field}"
        for name, group in said["$defs"].items()
        for field, rule in group.get("properties", {}).items()
        for kind in rule.get("anyOf", [rule])
        if kind.get("type") == "number" and "unit" not in kind
    ]
    assert bare == ["Figure.value"]  # a reading is in the unit of what was measured
