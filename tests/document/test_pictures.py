"""Pictures of the schedule: there, with words for who can't see them, small, the same each time."""

from __future__ import annotations

import base64
import io
import zipfile
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from docx import Document
from PIL import Image

from records.demo import demo_record
from records.document.apart import filled_apart
from records.document.drawing import Sheet
from records.document.filling import filled
from records.document.images import with_pictures
from records.document.pictures import pictures
from records.document.plots import plot_curve
from records.document.schedule import write_schedule
from records.errors import BadTemplate
from records.expected.pictures.curve import TimeCurrent, time_current
from records.expected.plan import expected
from records.judgement.review import review
from records.model.reading import place_of
from records.model.record import Record
from records.terms import Part
from tests.document import job
from tests.document.reading_back import opened, text

MADE = datetime(2026, 3, 21, tzinfo=UTC)
WP = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"


def _made(record: Record) -> dict[str, Any]:
    follows = expected(record)
    return pictures(record, follows, review(record, follows))


def _schedule(folder: Path, record: Record, name: str = "one.docx") -> bytes:
    out = folder / name
    write_schedule(record, out, fingerprint="3F2A-91BC", made=MADE)
    return out.read_bytes()


def _descriptions(document: bytes) -> list[str]:
    body = opened(document).element.body
    return [each.get("descr") for each in body.iter(f"{WP}docPr")]


def _files(document: bytes) -> list[str]:
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        return [name for name in archive.namelist() if name.startswith("word/media/")]


def _ink(image: Image.Image) -> int:
    return sum(count for count, grey in image.convert("L").getcolors() or () if grey < 128)


def _own(*lines: str, head: str = "") -> bytes:
    document = Document()
    for each in lines:
        document.add_paragraph(each)
    document.sections[0].header.paragraphs[0].text = head
    out = io.BytesIO()
    document.save(out)
    return out.getvalue()


def test_the_schedule_has_a_curve_and_a_loop_of_each_part_and_a_picture_of_each_ring(
    tmp_path: Path,
) -> None:
    record = demo_record()
    document = _schedule(tmp_path, record)
    said = _descriptions(document)

    parts = 1 + len(record.circuits)
    assert sum(each.startswith("Time and current, ") for each in said) == parts
    assert sum(each.startswith("Loop, ") for each in said) == parts
    assert sum(each.startswith("Ring, ") for each in said) == 1
    assert len(said) == 2 * parts + 1
    words = text(opened(document))
    assert words.index("What somebody must deal with") < words.index("Pictures")
    assert words.index("Pictures") < words.index("How each figure was worked out")


def test_who_can_not_see_a_picture_is_told_what_it_shows(tmp_path: Path) -> None:
    said = _descriptions(_schedule(tmp_path, demo_record()))

    curve = next(each for each in said if each.startswith("Time and current, C1"))
    assert "RCBO type B, 32 A, off within 0.4 s." in curve
    assert "By the design 296 A at least: within 0.1 s; RCD within 40 ms." in curve
    ring = next(each for each in said if each.startswith("Ring, cross-connected, C1"))
    assert "To look at: S5 dye shelf, L-cpc: 0.36 Ω." in ring
    loop = next(each for each in said if each.startswith("Loop, Feed"))
    assert "source 0.32 Ω, feed 0.15 Ω" in loop


def test_the_same_record_gives_the_same_bytes_with_its_pictures(tmp_path: Path) -> None:
    record = demo_record()
    assert _schedule(tmp_path, record) == _schedule(tmp_path, record, "two.docx")


def test_each_picture_has_a_number_of_its_own(tmp_path: Path) -> None:
    body = opened(_schedule(tmp_path, demo_record())).element.body
    numbers = [each.get("id") for each in body.iter(f"{WP}docPr")]
    assert len(set(numbers)) == len(numbers)


def test_a_record_without_a_design_says_that_nothing_can_be_drawn(tmp_path: Path) -> None:
    document = _schedule(tmp_path, Record())
    assert _descriptions(document) == []
    assert "Nothing can be drawn yet." in text(opened(document))


def test_pictures_are_small_sharp_and_grey() -> None:
    """84 mm wide at 254 dots to the inch, at most sixteen greys, a few kilobytes."""
    shown = _made(demo_record())
    images = [pair["left"]["image"] for pair in shown["curves"]]
    for each in images:
        raw = base64.b64decode(each["png"])
        image = Image.open(io.BytesIO(raw))
        assert image.width == 840
        assert image.info["dpi"] == pytest.approx((254, 254), abs=0.1)
        assert len(raw) < 20_000
        colours = image.convert("RGB").getcolors() or []
        assert 3 < len(colours) <= 16
        assert all(red == green == blue for _, (red, green, blue) in colours)


def test_a_curve_has_ink_where_its_device_opens() -> None:
    """Demo C1, type B of 32 A: trips at once from 160 A (BS EN 60898-1, five times In).

    On the axis from 10 A to 10 kA that is 1.204 of 3 decades; there the heavy line falls.
    """
    record = demo_record()
    found = time_current(record, expected(record), place_of(Part.CIRCUIT, "C1"))
    assert isinstance(found, TimeCurrent)
    image = Image.open(io.BytesIO(plot_curve(found).png())).convert("L")
    left, right = 120, 840 - 45
    falls = left + 1.204 / 3 * (right - left)
    strip = image.crop((round(falls) - 2, 250, round(falls) + 3, 320))
    beside = image.crop((round(falls) + 10, 250, round(falls) + 15, 320))

    assert _ink(strip) > 250
    assert _ink(beside) == 0


def test_labels_on_a_sheet_keep_apart_and_inside() -> None:
    sheet = Sheet(40, 20)
    inside = (1.0, 1.0, 39.0, 19.0)
    placed = [sheet.label((20.0, 10.0), "readings 12 A", inside) for _ in range(30)]
    assert 6 <= placed.count(True) < 20
    boxes = sheet._taken
    for at, one in enumerate(boxes):
        assert min(one) >= 1
        assert one[2] <= 39
        assert one[3] <= 19
        for other in boxes[at + 1 :]:
            apart = one[2] < other[0] or other[2] < one[0] or one[3] < other[1] or other[3] < one[1]
            assert apart


def test_an_own_template_prints_a_picture_in_body_and_head() -> None:
    ask = "{{ pictures.curves[0].left.image }}"
    context = job.filled_context() | {"pictures": _made(demo_record())}
    document = filled_apart(_own("Before", ask, "After", head=ask), context, job.MADE)

    assert len(_files(document)) == 1
    assert len(_descriptions(document)) == 1
    head = opened(document).sections[0].header
    assert "<pic:blipFill>" in head._element.xml
    assert len(head.part.related_parts) == 1
    assert [each.text for each in opened(document).paragraphs] == ["Before", "", "After"]


def test_an_own_template_that_asks_for_none_carries_none() -> None:
    context = job.filled_context() | {"pictures": _made(demo_record())}
    assert _files(filled(_own("{{ job.place }}"), context, job.MADE)) == []


@pytest.mark.parametrize("reach", ["_png", "__class__", "_width"])
def test_a_template_reaches_nothing_behind_a_picture(reach: str) -> None:
    context = job.filled_context() | {"pictures": _made(demo_record())}
    with pytest.raises(BadTemplate):
        filled(_own("{{ pictures.curves[0].left.image." + reach + " }}"), context, job.MADE)


def test_names_that_look_like_markup_or_tags_stay_words_in_a_picture(tmp_path: Path) -> None:
    record = demo_record()
    odd = '<b> & "{{ 7*7 }}" {_{x}_} Ω'
    first = record.circuits[0].model_copy(update={"name": odd})
    points = tuple(each.model_copy(update={"name": odd}) for each in first.points)
    first = first.model_copy(update={"points": points})
    record = record.model_copy(update={"circuits": (first, *record.circuits[1:])})
    said = _descriptions(_schedule(tmp_path, record))

    assert any(each.startswith(f"Ring, cross-connected, C1 {odd}") for each in said)
    assert any(f"To look at: {odd}, L-cpc" in each for each in said)


@pytest.mark.parametrize(
    "broken", [{"png": "no base64!"}, {"width": "wide"}, {"png": 7}, {"width": None}]
)
def test_what_is_no_picture_is_refused(broken: dict[str, object]) -> None:
    with pytest.raises(ValueError, match="picture"):
        with_pictures([{"png": "", "alt": "x", "width": "84", **broken}])
