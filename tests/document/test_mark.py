"""The fingerprint in a document: found again after a word processor, never made up."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import pytest
from docx import Document

from records.document.filling import filled
from records.document.mark import marks_in
from records.document.package import TEMPLATE, packed
from records.errors import CannotOpen
from tests.document import job

OTHER = "0000-1111-2222-3333"


def parts(document: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


@pytest.fixture(scope="module")
def schedule() -> bytes:
    return filled(TEMPLATE.read_bytes(), job.filled_context(), job.MADE)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "sheet.docx"


def test_a_schedule_carries_its_fingerprint_in_three_places(schedule: bytes, path: Path) -> None:
    path.write_bytes(schedule)

    marks = marks_in(path)

    assert marks.inside == job.FINGERPRINT
    assert marks.margins == (job.FINGERPRINT,)
    assert job.FINGERPRINT in marks.body
    assert marks.all == (job.FINGERPRINT,)


def test_the_property_is_announced_as_the_standard_asks(schedule: bytes) -> None:
    """ISO/IEC 29500-2, section 10.1.2 (content types) and 9.3 (relationships); from memory."""
    held = parts(schedule)

    assert b"/docProps/custom.xml" in held["[Content_Types].xml"]
    assert b"relationships/custom-properties" in held["_rels/.rels"]
    assert b'pid="2"' in held["docProps/custom.xml"]


def test_it_is_still_there_after_the_document_was_edited_and_saved_anew(
    schedule: bytes, path: Path
) -> None:
    document = Document(io.BytesIO(schedule))
    document.add_paragraph("Remark of the certifier, serial 1234-5678-9012-3456")
    document.save(str(path))

    assert marks_in(path).all == (job.FINGERPRINT,)


def test_a_template_with_properties_of_its_own_keeps_them(schedule: bytes, path: Path) -> None:
    mine = parts(schedule)
    mine["docProps/custom.xml"] = (
        mine["docProps/custom.xml"]
        .replace(b"Farboard fingerprint", b"My own")
        .replace(job.FINGERPRINT.encode(), b"mine")
    )
    path.write_bytes(filled(packed(mine), job.filled_context(), job.MADE))

    assert marks_in(path).all == (job.FINGERPRINT,)
    said = parts(path.read_bytes())["docProps/custom.xml"].decode()
    assert "My own" in said
    numbers = re.findall(r'pid="(\d+)"', said)
    assert len(numbers) == len(set(numbers)) == 6


def test_filling_a_schedule_again_leaves_one_mark(schedule: bytes, path: Path) -> None:
    path.write_bytes(filled(schedule, job.filled_context(), job.MADE))
    assert parts(path.read_bytes())["docProps/custom.xml"].count(b"Farboard fingerprint") == 1


def test_pages_of_two_documents_put_together_show(schedule: bytes, path: Path) -> None:
    mixed = parts(schedule)
    mixed["word/footer2.xml"] = mixed["word/footer1.xml"].replace(
        job.FINGERPRINT.encode(), OTHER.encode()
    )
    path.write_bytes(packed(mixed))

    assert marks_in(path).all == (job.FINGERPRINT, OTHER)


def test_without_property_and_margins_the_pages_are_read(path: Path) -> None:
    document = Document()
    document.add_paragraph(f"Record {job.FINGERPRINT}.")
    document.save(str(path))

    assert marks_in(path).inside is None
    assert marks_in(path).all == (job.FINGERPRINT,)


def entity() -> bytes:
    """Return a document that grows without end when it is read by the letter."""
    lines = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 12))
    xml = f'<?xml version="1.0"?><!DOCTYPE d [<!ENTITY a0 "x">{lines}]><d>&a11;</d>'
    return packed({"word/document.xml": xml.encode()})


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "can't be read as a .docx"),
        (b"SQLite format 3\0", "can't be read as a .docx"),
        (b"PK\x03\x04", "can't be read as a .docx"),
        (packed({"a.txt": b"x"}), "zip archive, but no .docx"),
        (packed({"word/document.xml": b"<a>"}), "can't be read as a .docx"),
        (entity(), "can't be read as a .docx"),
    ],
)
def test_what_is_no_document_is_refused_in_one_sentence(
    path: Path, content: bytes, sentence: str
) -> None:
    path.write_bytes(content)
    with pytest.raises(CannotOpen, match=re.escape(sentence)):
        marks_in(path)
    assert path.read_bytes() == content


@pytest.mark.slow
def test_a_document_cut_or_flipped_anywhere_is_read_or_refused(schedule: bytes, path: Path) -> None:
    import random

    chance = random.Random(23)
    outcomes = set()
    for _ in range(150):
        at = chance.randrange(len(schedule))
        flipped = bytearray(schedule if chance.random() < 0.7 else schedule[:at] or b"P")
        flipped[at % len(flipped)] ^= 1 << chance.randrange(8)
        path.write_bytes(flipped)
        try:
            outcomes.add(marks_in(path).all)
        except CannotOpen as error:
            outcomes.add(str(error)[-1])
    assert outcomes == {(job.FINGERPRINT,), "."}


def test_a_missing_document_and_a_folder_are_said(tmp_path: Path) -> None:
    with pytest.raises(CannotOpen, match="There is no document"):
        marks_in(tmp_path / "none.docx")
    with pytest.raises(CannotOpen, match="is a folder"):
        marks_in(tmp_path)
