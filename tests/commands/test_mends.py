"""What would mend a finding of the design, beside it in `farboard check` and in the schedule."""

from __future__ import annotations

import json
from pathlib import Path

from records.demo import demo_record
from records.document.schedule import write_schedule
from records.store.exchange import to_json
from tests.commands.conftest import Run


def _demo(folder: Path) -> Path:
    path = folder / "demo.json"
    path.write_text(to_json(demo_record()), encoding="utf-8")
    return path


def test_check_names_what_would_mend_the_long_lighting_circuit(run: Run, tmp_path: Path) -> None:
    said = " ".join(run("check", _demo(tmp_path)).stdout.split())

    put = "Would put it right: C4:"
    assert f"{put} 2.5 mm² instead of 1.5 mm²: ΔU 5.83 V, at most 6.90 V." in said
    assert f"{put} not longer than 68 m instead of 78 m" in said
    assert "Would put it right: Feed, run 2: 25 mm² instead of 16 mm²" in said


def test_json_has_the_change_and_what_it_comes_to(run: Run, tmp_path: Path) -> None:
    found = json.loads(run("check", _demo(tmp_path), "--json").stdout)["findings"]
    drop = next(each for each in found if each["key"] == "circuit/C4/-/design/voltage drop")

    assert drop["mends"][0] == {
        "change": "C4: 2.5 mm² instead of 1.5 mm²",
        "then": "ΔU 5.83 V, at most 6.90 V.",
    }
    assert all(each["mends"] == [] for each in found if each["stage"] is not None)


def test_the_schedule_has_it_beside_the_finding(tmp_path: Path) -> None:
    from datetime import UTC, datetime

    from docx import Document

    out = tmp_path / "out.docx"
    when = datetime(2026, 3, 20, tzinfo=UTC)
    write_schedule(demo_record(), out, fingerprint="0000-0000", made=when)
    document = Document(str(out))
    cells = [cell.text for table in document.tables for row in table.rows for cell in row.cells]
    text = " ".join([*cells, *(each.text for each in document.paragraphs)])

    assert "(1) C4: 2.5 mm² instead of 1.5 mm²: ΔU 5.83 V, at most 6.90 V." in text
