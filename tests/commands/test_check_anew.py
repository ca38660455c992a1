"""What changed in the design since a reading, and how a finding stands, in `check` and schedule."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from docx import Document

from records.model.reading import Figure, Quantity, Reading, Remedy
from records.store.edits import append, put
from records.store.file import RecordFile
from records.terms import Stage
from tests.commands.conftest import Run
from tests.taking.job import AT, slot, small_job

KEY = "circuit/C2/-/dead/R1+R2"
CHANGED = "Circuit C2, run 1, Length: "


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """Return a record with a reading, whose circuit was made longer afterwards."""
    path = tmp_path / "job.farboard"
    there = slot(Quantity.R1_R2, Stage.DEAD, "C2")
    first = Reading(id="R1", slot=there, taken=Figure(value=0.3), at=AT)
    note = Remedy(id="D1", finding=KEY, done="As ordered", at=AT, to_decide=True)
    with RecordFile.create(path, small_job()) as file:
        file.change(append("/readings", first))
        file.change(put("/circuits/1/runs/0/length", 90.0))
        file.change(append("/remedies", note))
    return path


def test_check_says_what_changed_and_that_it_was_passed_on(run: Run, job: Path) -> None:
    ran = run("check", job)
    said = " ".join(ran.stdout.split())

    assert ran.returncode == 1
    assert "Judged again, for the design changed since it was read: " + CHANGED in said
    assert "Passed on" in said
    assert "to the certifier, to decide: As ordered" in said
    assert "State: to decide by the certifier" in said


def test_json_says_so_too(run: Run, job: Path) -> None:
    data = json.loads(run("check", job, "--json").stdout)
    line = next(each for each in data["findings"] if each["key"] == KEY)

    assert CHANGED in line["anew"]
    assert line["life"] == "to decide by the certifier"
    assert line["remedies"][0]["to_decide"] is True


def test_before_the_change_there_was_nothing_to_say(run: Run, job: Path) -> None:
    data = json.loads(run("check", job, "--json", "--at", "2").stdout)

    assert not [each for each in data["findings"] + data["others"] if each["anew"]]


def test_the_schedule_has_both_beside_the_reading(run: Run, job: Path, tmp_path: Path) -> None:
    out = tmp_path / "job.docx"
    assert run("schedule", job, "-o", out).returncode == 0
    said = "\n".join(each.text for each in Document(str(out)).element.iter() if each.text)

    assert CHANGED in said
    assert "to decide by the certifier" in said
    assert "to the certifier, to decide: As ordered" in said


def test_the_bench_line_by_line_says_so_at_the_reading(run: Run, job: Path) -> None:
    typed = "ok\ngo: C2 R1+R2\nquit\n"
    ran = run("bench", job, "--plain", "--stage", "dead", typed=typed)

    assert "Judged again, for the design changed since it was read: " + CHANGED in ran.stdout
    assert ran.stdout.count("Judged again") == 1
