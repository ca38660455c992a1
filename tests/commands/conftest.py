"""The installed command, run as a person or another program would run it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from shutil import copy
from typing import NamedTuple

import pytest
from click.testing import CliRunner

from records.demo import demo_record
from records.store.file import RecordFile
from tests.taking.job import small_job
from tui.commands.program import program

ROOT = Path(__file__).parents[2]


class Ran(NamedTuple):
    """How a command ended, and what it said."""

    returncode: int
    stdout: str
    stderr: str


Run = Callable[..., Ran]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Return what runs `farboard WORDS` in a folder of its own, with no terminal."""
    monkeypatch.chdir(tmp_path)

    def ran(*words: str | Path, typed: str = "") -> Ran:
        result = CliRunner().invoke(
            program,
            [str(word) for word in words],
            typed,
            prog_name="farboard",
            catch_exceptions=False,
            max_content_width=80,
        )
        return Ran(result.exit_code, result.stdout, result.stderr)

    return ran


@pytest.fixture
def run_apart(tmp_path: Path) -> Run:
    """Return what does the same in a process of its own."""

    def ran(*words: str | Path, typed: str = "", **env: str) -> Ran:
        done = subprocess.run(
            [sys.executable, "-m", "tui", *map(str, words)],
            check=False,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUTF8": "1", **env},
            input=typed,
            capture_output=True,
            text=True,
            timeout=60,
        )
        return Ran(done.returncode, done.stdout, done.stderr)

    return ran


@pytest.fixture(scope="session")
def demo_files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the demo job and its schedule: both take long to make, so once."""
    folder = tmp_path_factory.mktemp("demo")
    shed, sheet = folder / "shed.farboard", folder / "sheet.docx"
    RecordFile.create(shed, demo_record(), by="Farboard").close()
    made = CliRunner().invoke(program, ["schedule", str(shed), "-o", str(sheet)])
    assert made.exit_code == 0, made.output
    return folder


@pytest.fixture
def shed(tmp_path: Path, demo_files: Path) -> Path:
    """Return a file with the demo job."""
    return Path(copy(demo_files / "shed.farboard", tmp_path))


@pytest.fixture
def sheet(tmp_path: Path, demo_files: Path) -> Path:
    """Return the schedule of `shed`, as it was first."""
    return Path(copy(demo_files / "sheet.docx", tmp_path))


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """Return a file with a small job, its design alone."""
    path = tmp_path / "job.farboard"
    RecordFile.create(path, small_job(), by="Wren Oakes").close()
    return path
