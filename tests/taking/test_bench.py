"""The bench as a plain object: every way through it, the same for wizard and line bench."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest

from records.errors import BadQuantity, BadText, CannotWrite, FarboardError
from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.model.reading import Figure, Quantity, Tick
from records.model.record import Record
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.prompt import Ask
from records.taking.queue import Order
from records.terms import Sign, Stage, Verdict
from tests.taking.job import put_back, ready_job, slot, small_job, with_figure
from tests.taking.locks import answered, job, supply, took
from tests.taking.seat import (
    DEAD,
    LIVE,
    R1,
    R2,
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


# Going on, retests, undo and redo: the cursor


def test_a_second_reading_has_to_be_asked_for_and_the_first_stays(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, R1)
        bench.type("1.9")
        bench.step(-1)
        assert (here(bench), bench.prompt.kind) == (R1, Ask.TAKEN)
        with pytest.raises(BadText, match=r"This was taken already\. Press a to test it again"):
            bench.type("0.28")
        told = bench.retest()
        assert "The earlier one stays" in told.words
        bench.type("0.28")

        assert values(bench, R1) == ["1.9", "0.28"]


def test_a_retest_can_be_left_and_is_left_by_going_elsewhere(tmp_path: Path) -> None:
    with seated(tmp_path, record=with_figure(small_job(), R1, 1.9)) as bench:
        go(bench, R1)
        for leave in (bench.leave_retest, lambda: bench.step(1)):
            bench.go_to(R1)
            bench.retest()
            assert takes(bench) or bench.prompt.kind is Ask.CAUTION
            leave()
            bench.go_to(R1)
            assert bench.prompt.kind is Ask.TAKEN
        assert not bench.leave_retest()
        bench.go_to(RN)
        with pytest.raises(BadText, match="Nothing was taken here yet"):
            bench.retest()


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_after_a_retest_the_next_bad_one_of_the_same_test_comes(
    tmp_path: Path, names: ActNames
) -> None:
    others = [slot(Quantity.IR_LE, DEAD, each) for each in ("C1", "C2", "C3")]
    record = small_job()
    for each in (others[0], others[2]):
        record = with_figure(record, each, 0.2)
    with seated(tmp_path, record=record, names=names) as bench:
        go(bench, others[0])
        bench.retest()
        read_on(bench)
        bench.type(">999")
        assert here(bench) == others[2]
        bench.retest()
        bench.type(">999")

        assert bench.entry is not None
        assert bench.entry.is_open


def test_after_a_retest_an_earth_that_is_off_comes_before_the_next_bad_one(tmp_path: Path) -> None:
    record = job(answered(), supply(), took(ZE, 0.9, 100), took(EARTH_BACK, Tick(good=True), 101))
    with seated(tmp_path, LIVE, record) as bench:
        go(bench, ZE)
        bench.retest()
        read_on(bench)
        bench.type("0.35")

        assert here(bench) == EARTH_BACK


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_undo_and_redo_stand_on_the_reading_they_changed(tmp_path: Path, names: ActNames) -> None:
    with seated(tmp_path, names=names) as bench:
        go(bench, R1)
        bench.type("0.28")
        bench.type("0.29")
        bench.go_to(IR_LE)
        told = bench.undo()
        assert (here(bench), values(bench, RN), values(bench, R1)) == (RN, [], ["0.28"])
        assert told.words.startswith("Taken back: Dead tests, C1 Bench sockets, rn: 0.29 Ω")
        bench.undo()
        assert (here(bench), values(bench, R1)) == (R1, [])
        bench.go_to(IR_LE)
        bench.redo()
        assert (here(bench), values(bench, R1)) == (R1, ["0.28"])
        told = bench.redo()
        assert (here(bench), values(bench, RN)) == (RN, ["0.29"])
        assert told.words.startswith("Made again: ")
        assert bench.redo().words == "There is nothing to make again."


def test_undo_of_a_retest_leaves_the_first_reading_and_no_retest(tmp_path: Path) -> None:
    with seated(tmp_path, record=with_figure(small_job(), R1, 1.9)) as bench:
        go(bench, R1)
        bench.retest()
        read_on(bench)
        bench.type("0.28")
        bench.undo()

        assert (here(bench), bench.prompt.kind) == (R1, Ask.TAKEN)
        assert values(bench, R1) == ["1.9"]


def test_undo_of_what_the_certifier_read_stands_there_too(tmp_path: Path) -> None:
    with seated(tmp_path, DEAD, job()) as bench:
        bench.conditions.person("A2")
        earthing = slot(Quantity.EARTHING, DEAD)
        bench.go_to(earthing)
        bench.retest()
        read_on(bench)
        told = bench.type("0.01")
        assert "Kept as the certifier's own, beside the installer's reading" in told.words
        bench.type("y") if here(bench) == PUT_BACK else None
        bench.go_to(R1)
        bench.undo()

        assert here(bench) in (earthing, PUT_BACK)


def test_the_place_and_the_order_are_kept_when_the_order_turns(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, slot(Quantity.IR_LN, DEAD, "C1"))
        told = bench.conditions.turn_order()
        assert (here(bench).quantity, told.words) == (
            Quantity.IR_LN,
            "Readings are offered by circuit.",
        )
        bench.position.step_group(1)
        assert here(bench).place.circuit == "C2"
        bench.position.step_group(-1)
        assert here(bench) == R1
        assert bench.desk.settings.order is Order.BY_CIRCUIT


def test_the_ends_of_the_list_are_said_and_nothing_moves(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        with pytest.raises(BadText, match="the first reading of the stage"):
            bench.step(-1)
        bench.enter(len(bench.queue.entries) - 1)
        with pytest.raises(BadText, match="the last reading of the stage"):
            bench.step(1)
        assert here(bench) == PUT_BACK


def test_a_reading_is_found_by_its_words_in_any_order(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        bench.find("l-e C2")
        assert here(bench) == IR_LE
        with pytest.raises(BadText, match="No reading of this stage has all these words"):
            bench.find("C9 Zs")
        assert here(bench) == IR_LE


def test_who_comes_back_is_where_they_were(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, IR_LE)
        again = type(bench)(bench.session, DEAD, KEYS)
        again.begin()
        beside = type(bench)(bench.session, DEAD, KEYS, only=R1)  # the re-test of the review
        beside.begin()
        assert here(beside) == R1

        assert here(again) == here(bench) == IR_LE


def test_when_all_is_entered_that_is_said_with_the_last(tmp_path: Path) -> None:
    record = put_back(ready_job())
    gone = record.model_copy(
        update={"readings": tuple(each for each in record.readings if each.slot != R2)}
    )
    with seated(tmp_path, record=gone) as bench:
        go(bench, R2)
        told = bench.type("0.47")
        assert here(bench) == PUT_BACK  # asked again: the legs of the ring came off
        assert not told.done
        told = bench.type("y")
        assert told.done
        assert told.words.endswith("Everything of this stage has something entered.")
        assert bench.go_on().done


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
