"""`template` writes a template that `schedule` fills and `verify` asks for."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.conftest import Run

pytestmark = pytest.mark.slow


def test_the_command_writes_it_and_schedule_and_verify_use_it(
    run: Run, shed: Path, tmp_path: Path
) -> None:
    assert run("template", "-o", "mine.docx").returncode == 0
    assert "is there already" in run("template", "-o", "mine.docx").stderr
    assert run("schedule", shed, "-o", "a.docx", "--template", "mine.docx").returncode == 0
    assert run("verify", "a.docx", shed).returncode == 2
    ran = run("verify", "a.docx", shed, "--template", "mine.docx")
    assert ran.returncode == 0, ran.stdout


@pytest.mark.parametrize("workings", ["all", "findings", "none"])
def test_a_schedule_is_made_again_with_the_workings_it_has(
    run: Run, shed: Path, workings: str
) -> None:
    assert run("schedule", shed, "-o", "a.docx", "--workings", workings).returncode == 0
    assert run("verify", "a.docx", shed).returncode == 0


def test_a_template_goes_to_a_docx_file_only(run: Run, tmp_path: Path) -> None:
    ran = run("template", "-o", "mine.txt")
    assert (ran.returncode, ".docx" in ran.stderr) == (2, True)
    assert not (tmp_path / "mine.txt").exists()
