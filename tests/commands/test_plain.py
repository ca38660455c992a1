"""The bench line by line: a prompt, an answer, a verdict; through pipes and a real terminal."""

from __future__ import annotations

import os
import pty
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
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
from records.taking.cautions import DEAD, GATE, before
from records.taking.queue import Order, queue
from records.terms import Stage, WorkKind
from records.units import Unit
from tests.commands.conftest import ROOT, Ran, Run
from tests.judgement.test_walking import with_rooms
from tests.taking.job import put_back, ready_job, slot, small_job, with_answer, with_figure
from tests.taking.test_leads import KNOWN, METER, job_with

pytestmark = pytest.mark.slow

R1 = slot(Quantity.R1, Stage.DEAD, "C1")
ZE = slot(Quantity.ZE, Stage.LIVE)


IR_C1 = slot(Quantity.IR_LE, Stage.DEAD, "C1")


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return made(tmp_path, small_job())


def made(folder: Path, record: Record) -> Path:
    path = folder / "job.farboard"
    RecordFile.create(path, record, by="Wren Oakes").close()
    return path


def record_of(job: Path) -> Record:
    with RecordFile.open(job, read_only=True) as file:
        return file.record


def talk(
    run: Run, job: Path, *answers: str, stage: str = "dead", more: tuple[str, ...] = ()
) -> Ran:
    return run(
        "bench", job, "--plain", "--stage", stage, *more, typed="".join(f"{a}\n" for a in answers)
    )


def figures(job: Path) -> list[tuple[str, float]]:
    return [
        (each.slot.quantity.value, each.taken.value)
        for each in record_of(job).readings
        if isinstance(each.taken, Figure)
    ]


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


def test_live_tests_stand_behind_the_question(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, ready_job())
    for answers in (("no",), ("quit",), (), ("perhaps", "0.35")):
        ran = talk(run, job, *answers, stage="live")
        assert set(GATE) <= set(ran.stdout.splitlines())
        assert "Reading 1" not in ran.stdout
        assert "ok: " not in ran.stdout
    assert record_of(job) == ready_job()

    ran = talk(run, job, "yes", "ok", stage="live")
    assert "May go live, one circuit at a time: C1 Bench sockets, C2" in ran.stdout
    gate = record_of(job).live_gate[0]
    assert gate.isolation_understood
    assert gate.may_go_live == ("C1", "C2", "C3")
    assert gate.locked_off == ()


def test_nothing_goes_live_before_feed_and_board_are_right(run: Run, job: Path) -> None:
    """Common practice: no “in spite of that” for what everything else hangs on."""
    ran = talk(run, job, "yes", "ok", "0.35", stage="live")

    assert ran.returncode == 2
    assert "Feed, board and earths must be satisfactory before anything goes live." in ran.stdout
    assert "Feed: R1+R2 not taken" in ran.stdout
    assert "yes or no" not in ran.stdout
    assert record_of(job) == small_job()


def test_a_circuit_with_a_wrong_dead_test_stays_locked_off(run: Run, tmp_path: Path) -> None:
    bad = slot(Quantity.IR_LE, Stage.DEAD, "C2")
    job = made(tmp_path, put_back(with_figure(ready_job(), bad, 0.2)))
    ran = talk(run, job, "yes", "go: C2 Zs", "0.9", stage="live", more=("--ask-again",))

    assert "These stay locked off until they are satisfactory:" in ran.stdout
    assert "C2 Light [loft]: insulation L-E outside." in ran.stdout
    assert "May go live, one circuit at a time: C1 Bench sockets and C3 Heater." in ran.stdout
    assert "Leave it locked off: its dead tests come first." in ran.stdout
    assert not [each for each in record_of(job).readings if each.slot.quantity is Quantity.ZS]


def test_after_ze_nothing_is_taken_before_the_earth_is_back(run: Run, tmp_path: Path) -> None:
    job = made(tmp_path, ready_job())
    ran = talk(
        run,
        job,
        "yes",
        "ok",
        "y",
        "ok",
        "0.35",
        "go: C2 Zs",
        "0.9",
        "n",
        "0.9",
        "cant: too tired",
        "not needed: no time",
        stage="live",
        more=("--ask-again",),
    )
    taken = record_of(job).readings[len(ready_job().readings) :]

    assert "Caution. Answer this first: is the earth back on its bar and tight?" in ran.stdout
    assert [each.slot.quantity for each in taken] == [
        Quantity.POLARITY,
        Quantity.ZE,
        Quantity.EARTH_BACK,
    ]
    assert taken[2].taken == Tick(good=False)

    later = talk(run, job, "again", "y", stage="live", more=("--ask-again",))
    assert later.stdout.index("is the earth back") < later.stdout.index("Kept. Origin, earth put")
    assert record_of(job).readings[-1].taken == Tick(good=True)


def test_a_piped_yes_to_the_question_never_says_that_the_earth_is_back(
    run: Run, tmp_path: Path
) -> None:
    job = made(tmp_path, with_figure(ready_job(), ZE, 0.35))
    ran = talk(run, job, "yes", "2.2", stage="live")

    assert ran.returncode == 2
    assert record_of(job).readings[-1].slot == ZE


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


_WITH_KEYS = (
    "import fcntl, termios; fcntl.ioctl(0, termios.TIOCSCTTY, 0)\n"  # Ctrl-C reaches it
    "from tui.commands import main; main()"
)


@contextmanager
def terminal(job: Path) -> Iterator[tuple[int, subprocess.Popen[bytes]]]:
    """Run the line bench in a real terminal; what it prints is read from the number given."""
    ours, theirs = pty.openpty()
    child = subprocess.Popen(
        [sys.executable, "-c", _WITH_KEYS, "bench", str(job), "--plain", "--stage", "dead"],
        cwd=ROOT,
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        start_new_session=True,
        env={**os.environ, "PYTHONUTF8": "1", "TERM": "dumb"},
    )
    os.close(theirs)
    try:
        yield ours, child
    finally:
        if child.poll() is None:
            child.kill()
        child.wait()
        os.close(ours)


def until(ours: int, words: str) -> str:
    """Return what was printed up to and with some words."""
    text = b""
    end = time.monotonic() + 60
    while words.encode() not in text:
        ready, _, _ = select.select([ours], [], [], max(0.0, end - time.monotonic()))
        assert ready, f"“{words}” did not come:\n{text.decode(errors='replace')}"
        try:
            more = os.read(ours, 1)  # no further: what follows is for the next call
        except OSError:
            more = b""
        assert more, f"It ended before “{words}”:\n{text.decode(errors='replace')}"
        text += more
    return text.decode(errors="replace")


def past_cautions(ours: int) -> None:
    """Read the two cautions before the first reading, each once it is there."""
    for _ in range(2):
        until(ours, "ok: ")
        os.write(ours, b"ok\n")


def test_what_was_typed_before_a_caution_was_there_does_not_answer_it(job: Path) -> None:
    with terminal(job) as (ours, _):
        until(ours, "ok: ")
        os.write(ours, b"ok\nok\n.09\n")
        until(ours, "What was typed before this was here is not taken.")
        until(ours, "ok: ")
        os.write(ours, b"ok\n")
        until(ours, "R1+R2 in Ω: ")
    assert len(record_of(job).cautions_read) == 2
    assert figures(job) == []


def test_in_a_terminal_a_bad_value_is_kept_only_when_told_so(job: Path) -> None:
    with terminal(job) as (ours, child):
        past_cautions(ours)
        until(ours, "R1+R2 in Ω: ")
        os.write(ours, b"3\n")
        text = until(ours, "keep, or another answer: ")
        assert "3.00 Ω is not kept yet. It would be outside" in text
        os.write(ours, b"0.09\n")
        until(ours, "Kept. Feed, R1+R2: 0.09 Ω.")
        until(ours, "earthing conductor in Ω: ")
        os.write(ours, b"9\n")
        until(ours, "keep, or another answer: ")
        os.write(ours, b"keep\n")
        until(ours, "Kept. Board, earthing conductor: 9.00 Ω.")
        os.write(ours, b"quit\n")
        assert "\x1b" not in until(ours, "is on disk.")
        assert child.wait(timeout=30) == 0
    assert figures(job) == [("R1+R2", 0.09), ("earthing conductor", 9.0)]


@pytest.mark.parametrize(("key", "code"), [(b"\x03", 130), (b"\x04", 0)])
def test_ctrl_c_and_ctrl_d_leave_cleanly(job: Path, key: bytes, code: int) -> None:
    with terminal(job) as (ours, child):
        past_cautions(ours)
        until(ours, "R1+R2 in Ω: ")
        os.write(ours, b"0.09\n")
        until(ours, "earthing conductor in Ω: ")
        os.write(ours, key)
        text = until(ours, "is on disk.")
        assert "Traceback" not in text
        assert child.wait(timeout=30) == code
    assert figures(job) == [("R1+R2", 0.09)]


def test_a_signal_to_end_loses_nothing_that_was_kept(job: Path) -> None:
    with terminal(job) as (ours, child):
        past_cautions(ours)
        until(ours, "R1+R2 in Ω: ")
        os.write(ours, b"0.09\n")
        until(ours, "Kept. ")
        child.send_signal(signal.SIGTERM)
        child.wait(timeout=30)
    assert figures(job) == [("R1+R2", 0.09)]


def test_the_line_bench_loads_no_screen() -> None:
    code = "import tui.plain.bench, sys; print('textual' in sys.modules, 'rich' in sys.modules)"
    out = subprocess.run(
        [sys.executable, "-c", code], check=True, cwd=ROOT, capture_output=True, text=True
    )
    assert out.stdout == "False False\n"


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
