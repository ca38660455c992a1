"""Files of older forms open on a copy; those of every form there ever was are kept and tried."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
from pathlib import Path

import pytest

from records.errors import CannotOpen, LookOnly
from records.model.record import Record
from records.store import container, heading, migrating
from records.store.edits import put
from records.store.exchange import from_json, to_json
from records.store.file import RecordFile

FIXTURES = Path(__file__).parents[2] / "fixtures"
FORMS = range(1, heading.FORMAT + 1)
FINGERPRINTS = {1: "994F-5DFE-2F22-555D", 2: "EE6C-C3CB-ECCA-8928", 3: "4BF6-D00A-4B7A-E0A2"}
"""As they were when the files were made: a document of that time must still be known."""


@pytest.mark.parametrize("form", FORMS)
def test_a_file_of_every_form_opens_says_the_same_and_takes_changes(
    form: int, tmp_path: Path
) -> None:
    kept = FIXTURES / f"format-{form}.farboard"
    path = shutil.copy(kept, tmp_path / "job.farboard")
    right = from_json(kept.with_suffix(".json").read_text(encoding="utf-8"))

    with RecordFile.open(path, read_only=True) as file:
        assert file.record == right
        assert file.fingerprint == FINGERPRINTS[form]
        assert path.read_bytes() == kept.read_bytes()
    with RecordFile.open(path) as file:
        file.change(put("/job/place", "work goes on"))
        file.undo()
        assert file.record == right
        assert FINGERPRINTS[form] in file.fingerprints()


def test_what_is_older_is_read_as_of_the_present_form(tmp_path: Path) -> None:
    """Form 1 has no rooms and no leads taken off: it says neither, and nothing else changes."""
    path = shutil.copy(FIXTURES / "format-1.farboard", tmp_path / "job.farboard")
    older = json.loads((FIXTURES / "format-1.json").read_text(encoding="utf-8"))
    with RecordFile.open(path, read_only=True) as file:
        newer = json.loads(to_json(file.record))
    assert (older["format"], newer["format"]) == (1, heading.FORMAT)
    assert Record().format == heading.FORMAT
    (point, _) = newer["circuits"][1]["points"]
    before = older["circuits"][1]["points"][0]
    assert {name: point[name] for name in before} == before
    assert not any(value for name, value in point.items() if name not in before)
    assert newer["readings"][0]["taken"].pop("leads") is None
    slot = newer["readings"][0]["slot"]
    assert (older["readings"][0]["slot"].pop("stage"), slot.pop("stage")) == ("live tests", "live")
    assert newer["readings"][0] == older["readings"][0]


def test_who_opens_an_older_file_to_write_is_told_where_it_lies_now(tmp_path: Path) -> None:
    path = shutil.copy(FIXTURES / "format-1.farboard", tmp_path / "job.farboard")
    with RecordFile.open(path, read_only=True) as file:
        assert file.remark == ""
    with RecordFile.open(path) as file:
        (kept,) = tmp_path.glob("*older form*")
        assert file.remark == (
            f"job.farboard was of an older form and is now of form {heading.FORMAT}, "
            "with all that was in it. "
            f"As it was, it lies beside it: {kept.name}"
        )
    assert int.from_bytes(path.read_bytes()[60:64]) == heading.FORMAT
    assert int.from_bytes(kept.read_bytes()[60:64]) == 1
    with RecordFile.open(path) as file:
        assert file.remark == ""


def step(link: sqlite3.Connection) -> None:
    """Bring a made-up form 0 to form 1: there the digests stood in a table of their own."""
    link.execute(container._TABLE)
    link.execute(
        "INSERT INTO change SELECT number, body, digest FROM entry JOIN seal USING (number)"
    )
    link.execute("DROP TABLE entry")
    link.execute("DROP TABLE seal")


@pytest.fixture
def older(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a file of a made-up older form that the program knows a step from."""
    monkeypatch.setitem(migrating.STEPS, 0, step)
    path = shutil.copy(FIXTURES / "format-1.farboard", tmp_path / "a shed.farboard")
    with sqlite3.connect(path) as link:
        link.execute("CREATE TABLE entry (number INTEGER PRIMARY KEY, body TEXT)")
        link.execute("CREATE TABLE seal (number INTEGER PRIMARY KEY, digest BLOB)")
        link.execute("INSERT INTO entry SELECT number, body FROM change")
        link.execute("INSERT INTO seal SELECT number, digest FROM change")
        link.execute("DROP TABLE change")
        link.execute("PRAGMA user_version = 0")
    link.close()
    return path


def test_to_look_the_older_file_stays_as_it_is(older: Path) -> None:
    before = older.read_bytes()
    with RecordFile.open(older, read_only=True) as file:
        assert file.fingerprint == FINGERPRINTS[1]
        assert len(list(file.history())) == file.number
    with RecordFile.open(older, at=2) as file:
        assert file.number == 2
    assert older.read_bytes() == before
    assert os.listdir(older.parent) == [older.name]


def test_to_write_a_copy_takes_its_place_and_it_stays_beside(older: Path) -> None:
    before = older.read_bytes()
    with RecordFile.open(older) as file:
        assert file.fingerprint == FINGERPRINTS[1]
        file.change(put("/job/place", "work goes on"))
    (kept,) = older.parent.glob("*older form*")
    assert kept.read_bytes() == before
    with RecordFile.open(older) as again:
        assert again.record.job.place == "work goes on"
    assert len(os.listdir(older.parent)) == 2


def test_in_use_elsewhere_it_is_left_alone(older: Path) -> None:
    before = older.read_bytes()
    with sqlite3.connect(older, isolation_level=None) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(LookOnly, match="older form"):
            RecordFile.open(older)
        other.execute("ROLLBACK")
    other.close()
    assert older.read_bytes() == before
    assert os.listdir(older.parent) == [older.name]


def test_a_damaged_older_file_is_refused_and_not_touched(older: Path) -> None:
    whole = bytearray(older.read_bytes())
    whole[whole.index(b"Behind the orchard")] ^= 1
    older.write_bytes(whole)
    for read_only in (True, False):
        with pytest.raises(CannotOpen, match="altered"):
            RecordFile.open(older, read_only=read_only)
    assert older.read_bytes() == whole
    assert os.listdir(older.parent) == [older.name]


def test_an_older_form_without_steps_is_refused_by_its_number(tmp_path: Path) -> None:
    path = tmp_path / "job.farboard"
    data = (FIXTURES / "format-1.farboard").read_bytes()
    path.write_bytes(data[:60] + bytes(4) + data[64:])
    with pytest.raises(CannotOpen, match="form 0"):
        RecordFile.open(path)
