"""The bench line by line: a prompt, an answer, a verdict; through pipes and a real terminal."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from records.errors import CannotWrite
from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.review import review
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Sign, Tick
from records.model.record import Record
from records.model.slots import slots
from records.store.file import RecordFile
from records.taking.cautions import DEAD, before
from records.taking.queue import Order, queue
from records.terms import Stage, WorkKind
from records.units import Unit
from tests.commands.conftest import ROOT, Run
from tests.commands.plainly import R1, figures, made, record_of, talk
from tests.judgement.test_walking import with_rooms
from tests.taking.job import slot, small_job, with_answer, with_figure
from tests.taking.test_leads import KNOWN, METER, job_with

pytestmark = pytest.mark.slow


IR_C1 = slot(Quantity.IR_LE, Stage.DEAD, "C1")


def test_a_reading_is_told_asked_for_judged_and_kept(run: Run, job: Path) -> None:
    ran = talk(run, job, "ok", "ok", ".09", "quit")

    assert ran.returncode == 0, ran.stderr
    lines = ran.stdout.splitlines()
    at = [
        lines.index(line)
        for line in (
            "Caution. Before the first dead test.",
            f"Reading 1 of {len(slots(small_job(), Stage.DEAD))}. Feed, R1+R2. R1+R2 of the feed.",
            "Expected: 0.08 Ω.",
            "R1+R2 in Ω: .09",
            "Kept. Feed, R1+R2: 0.09 Ω.",
        )
    ]
    assert at == sorted(at)
    assert set(DEAD.lines) <= set(lines)
    assert any(line.startswith("Limit: at most 0.") for line in lines[: at[3]])
    assert lines[at[4] + 1].startswith("Verdict: within. Read 0.09 Ω; expected 0.08 Ω")
    assert lines[at[4] + 2].startswith("Reading 2 of ")
    assert figures(job) == [("R1+R2", 0.09)]
    reading = record_of(job).readings[0]
    assert (reading.by, reading.instrument) == ("A1", "M1")


def test_nothing_is_said_twice_and_what_is_not_needed_is_not_called_taken(
    run: Run, job: Path
) -> None:
    answers = (
        "ok",
        "ok",
        "cant: locked room",
        "not needed: no metal",
        "go: C2 polarity",
        "n",
        "quit",
    )
    lines = talk(run, job, *answers).stdout.splitlines()

    kept = [at for at, line in enumerate(lines) if line.startswith("Kept.")]
    assert [lines[at + 1] for at in kept] == [
        "Verdict: not taken. It stays locked off until the certifier agrees what counts instead of "
        "this.",
        "Verdict: not needed.",
        "Verdict: outside. It has to be put right.",
    ]
    assert lines[kept[0]] == "Kept. Feed, R1+R2: could not be taken: locked room."
    assert lines[-2].startswith("2 of 29 readings taken or not needed, ")


def test_no_cursor_is_moved_and_no_colour_set(run: Run, job: Path) -> None:
    ran = talk(run, job, "ok", "ok", "9", "?", "why", "left", "back", "again", "0.08")
    assert not [char for char in ran.stdout if ord(char) < 32 and char != "\n"]


def test_a_value_is_on_disk_before_it_is_said_to_be_kept(
    run: Run, job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise CannotWrite("The disk is full.")

    talk(run, job, "ok", "ok")  # read, and on record
    monkeypatch.setattr(RecordFile, "change", full)
    ran = talk(run, job, "0.09", more=("--ask-again",))

    assert "The disk is full." in ran.stdout
    assert "Kept." not in ran.stdout
    assert ran.stdout.count("R1+R2 in Ω: ") == 2  # asked for again
    assert record_of(job).readings == ()


def test_wrong_input_is_refused_in_a_sentence_and_asked_again(run: Run, job: Path) -> None:
    wrong = [
        "0.3.4",
        "1,250",
        "35 m",
        "OL",
        "9**9",
        "\x1b[31m",
        "x" * 9000,
        "",
        "cant:",
        "cant: x",
        "keep",
        "done: something",
        "meter: M9",
        "by: nobody",
        "taken: never",
        "lower: damp",
        "go: nowhere",
        "again",
        "ok",
    ]
    ran = talk(run, job, "ok", "ok", *wrong, "0.09", more=("--ask-again",))

    assert ran.stdout.count("R1+R2 in Ω: ") == len(wrong) + 1
    assert "Kept. Feed, R1+R2: 0.09 Ω." in ran.stdout
    assert "\x1b" not in ran.stdout
    assert figures(job) == [("R1+R2", 0.09)]
    assert ran.returncode == 0


def test_piped_answers_never_slide_on_to_other_readings(run: Run, job: Path) -> None:
    ran = talk(run, job, "ok", "ok", "0.09", "abc", "0.31")

    assert ran.returncode == 2
    assert "“abc” is not one figure" in ran.stdout
    assert "no later answer goes to the wrong reading" in ran.stdout
    assert figures(job) == [("R1+R2", 0.09)]


def test_the_end_of_the_answers_is_a_clean_end(run: Run, job: Path) -> None:
    for answers in ((), ("ok", "ok"), ("ok", "ok", "0.09")):
        ran = talk(run, job, *answers)
        assert ran.returncode == 0
        assert ran.stdout.endswith("All that was kept is on disk.\n")
    assert figures(job) == [("R1+R2", 0.09)]
    halfway = run("bench", job, "--plain", "--stage", "dead", typed="ok\nok\n0.07")
    assert "Kept. Board, earthing conductor: 0.07 Ω." in halfway.stdout


def test_reasons_notes_and_moving_about(run: Run, job: Path) -> None:
    talk(
        run,
        job,
        "ok",
        "ok",
        "cant: locked room",
        "note: after the rain",
        "method: no leads",
        "skip",
        "back",
        "0.02",
        "go: c1 rn",
        "not needed: measured before",
        "go: C2 polarity",
        "y",
        "go: C2 insulation L-E",
        "ok",
        "lower: drivers stay in",
        ">999",
        "usual",
        "quit",
    )
    record = record_of(job)
    first, second, third, fourth, fifth = record.readings

    assert first.taken == NotTaken(reason="locked room")
    assert second.slot.quantity is Quantity.EARTHING
    assert (second.note, second.method) == ("after the rain", "no leads")
    assert third.taken == NotNeeded(reason="measured before")
    assert third.slot == slot(Quantity.RN, Stage.DEAD, "C1")
    assert fourth.taken == Tick(good=True)
    assert (third.note, third.method) == ("", "")
    assert fifth.taken == Figure(value=999.0, sign=Sign.OVER, typed=">999")
    assert fifth.test_voltage == 250.0
    assert "drivers stay in" in fifth.method


def test_a_bad_reading_its_remedy_and_the_re_test(run: Run, job: Path) -> None:
    ran = talk(
        run,
        job,
        "ok",
        "ok",
        "3",
        "go: feed R1+R2",
        "done: gland tightened",
        "again",
        "0.08",
        "back",
    )
    record = record_of(job)

    assert "Verdict: outside. " in ran.stdout
    assert "So far, 1st: 3.00 Ω" in ran.stdout
    assert figures(job) == [("R1+R2", 3.0), ("R1+R2", 0.08)]
    assert [each.done for each in record.remedies] == ["gland tightened"]
    assert record.remedies[0].finding == "feed/-/-/dead/R1+R2"


def test_the_kind_of_work_is_typed_before_the_words_and_its_tests_are_named(
    run: Run, tmp_path: Path
) -> None:
    job = made(tmp_path, with_figure(with_figure(small_job(), R1, 0.3), IR_C1, 0.2))
    ran = talk(run, job, "go: C1 insulation L-E", "done: cable: screw drawn, cut back")
    (remedy,) = record_of(job).remedies

    assert (remedy.kind, remedy.done) == (WorkKind.CABLE, "screw drawn, cut back")
    assert remedy.about[0] == IR_C1
    assert "Kept as cable changed or cut" in ran.stdout
    assert "Then repeat C1 Bench sockets: r1" in " ".join(ran.stdout.split())
    plain = talk(run, job, "go: C1 insulation L-E", "done: dried: all of it")
    assert record_of(job).remedies[-1].kind is WorkKind.OTHER
    assert record_of(job).remedies[-1].done == "dried: all of it"
    assert "Kinds: device, joint, cable" in " ".join(plain.stdout.split())
    late = talk(run, job, "go: C1 insulation L-E", "done: joint, 2099-01-01: remade")
    assert "still to come" in late.stdout
    assert len(record_of(job).remedies) == 2


def test_what_was_taken_is_not_taken_twice_by_accident(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, with_figure(small_job(), R1, 0.31))
    ran = talk(run, job, "go: c1 r1", "0.4", more=("--ask-again",))
    assert "This was taken already." in ran.stdout
    assert figures(job) == [("r1", 0.31)]
    undone = talk(run, job, "ok", "ok", "0.09", "undo")
    assert "Taken back: " in undone.stdout
    # What comes after it may wait for it: it is asked for again.
    assert "Reading 1 of 29. Feed, R1+R2." in undone.stdout.partition("Taken back: ")[2]
    assert figures(job) == [("r1", 0.31)]


def test_who_with_what_and_when_can_be_settled(run: Run, job: Path) -> None:
    ran = talk(
        run,
        job,
        "ok",
        "ok",
        "by: A1",
        "meter: 0412",
        "taken: 2026-11-16 14:30",
        "0.09",
        "order",
        "taken: now",
        "quit",
        more=("--by", "wren oakes"),
    )
    reading = record_of(job).readings[0]

    assert ran.returncode == 0, ran.stdout
    assert f"{reading.at:%Y-%m-%d %H:%M}" == "2026-11-16 14:30"
    assert reading.from_notes is not None
    assert "Readings are offered by circuit." in ran.stdout
    nobody = talk(run, job, more=("--by", "Ada"))
    assert (nobody.returncode, nobody.stdout) == (2, "")
    assert "“Ada” is nobody in this job" in nobody.stderr


def test_the_stage_begun_last_is_taken_up_again(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, small_job())
    assert "before covering" in run("bench", job, "--plain").stdout.splitlines()[0]
    job.unlink()
    job = made(tmp_path, with_answer(small_job(), slot(Quantity.POLARITY, Stage.DEAD, "C2"), True))
    assert "dead tests" in run("bench", job, "--plain").stdout.splitlines()[0]


def answers_for(record: Record, stage: Stage) -> Iterator[str]:
    """Yield what to type for a whole stage on a sound job: read each caution, then the value."""
    due = expected(record)
    read = set()
    for entry in queue(record, review(record, due), stage, Order.BY_TEST).entries:
        for caution in before(stage, entry.family):
            if caution.key not in read:
                read.add(caution.key)
                yield "ok"
        figure = due.meter.get(entry.slot)
        if entry.measurement.is_check:
            yield "y"
        elif entry.measurement.unit is Unit.MEGOHM:
            yield ">999"
        else:
            yield f"{figure.value:.2f}" if isinstance(figure, Worked) else ".01"


def test_a_whole_stage_can_be_taken_from_a_pipe(run: Run, job: Path) -> None:
    wanted = slots(small_job(), Stage.BEFORE_COVERING)
    answers = answers_for(small_job(), Stage.BEFORE_COVERING)
    ran = talk(run, job, *answers, stage="before-covering")

    assert ran.returncode == 0, ran.stdout
    assert "Everything of this stage has something entered." in ran.stdout
    assert f"{len(wanted)} of {len(wanted)} readings taken or not needed" in ran.stdout
    assert {each.slot for each in record_of(job).readings} == set(wanted)


def test_a_job_without_circuits_says_what_is_missing(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, Record())
    ran = talk(
        run,
        job,
        "skip",
        "back",
        "why",
        "show",
        "left",
        stage="before-covering",
        more=("--ask-again",),
    )
    assert ran.returncode == 0
    assert "Enter the circuits first" in ran.stdout


def test_text_that_is_no_text_is_refused(job: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tui", "bench", str(job), "--plain", "--stage", "dead"],
        check=False,
        cwd=ROOT,
        input=b"ok\nok\n\xff\xfe0.3\n",
        capture_output=True,
        env={**os.environ, "PYTHONUTF8": "1"},
        timeout=60,
    )
    assert done.returncode == 2
    assert b"Traceback" not in done.stdout + done.stderr
    assert record_of(job).readings == ()


def test_what_can_not_be_opened_is_said(run: Run, job: Path) -> None:
    assert "--plain" in run("bench", job).stderr
    assert "There is no file" in run("bench", "none.farboard", "--plain").stderr
    with RecordFile.open(job):
        assert run("bench", job, "--plain").returncode == 2


def test_what_is_left_is_told_room_by_room_and_gone_to_by_its_room(
    run: Run, tmp_path: Path
) -> None:
    ran = talk(
        run, made(tmp_path, with_rooms()), "ok", "ok", "left", "go: loft", "go: STORE", "quit"
    )
    lines = ran.stdout.splitlines()

    at = [
        next(number for number, line in enumerate(lines) if line.startswith(start))
        for start in (
            "At the sub-board · Feed: R1+R2,",
            "store · C1 Ring: cross-connected L-N at",
            "hall · C1 Ring:",
            "loft · C2 Radial: R1+R2 and polarity still",
            "outside, west · C3 Lights:",
            "C4 Heater: R1+R2 and polarity still",
        )
    ]
    assert at == sorted(at)
    told = [line.partition(". ")[2] for line in lines if line.startswith("Reading ")]
    assert told[1] == "C2 Radial, R1+R2. R1+R2 at the furthest point. In: loft."
    assert told[2].startswith("C1 Ring, S1, cross-connected L-N.")  # round the end
    assert told[2].endswith("In: store.")


def test_leads_that_count_are_said_before_the_value_and_after(run: Run, tmp_path: Path) -> None:
    answers = ("ok", "ok", "go: C1 r1", "0.34", ">20", "why", "quit")
    ran = talk(run, made(tmp_path, job_with(KNOWN)), *answers)

    assert (
        "Meter 0412 doesn't null: type what it shows, 0.05 Ω for its leads is taken off."
        in ran.stdout
    )
    assert "M1 multifunction tester 0412, less 0.05 Ω leads." in ran.stdout
    assert "Kept. C1 Bench sockets, r1: 0.29 Ω (0.34 Ω − 0.05 Ω leads)." in ran.stdout
    assert "Kept. C1 Bench sockets, rn: > 20 Ω. No leads taken off." in ran.stdout
    assert figures(tmp_path / "job.farboard")[0] == ("r1", 0.29)

    other = tmp_path / "other"
    other.mkdir()
    ran = talk(run, made(other, job_with(METER)), "ok", "ok", "0.34", "quit")
    assert (
        "Caution. Meter 0412 doesn't null its leads, and what they have is not entered"
        in ran.stdout
    )
    assert figures(other / "job.farboard") == [("R1+R2", 0.34)]
