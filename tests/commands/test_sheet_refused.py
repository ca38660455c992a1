"""What a sheet can't bring: what won't do is named by row, date or column, and nothing is taken."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.conftest import Run
from tests.commands.sheets import (
    IR,
    POLARITY,
    R1,
    RN,
    ZS,
    Fill,
    all_of,
    filled_in,
    put,
    record_of,
)


@pytest.mark.parametrize(
    ("fill", "says"),
    [
        (put(R1, reading="abc"), "is not one figure"),
        (put(R1, reading="1,250"), "could be 1.250 or 1250"),
        (put(R1, reading="=1+1"), "is not one figure"),
        (put(R1, reading="01. Mai"), "“Mai” is not a unit"),
        (put(R1, reading="0.3\n0.4"), "control character"),
        (put(R1, reading="can't: x"), "reason in a few words"),
        (put(POLARITY, reading="0.3"), "this is a check"),
        (put(R1, reading="0.31", at="14:30"), "without a day. Write day and time"),
        (put(R1, reading="0.31", at="2026-02-30 14:30"), "2026-02-30 14:30”. Write day and time"),
        (put(R1, reading="0.31", at="2199-02-20 14:30"), "still to come"),
        (put(R1, reading="0.31", by="Ada"), "is nobody in this job. It has: A1 Wren Oakes"),
        (put(R1, reading="0.31", instrument="M9"), "no such instrument. It has: M1 0412"),
        (put(R1, reading="0.31", volts="500"), "only insulation tests"),
        (put(IR, reading=">99", volts="many"), "“test voltage V”"),
        (put(R1, reading="0.31", cold="200"), "200.0 is not possible; it has to be less than"),
        (put(R1, reading="0.31", note="x" * 3000), "2,000 is the most"),
        (put(R1, reading="0.31", re_test="perhaps"), "put yes there"),
        (put(R1, reading="0.31", re_test="yes"), "nothing was taken here before"),
        (put(R1, note="damp"), "there is no reading"),
        (put(R1, reading="0.31", where="Board"), "sorted apart"),
        (put(R1, reading="0.31", unit="mΩ"), "“unit” says “mΩ”"),
        (put(R1, reading="0.31", unit="?"), "CSV UTF-8"),
        (put(R1, reading="0.31", key="circuit/C9/-/dead/r1"), "no reading “circuit/C9"),
        (put(R1, reading="0.31", key=""), "“key” is empty"),
        (
            put(R1, reading="0.31", key=RN, what="rn: Ring final circuit: neutral end to end"),
            "already",
        ),
    ],
)
def test_a_row_that_wont_do_is_named_and_nothing_is_taken(
    run: Run, job: Path, fill: Fill, says: str
) -> None:
    before = job.read_bytes()
    ran = filled_in(run, job, all_of(put(ZS, reading="0.9"), fill))

    assert ran.returncode == 2
    assert says in ran.stderr
    assert "One row can't be taken. Nothing was taken.\nLine " in ran.stderr
    assert "Traceback" not in ran.stderr
    assert job.read_bytes() == before


def test_dates_that_can_be_read_two_ways_are_asked_about_once(run: Run, job: Path) -> None:
    both = all_of(
        put(R1, reading="0.31", at="04/03/2026 14:30"),
        put(RN, reading="0.31", at="5/3/26 14:32"),
    )
    ran = filled_in(run, job, both)
    assert ran.returncode == 2
    said = " ".join(ran.stderr.split())
    assert "is 4 Mar 2026 14:30 with the day first, 3 Apr 2026 14:30 with the month first" in said
    assert said.count("two ways") == 1
    assert not record_of(job).readings

    ran = run("readings", job, "--from", "in.csv", "--dates", "day-first")
    assert ran.returncode == 0, ran.stderr
    assert [f"{each.at.astimezone():%m-%d}" for each in record_of(job).readings] == [
        "03-04",
        "03-05",
    ]


@pytest.mark.parametrize(("other", "day"), [("20/3/26 9:00", "03-04"), ("3/20/26 9:00", "04-03")])
def test_one_row_that_can_be_read_one_way_says_it_for_the_column(
    run: Run, job: Path, other: str, day: str
) -> None:
    rows = all_of(put(R1, reading="0.31", at="04/03/2026 14:30"), put(RN, reading="0.3", at=other))
    assert filled_in(run, job, rows).returncode == 0
    assert f"{record_of(job).readings[0].at.astimezone():%m-%d}" == day


def test_every_bad_row_is_named_with_its_line(run: Run, job: Path) -> None:
    ran = filled_in(run, job, all_of(put(R1, reading="abc"), put(RN, reading="OL")))
    text = (job.parent / "in.csv").read_text(encoding="utf-8-sig").splitlines()
    lines = [at for at, line in enumerate(text, start=1) if f",{R1}" in line or f",{RN}" in line]

    assert "2 rows can't be taken" in ran.stderr
    assert len(lines) == 2
    for line in lines:
        assert f"Line {line} (C1 Bench sockets · r" in ran.stderr
