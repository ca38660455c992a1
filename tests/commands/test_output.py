"""What a command prints reaches no terminal raw, and is on its way or said to be lost."""

from __future__ import annotations

import ast
import os
import sqlite3
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from records.store.canonical import digest
from records.store.chain import Change
from records.store.exchange import to_json
from records.store.file import RecordFile
from records.text import checked_text, printable
from tests.commands.conftest import ROOT, Run
from tui.commands.program import _COMMANDS

pytestmark = pytest.mark.slow

EVIL = "\x1b]0;gone\x07\x1b[2J\x9b31m\u202egnp.exe\u2028\r\x08\x00"
"""Escape sequences in both forms, a text turned round, a line that overwrites itself."""
NAME = EVIL.rstrip("\0")
"""The same as far as a file can be called so."""
LOST, FAULT = 4, 5


def test_one_place_prints() -> None:
    """All that is printed goes through `say` or `send`, which this file holds to account."""
    found = []
    for path in sorted((ROOT / "tui").rglob("*.py")) + sorted((ROOT / "records").rglob("*.py")):
        # What `main` says before anything of `records` may be imported has no text of a stranger.
        if path.name == "output.py" or path == ROOT / "tui" / "commands" / "__init__.py":
            continue
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                # Before the command line is loaded one name is said, in which nothing can do harm.
                if path.name == "wizard.py" and "printable(" in ast.unparse(node):
                    continue
                if called in (
                    "print",
                    "click.echo",
                    "click.secho",
                    "sys.stdout.write",
                    "sys.stderr.write",
                ):
                    found.append(f"{path.name}: {called}")
    assert found == []


def evil_record(path: Path, shed: Path) -> None:
    """Make a record whose middle states and names of who changed it are made to do harm."""
    path.write_bytes(shed.read_bytes())
    link = sqlite3.connect(path)
    number, before = link.execute("SELECT number, digest FROM change").fetchall()[-1]
    for value, by in ((EVIL, EVIL), ("Loom shed", EVIL)):
        number += 1
        op = {"op": "replace", "path": "/job/place", "value": value}
        body = Change(number, datetime(2026, 3, 20, tzinfo=UTC), by, (op,)).body
        before = digest(before, body)
        link.execute("INSERT INTO change VALUES (?, ?, ?)", (number, body, before))
    link.commit()
    link.close()


def _commands(record: Path, evil: str) -> dict[str, list[list[str]]]:
    file, gone = str(record), f"{evil}.farboard"
    json = str(record.with_suffix(".json"))
    return {
        "demo": [["demo", "--no-wizard", "--folder", evil]],
        "bench": [["bench", file, "--plain", "--by", evil], ["bench", gone, "--plain"]],
        "check": [["check", file], ["check", file, "--json"], ["check", gone], ["check", json]],
        "explain": [["explain", file], ["explain", file, evil], ["explain", gone]],
        "options": [
            ["options", file],
            ["options", file, "C1", "--all"],
            ["options", file, "room"],
            ["options", file, "--json"],
            ["options", file, "earth"],
            ["options", file, "buy"],
            ["options", file, evil],
            ["options", gone],
        ],
        "readings": [
            ["readings", file, "-o", "-"],
            ["readings", file, "--from", json],
            ["readings", file, "--from", gone],
            ["readings", gone, "-o", "-"],
        ],
        "schedule": [
            ["schedule", file, "-o", f"{gone}.txt"],
            ["schedule", gone],
            ["schedule", file, "--template", gone],
        ],
        "template": [["template", "-o", f"{gone}.txt"], ["template", "-o", f"{evil[:9]}/x.docx"]],
        "draw": [
            ["draw", file],
            ["draw", file, "--surface", evil],
            ["draw", gone],
            ["draw", file, "-o", f"{gone}.txt"],
            ["draw", file, "-o", gone],
        ],
        "verify": [
            ["verify", "3F2A-91BC-07DE-55AA", file],
            ["verify", gone, file],
            ["verify", f"{gone}.docx", file],
            ["verify", evil, file],
            ["verify", _first(record), file],
        ],
        "history": [["history", file], ["history", gone]],
        "export": [["export", file], ["export", gone], ["export", file, "-o", f"{evil[:9]}/x"]],
        "import": [
            ["import", json, "-o", file, "--by", evil],
            ["import", gone, "-o", file],
            ["import", json, "-o", f"new{gone}"],
        ],
        "schema": [["schema"], ["schema", "-o", f"{evil[:9]}/x"]],
        "rescue": [["rescue", file, "-o", f"out{gone}"], ["rescue", gone, "-o", "x"]],
        "serve": [["serve", gone], ["serve", file, "--open-to", evil]],
        "sources": [["sources"]],
        "completion": [["completion", evil], ["completion"]],
        "open": [[gone], [evil], [file, evil], [f"--{evil}"]],
    }


def _first(record: Path) -> str:
    with RecordFile.open(record, read_only=True) as file:
        return file.fingerprints()[0]


def test_every_command_prints_a_strangers_text_harmlessly(
    tmp_path: Path, shed: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    record = tmp_path / f"shed {NAME}.farboard"
    evil_record(record, shed)
    with RecordFile.open(record, read_only=True) as file:
        record.with_suffix(".json").write_text(to_json(file.record).replace("LOOM-1", "x\\u001b"))
    tried = _commands(record, NAME)
    assert set(tried) == set(_COMMANDS)
    said = ""
    for name, lines in tried.items():
        for words in lines:
            ran = run(*words, typed=f"{EVIL}\n")
            said = ran.stdout + ran.stderr
            bad = {char for char in said if char not in "\n\r\ufeff" and printable(char) != char}
            assert not bad, (name, bad)
            assert ran.returncode in (0, 1, 2, 3, 4), (name, ran)
            if name != "readings":  # whose lines end as RFC 4180 says
                assert "\r" not in said, name
            assert "Traceback" not in said
    assert said


def test_what_may_be_entered_is_shown_as_it_is() -> None:
    for text in ("10 mm²", "Ω ✓ é 漢字", "a\u200db", "soft\xadhyphen"):
        assert printable(checked_text(text)) == text


WRITING = {
    "check": ["check", "shed.farboard"],
    "export": ["export", "shed.farboard"],
    "--help": ["--help"],
}


@pytest.mark.parametrize("words", WRITING.values(), ids=WRITING)
@pytest.mark.parametrize("way", ["full disk", "closed", "nobody reads"])
def test_output_that_got_nowhere_is_no_success_and_no_finding(
    tmp_path: Path, shed: Path, words: list[str], way: str
) -> None:
    end = {"full disk": ">/dev/full", "closed": ">&-", "nobody reads": ">&9 9>&-"}[way]
    command = f'exec {sys.executable} -m tui "$@" {end}'
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(
        ["bash", "-c", f"exec 9>&{write}; {command}", "x", *words],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        pass_fds=[write],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    os.close(write)
    assert done.returncode == LOST
    assert "Traceback" not in done.stderr
    if way != "nobody reads":
        assert done.stderr.count("\n") == 1
        assert "could not be written" in done.stderr or "closed" in done.stderr


def test_a_disk_that_is_full_leaves_what_stood_there(tmp_path: Path, shed: Path, run: Run) -> None:
    """The device that answers every write as a full disk does is never replaced by a file."""
    ran = run("export", shed, "-o", "/dev/full", "--force")
    assert ran.returncode == LOST
    assert "no ordinary file" in ran.stderr
    assert Path("/dev/full").is_char_device()


def test_a_fault_of_the_program_has_a_code_of_its_own(
    tmp_path: Path, shed: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))

    entered = "-".join(("LOOM", "1"))

    def fails(*_: object, **__: object) -> None:
        raise KeyError(entered)

    monkeypatch.setattr("records.store.file.RecordFile.open", fails)
    for at in range(1, 8):
        ran = run("history", shed)
        assert ran.returncode == FAULT
        assert "has crashed" in ran.stderr
        reports = sorted((tmp_path / "state" / "farboard" / "crashes").iterdir())
        assert len(reports) == min(at, 5)
        assert reports[-1].name in ran.stderr.replace("\n", " ")
        assert "KeyError" in reports[-1].read_text()
        assert entered not in reports[-1].read_text()


def test_the_codes_are_documented(run: Run) -> None:
    said = " ".join(run("--help").stdout.split())
    readme = " ".join((ROOT / "README.md").read_text().replace("|", "").split())
    for code in ("4 the output could not be written", "5 Farboard has crashed"):
        assert code in said
        assert code in readme
