"""Whether a document belongs to a record, and the past states that it may have been made from."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.errors import BadRecord, CannotOpen, CannotWrite
from records.store.document_match import Standing, belonging, typed_fingerprint
from records.store.edits import append, put
from records.store.file import RecordFile
from tests.store.conftest import reading, small_record


def test_every_state_is_known_by_its_fingerprint(file: RecordFile) -> None:
    marks = [file.fingerprint]
    for number in range(1, 6):
        file.change(append("/readings", reading(number)), by="A")
        marks.append(file.fingerprint)

    assert file.fingerprints() == marks
    assert belonging(file, marks[-1]).standing is Standing.SAME
    for number, mark in enumerate(marks[:-1], start=1):
        found = belonging(file, mark)
        assert (found.standing, found.number, found.alike) == (Standing.GONE_ON, number, False)
        assert [each.change.number for each in found.later] == list(range(number + 1, 7))
    assert found.later[0].words == ("Reading M5: Zs, C1, live tests: 0.35 Ω",)


def test_changes_that_were_taken_back_are_told_and_leave_it_alike(file: RecordFile) -> None:
    mark = file.fingerprint
    file.change(put("/job/place", "x"))
    file.undo()

    found = belonging(file, mark)

    assert (found.standing, found.alike, len(found.later)) == (Standing.GONE_ON, True, 2)


def test_another_record_with_the_same_words_is_not_this_one(
    file: RecordFile, tmp_path: Path
) -> None:
    with RecordFile.create(tmp_path / "twin", small_record(), by="A") as twin:
        assert twin.record == file.record
        assert belonging(file, twin.fingerprint).standing is Standing.OTHER


@pytest.mark.parametrize(
    "typed",
    ["3F2A-91BC-07DE-55AA", "3f2a 91bc 07de 55aa", " 3f2a91bc07de55aa ", "3F2A–91BC–07DE–55AA"],
)
def test_a_fingerprint_is_taken_as_people_type_it(typed: str) -> None:
    assert typed_fingerprint(typed) == "3F2A-91BC-07DE-55AA"


def test_a_slip_in_a_fingerprint_is_said_and_a_name_is_none() -> None:
    for slip in ("3F2A-91BC-07DE-55AG", "3F2A-91BC-07DE-55A", "3F2A-91BC-07DE-55AAA"):
        with pytest.raises(BadRecord, match="four groups of four"):
            typed_fingerprint(slip)
    for name in ("shed", "the old loom shed schedule", "../sheet", "", "3F2A-91BC"):
        assert typed_fingerprint(name) is None


def test_any_past_state_can_be_looked_at_and_never_changed(file: RecordFile, path: Path) -> None:
    states = [(file.record, file.fingerprint)]
    for ops in (put("/job/place", "x"), append("/readings", reading(1)), put("/job/place", "y")):
        states.append((file.change(ops), file.fingerprint))
    states.append((file.undo(), file.fingerprint))
    before = path.read_bytes()

    for number, (record, mark) in enumerate(states, start=1):
        with RecordFile.open(path, at=number) as then:
            assert then.record == record
            assert then.fingerprint == mark
            assert then.number == number
            assert len(list(then.history())) == number
            with pytest.raises(CannotWrite, match="look only"):
                then.change(put("/job/place", "z"))
    assert path.read_bytes() == before


@pytest.mark.parametrize("number", [0, 2, 10**30])
def test_a_state_that_never_was_is_said(file: RecordFile, path: Path, number: int) -> None:
    with pytest.raises(CannotOpen, match="changes 1 to 1"):
        RecordFile.open(path, at=number)
