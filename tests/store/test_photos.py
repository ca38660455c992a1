"""Photographs beside a record: known by SHA-256, never read from outside its folder."""

from __future__ import annotations

import hashlib

import pytest

from records.errors import BadPlace
from records.model.fabric import Fabric
from records.store.photos import photo_of, photo_troubles
from tests.judgement.fabric.walls import wall
from tests.judgement.jobs import sound_job


def test_size_and_digest_are_recorded(tmp_path):
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "north.jpg").write_bytes(b"a picture")
    photo = photo_of(tmp_path, "photos/north.jpg", "before boards")

    assert (photo.file, photo.size, photo.note) == ("photos/north.jpg", 9, "before boards")
    assert photo.sha256 == hashlib.sha256(b"a picture").hexdigest()
    assert photo_of(tmp_path, "photos\\north.jpg").file == "photos/north.jpg"


@pytest.mark.parametrize(
    "name",
    [
        "../north.jpg",
        "a/../../north.jpg",
        "/etc/north.jpg",
        "~/north.jpg",
        "C:\\north.jpg",
        "C:north.jpg",
        "\\\\host\\share\\north.jpg",
        "..\\north.jpg",
        "",
    ],
)
def test_a_name_that_climbs_out_is_refused(tmp_path, name):
    folder = tmp_path / "job"
    folder.mkdir()
    (tmp_path / "north.jpg").write_bytes(b"outside")
    with pytest.raises(BadPlace, match="from the record's folder"):
        photo_of(folder, name)


@pytest.mark.parametrize(
    "name",
    [
        "CON.jpg",
        "photos/nul.jpg",
        "aux/north.jpg",
        "com1.png",
        "LPT9.jpg",
        "con .jpg",
        "nul",
        "COM¹.jpg",
        "north.jpg:hidden.jpg",
        "photos./north.jpg",
        "photos /north.jpg",
    ],
)
def test_a_device_or_a_second_stream_is_no_photograph(tmp_path, name):
    """Names that Windows keeps for devices (Microsoft, “Naming Files, Paths, and Namespaces”)."""
    with pytest.raises(BadPlace, match="no name that every computer can keep"):
        photo_of(tmp_path, name)


@pytest.mark.parametrize("name", ["console.jpg", "photos/comet.jpg", "lpt.jpg", "north.1.jpg"])
def test_what_only_looks_like_a_device_is_a_photograph(tmp_path, name):
    (tmp_path / "photos").mkdir()
    (tmp_path / name).write_bytes(b"x")
    assert photo_of(tmp_path, name).size == 1


def test_a_folder_in_the_way_that_leads_out_is_refused(tmp_path):
    folder, elsewhere = tmp_path / "job", tmp_path / "elsewhere"
    folder.mkdir()
    elsewhere.mkdir()
    (elsewhere / "north.jpg").write_bytes(b"outside")
    (folder / "photos").symlink_to(elsewhere)
    with pytest.raises(BadPlace, match="leads out"):
        photo_of(folder, "photos/north.jpg")


def test_a_link_that_climbs_out_is_refused(tmp_path):
    folder = tmp_path / "job"
    folder.mkdir()
    (tmp_path / "north.jpg").write_bytes(b"outside")
    (folder / "north.jpg").symlink_to(tmp_path / "north.jpg")
    with pytest.raises(BadPlace, match="leads out"):
        photo_of(folder, "north.jpg")


def test_what_is_missing_or_no_picture_says_what_to_do(tmp_path):
    (tmp_path / "north.txt").write_text("x")
    with pytest.raises(BadPlace, match="Put it beside the record"):
        photo_of(tmp_path, "north.jpg")
    with pytest.raises(BadPlace, match="ends in"):
        photo_of(tmp_path, "north.txt")


def test_a_missing_or_changed_photograph_is_named_and_not_fatal(tmp_path):
    (tmp_path / "a.jpg").write_bytes(b"one")
    (tmp_path / "b.jpg").write_bytes(b"two")
    photos = tuple(photo_of(tmp_path, name) for name in ("a.jpg", "b.jpg"))
    record = sound_job().model_copy(update={"fabric": Fabric(surfaces=(wall(photos=photos),))})
    assert list(photo_troubles(record, tmp_path)) == []

    (tmp_path / "a.jpg").write_bytes(b"other")
    (tmp_path / "b.jpg").unlink()
    changed, missing = photo_troubles(record, tmp_path)
    assert "a.jpg of North wall was changed since: it has 5 bytes, 3 then" in changed
    assert "b.jpg of North wall" in missing
    assert "Put it beside the record" in missing


def test_a_line_adds_one_to_the_surface_in_hand(tmp_path):
    from records.places.photo_line import understood_here
    from tests.judgement.fabric.walls import WALL, job

    (tmp_path / "a.jpg").write_bytes(b"one")
    found = understood_here(job(), WALL, "photo a.jpg before the boards", tmp_path)
    (op,) = found.ops

    assert op["path"] == "/fabric/surfaces/0/photos/-"
    assert (op["value"]["file"], op["value"]["note"]) == ("a.jpg", "before the boards")
    assert "3 bytes" in found.echo
    with pytest.raises(BadPlace, match="from the record's folder"):
        understood_here(job(), WALL, "photo ../a.jpg", tmp_path)
