"""DEVELOPERS.md names what there is: files, folders, layers and words."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]
PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAMED = re.compile(r"`([\w./*-]+)`")


def part(heading: str) -> str:
    """Return what stands under a heading of the page."""
    return PAGE.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]


def rows(text: str) -> list[list[str]]:
    """Return the cells of a table's rows, without its head."""
    lines = [line for line in text.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in lines[2:]]


def files(cell: str) -> Iterator[Path]:
    """Yield the files and folders that a cell names; one without a folder is beside the last."""
    folder = ROOT
    for name in NAMED.findall(cell):
        if not re.search(r"/|\.\w+$", name) or name.startswith("*"):
            continue  # a word of the code
        top = name.split("/")[0] in ("records", "tui", "tests", "fixtures", ".ci")
        path = (ROOT if top or ("/" not in name and folder == ROOT) else folder) / name
        folder = path.parent
        yield path


def inside(folder: str) -> list[Path]:
    """Return the modules and packages of a folder."""
    return [
        path
        for path in (ROOT / folder).iterdir()
        if (path / "__init__.py").exists() or (path.suffix == ".py" and path.stem != "__init__")
    ]


PLACES = {
    path
    for heading, column in (("The way of the data", 0), ("Where do I find …", 1))
    for row in rows(part(heading))
    for path in files(row[column])
}


def test_the_tables_name_many_places() -> None:
    assert len(rows(part("Where do I find …"))) >= 12
    assert len(PLACES) > 30


@pytest.mark.parametrize("path", sorted(PLACES), ids=lambda path: str(path.relative_to(ROOT)))
def test_each_place_that_it_sends_people_to_exists(path: Path) -> None:
    assert path.exists()


def test_each_folder_and_file_of_records_has_a_line_in_its_table() -> None:
    table = {
        path.relative_to(ROOT / "records").parts[0] for path in PLACES if "records" in path.parts
    }
    assert {path.name for path in inside("records")} - table == set()


def test_each_of_our_own_words_is_a_name_in_the_code() -> None:
    code = "\n".join(
        path.read_text(encoding="utf-8")
        for top in ("records", "tui")
        for path in (ROOT / top).rglob("*.py")
    )
    names = {part.casefold() for name in re.findall(r"\w+", code) for part in _parts(name)}
    words = [row[0].strip("`") for row in rows(part("Our own words"))]
    assert len(words) > 10
    assert [word for word in words if word not in names] == []


def _parts(name: str) -> Iterator[str]:
    yield from re.findall(r"[A-Z]?[a-z]+|[A-Z]+", name)


@pytest.mark.parametrize("top", ["records", "tui"])
def test_the_picture_of_the_layers_is_that_of_the_contract(top: str) -> None:
    contract = next(each for each in contracts() if each.get("containers") == [top])
    picture = part("The way of the data").partition(f"\n    {top} ")[2]
    drawn = []
    for line in picture.splitlines():
        if (found := re.match(r" *(\w+(?: \| \w+)*)", line)) is None or line.startswith("    -"):
            break
        drawn.append(found[1])

    assert drawn == contract["layers"]


@pytest.mark.parametrize("top", ["records", "tui"])
def test_each_folder_and_file_has_its_layer(top: str) -> None:
    contract = next(each for each in contracts() if each.get("containers") == [top])

    assert contract["exhaustive"]
    layers = {name for each in contract["layers"] for name in each.split(" | ")}
    assert {path.stem for path in inside(top)} - layers == set()


def contracts() -> list[dict[str, Any]]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return settings["tool"]["importlinter"]["contracts"]
