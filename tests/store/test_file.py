"""The record file: what was accepted is there after reopening, and history stays."""

from __future__ import annotations

import os
import sqlite3
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from records.errors import BadRecord, CannotWrite
from records.model.record import Record
from records.store import heading
from records.store.edits import append, put, take_out
from records.store.file import RecordFile
from tests.store.conftest import NOON, reading, small_record


def test_an_accepted_value_is_there_after_reopening(file: RecordFile, path: Path) -> None:
    file.change(put("/job/place", "Behind the orchard"), by="A")
    file.change(append("/readings", reading(1)))
    before, mark = file.record, file.fingerprint
    file.close()

    with RecordFile.open(path) as again:
        assert again.record == before
        assert again.record.job.place == "Behind the orchard"
        assert again.fingerprint == mark


def test_a_closed_file_stands_alone_in_its_folder(file: RecordFile, path: Path) -> None:
    file.change(put("/job/place", "x"))
    file.close()

    assert os.listdir(path.parent) == [path.name]


def test_the_file_says_what_it_is_to_any_program_that_looks(file: RecordFile, path: Path) -> None:
    """SQLite file format, section 1.3: application id at 68, user version at 60."""
    file.close()

    head = path.read_bytes()[:100]
    assert head[68:72] == b"FBD1"
    assert int.from_bytes(head[60:64]) == heading.FORMAT


def test_every_setting_that_keeps_a_value_through_a_power_cut_is_on(file: RecordFile) -> None:
    """SQLite documentation of PRAGMA synchronous (3 is EXTRA) and journal_mode."""
    link = file._container.link

    assert link.execute("PRAGMA synchronous").fetchone() == (3,)
    assert link.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    assert link.execute("PRAGMA fullfsync").fetchone() == (1,)


def test_what_a_change_leaves_out_is_written_out_in_full(file: RecordFile, path: Path) -> None:
    file.change(append("/circuits", {"id": "C3", "runs": [{"length": 12}]}))
    file.change(put("/circuits/2/device/rating", 6.0))
    file.change(put("/job/place", "  the shed  "))
    file.close()

    with RecordFile.open(path) as again:
        assert again.record.circuits[2].runs[0].length == 12.0
        assert again.record.circuits[2].device.rating == 6.0
        assert again.record.job.place == "the shed"


def test_a_change_that_changes_nothing_is_not_written(file: RecordFile) -> None:
    before = file.fingerprint

    file.change(put("/job/reference", "T-1"))
    file.change([])

    assert file.fingerprint == before


def test_an_impossible_value_is_refused_and_nothing_changes(file: RecordFile) -> None:
    before, mark = file.record, file.fingerprint

    with pytest.raises(BadRecord, match=r"Circuit C1, run 1, Length: 0 m is not possible"):
        file.change([*put("/job/place", "x"), *put("/circuits/0/runs/0/length", 0.0)])

    assert file.record is before
    assert file.fingerprint == mark
    assert file._fold.doc == before.model_dump(mode="json")


@pytest.mark.parametrize(
    "ops",
    [
        [{"op": "replace", "path": "/readings/0/taken/value", "value": 0.1}],
        [{"op": "remove", "path": "/readings/0"}],
        [{"op": "replace", "path": "/readings", "value": []}],
        [{"op": "remove", "path": "/readings"}],
        [{"op": "add", "path": "/readings", "value": []}],
        [{"op": "add", "path": "/readings/0", "value": {}}],
        [{"op": "add", "path": "/readings/0/note", "value": "better"}],
        [{"op": "move", "from": "/readings/0", "path": "/readings/1"}],
        [{"op": "copy", "from": "/job", "path": "/readings/0"}],
        [{"op": "replace", "path": "", "value": {}}],
        [{"op": "add", "path": "", "value": {}}],
        [{"op": "remove", "path": ""}],
        [{"op": "remove", "path": "/circuits/0"}],
    ],
)
def test_a_recorded_reading_never_goes_and_never_changes(
    file: RecordFile, ops: list[dict[str, object]]
) -> None:
    file.change(append("/readings", reading(1)))
    file.change(append("/readings", reading(2)))
    before, mark = file.record, file.fingerprint

    with pytest.raises(BadRecord):
        file.change(ops)

    assert file.record == before
    assert file.fingerprint == mark


@pytest.mark.parametrize(
    "ops",
    [
        [{"op": "replace", "path": "/job/nothing", "value": 1}],
        [{"op": "add", "path": "/job/nothing", "value": 1}],
        [{"op": "replace", "path": "/circuits/9", "value": {}}],
        [{"op": "remove", "path": "/job/place/0"}],
        [{"op": "remove", "path": "/nowhere/at/all"}],
        [{"op": "add", "path": "/circuits/-1", "value": {}}],
        [{"op": "add", "path": "/circuits/x", "value": {}}],
        [{"op": "test", "path": "/job/reference", "value": "other"}],
        [{"op": "jump", "path": "/job/place"}],
        [{"op": "add", "path": "/job/place"}],
        [{"op": "add", "path": 5, "value": 1}],
        [{"path": "/job/place"}],
        [{"op": "move", "path": "/job/place"}],
        [{"op": "move", "from": "/circuits", "path": "/circuits/0"}],
        [{"op": "move", "from": "/nowhere", "path": "/job/place"}],
        [{"op": "replace", "path": "/job/place", "value": float("nan")}],
        [{"op": "replace", "path": "/job/place", "value": {1, 2}}],
        [{"op": "replace", "path": "/job/place~2", "value": "x"}],
        ["x"],
    ],
)
def test_a_change_that_fits_nothing_is_refused_in_words(file: RecordFile, ops: list) -> None:
    before = file.fingerprint

    with pytest.raises(BadRecord, match=r"\w+ \w+.*\.$"):
        file.change(ops)

    assert file.fingerprint == before
    assert file.record == small_record()


def test_moving_and_copying_do_what_rfc_6902_says(file: RecordFile, path: Path) -> None:
    """RFC 6902, sections 4.4 and 4.5."""
    file.change([{"op": "move", "from": "/circuits/1", "path": "/circuits/0"}])
    file.change([{"op": "copy", "from": "/job/reference", "path": "/job/place"}])

    assert [each.id for each in file.record.circuits] == ["C2", "C1"]
    assert file.record.job.place == "T-1"
    file.undo()
    file.undo()
    assert file.record == small_record()


def test_undo_and_redo_go_back_to_the_beginning_across_restarts(
    file: RecordFile, path: Path
) -> None:
    states = [file.record]
    states.append(file.change(put("/job/place", "x")))
    states.append(file.change(append("/readings", reading(1))))
    states.append(file.change(take_out("/circuits/1")))
    file.close()

    for expected in states[-2::-1]:
        with RecordFile.open(path) as again:
            assert again.undo(by="B") == expected
    with RecordFile.open(path) as again:
        assert again.undo() is None
        assert [again.redo(), again.redo(), again.redo()] == states[1:]
        assert again.redo() is None
    with RecordFile.open(path) as again:
        assert again.record == states[-1]
        assert len(list(again.history())) == 1 + 3 + 3 + 3


def test_a_reading_that_was_undone_stays_in_the_history(file: RecordFile) -> None:
    file.change(append("/readings", reading(1, 9.99)), by="A")
    file.undo(by="B")

    assert file.record.readings == ()
    first, added, undone = file.history()
    assert added.ops[0]["value"]["taken"]["value"] == 9.99
    assert (undone.by, undone.undoes, undone.number) == ("B", added.number, 3)
    assert first.number == 1


def test_a_new_change_ends_what_could_be_redone(file: RecordFile) -> None:
    file.change(put("/job/place", "x"))
    file.undo()
    file.change(put("/job/place", "y"))

    assert file.redo() is None
    assert file.record.job.place == "y"


def test_history_says_who_when_and_what(file: RecordFile) -> None:
    at = datetime(2026, 3, 20, 13, 30, tzinfo=timezone(timedelta(hours=1)))
    file.change(put("/job/place", "x"), by="Ada", at=at)

    *_, last = file.history()
    assert (last.by, last.at) == ("Ada", datetime(2026, 3, 20, 12, 30, tzinfo=UTC))
    assert last.at.utcoffset() == timedelta(0)
    assert last.ops == ({"op": "replace", "path": "/job/place", "value": "x"},)


def test_a_time_without_zone_and_a_name_with_escapes_are_refused(file: RecordFile) -> None:
    before = file.record
    with pytest.raises(BadRecord, match="zone"):
        file.change(put("/job/place", "x"), at=NOON.replace(tzinfo=None))
    with pytest.raises(BadRecord, match="control character"):
        file.change(put("/job/place", "x"), by="\x1b[31m")
    assert file.record == before


def test_nothing_is_overwritten_by_a_new_record(file: RecordFile, path: Path) -> None:
    content = path.read_bytes()

    with pytest.raises(CannotWrite, match="nothing is overwritten"):
        RecordFile.create(path)

    assert path.read_bytes() == content


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="There is no folder"):
        RecordFile.create(tmp_path / "no" / "x.farboard")
    with pytest.raises(CannotWrite, match="can't be made here"):
        RecordFile.create(tmp_path / ("x" * 300))


def test_two_blank_records_have_different_fingerprints(tmp_path: Path) -> None:
    with RecordFile.create(tmp_path / "a") as a, RecordFile.create(tmp_path / "b") as b:
        assert a.record == b.record == Record()
        assert a.fingerprint != b.fingerprint
        assert a.fingerprint.count("-") == 3


def test_untouched_parts_of_the_record_stay_the_same_objects(file: RecordFile) -> None:
    before = file.change(append("/readings", reading(1)))
    after = file.change(put("/job/place", "x"))

    assert after.circuits is before.circuits or after.circuits[0] is before.circuits[0]
    assert after.readings[0] is before.readings[0]
    assert after.job is not before.job


def test_a_file_from_before_a_field_was_thought_of_takes_changes_to_it(path: Path) -> None:
    """A record written without `ambient` and with 18 for 18.0, as another version might."""
    from records.store import container
    from records.store.canonical import NOTHING_BEFORE, digest
    from records.store.chain import Change

    doc = small_record().model_dump(mode="json")
    del doc["job"]["ambient"]
    doc["circuits"][0]["runs"][0]["length"] = 18
    del doc["live_gate"]
    change = Change(1, NOON, "", ({"op": "add", "path": "", "value": doc},))
    container.create(path, [(change.body, digest(NOTHING_BEFORE, change.body))]).close()

    with RecordFile.open(path) as file:
        assert file.record == small_record()
        file.change(put("/job/ambient", 15.0))
        gate = {"at": NOON, "isolation_understood": True}
        file.change(append("/live_gate", gate))
        file.undo()
        file.undo()
        assert file.record == small_record()
        file.redo()
        file.redo()
        after = file.record
    with RecordFile.open(path) as again:
        assert again.record == after
        assert again.record.job.ambient == 15.0
        assert len(again.record.live_gate) == 1


def test_the_engine_itself_refuses_a_second_change_under_one_number(file: RecordFile) -> None:
    with pytest.raises(sqlite3.IntegrityError):
        file._container.link.execute("INSERT INTO change VALUES (1, '', x'')")
