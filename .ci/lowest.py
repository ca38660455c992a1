"""Runs a small part of the tests on the lowest versions that the metadata allows.

The whole of the tests runs on pinned versions; this says whether the floors are true. It takes the
parts where a library is leaned on: the record file, the document, the command line, one screen.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tempfile
import tomllib
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
TESTS = (
    "tests/store/test_file.py",
    "tests/document/test_schedule.py",
    "tests/commands/test_program.py",
    "tests/tui/test_seated.py",
)
NEEDED = ("pytest", "pytest-asyncio", "pytest-xdist", "hypothesis", "pyte", "jsonschema")
"""Of what tests need; these come as pinned."""
_FLOOR = re.compile(r"([A-Za-z0-9_-]+)>=([0-9.]+)")


def main() -> int:
    """Install and run; return the exit code of the tests."""
    named = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["dependencies"]
    floors = dict(_FLOOR.match(each).groups() for each in named)
    pinned = dict(
        line.split("==")
        for line in (ROOT / ".ci" / "constraints.txt").read_text().splitlines()
        if "==" in line
    )
    wanted = [f"{name}=={version}" for name, version in floors.items()]
    wanted += [f"{name}=={pinned[name]}" for name in NEEDED]
    with tempfile.TemporaryDirectory(prefix="farboard-lowest-") as name:
        folder = Path(name)
        venv.create(folder, with_pip=True)
        python = folder / "bin" / "python"
        env = {key: value for key, value in os.environ.items() if key != "PIP_CONSTRAINT"}
        pip = [python, "-m", "pip", "--disable-pip-version-check", "install", "-q"]
        subprocess.run([*pip, *wanted], check=True, env=env)
        subprocess.run([*pip, "--no-deps", "-e", ROOT], check=True, env=env)
        env["PYTHONPATH"] = str(ROOT)
        tests = [python, "-m", "pytest", "-p", "no:cacheprovider", "-n", "2", *TESTS]
        return subprocess.run(tests, cwd=ROOT, env=env, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
