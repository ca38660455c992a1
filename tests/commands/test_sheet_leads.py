"""A sheet and the leads of a meter that doesn't null them: taken off once, and as the row says."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from records.model.reading import Figure
from records.store.file import RecordFile
from tests.commands.conftest import Run
from tests.commands.sheets import IR, R1, RN, ZS, Rows, all_of, filled_in, put, record_of
from tests.taking.test_leads import KNOWN, job_with


@pytest.fixture
def plain_meter(tmp_path: Path) -> Path:
    path = tmp_path / "job.farboard"
    RecordFile.create(path, job_with(KNOWN), by="Wren Oakes").close()
    return path


def leads_of(job: Path) -> list[tuple[float, float | None]]:
    return [
        (each.taken.value, each.taken.leads)
        for each in record_of(job).readings
        if isinstance(each.taken, Figure)
    ]


def test_leads_are_taken_off_as_the_row_says_or_as_at_the_bench(
    run: Run, plain_meter: Path
) -> None:
    rows = all_of(
        put(R1, reading="0.34", at="2026-03-20 14:30", instrument="M1"),
        put(RN, reading="0.35", at="2026-03-20 14:31", instrument="M1", **{"leads Ω": "0.08"}),
        put(
            "circuit/C1/-/dead/r2",
            reading="0.53",
            at="2026-03-20 14:32",
            instrument="M1",
            **{"leads Ω": "0"},
        ),
        put("feed/-/-/dead/R1+R2", reading="0.09", at="2026-03-20 14:33"),
        put(ZS, reading="0.9", at="2026-03-20 14:40", instrument="M1"),
    )
    ran = filled_in(run, plain_meter, rows)

    assert ran.returncode == 0, ran.stderr
    assert leads_of(plain_meter) == [
        (0.04, 0.05),
        (0.29, 0.05),
        (0.27, 0.08),
        (0.53, None),
        (0.9, None),
    ]
    assert "The leads were taken off 3 of them" in " ".join(ran.stdout.split())


def test_what_comes_back_is_not_taken_off_twice(run: Run, plain_meter: Path) -> None:
    """The reading is what the meter showed, with the leads beside it, however often it travels."""
    filled_in(run, plain_meter, put(R1, reading="0.34", at="2026-03-20 14:30", instrument="M1"))
    before = plain_meter.read_bytes()
    seen: list[tuple[str, str]] = []

    def look(rows: Rows) -> None:
        seen.append((rows[R1]["reading"], rows[R1]["leads Ω"]))

    ran = filled_in(run, plain_meter, look)
    assert "0 readings are on record from the sheet; 1 were there already" in ran.stdout
    assert seen == [("0.34", "0.05")]
    assert plain_meter.read_bytes() == before

    other = plain_meter.with_name("other.farboard")
    RecordFile.create(other, job_with(KNOWN)).close()
    assert run("readings", other, "--from", "in.csv").returncode == 0
    assert leads_of(other) == leads_of(plain_meter) == [(0.29, 0.05)]

    again = all_of(
        put(R1, reading="0.36", at="2026-03-20 15:30", re_test="yes"), put(R1, **{"leads Ω": ""})
    )
    ran = filled_in(run, plain_meter, again)
    assert leads_of(plain_meter) == [(0.29, 0.05), (0.31, 0.05)]
    filled_in(run, plain_meter, lambda rows: seen.append((rows[R1]["so far"], "")))
    assert seen[-1][0].startswith("0.29 Ω (0.34 Ω − 0.05 Ω leads) (")


@pytest.mark.parametrize(
    ("key", "cells", "why"),
    [
        (R1, {"reading": ">20", "leads Ω": "0.05"}, "nothing can be taken off “> 20 Ω”"),
        (R1, {"reading": "can't: no access", "leads Ω": "0.05"}, "nothing can be taken off"),
        (R1, {"reading": "", "leads Ω": "0.05"}, "“leads Ω” says “0.05”, but there is no reading"),
        (R1, {"reading": "0.3", "leads Ω": "-0.05"}, "no resistance below nothing"),
        (R1, {"reading": "0.3", "leads Ω": "nulled"}, "“leads Ω”: “nulled” is not one figure"),
        (R1, {"reading": "0.3", "leads Ω": "9"}, "below zero. Correct the lead resistance"),
        (ZS, {"reading": "0.9", "leads Ω": "0.05"}, "only low-resistance readings have leads"),
        (IR, {"reading": "250", "leads Ω": "0.05"}, "only low-resistance readings have leads"),
    ],
)
def test_leads_that_do_not_go_with_the_row_are_refused(
    run: Run, plain_meter: Path, key: str, cells: dict[str, str], why: str
) -> None:
    ran = filled_in(
        run, plain_meter, put(key, at="2026-03-20 14:30" * bool(cells["reading"]), **cells)
    )
    assert ran.returncode == 2
    assert why in " ".join(ran.stderr.split())
    assert leads_of(plain_meter) == []


def test_leads_on_record_are_never_changed_by_a_sheet(run: Run, plain_meter: Path) -> None:
    filled_in(run, plain_meter, put(R1, reading="0.34", at="2026-03-20 14:30", instrument="M1"))
    ran = filled_in(run, plain_meter, put(R1, **{"leads Ω": "0.06"}))

    assert ran.returncode == 2
    assert "“leads Ω” says “0.06”, but “0.05” is on record" in " ".join(ran.stderr.split())
    assert leads_of(plain_meter) == [(0.29, 0.05)]


def test_a_sheet_without_that_column_is_read_as_before(run: Run, plain_meter: Path) -> None:
    run("readings", plain_meter, "-o", "out.csv")
    rows = list(csv.DictReader(io.StringIO(Path("out.csv").read_text(encoding="utf-8-sig"))))
    out = io.StringIO(newline="")
    writer = csv.DictWriter(
        out, [each for each in rows[0] if each != "leads Ω"], extrasaction="ignore"
    )
    writer.writeheader()
    row = next(each for each in rows if each["key"] == R1)
    writer.writerow({**row, "reading": "0.34", "taken at": "2026-03-20 14:30", "instrument": "M1"})
    Path("in.csv").write_text(out.getvalue(), encoding="utf-8")
    ran = run("readings", plain_meter, "--from", "in.csv")

    assert ran.returncode == 0, ran.stderr
    assert "leads Ω”: nothing of that kind" not in ran.stdout
    assert leads_of(plain_meter) == [(0.29, 0.05)]
