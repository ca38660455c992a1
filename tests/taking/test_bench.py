"""The bench as a plain object: every way through it, the same for wizard and line bench."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from pathlib import Path

import pytest

from records.errors import BadQuantity, BadText, CannotWrite, FarboardError
from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.interlock.may_take import Lock
from records.model.reading import Figure, NotTaken, Quantity, Tick
from records.model.record import Record
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.interlock import NotNow
from records.taking.prompt import Ask
from records.taking.queue import Order
from records.terms import Sign, Stage, Verdict
from tests.taking.job import put_back, ready_job, slot, small_job, with_figure
from tests.taking.locks import CERTIFIER, FAULT_LN, POLARITY, ZDB, ZS2, answered, job, supply, took
from tests.taking.seat import (
    DEAD,
    LIVE,
    R1,
    R2,
    RN,
    go,
    here,
    read_on,
    say_yes,
    sitting,
    takes,
    values,
)

pytestmark = pytest.mark.usefixtures("clock")
IR_LN, IR_LE = (slot(each, DEAD, "C2") for each in (Quantity.IR_LN, Quantity.IR_LE))
FEED = slot(Quantity.R1_R2, DEAD)


# A value, typed


def test_a_reading_is_on_record_as_typed_with_who_took_it_and_with_what(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
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
    with sitting(tmp_path) as bench:
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
    with sitting(tmp_path) as bench:
        go(bench, R1)
        with pytest.raises(BadQuantity):
            bench.type(typed)

        assert (here(bench), bench.session.record.readings) == (R1, ())
        assert takes(bench)


def test_nothing_typed_takes_nothing_and_says_what_to_type(tmp_path: Path) -> None:
    for names, skip in ((KEYS, "↓"), (LINES, "skip")):
        with sitting(tmp_path, names=names) as bench:
            go(bench, R1)
            with pytest.raises(BadText, match=f"Type what the meter shows; c.*; {skip} passes by"):
                bench.go_on()
            go(bench, slot(Quantity.POLARITY, DEAD, "C2"))
            with pytest.raises(BadText, match="Type y or n"):
                bench.go_on()

            assert bench.session.record.readings == ()


def test_what_is_typed_is_judged_before_it_counts_and_nothing_is_kept_of_it(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
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

    with sitting(tmp_path, record=with_figure(small_job(), R1, 1.9)) as bench:
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
    with sitting(tmp_path, record=with_figure(small_job(), R1, 0.28)):
        pass
    with sitting(tmp_path, read_only=True) as bench:
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
    with sitting(tmp_path) as bench:
        go(bench, R1)
        bench.keep_draft("0.2")
        bench.step(1)
        assert bench.draft == ""
        bench.step(-1)
        assert bench.draft == "0.2"
        bench.type("0.28")
        bench.step(-1)

        assert (here(bench), bench.draft) == (R1, "")


# Cautions


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_nothing_is_taken_before_the_cautions_were_read(tmp_path: Path, names: ActNames) -> None:
    with sitting(tmp_path, names=names) as bench:
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
    with sitting(tmp_path) as bench:
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
    with sitting(tmp_path) as bench:
        bench.keep_draft("0.31")
        assert bench.prompt.closed == ""
        read_on(bench)

        assert bench.draft == "0.31"


# Going on, retests, undo and redo: the cursor


def test_a_second_reading_has_to_be_asked_for_and_the_first_stays(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
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
    with sitting(tmp_path, record=with_figure(small_job(), R1, 1.9)) as bench:
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
    with sitting(tmp_path, record=record, names=names) as bench:
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
    with sitting(tmp_path, LIVE, record) as bench:
        go(bench, ZE)
        bench.retest()
        read_on(bench)
        bench.type("0.35")

        assert here(bench) == EARTH_BACK


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_undo_and_redo_stand_on_the_reading_they_changed(tmp_path: Path, names: ActNames) -> None:
    with sitting(tmp_path, names=names) as bench:
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
    with sitting(tmp_path, record=with_figure(small_job(), R1, 1.9)) as bench:
        go(bench, R1)
        bench.retest()
        read_on(bench)
        bench.type("0.28")
        bench.undo()

        assert (here(bench), bench.prompt.kind) == (R1, Ask.TAKEN)
        assert values(bench, R1) == ["1.9"]


def test_undo_of_what_the_certifier_read_stands_there_too(tmp_path: Path) -> None:
    with sitting(tmp_path, DEAD, job()) as bench:
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
    with sitting(tmp_path) as bench:
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
        assert bench.desk.sitting.order is Order.BY_CIRCUIT


def test_the_ends_of_the_list_are_said_and_nothing_moves(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
        with pytest.raises(BadText, match="the first reading of the stage"):
            bench.step(-1)
        bench.enter(len(bench.queue.entries) - 1)
        with pytest.raises(BadText, match="the last reading of the stage"):
            bench.step(1)
        assert here(bench) == PUT_BACK


def test_a_reading_is_found_by_its_words_in_any_order(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
        bench.find("l-e C2")
        assert here(bench) == IR_LE
        with pytest.raises(BadText, match="No reading of this stage has all these words"):
            bench.find("C9 Zs")
        assert here(bench) == IR_LE


def test_who_comes_back_is_where_they_were(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
        go(bench, IR_LE)
        again = type(bench)(bench.session, DEAD, KEYS)
        again.begin()
        beside = type(bench)(bench.session, DEAD, KEYS, holds_place=False)
        beside.begin()
        beside.go_to(R1)

        assert here(again) == here(bench) == IR_LE


def test_when_all_is_entered_that_is_said_with_the_last(tmp_path: Path) -> None:
    record = put_back(ready_job())
    gone = record.model_copy(
        update={"readings": tuple(each for each in record.readings if each.slot != R2)}
    )
    with sitting(tmp_path, record=gone) as bench:
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
    with sitting(tmp_path, confirms=True, names=LINES) as bench:
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


@pytest.mark.parametrize("leave", ["skip", "undo", "again elsewhere"])
def test_a_doubtful_figure_does_not_wait_for_another_reading(tmp_path: Path, leave: str) -> None:
    with sitting(tmp_path, confirms=True, record=with_figure(small_job(), R1, 0.28)) as bench:
        go(bench, IR_LE)
        bench.type("0.02")
        if leave == "skip":
            bench.step(1)
            bench.step(-1)
        elif leave == "undo":
            bench.undo()
        else:
            bench.go_to(R1)
            bench.retest()
        with pytest.raises(BadText, match="nothing waiting to be kept"):
            bench.keep()

        assert values(bench, IR_LE) == []


# Reasons why there is no reading


@pytest.mark.parametrize("act", ["could_not", "not_needed"])
def test_a_reason_is_said_in_words_and_goes_on_record(tmp_path: Path, act: str) -> None:
    with sitting(tmp_path) as bench:
        bench.go_to(R1)  # no caution stands before a reason
        for empty in ("", "--", "x"):
            with pytest.raises(BadText, match="Give the reason in a few words"):
                getattr(bench, act)(empty)
        getattr(bench, act)("board [/] locked")
        assert values(bench, R1) == ["board [/] locked"]
        assert here(bench) == RN
        bench.go_to(R1)
        with pytest.raises(BadText, match="This was taken already"):
            getattr(bench, act)("another reason")
        with pytest.raises(BadText, match="This was taken already"):
            bench.check_reason(NotTaken(reason="another reason"))


def test_a_test_elsewhere_stands_in_for_feed_and_board_only(tmp_path: Path) -> None:
    with sitting(tmp_path, record=job(took(R1, 0.28, 5))) as bench:
        bench.go_to(RN)
        assert not bench.may_be_elsewhere
    with sitting(tmp_path / ".." / tmp_path.name) as bench:
        feed = bench.queue.entries[0].slot
        bench.go_to(feed)
        bench.retest()
        assert bench.may_be_elsewhere
        with pytest.raises(BadText, match="Only who certifies decides this: type A2"):
            bench.check_elsewhere("A1, my own sheet")
        bench.elsewhere("A2, their sheet of 3 March")
        (taken,) = [each.taken for each in bench.session.record.taken(feed)][-1:]

        assert isinstance(taken, NotTaken)
        assert taken.stands_in is not None
        assert taken.stands_in.by == CERTIFIER.id


def test_nothing_replaces_the_answer_that_the_earth_is_back(tmp_path: Path) -> None:
    with sitting(tmp_path, LIVE, job(answered(), took(ZE, 0.35, 70))) as bench:
        assert here(bench) == EARTH_BACK
        for act in (bench.could_not, bench.not_needed):
            with pytest.raises(NotNow, match="Nothing replaces the earth"):
                act("no time left")


# What goes with a reading


def test_250_volts_want_a_reason_and_hold_for_one_circuit(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
        go(bench, R1)
        with pytest.raises(BadText, match="Only insulation tests have a test voltage"):
            bench.conditions.lower("drivers glued in")
        go(bench, IR_LN)
        with pytest.raises(BadText, match="reason"):
            bench.conditions.lower("")
        bench.conditions.lower("drivers glued in")
        assert here(bench) == IR_LE  # what is read instead
        bench.go_to(IR_LN)
        assert bench.prompt.kind is Ask.JOINED
        with pytest.raises(BadText, match="L and N are joined here"):
            bench.type(">500")
        bench.go_to(IR_LE)
        bench.type(">500")
        assert bench.queue.index(IR_LN) is None  # nobody reads it now
        go(bench, slot(Quantity.IR_LE, DEAD, "C3"))
        bench.type(">999")
        here_, next_ = bench.session.record.readings

        assert here_.test_voltage == 250.0
        assert here_.method == "250 V d.c., L and N joined, to earth: drivers glued in"
        assert (next_.test_voltage, next_.method) == (500.0, "")


def test_a_note_and_a_method_go_with_the_next_reading_only(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
        go(bench, R1)
        bench.conditions.note("rained")
        bench.conditions.method("long lead")
        for typed in ("0.28", "0.28"):
            bench.type(typed)
        first, second = bench.session.record.readings

        assert (first.method, first.note) == ("long lead", "rained")
        assert (second.method, second.note) == ("", "")


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_readings_from_notes_carry_both_times_until_that_is_ended(
    tmp_path: Path, clock: dict[str, datetime], names: ActNames
) -> None:
    with sitting(tmp_path, names=names) as bench:
        go(bench, R1)
        with pytest.raises(BadQuantity, match="is not a day and time"):
            bench.conditions.taken("noon")
        with pytest.raises(BadQuantity, match="still to come"):
            bench.conditions.taken("1 Jan 2099 10:00")
        told = bench.conditions.taken("20/3/26 14:30")
        assert "From notes of 20 Mar 2026 14:30" in told.words
        assert names.now in told.words
        bench.type("0.28")
        bench.conditions.taken("now")
        bench.type("0.28")
        noted, now = bench.session.record.readings

        assert f"{noted.at:%Y-%m-%d %H:%M}" == "2026-03-20 14:30"
        assert noted.from_notes is not None
        assert noted.from_notes > noted.at
        assert now.from_notes is None


def test_what_was_done_about_a_finding_is_kept_with_its_kind(tmp_path: Path) -> None:
    with sitting(tmp_path, record=with_figure(small_job(), IR_LE, 0.2)) as bench:
        bench.go_to(R1)
        with pytest.raises(BadText, match="There is no finding here"):
            bench.conditions.done("gland tightened")
        bench.go_to(IR_LE)
        for text, kind in (("", ""), ("--", ""), ("joint: ", ""), ("gland", "spoon")):
            with pytest.raises(FarboardError):
                bench.conditions.done(text, kind)
        told = bench.conditions.done("gland tightened", "joint")
        bench.conditions.done("cable: screw drawn")
        first, second = bench.session.record.remedies

        assert told.words.startswith("Kept as ")
        assert "Now test again: press a." in told.words
        assert (first.done, first.kind) == ("gland tightened", "joint")
        assert (second.done, second.kind) == ("screw drawn", "cable")


def test_who_and_with_what_are_chosen_by_name_or_number(tmp_path: Path) -> None:
    with sitting(tmp_path, record=job()) as bench:
        go(bench, R1)
        bench.conditions.person("ash reed")
        bench.conditions.meter("0412")
        with pytest.raises(BadText, match="It has: A1 Wren Oakes; A2 Ash Reed"):
            bench.conditions.person("nobody")
        with pytest.raises(BadText, match=r"no such instrument\. It has: M1"):
            bench.conditions.meter("M9")

        assert (bench.desk.sitting.person, bench.desk.sitting.instruments) == ("A2", ["M1"])


def test_a_test_that_nobody_asks_for_comes_into_the_queue(tmp_path: Path) -> None:
    with sitting(tmp_path) as bench:
        count = len(bench.queue.entries)
        told = bench.conditions.ask_by_words("insulation whole sub-board")
        assert here(bench).quantity is Quantity.IR_GROUP
        assert len(bench.queue.entries) == count + 1
        assert "without a reading nothing is missing" in told.words
        assert here(bench) not in bench.conditions.others
        with pytest.raises(BadText, match="others lists them"):
            bench.conditions.ask_by_words("C9 zeppelin")


# Live


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_yes_counts_only_once_the_whole_question_was_there(tmp_path: Path, names: ActNames) -> None:
    with sitting(tmp_path, LIVE, ready_job(), names=names) as bench:
        assert bench.must_read.asks_live
        bench.must_read.ask_live()
        assert bench.prompt.kind is Ask.QUESTION
        with pytest.raises(BadText, match="Read it to its end first"):
            bench.must_read.answer_live(yes=True)
        assert (bench.prompt.kind, bench.session.record.live_gate) == (Ask.QUESTION, ())
        bench.must_read.shown_to_end()
        bench.must_read.answer_live(yes=True)

        (gate,) = bench.session.record.live_gate
        assert (gate.by, gate.may_go_live) == ("A1", ("C1", "C2", "C3"))
        assert here(bench).quantity is Quantity.POLARITY


def test_another_question_has_to_be_read_again(tmp_path: Path) -> None:
    with sitting(tmp_path, LIVE, job()) as bench:
        bench.must_read.ask_live()
        bench.must_read.shown_to_end()
        bench.must_read.answer_live(yes=False)
        bench.conditions.person("A2")
        bench.must_read.ask_live()
        with pytest.raises(BadText, match="Read it to its end first"):
            bench.must_read.answer_live(yes=True)


def test_no_locks_the_step_records_nothing_and_is_not_asked_twice(tmp_path: Path) -> None:
    with sitting(tmp_path, LIVE, ready_job()) as bench:
        before = bench.session.fingerprint
        bench.must_read.ask_live()
        bench.must_read.answer_live(yes=False)  # no needs no reading
        assert not bench.must_read.asks_live
        assert bench.prompt.kind is Ask.LOCKED
        for act in (
            lambda: bench.type("y"),
            bench.go_on,
            bench.retest,
            lambda: bench.could_not("no time"),
            lambda: bench.not_needed("no time"),
        ):
            with pytest.raises(FarboardError, match="Locked: nothing is taken live"):
                act()
        assert bench.session.fingerprint == before
        assert bench.draft == ""
        bench.conditions.person("A1")
        bench.session.change([{"op": "replace", "path": "/job/place", "value": "Elsewhere"}])
        assert not bench.must_read.asks_live
        dead = type(bench)(bench.session, DEAD, KEYS)
        dead.begin()
        go(dead, R1)
        dead.retest()
        read_on(dead)
        dead.type("9.9")
        bench.look_again()

        assert bench.must_read.asks_live  # what it was said no to has changed


def test_nothing_goes_live_before_feed_and_board_are_right(tmp_path: Path) -> None:
    with sitting(tmp_path, LIVE) as bench:
        question = bench.must_read.ask_live()
        bench.must_read.shown_to_end()
        assert not question.can_be_yes
        with pytest.raises(NotNow) as caught:
            bench.must_read.answer_live(yes=True)

        assert caught.value.refusal.lock is Lock.BOARD
        assert bench.session.record.live_gate == ()


def test_after_four_hours_it_is_asked_again(tmp_path: Path, clock: dict[str, datetime]) -> None:
    with sitting(tmp_path, LIVE, ready_job()) as bench:
        say_yes(bench)
        assert bench.prompt.kind is not Ask.LOCKED
        clock["now"] = clock["now"].replace(hour=23)
        assert bench.prompt.kind is Ask.LOCKED
        with pytest.raises(NotNow):
            bench.desk.take(POLARITY, Tick(good=True))


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_after_ze_the_earth_comes_first_whatever_is_typed_elsewhere(
    tmp_path: Path, names: ActNames
) -> None:
    with sitting(tmp_path, LIVE, ready_job(), names=names) as bench:
        say_yes(bench)
        go(bench, ZE)
        bench.type("0,35")
        assert here(bench) == EARTH_BACK
        bench.go_to(FAULT_LN)
        assert bench.prompt.kind is Ask.WAIT
        assert bench.prompt.closed == ""  # the figure waits where it was typed
        bench.keep_draft("2.2")
        with pytest.raises(NotNow, match="is the earth back on its bar"):
            bench.type("2.2")
        assert here(bench) == EARTH_BACK
        bench.type("n")
        assert (here(bench), values(bench, EARTH_BACK)) == (EARTH_BACK, [False])
        bench.type("y")
        assert here(bench) == FAULT_LN
        assert bench.draft == "2.2"
        assert [each.slot for each in bench.session.record.readings][-3:] == [
            ZE,
            EARTH_BACK,
            EARTH_BACK,
        ]


def test_a_yes_that_was_written_beforehand_never_says_that_the_earth_is_back(
    tmp_path: Path,
) -> None:
    record = with_figure(ready_job(), ZE, 0.35)
    with sitting(tmp_path, LIVE, record, names=LINES, piped=True) as bench:
        with pytest.raises(BadText, match="Type y if it is back on its bar and tight"):
            bench.type("YES")
        bench.type("y")

        assert values(bench, EARTH_BACK) == [True]


def test_undo_of_ze_leaves_the_earth_asked_for(tmp_path: Path) -> None:
    with sitting(tmp_path, LIVE, ready_job()) as bench:
        say_yes(bench)
        go(bench, ZE)
        bench.type("0.35")
        bench.undo()
        assert values(bench, ZE) == []
        assert bench.desk.interlock.earth is not None
        with pytest.raises(FarboardError, match="is the earth back on its bar"):
            bench.undo()


def test_a_circuit_that_is_locked_off_takes_nothing_until_who_certifies_lets_it(
    tmp_path: Path,
) -> None:
    wet = slot(Quantity.IR_LE, DEAD, "C2")
    record = job(took(wet, 0.2, 20), took(PUT_BACK, Tick(good=True), 21), supply())
    with sitting(tmp_path, LIVE, record) as bench:
        say_yes(bench)
        bench.go_to(ZS2)
        now = bench.prompt
        assert (now.kind, now.stop and now.stop.lock) == (Ask.WAIT, Lock.CIRCUIT)
        assert now.closed.startswith("Leave it locked off: its dead tests come first.")
        with pytest.raises(NotNow):
            bench.type("0.9")
        with pytest.raises(BadText, match="Only who certifies decides this"):
            bench.conditions.check_exception("A1", "in a hurry")
        assert bench.session.record.live_gate[-1].exceptions == ()
        bench.conditions.exception("A2", "damp only, read at 250 V")
        assert bench.session.record.live_gate[-1].exceptions[0].circuit == "C2"
        assert here(bench) == ZS2
        assert bench.prompt.kind in (Ask.CAUTION, Ask.FIGURE)
        bench.go_to(ZDB)
        with pytest.raises(BadText, match="Nothing is locked off here"):
            bench.conditions.exception("A2", "damp only")


@pytest.mark.parametrize("names", [KEYS, LINES])
@pytest.mark.parametrize("stage", list(Stage))
def test_a_blank_job_can_be_looked_through_and_every_act_answers(
    tmp_path: Path, stage: Stage, names: ActNames
) -> None:
    with sitting(tmp_path, stage, Record(), names=names) as bench:
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
