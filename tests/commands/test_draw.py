"""`draw`: surfaces to scale in a file, or the cut-out sheet in words."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.store.edits import put
from records.store.file import RecordFile
from tests.commands.conftest import Run
from tests.document.walls_job import walls


@pytest.fixture
def wall(tmp_path: Path) -> Path:
    path = tmp_path / "wall.farboard"
    with RecordFile.create(path) as file:
        job = walls().model_dump(mode="json")
        file.change(
            [each for name in ("circuits", "fabric") for each in put(f"/{name}", job[name])]
        )
    return path


@pytest.mark.parametrize(
    ("out", "begins"), [("a.svg", b"<?xml"), ("a.PNG", b"\x89PNG"), ("a.pdf", b"%PDF")]
)
def test_a_drawing_is_written_in_the_kind_that_its_name_says(run: Run, wall, tmp_path, out, begins):
    ran = run("draw", wall, "--surface", "north wall", "-o", out)

    assert ran.returncode == 0, ran.stderr
    assert (tmp_path / out).read_bytes().startswith(begins)
    assert "1 surface drawn" in ran.stdout
    again = run("draw", wall, "-o", out)
    assert again.returncode == 2
    assert "there already" in again.stderr


def test_without_a_file_the_cut_out_sheet_comes_as_words(run: Run, wall):
    ran = run("draw", wall, "--surface", "W1")

    assert ran.returncode == 0, ran.stderr
    assert "CUT-OUT SHEET · North wall, inside" in ran.stdout
    assert "no screw or nail here" in ran.stdout


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--surface", "north"), "several surfaces: W1 North wall, inside; W2 North face"),
        (("--surface", "roof"), "no surface here: W1"),
        (("-o", "a.dwg"), ".svg, .png, .pdf or .txt"),
    ],
)
def test_what_cannot_be_drawn_is_said_with_what_can(run: Run, wall, words, says):
    ran = run("draw", wall, *words)

    assert ran.returncode == 2
    assert says in " ".join((ran.stderr + ran.stdout).split())


def test_a_record_without_surfaces_says_where_to_enter_them(run: Run, tmp_path):
    path = tmp_path / "empty.farboard"
    RecordFile.create(path).close()
    ran = run("draw", path)

    assert ran.returncode == 2
    assert "Before covering" in ran.stderr
