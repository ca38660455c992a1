"""A record file of an older form: to look it stays as it is; to write, the person is told."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.commands.conftest import ROOT, Run
from tests.tui.driving import wizard

TOLD = "was of an older form and is now of form 3"


@pytest.fixture
def older(tmp_path: Path) -> Path:
    return Path(shutil.copy(ROOT / "fixtures" / "format-1.farboard", tmp_path / "job.farboard"))


@pytest.mark.parametrize("command", ["check", "history", "export"])
def test_looking_needs_no_newer_form(run: Run, older: Path, command: str) -> None:
    before = older.read_bytes()
    ran = run(command, older)

    assert ran.returncode == (1 if command == "check" else 0), ran.stderr
    assert "older form" not in ran.stdout + ran.stderr
    assert older.read_bytes() == before
    assert list(older.parent.iterdir()) == [older]


def test_the_line_bench_says_where_the_older_file_lies(run: Run, older: Path) -> None:
    ran = run("bench", older, "--plain", "--stage", "dead", typed="quit\n")
    (kept,) = older.parent.glob("*older form*")

    assert ran.returncode == 0, ran.stderr
    assert TOLD in ran.stdout.splitlines()[0]
    assert kept.name in ran.stdout
    assert TOLD not in run("bench", older, "--plain", typed="quit\n").stdout


def test_reading_a_sheet_back_says_so_too(run: Run, older: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.csv"
    assert run("readings", older, "-o", sheet).returncode == 0
    ran = run("readings", older, "--from", sheet)

    assert ran.returncode == 0, ran.stderr
    assert TOLD in " ".join(ran.stdout.split())


async def test_the_wizard_says_where_the_older_file_lies(older: Path, tmp_path: Path) -> None:
    async with wizard(older, tmp_path) as driver:
        await driver.settled()
        (kept,) = tmp_path.glob("*older form*")
        assert TOLD in driver.words
        # The name is longer than a line, so it is broken somewhere.
        assert "".join(kept.name.split()) in "".join(driver.words.split())
