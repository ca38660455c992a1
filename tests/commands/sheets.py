"""A sheet of readings, written, filled in as a spreadsheet would, and read back."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

from records.model.record import Record
from records.store.file import RecordFile
from tests.commands.conftest import Run

Rows = dict[str, dict[str, str]]
Fill = Callable[[Rows], None]

R1 = "circuit/C1/-/dead/r1"
RN = "circuit/C1/-/dead/rn"
IR = "circuit/C2/-/dead/ir-le"
ZS = "circuit/C2/-/live/Zs"
POLARITY = "circuit/C2/-/dead/polarity"
ZE = "origin/-/-/live/Ze"


def filled_in(run: Run, job: Path, fill: Fill, *, delimiter: str = ",", by: str = "") -> object:
    """Write a sheet, fill it in, save it as a spreadsheet would, and read it back."""
    run("readings", job, "-o", "out.csv", "--force")
    text = (job.parent / "out.csv").read_text(encoding="utf-8-sig")
    rows = {row["key"]: row for row in csv.DictReader(io.StringIO(text))}
    fill(rows)
    out = io.StringIO(newline="")
    headings = list(next(iter(rows.values())))
    writer = csv.DictWriter(out, headings, delimiter=delimiter)
    writer.writeheader()
    writer.writerows(rows.values())
    (job.parent / "in.csv").write_text(out.getvalue(), encoding="utf-8-sig", newline="")
    return run("readings", job, "--from", "in.csv", *(["--by", by] if by else []))


def record_of(job: Path) -> Record:
    with RecordFile.open(job, read_only=True) as file:
        return file.record


def put(key: str, /, **cells: str) -> Fill:
    """Return what fills cells of one row; `at` stands for `taken at`."""
    names = {"at": "taken at", "volts": "test voltage V", "cold": "temperature °C"}

    def fill(rows: Rows) -> None:
        for name, value in cells.items():
            rows[key][names.get(name, name.replace("_", "-"))] = value

    return fill


def all_of(*fills: Fill) -> Fill:
    def fill(rows: Rows) -> None:
        for each in fills:
            each(rows)

    return fill
