"""`readings`: a sheet out, filled in as spreadsheets do, and in again whole or not at all."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from records.demo import demo_record
from records.judgement.review_types import key_of
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Tick
from records.model.supply import Ground
from records.store.file import RecordFile
from records.store.sheet import known_slots, names_of, slots_brought
from records.terms import Sign, Stage
from tests.commands.conftest import Run
from tests.commands.sheets import (
    IR,
    POLARITY,
    R1,
    RN,
    ZE,
    ZS,
    Rows,
    all_of,
    filled_in,
    put,
    record_of,
)
from tests.taking.job import ready_job, slot


def test_a_sheet_goes_out_and_comes_back_with_nothing_new(run: Run, shed: Path) -> None:
    before = shed.read_bytes()
    out = run("readings", shed, "-o", "a.csv")
    back = run("readings", shed, "--from", "a.csv")

    assert (out.returncode, back.returncode) == (0, 0)
    known = known_slots(demo_record())
    taken = sum(bool(demo_record().taken(slot)) for slot in known)
    assert f": {len(known)} rows." in out.stdout
    assert f"0 readings are on record from the sheet; {taken} were there already" in back.stdout
    assert shed.read_bytes() == before


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_readings_are_taken_as_testers_write_them(run: Run, job: Path, delimiter: str) -> None:
    ran = filled_in(
        run,
        job,
        delimiter=delimiter,
        fill=all_of(
            put(R1, reading="0,31", at="2026-03-20 14:30", by="wren oakes", instrument="0412"),
            put(RN, reading=".31", at="20/03/2026 14:32", by="A1", method="no leads", cold="8,5"),
            put(IR, reading=">999", at="2026-03-20T14:40:30", volts="250", note="driver in"),
            put(POLARITY, reading="right", at="3/20/2026 14:50"),
            put(ZS, reading="can't: locked room", at="2026-03-21 09:00"),
            put(ZE, reading="Not needed: measured by the network", at="2026-03-21 09:05"),
        ),
    )
    assert ran.returncode == 0, ran.stderr
    record = record_of(job)
    by_key = {(each.slot.quantity, each.slot.place.circuit): each for each in record.readings}

    r1 = by_key[Quantity.R1, "C1"]
    assert r1.taken == Figure(value=0.31, typed="0,31")
    assert (r1.by, r1.instrument) == ("A1", "M1")
    assert f"{r1.at.astimezone():%Y-%m-%d %H:%M}" == "2026-03-20 14:30"
    assert r1.from_notes is not None
    assert r1.from_notes > r1.at
    rn = by_key[Quantity.RN, "C1"]
    assert rn.taken == Figure(value=0.31, typed=".31")
    assert (rn.method, rn.temperature, rn.at - r1.at) == ("no leads", 8.5, timedelta(minutes=2))
    ir = by_key[Quantity.IR_LE, "C2"]
    assert ir.taken == Figure(value=999.0, sign=Sign.OVER, typed=">999")
    assert (ir.test_voltage, ir.note, ir.by) == (250.0, "driver in", "A1")
    assert by_key[Quantity.POLARITY, "C2"].taken == Tick(good=True)
    assert by_key[Quantity.ZS, "C2"].taken == NotTaken(reason="locked room")
    assert by_key[Quantity.ZE, None].taken == NotNeeded(reason="measured by the network")
    assert len(record.readings) == 6


def test_the_same_sheet_read_twice_takes_nothing_twice(run: Run, job: Path) -> None:
    fill = all_of(put(R1, reading="0.31"), put(RN, reading="0.31", at="2026-03-20 14:32"))
    filled_in(run, job, fill, by="Wren Oakes")
    first = record_of(job)
    again = run("readings", job, "--from", "in.csv")

    assert again.returncode == 0, again.stderr
    assert "0 readings are on record from the sheet; 2 were there already" in again.stdout
    assert record_of(job) == first


def test_a_reading_without_a_time_says_so(run: Run, job: Path) -> None:
    filled_in(run, job, all_of(put(R1, reading="0.31"), put(RN, reading="0.31", note="cold")))
    first, second = record_of(job).readings

    assert first.at == first.from_notes
    assert first.note == "time of the reading not noted"
    assert second.note == "cold; time of the reading not noted"


def test_who_took_them_can_be_said_once(run: Run, job: Path) -> None:
    filled_in(run, job, put(R1, reading="0.31"), by="wren oakes")
    assert record_of(job).readings[0].by == "A1"
    nobody = run("readings", job, "--from", "in.csv", "--by", "Nobody")
    assert nobody.returncode == 2
    assert "“Nobody” is nobody in this job. It has: A1 Wren Oakes." in nobody.stderr


def test_what_is_on_record_is_never_changed(run: Run, job: Path) -> None:
    filled_in(run, job, put(R1, reading="0.98", at="2026-03-20 14:30", note="first"))
    before = record_of(job)
    for fill, says in (
        (put(R1, reading="0.31"), "is not what is on record: “0.98 Ω”"),
        (put(R1, reading=""), "a reading is never deleted"),
        (put(R1, note="better"), "“first” is on record"),
        (put(R1, at="2026-03-20 15:30"), "what was entered is never changed"),
        (put(R1, reading="0.31", re_test="yes"), "time of the re-test"),
        (put(R1, reading="0.31", re_test="yes", at=""), "a re-test needs its time"),
        (put(R1, reading="0.31", re_test="yes", at="2026-03-20 13:00"), "after the reading before"),
    ):
        ran = filled_in(run, job, fill)
        assert ran.returncode == 2
        assert says in ran.stderr
        assert record_of(job) == before


def test_a_re_test_marked_so_is_another_reading(run: Run, job: Path) -> None:
    filled_in(run, job, put(R1, reading="0.98", at="2026-03-20 14:30"))
    fill = put(R1, reading="0.31", re_test="yes", at="2026-03-20 16:30", note="tightened")
    assert filled_in(run, job, fill).returncode == 0
    taken = record_of(job).taken(slot(Quantity.R1, Stage.DEAD, "C1"))

    assert [each.taken.value for each in taken if isinstance(each.taken, Figure)] == [0.98, 0.31]
    assert taken[1].note == "tightened"
    again = run("readings", job, "--from", "in.csv")
    assert "0 readings are on record from the sheet" in again.stdout


def test_dates_that_a_spreadsheet_turned_round_are_still_the_same(run: Run, job: Path) -> None:
    filled_in(run, job, put(R1, reading="0.31", at="2026-03-04 14:30"))
    ran = filled_in(run, job, put(R1, at="04/03/2026 14:30:00"))
    assert ran.returncode == 0, ran.stderr
    assert "1 were there already" in ran.stdout


def test_what_the_new_readings_mean_is_said(run: Run, job: Path) -> None:
    ran = filled_in(run, job, all_of(put(IR, reading="0.2"), put(ZE, reading="0.3")))
    words = " ".join(ran.stdout.split())

    assert "2 readings are on record from the sheet" in words
    assert "✗ outside: C2 Light [loft] · insulation L-E · dead tests. " in words
    assert "no answer of theirs to the question on safe isolation" in words
    assert "Nobody has said since that it is back on its bar and tight." in words
    assert words.index("earth put back") < words.index("✗ outside: C2")


def headed(job: Path, change: Callable[[str], str]) -> None:
    text = (job.parent / "out.csv").read_text(encoding="utf-8-sig")
    heading, rest = text.split("\n", 1)
    (job.parent / "in.csv").write_text(f"{change(heading)}\n{rest}", encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('"reading"', '"readings"', "headed “readings”, which no sheet of readings has. Did you"),
        ('"key"', '"note"', "Two columns are headed “note”"),
        ('"key"', '""', "has no column"),
        ('"note"', '"\x1b[31m"', "Column 16 is headed"),
    ],
)
def test_a_column_that_wont_do_is_named(run: Run, job: Path, old: str, new: str, says: str) -> None:
    run("readings", job, "-o", "out.csv")
    headed(job, lambda heading: heading.replace(old, new))
    ran = run("readings", job, "--from", "in.csv")

    assert ran.returncode == 2
    assert "\x1b" not in ran.stderr
    assert says in ran.stderr or "headed “”" in ran.stderr


def test_columns_that_moved_or_are_missing_are_named(run: Run, job: Path) -> None:
    run("readings", job, "-o", "out.csv")
    text = (job.parent / "out.csv").read_text(encoding="utf-8-sig")
    rows = [row[:8] + row[9:] for row in csv.reader(io.StringIO(text))]
    out = io.StringIO()
    csv.writer(out).writerows(row[::-1] for row in rows)
    ran = run("readings", job, "--from", "-", typed=out.getvalue())

    assert ran.returncode == 0, ran.stderr
    words = " ".join(ran.stdout.split())
    assert "There is no column “taken at”" in words
    assert "another order" in words


def test_what_can_not_be_is_said(run: Run, job: Path) -> None:
    assert "Say either -o OUT" in run("readings", job).stderr
    assert "--stage is for writing" in run("readings", job, "--from", "x", "--stage", "dead").stderr
    assert "There is no file nothing.csv" in run("readings", job, "--from", "nothing.csv").stderr
    assert "no text" in run("readings", job, "--from", job).stderr
    (job.parent / "kept.csv").write_text("mine")
    assert "--force" in run("readings", job, "-o", "kept.csv").stderr
    assert (job.parent / "kept.csv").read_text() == "mine"


def test_a_sheet_can_be_piped(run: Run, job: Path) -> None:
    out = run("readings", job, "-o", "-", "--stage", "dead")
    assert out.stdout.startswith('\ufeff"where"')
    assert (
        "0 readings are on record" in run("readings", job, "--from", "-", typed=out.stdout).stdout
    )


def test_the_history_says_that_they_came_from_a_sheet(run: Run, job: Path) -> None:
    filled_in(run, job, all_of(put(R1, reading="0.31"), put(RN, reading="0.31")))
    with RecordFile.open(job, read_only=True) as file:
        changes = list(file.history())
    assert [change.by for change in changes] == ["Wren Oakes", "from a sheet"]
    assert changes[1].at - datetime.now(changes[1].at.tzinfo) < timedelta(minutes=5)


def test_a_row_of_the_certifier_stands_beside_and_is_not_taken_twice(run: Run, job: Path) -> None:
    with RecordFile.open(job) as file:
        people = [
            {"id": "A1", "name": "Wren Oakes", "duty": "installs"},
            {"id": "A2", "name": "Ash Reed", "duty": "certifies"},
        ]
        file.change([{"op": "replace", "path": "/job/people", "value": people}])
    filled_in(run, job, put(R1, reading="0.40", at="2026-03-16 09:00", by="A1"))
    again = {"reading": "0.80", "re_test": "yes", "at": "2026-03-17 09:00", "by": "A2"}
    for _ in range(2):
        ran = filled_in(run, job, put(R1, **again))
        assert ran.returncode == 0, ran.stderr
    record = record_of(job)
    where = slot(Quantity.R1, Stage.DEAD, "C1")
    assert [each.taken.value for each in record.taken(where)] == [0.4]
    assert [each.taken.value for each in record.certifier_readings] == [0.8]


def test_a_sheet_brings_ze_where_it_is_declared_and_asks_for_the_earth_that_came_off(
    run: Run, tmp_path: Path
) -> None:
    """Where Ze is known nobody has to take it; who did so anyway can say it, and what follows."""
    path = tmp_path / "job.farboard"
    origin = ready_job().origin.model_copy(update={"ze_ground": Ground.DECLARED})
    declared = ready_job().model_copy(update={"origin": origin})
    RecordFile.create(path, declared, by="Wren Oakes").close()
    ze, back = "origin/-/-/live/Ze", "origin/-/-/live/earth-back"

    def fill(rows: Rows) -> None:
        assert ze not in rows
        empty = dict.fromkeys(next(iter(rows.values())), "")
        names = names_of(declared, known[ze])
        rows[ze] = empty | {str(column): each for column, each in names.items()}
        rows[ze]["reading"] = "0.35"

    known = {key_of(each): each for each in slots_brought(declared)}
    ran = filled_in(run, path, fill, by="A1")

    assert ran.returncode == 0, ran
    assert [each.taken for each in record_of(path).taken(known[ze])] == [
        Figure(value=0.35, typed="0.35")
    ]
    run("readings", path, "-o", "again.csv")
    text = (tmp_path / "again.csv").read_text(encoding="utf-8-sig")
    assert back in text  # the sheet asks whether the earth is back
