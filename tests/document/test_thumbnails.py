"""Photographs in the schedule: small, upright, without their hidden data, wherever it is made."""

from __future__ import annotations

import base64
import io
import zipfile

import jsonpatch
import pytest
from docx import Document
from PIL import Image

from records.document.thumbnails import MOST, checked, thumbnail
from records.model.fabric import Photo
from records.model.record import Record
from records.places.photo_line import understood_here
from tests.document.job import MADE
from tests.document.walls_job import NORTH, walls

_RED = (200, 30, 30)


def jpeg(size=(1200, 800), **more):
    out = io.BytesIO()
    picture = Image.new("RGB", size, (30, 120, 200))
    picture.paste(_RED, (0, 0, size[0] // 2, size[1] // 2))  # the upper left quarter
    picture.save(out, more.pop("format", "JPEG"), **more)
    return out.getvalue()


def opened(small):
    return Image.open(io.BytesIO(base64.b64decode(small)))


def test_a_small_picture_has_320_pixels_and_few_bytes():
    small = thumbnail(jpeg())

    assert opened(small).size == (320, 213)
    assert len(base64.b64decode(small)) <= MOST
    assert thumbnail(jpeg(format="PNG")) is not None


def test_it_stands_upright_and_tells_nothing_else():
    """Orientation 6 of EXIF: the camera was turned; where it was is nobody's business here."""
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010E] = "where it was taken"
    picture = opened(thumbnail(jpeg(exif=exif)))

    assert picture.size == (213, 320)
    red, _, blue = picture.getpixel((180, 40))
    assert red > 150 > blue  # what was upper left is upper right
    assert not picture.getexif()


@pytest.mark.parametrize(
    "data",
    [b"", b"no picture", jpeg()[:200], b"\xff\xd8\xff\xe0" + bytes(100), b"%PDF-1.7"],
)
def test_what_is_no_picture_has_no_small_one(data):
    assert thumbnail(data) is None


def test_a_picture_that_claims_too_many_pixels_isnt_unpacked():
    bomb = bytearray(jpeg(format="PNG"))
    bomb[16:24] = (60_000).to_bytes(4, "big") * 2

    assert thumbnail(bytes(bomb)) is None


@pytest.mark.parametrize(
    "small",
    [
        "",
        "AAAA",
        "not base64",
        base64.b64encode(jpeg(size=(900, 900))).decode(),
        base64.b64encode(jpeg(size=(40, 40), format="PNG")).decode(),
        base64.b64encode(jpeg(size=(300, 300))[:400]).decode(),
    ],
)
def test_a_record_from_elsewhere_can_put_nothing_else_into_a_document(small):
    assert checked(small) is None


def with_photo(folder, note="before <boards> & foil {{ x }}"):
    (folder / "north.jpg").write_bytes(jpeg())
    record = walls()
    line = understood_here(record, NORTH, f"photo north.jpg {note}", folder)
    changed = jsonpatch.apply_patch(record.model_dump(mode="json"), list(line.ops))
    return Record.model_validate(changed)


def written(record):
    from records.document.schedule import schedule_bytes

    return schedule_bytes(record, fingerprint="4f2a 91c0", made=MADE)


def test_the_schedule_shows_it_also_where_the_photograph_is_gone(tmp_path):
    record = with_photo(tmp_path)
    (tmp_path / "north.jpg").unlink()
    document = written(record)
    with zipfile.ZipFile(io.BytesIO(document)) as archive:
        media = [each for each in archive.namelist() if "media/" in each]
        assert len(media) == 1
        assert Image.open(io.BytesIO(archive.read(media[0]))).size == (320, 213)
    drawn = [
        each
        for each in Document(io.BytesIO(document)).element.body.iter()
        if each.tag.endswith("}docPr") and each.get("name") == "Photograph"
    ]
    assert [each.get("descr") for each in drawn] == ["before <boards> & foil {{ x }}"]
    assert written(record) == document


def test_a_photograph_without_one_is_named_all_the_same(tmp_path):
    bare = Photo(file="north.heic", size=4, sha256="0" * 64)
    wall = NORTH.model_copy(update={"photos": (bare,)})
    record = walls()
    fabric = record.fabric.model_copy(update={"surfaces": (wall, *record.fabric.surfaces[1:])})
    document = Document(io.BytesIO(written(record.model_copy(update={"fabric": fabric}))))
    cells = {cell.text for table in document.tables for row in table.rows for cell in row.cells}

    assert "north.heic" in cells


def test_a_file_that_cant_be_shown_small_says_so(tmp_path):
    (tmp_path / "north.jpg").write_bytes(b"no picture")

    assert (
        "can't be shown small" in understood_here(walls(), NORTH, "photo north.jpg", tmp_path).echo
    )
