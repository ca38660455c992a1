"""Installed beside another package that owns the name `records`: a sentence, never a traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]


def _run(first: Path) -> subprocess.CompletedProcess[str]:
    paths = os.pathsep.join((str(first), str(ROOT)))
    code = "from tui.commands import main; import sys; sys.argv = ['farboard', '--help']; main()"
    return subprocess.run(
        [sys.executable, "-P", "-c", code],
        env={**os.environ, "PYTHONPATH": paths},
        cwd=first,
        capture_output=True,
        text=True,
        check=False,
    )


def test_a_stranger_s_package_is_named_and_not_run(tmp_path: Path) -> None:
    stranger = tmp_path / "records"
    stranger.mkdir()
    (stranger / "__init__.py").write_text("raise SystemExit('it ran')")

    ran = _run(tmp_path)

    assert ran.returncode == 2
    assert "Another package uses the name “records”" in ran.stderr
    assert str(stranger) in ran.stderr
    assert "pipx install" in ran.stderr
    assert "Traceback" not in ran.stderr
    assert "it ran" not in ran.stderr


def test_our_own_is_found_and_nothing_is_said(tmp_path: Path) -> None:
    ran = _run(tmp_path)

    assert ran.returncode == 0
    assert "Another package" not in ran.stderr
