"""`farboard check`: the review for people in 80 columns, for programs as JSON."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
from rich.cells import cell_len

from records.expected.plan import expected
from records.judgement.review import review
from records.judgement.review_types import Judged
from records.model.reading import Figure, Quantity, Reading, Tick
from records.model.record import Record
from records.model.slots import title
from records.store.edits import put
from records.store.file import RecordFile
from records.store.record_in import record_in
from records.terms import Stage, Verdict
from tests.commands.conftest import Run
from tests.judgement.test_walking import with_rooms
from tests.taking.job import AT, slot, small_job, with_answer, with_figure
from tests.taking.test_leads import KNOWN, job_with
from tui.commands.check_schema import schema


def _indented(line: str) -> bool:
    return line.startswith((" ", *(verdict.mark for verdict in Verdict)))


def _is_told(line: Judged) -> bool:
    """Whether it stands under its place, not in the list of what is still to test."""
    return line.slot is None or bool(line.attempts)


def test_findings_are_told_worst_first_and_the_exit_code_is_1(run: Run, shed: Path) -> None:
    ran = run("check", shed)

    assert ran.returncode == 1
    assert ran.stderr == ""
    lines = ran.stdout.splitlines()
    told = [line.split()[1] for line in lines if line[:1] in {v.mark for v in Verdict}]
    assert told[0] == "outside"
    heads = [at for at, line in enumerate(lines) if at > 3 and line and not _indented(line)]
    heads = [at for at in heads if not lines[at].startswith(("What to deal", "Still to test"))]
    record = record_in(shed).record
    found = (each.place for each in review(record, expected(record)).findings if _is_told(each))
    by_harm = (title(record, each.model_copy(update={"point": None})) for each in found)
    assert [lines[at] for at in heads][:4] == list(dict.fromkeys(by_harm))[:4]
    assert "not a certificate" in lines[-2]


def test_what_to_deal_with_comes_first_one_line_each_and_the_summary_last(
    run: Run, shed: Path
) -> None:
    lines = run("check", shed).stdout.splitlines()

    at = lines.index("What to deal with, worst first")
    assert at < 6
    assert lines[at + 1] == "✗ outside      C3 RCD time: 342 ms, at most 300 ms · Lights inside"
    assert any("voltage drop: 7.33 V" in line for line in lines[at : at + 20])
    still = next(n for n, line in enumerate(lines) if line.startswith("Still to test"))
    assert at < still < lines.index("C3 Lights inside")
    assert lines[-1] in lines[:at]
    assert " outside · " in lines[-1]


def test_without_details_only_what_to_do_is_printed(run: Run, shed: Path) -> None:
    text = run("check", shed, "--no-details").stdout

    assert "What to deal with, worst first" in text
    assert "Do next:" not in text
    assert len(text.splitlines()) < 50


def test_reading_and_limit_are_said_once_in_the_details(run: Run, shed: Path) -> None:
    text = " ".join(run("check", shed).stdout.split())

    assert "measured 342 ms · expected within 300 ms" in text
    assert "Read 342 ms" not in text
    assert text.index("Do next: ") < text.index("Likely cause: ") < text.index("Source: ")


def test_stage_and_value_are_said_once(run: Run, shed: Path, tmp_path: Path) -> None:
    text = " ".join(run("check", shed, "--all").stdout.split())
    assert "R1+R2 at the furthest point (before covering)" in text
    assert "before covering (before covering)" not in text

    job = tmp_path / "job.farboard"
    wrong = with_answer(small_job(), slot(Quantity.POLARITY, Stage.DEAD, "C2"), good=False)
    RecordFile.create(job, wrong).close()
    text = " ".join(run("check", job).stdout.split())
    assert "measured not correct · must be correct" in text
    assert "It has to be put right." in text
    assert "Not correct." not in text


def test_every_line_fits_80_columns(run: Run, shed: Path) -> None:
    for words in ([], ["--all"]):
        lines = run("check", shed, *words).stdout.splitlines()
        assert max(map(cell_len, lines)) <= 80
        assert len(lines) > 30


def test_what_was_never_taken_is_told_by_the_places_one_walks_to(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.farboard"
    RecordFile.create(job, with_rooms()).close()
    text = run("check", job).stdout
    told = text[text.index("Still to test: dead tests") :]
    lines = " ".join(told.split())

    at = [lines.index(f"· not taken {name} ·") for name in ("At the sub-board", "store", "hall")]
    assert at == sorted(at)
    assert "· not taken loft · C2 Radial: R1+R2 and polarity" in lines
    assert "S4" in lines[lines.index("· not taken No room named ·") :]
    before = text[: text.index("Still to test")]
    assert "· not taken" not in before


def test_a_check_found_wrong_is_told_with_what_it_must_be(run: Run, tmp_path: Path) -> None:
    record = small_job()
    wrong = Reading(
        id="R1", slot=slot(Quantity.POLARITY, Stage.DEAD, "C1"), taken=Tick(good=False), at=AT
    )
    job = tmp_path / "job.farboard"
    RecordFile.create(job, record.model_copy(update={"readings": (wrong,)})).close()

    assert "measured not correct · must be correct" in " ".join(run("check", job).stdout.split())


def test_no_colour_where_no_terminal_is(run: Run, shed: Path) -> None:
    assert "\x1b" not in run("check", shed).stdout


def test_the_counts_agree_with_what_is_listed(run: Run, shed: Path) -> None:
    data = json.loads(run("check", shed, "--json").stdout)

    told = [each["verdict"] for each in data["findings"] + data["others"]]
    assert {name: told.count(name) for name in data["counts"]} == data["counts"]
    assert sum(data["counts"].values()) == len(told)
    assert data["counts"]["outside"] >= 1
    assert data["is_certificate"] is False
    assert len({each["key"] for each in data["findings"]}) > 5


def test_a_finding_for_programs_has_the_reading_the_limit_and_the_source(
    run: Run, shed: Path
) -> None:
    data = json.loads(run("check", shed, "--json").stdout)

    found = next(each for each in data["findings"] if each["readings"] and each["limit"])
    assert found["readings"][-1]["typed"]
    assert found["limit"]["source"]
    assert found["part"] in {"origin", "feed", "board", "circuit"}
    with RecordFile.open(shed, read_only=True) as file:
        assert found["readings"][-1]["id"] in {each.id for each in file.record.readings}
        assert data["fingerprint"] == file.fingerprint


def test_exported_json_is_checked_just_the_same(run: Run, shed: Path, tmp_path: Path) -> None:
    run("export", shed, "-o", "job.json")

    from_json = json.loads(run("check", "job.json", "--json").stdout)
    from_file = json.loads(run("check", shed, "--json").stdout)

    assert from_json["fingerprint"] is None
    assert from_json["findings"] == from_file["findings"]


def test_a_blank_record_is_no_pass(run: Run, tmp_path: Path) -> None:
    RecordFile.create(tmp_path / "blank.farboard", Record()).close()

    ran = run("check", "blank.farboard")

    assert ran.returncode == 1
    assert "not taken" in ran.stdout


def test_a_check_that_cannot_be_calculated_says_what_it_lacks(run: Run, tmp_path: Path) -> None:
    with RecordFile.create(tmp_path / "job.farboard", small_job()) as file:
        file.change(put("/circuits/0/runs/0/ambient", 61.0))

    said = " ".join(run("check", tmp_path / "job.farboard").stdout.split())
    assert "not taken Feed: In ≤ Iz" not in said
    assert "Not calculated: Factor for ambient temperature in air, Ca: the table ends at 60" in said

    with RecordFile.create(tmp_path / "blank.farboard", Record()):
        pass
    said = " ".join(run("check", tmp_path / "blank.farboard").stdout.split())
    assert "In ≤ Iz Not calculated: no run of cable is entered yet (Feed)." in said


def test_what_cannot_be_read_is_exit_code_2_and_one_sentence(run: Run, tmp_path: Path) -> None:
    (tmp_path / "note.farboard").write_text("Dear customer")
    (tmp_path / "bad.json").write_text('{"job": {"place": "a\\u001b[31m"}}')
    (tmp_path / "latin.json").write_bytes(b'{"job": {"place": "caf\xe9"}}')
    for name, sentence in (
        ("note.farboard", "is not a Farboard record"),
        ("bad.json", "Job, Place: Character 2 (U+001B) is a control character"),
        ("latin.json", "is not text in UTF-8"),
        ("none.farboard", "There is no file"),
        (".", "is a folder"),
    ):
        ran = run("check", name)
        assert (ran.returncode, ran.stdout) == (2, "")
        assert ran.stderr.startswith("farboard: ")
        assert sentence in ran.stderr
        assert ran.stderr.count("\n") == 1


def test_a_record_that_is_being_written_to_is_checked_all_the_same(run: Run, shed: Path) -> None:
    with RecordFile.open(shed):
        assert run("check", shed).returncode == 1


def test_the_exit_code_reaches_the_shell(run_apart: Run, shed: Path) -> None:
    ran = run_apart("check", shed)
    assert ran.returncode == 1
    assert "not a certificate" in ran.stdout
    none = run_apart("check", "none.farboard")
    assert (none.returncode, none.stdout) == (2, "")
    assert none.stderr.count("\n") == 1


def test_a_reading_less_its_leads_is_told_with_both_figures(run: Run, tmp_path: Path) -> None:
    job = tmp_path / "job.farboard"
    less = Figure(value=9.05, typed="9.1", leads=0.05)
    record = with_figure(job_with(KNOWN), slot(Quantity.R1, Stage.DEAD, "C1"), 9.05)
    kept = record.readings[0].model_copy(update={"taken": less})
    RecordFile.create(job, record.model_copy(update={"readings": (kept,)})).close()

    assert "measured 9.05 Ω (9.10 Ω − 0.05 Ω leads)" in run("check", job).stdout
    ran = run("check", job, "--json").stdout
    lines = [each for each in json.loads(ran)["findings"] if each["readings"]]
    (shown,) = (each for each in lines[0]["readings"])
    assert (shown["value"], shown["leads"], shown["typed"]) == (9.05, 0.05, "9.1")
    jsonschema.validate(json.loads(ran), json.loads(schema()))
