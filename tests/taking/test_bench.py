"""The bench as a plain object: every way through it, the same for wizard and line bench."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest

from records.errors import BadQuantity, BadText, CannotWrite, FarboardError
from records.model.reading import Figure, Quantity
from records.model.record import Record
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.prompt import Ask
from records.terms import Sign, Stage, Verdict
from tests.taking.job import slot, small_job, with_figure
from tests.taking.seat import (
    DEAD,
    R1,
    RN,
    go,
    here,
    read_on,
    seated,
    takes,
    values,
)

pytestmark = pytest.mark.usefixtures("clock")
IR_LN, IR_LE = (slot(each, DEAD, "C2") for each in (Quantity.IR_LN, Quantity.IR_LE))
FEED = slot(Quantity.R1_R2, DEAD)


# A value, typed


def test_a_reading_is_on_record_as_typed_with_who_took_it_and_with_what(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, R1)
        told = bench.type(".28")

        (taken,) = bench.session.record.readings
        assert (taken.slot, taken.taken) == (R1, Figure(value=0.28, typed=".28"))
        assert (taken.by, taken.instrument) == ("A1", "M1")
        assert here(bench) == RN
        assert told.words == "C1 Bench sockets, r1: within. 0.28 Ω."
        assert (told.mark, told.tone) == (Verdict.WITHIN.mark, "good")
        assert told.lines[0] == "Kept. C1 Bench sockets, r1: 0.28 Ω."
        assert told.lines[1].startswith("Verdict: within. ")


def test_a_bad_one_is_told_with_its_ground_and_what_to_do(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, IR_LE)
        told = bench.type("0.02")

        assert told.words.startswith("C2 Light [loft], insulation L-E: outside. ")
        assert "limit at least 1.0 MΩ" in told.words
        assert told.tone == "bad"
        assert told.lines[-1].startswith("Do next: Look along the recorded route")


@pytest.mark.parametrize(
    "typed", ["35 m", "1,250", "0.3.5", "inf", "9**9", "", "y", "\x1b[31m", "keep"]
)
def test_what_is_no_value_is_refused_and_leaves_all_as_it_was(tmp_path: Path, typed: str) -> None:
    with seated(tmp_path) as bench:
        go(bench, R1)
        with pytest.raises(BadQuantity):
            bench.type(typed)

        assert (here(bench), bench.session.record.readings) == (R1, ())
        assert takes(bench)


def test_nothing_typed_takes_nothing_and_says_what_to_type(tmp_path: Path) -> None:
    for names, skip in ((KEYS, "↓"), (LINES, "skip")):
        with seated(tmp_path, names=names) as bench:
            go(bench, R1)
            with pytest.raises(BadText, match=f"Type what the meter shows; c.*; {skip} passes by"):
                bench.go_on()
            go(bench, slot(Quantity.POLARITY, DEAD, "C2"))
            with pytest.raises(BadText, match="Type y or n"):
                bench.go_on()

            assert bench.session.record.readings == ()


def test_nothing_typed_keeps_no_doubtful_figure(tmp_path: Path) -> None:
    """Enter, pressed once more, would put on record what was asked about."""
    with seated(tmp_path, confirms=True) as bench:
        go(bench, IR_LE)
        bench.type("0.02")
        with pytest.raises(BadText, match="Nothing is typed"):
            bench.go_on()
        assert bench.session.record.readings == ()


def test_what_is_typed_is_judged_before_it_counts_and_nothing_is_kept_of_it(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, IR_LE)
        (own,) = bench.trial(Figure(value=0.02), whole=False)

        assert own.verdict is Verdict.OUTSIDE
        assert bench.session.record.readings == ()
        assert bench.desk.echo(IR_LE, Figure(value=999.0, sign=Sign.OVER)) == "> 999 MΩ"


def test_a_reading_that_is_not_on_disk_is_not_taken_and_a_retest_goes_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise CannotWrite("The disk is full.")

    with seated(tmp_path, record=with_figure(small_job(), R1, 1.9)) as bench:
        go(bench, R1)
        bench.retest()
        read_on(bench)
        bench.keep_draft("0.28")
        with monkeypatch.context() as broken:
            broken.setattr(bench.session.file, "change", full)
            with pytest.raises(CannotWrite):
                bench.type("0.28")
        assert (here(bench), bench.position.again, bench.draft) == (R1, True, "0.28")
        bench.type("0.28")

        assert values(bench, R1) == ["1.9", "0.28"]


def test_a_record_open_for_reading_only_takes_nothing_by_any_act(tmp_path: Path) -> None:
    with seated(tmp_path, record=with_figure(small_job(), R1, 0.28)):
        pass
    with seated(tmp_path, read_only=True) as bench:
        for where in (RN, R1):
            bench.go_to(where)
            for act in (
                lambda: bench.type("0.28"),
                bench.retest,
                lambda: bench.could_not("locked room"),
                lambda: bench.not_needed("no second leg"),
                bench.undo,
            ):
                with pytest.raises(FarboardError, match="for reading only"):
                    act()
        assert bench.prompt.kind is Ask.LOOK
        bench.go_on()  # from one that was taken one can go on

        assert here(bench) != R1


def test_half_typed_text_waits_for_its_own_reading(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, R1)
        bench.keep_draft("0.2")
        bench.step(1)
        assert bench.draft == ""
        bench.step(-1)
        assert bench.draft == "0.2"
        bench.type("0.28")
        bench.step(-1)

        assert (here(bench), bench.draft) == (R1, "")
        bench.retest()
        assert bench.draft == ""


# Cautions


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_nothing_is_taken_before_the_cautions_were_read(tmp_path: Path, names: ActNames) -> None:
    with seated(tmp_path, names=names) as bench:
        assert bench.prompt.kind is Ask.CAUTION
        for act in (lambda: bench.type("0.08"), lambda: bench.type("abc"), bench.go_on):
            with pytest.raises(BadText, match="Read the caution first, then "):
                act()
        assert bench.session.record.readings == ()
        assert not bench.trial(Figure(value=0.08), whole=False)
        assert read_on(bench) == 2
        bench.type("0.08")

        assert len(bench.session.record.readings) == 1


def test_a_caution_that_was_not_shown_to_its_end_was_not_read(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        with pytest.raises(BadText, match="Read it to its end"):
            bench.must_read.read_caution()
        first = bench.must_read.caution
        bench.must_read.shown_to_end()
        bench.must_read.read_caution()
        assert bench.must_read.caution != first
        with pytest.raises(BadText, match="Read it to its end"):
            bench.must_read.read_caution()  # the next one was never there

        assert len(bench.session.record.cautions_read) == 1


def test_a_figure_typed_over_a_caution_waits_for_it(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        bench.keep_draft("0.31")
        assert bench.prompt.closed == ""
        read_on(bench)

        assert bench.draft == "0.31"


# A doubtful figure


def test_where_somebody_types_a_doubtful_figure_is_kept_only_when_told_so(tmp_path: Path) -> None:
    with seated(tmp_path, confirms=True, names=LINES) as bench:
        go(bench, IR_LE)
        told = bench.type("0.02")
        assert "0.02 MΩ is not kept yet. It would be outside: " in told.words
        assert (bench.prompt.kind, values(bench, IR_LE)) == (Ask.KEEP, [])
        bench.type(">999")
        assert values(bench, IR_LE) == [">999"]
        go(bench, IR_LN)
        bench.type("0.02")
        bench.keep()

        assert values(bench, IR_LN) == ["0.02"]


@pytest.mark.parametrize("leave", ["skip", "undo", "again elsewhere", "by groups"])
def test_a_doubtful_figure_does_not_wait_for_another_reading(tmp_path: Path, leave: str) -> None:
    with seated(tmp_path, confirms=True, record=with_figure(small_job(), R1, 0.28)) as bench:
        go(bench, IR_LE)
        bench.type("0.02")
        if leave == "skip":
            bench.step(1)
            bench.step(-1)
        elif leave == "undo":
            bench.undo()
        elif leave == "by groups":
            bench.position.step_group(1)
        else:
            bench.go_to(R1)
            bench.retest()
        with pytest.raises(BadText, match="nothing waiting to be kept"):
            bench.keep()

        assert values(bench, IR_LE) == []


@pytest.mark.parametrize("names", [KEYS, LINES])
@pytest.mark.parametrize("stage", list(Stage))
def test_a_blank_job_can_be_looked_through_and_every_act_answers(
    tmp_path: Path, stage: Stage, names: ActNames
) -> None:
    with seated(tmp_path, stage, Record(), names=names) as bench:
        acts = (
            lambda: bench.type("0.3"),
            bench.go_on,
            bench.retest,
            lambda: bench.step(1),
            lambda: bench.step(-1),
            lambda: bench.find("C1 Zs"),
            bench.keep,
            bench.undo,
            bench.redo,
            bench.leave_retest,
            bench.must_read.read_caution,
            bench.conditions.turn_order,
            bench.conditions.check_insulation,
            bench.conditions.usual,
            bench.conditions.turn_grid,
            bench.conditions.locked_circuit,
            lambda: bench.conditions.done("joint: remade"),
            lambda: bench.conditions.person("A1"),
            lambda: bench.conditions.meter("M1"),
            lambda: bench.conditions.ask_by_words("nothing"),
            lambda: bench.elsewhere("P1, paper"),
            lambda: bench.position.step_group(1),
            lambda: bench.position.step_in_grid(1, 1),
        )
        for act in (*acts, *acts):
            with suppress(FarboardError):
                act()
        assert not bench.session.record.readings
        assert (bench.prompt.kind is Ask.LOCKED) is (stage is Stage.LIVE)
