"""A record goes in, a document comes out: with the figures and verdicts of the record itself."""

from __future__ import annotations

import json
import subprocess
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest

from records.demo import demo_record
from records.document.schedule import own_template, write_schedule
from records.document.workings import WorkingsOf
from records.errors import BadTemplate, CannotWrite
from records.expected.plan import expected
from records.judgement.one_reading import beyond_opening
from records.judgement.review import review
from records.model.record import Record
from records.model.slots import slots
from tests.document import job
from tests.document.reading_back import anchors, margins, opened, table, text

pytestmark = pytest.mark.slow


def _written(record: Record, folder: Path, template: Path | None = None) -> Path:
    out = folder / "out.docx"
    write_schedule(record, out, fingerprint=job.FINGERPRINT, made=job.MADE, template=template)
    return out


def test_the_demo_shows_each_of_its_findings_and_readings(tmp_path: Path):
    record = demo_record()
    document = opened(_written(record, tmp_path))
    printed = text(document)
    troubles = [each for each in review(record, expected(record)).findings if each.is_trouble]

    assert len(troubles) >= 5
    for each in troubles:
        assert f"{each.verdict.mark} {each.verdict.value}" in printed
        why = beyond_opening(each)
        assert why
        assert why in printed
        assert each.next_check in printed
    lines = [each for each in table(document, "Every reading")[1:] if len(each) > 1]
    values = [cell for line in lines for cell in (line[3], line[4]) if cell]
    asked = set(slots(record)) | {each.slot for each in record.readings}
    again = len(record.readings) - len({each.slot for each in record.readings})
    assert len(values) == len(asked) + again


def test_each_remedy_of_the_demo_is_printed(tmp_path: Path):
    record = demo_record()
    printed = text(opened(_written(record, tmp_path)))

    assert record.remedies
    for each in record.remedies:
        assert each.done in printed


def test_an_empty_record_gives_a_document_that_says_what_is_missing(tmp_path: Path):
    printed = text(opened(_written(Record(), tmp_path)))

    assert "No circuit is entered." in printed
    assert "Circuits" in dict(table(opened(tmp_path / "out.docx"), "Entries still missing"))
    assert "Zdb: earth fault loop impedance at the sub-board" in printed
    assert "No reading is taken yet." in printed
    assert "INCOMPLETE: no circuit entered, " in margins(opened(tmp_path / "out.docx"))[0]


def test_the_same_record_gives_the_same_bytes(tmp_path: Path):
    first = _written(demo_record(), tmp_path).read_bytes()

    assert _written(demo_record(), tmp_path).read_bytes() == first


def test_a_board_of_24_circuits_and_390_readings_is_printed_whole(tmp_path: Path):
    record = _many(demo_record(), 24)
    document = opened(_written(record, tmp_path))
    lines = table(document, "Every reading")[1:]
    values = [each[at] for each in lines if len(each) > 1 for at in (3, 4) if each[at]]

    assert len(record.readings) > 390
    assert len(values) >= len(record.readings)
    heads = {each[0].split()[0] for each in lines if len(each) == 1 and each[0][:1] == "C"}
    assert heads >= {f"C{at}" for at in range(1, 25)}


def test_somebodys_own_template_is_filled(tmp_path: Path):
    mine = tmp_path / "mine.docx"
    mine.write_bytes(own_template())

    from_mine = _written(demo_record(), tmp_path, mine).read_bytes()
    assert from_mine == _written(demo_record(), tmp_path).read_bytes()


def test_a_template_that_is_not_there_or_no_file_is_named(tmp_path: Path):
    with pytest.raises(BadTemplate, match="There is no template"):
        _written(Record(), tmp_path, tmp_path / "gone.docx")
    with pytest.raises(BadTemplate, match="is a folder"):
        _written(Record(), tmp_path, tmp_path)
    text_file = tmp_path / "notes.docx"
    text_file.write_text("Dear certifier")
    with pytest.raises(BadTemplate, match="save it again as"):
        _written(Record(), tmp_path, text_file)
    assert not (tmp_path / "out.docx").exists()


def test_the_template_is_never_overwritten_by_its_own_schedule(tmp_path: Path):
    mine = tmp_path / "out.docx"
    mine.write_bytes(own_template())

    with pytest.raises(CannotWrite, match="is the template itself"):
        _written(Record(), tmp_path, mine)
    assert mine.read_bytes() == own_template()


def test_a_bad_template_leaves_the_earlier_schedule_in_place(tmp_path: Path):
    out = _written(Record(), tmp_path)
    before = out.read_bytes()
    bad = tmp_path / "bad.docx"
    bad.write_bytes(b"PK")

    with pytest.raises(BadTemplate):
        _written(Record(), tmp_path, bad)
    assert out.read_bytes() == before
    assert sorted(each.name for each in tmp_path.iterdir()) == ["bad.docx", "out.docx"]


def test_the_word_processor_libraries_load_only_when_a_schedule_is_written():
    heavy = "docxtpl", "docx", "jinja2", "lxml"
    code = f"import records.document.schedule, sys; print([m for m in {heavy} if m in sys.modules])"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert out.stdout.strip() == "[]"


def _many(record: Record, count: int) -> Record:
    """Return the record with its circuits, and what was read of them, over and over."""
    dumped = record.model_dump(mode="json")
    own = [each for each in dumped["readings"] if each["slot"]["place"]["circuit"] is None]
    circuits = []
    for at in range(count):
        like = dumped["circuits"][at % len(dumped["circuits"])]
        circuits.append({**like, "id": f"C{at + 1}"})
        for each in dumped["readings"]:
            if each["slot"]["place"]["circuit"] == like["id"]:
                copy = json.loads(json.dumps(each))
                copy["slot"]["place"]["circuit"] = f"C{at + 1}"
                own.append(copy)
    readings = [{**each, "id": f"R{at}"} for at, each in enumerate(own, start=1)]
    whole = {**dumped, "circuits": circuits, "readings": readings}
    return Record.model_validate_json(json.dumps(whole))


def test_a_clock_set_before_1980_makes_a_schedule_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """A zip file can't carry an earlier time; an empty clock battery gives 1970."""
    monkeypatch.setattr(time, "time", lambda: 86_400.0)
    made = datetime(1970, 1, 2, tzinfo=UTC)
    out = tmp_path / "out.docx"
    write_schedule(demo_record(), out, fingerprint=job.FINGERPRINT, made=made)
    assert job.FINGERPRINT in text(opened(out))


def test_what_a_fingerprint_can_promise_is_said(tmp_path: Path):
    printed = " ".join(text(opened(_written(demo_record(), tmp_path))).split())
    assert "Only a fingerprint printed or noted elsewhere" in printed


@pytest.mark.parametrize("workings", WorkingsOf)
def test_every_link_and_page_number_leads_somewhere(tmp_path: Path, workings: WorkingsOf):
    out = tmp_path / "out.docx"
    write_schedule(
        demo_record(), out, fingerprint=job.FINGERPRINT, made=job.MADE, workings=workings
    )
    to, names = anchors(opened(out))

    assert len(to) > 60
    assert to - names == set()
