"""The live tests at the bench: the question before them, the earth after Ze, what is locked off."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from records.errors import BadText, FarboardError
from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.interlock.may_take import Lock
from records.model.reading import Figure, Quantity, Sign, Tick
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.interlock import NotNow
from records.taking.prompt import Ask
from tests.taking.job import ready_job, slot, with_figure
from tests.taking.locks import FAULT_LN, POLARITY, ZDB, ZS1, ZS2, ZS3, answered, job, supply, took
from tests.taking.seat import (
    DEAD,
    LIVE,
    R1,
    go,
    here,
    read_on,
    say_yes,
    seated,
    values,
)

# Live

pytestmark = pytest.mark.usefixtures("clock")


@pytest.mark.parametrize("names", [KEYS, LINES])
def test_yes_counts_only_once_the_whole_question_was_there(tmp_path: Path, names: ActNames) -> None:
    with seated(tmp_path, LIVE, ready_job(), names=names) as bench:
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
    with seated(tmp_path, LIVE, job()) as bench:
        bench.must_read.ask_live()
        bench.must_read.shown_to_end()
        bench.must_read.answer_live(yes=False)
        bench.conditions.person("A2")
        bench.must_read.ask_live()
        with pytest.raises(BadText, match="Read it to its end first"):
            bench.must_read.answer_live(yes=True)


def test_no_locks_the_step_records_nothing_and_is_not_asked_twice(tmp_path: Path) -> None:
    with seated(tmp_path, LIVE, ready_job()) as bench:
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
    with seated(tmp_path, LIVE) as bench:
        question = bench.must_read.ask_live()
        bench.must_read.shown_to_end()
        assert not question.can_be_yes
        with pytest.raises(NotNow) as caught:
            bench.must_read.answer_live(yes=True)

        assert caught.value.refusal.lock is Lock.BOARD
        assert bench.session.record.live_gate == ()


def test_after_four_hours_it_is_asked_again(tmp_path: Path, clock: dict[str, datetime]) -> None:
    with seated(tmp_path, LIVE, ready_job()) as bench:
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
    with seated(tmp_path, LIVE, ready_job(), names=names) as bench:
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
    with seated(tmp_path, LIVE, record, names=LINES, piped=True) as bench:
        with pytest.raises(BadText, match="Type y if it is back on its bar and tight"):
            bench.type("YES")
        bench.type("y")

        assert values(bench, EARTH_BACK) == [True]


def test_undo_of_ze_leaves_the_earth_asked_for(tmp_path: Path) -> None:
    with seated(tmp_path, LIVE, ready_job()) as bench:
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
    with seated(tmp_path, LIVE, record) as bench:
        say_yes(bench)
        bench.go_to(ZS2)
        now = bench.prompt
        assert (now.kind, now.stop and now.stop.lock) == (Ask.WAIT, Lock.CIRCUIT)
        assert now.closed.startswith("Leave it locked off: its dead tests come first.")
        with pytest.raises(NotNow):
            bench.type("0.9")
        # Enter must not ask for a figure of a circuit that stays locked off.
        with pytest.raises(BadText, match=r"^Leave it locked off\b") as told:
            bench.go_on()
        assert "Type what the meter shows" not in str(told.value)
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


def test_the_answer_to_a_check_counts_at_once(tmp_path: Path) -> None:
    """Whoever sees that the earth is off says so; nothing asks them to think again."""
    record = with_figure(ready_job(), ZE, 0.35)
    with seated(tmp_path, LIVE, record, confirms=True, names=LINES) as bench:
        bench.type("n")

        assert values(bench, EARTH_BACK) == [False]


def test_what_is_taken_back_is_named_in_words(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        read_on(bench)
        assert bench.undo().words == "Taken back: that a caution was read."
        assert bench.prompt.kind is Ask.CAUTION
    (tmp_path / "live").mkdir()
    with seated(tmp_path / "live", LIVE, job(supply())) as bench:
        say_yes(bench)
        told = bench.undo()
        assert told.words == "Taken back: the answer to the question before the live tests."
        assert bench.prompt.kind is Ask.LOCKED


def test_the_answer_holds_until_the_dead_tests_change(tmp_path: Path) -> None:
    with seated(tmp_path, LIVE, ready_job()) as bench:
        say_yes(bench)
        back = type(bench)(bench.session, LIVE, KEYS)
        back.begin()
        assert not back.must_read.asks_live
        dead = type(bench)(bench.session, DEAD, KEYS)
        dead.begin()
        go(dead, slot(Quantity.R2, DEAD, "C1"))
        dead.retest()
        read_on(dead)
        dead.type("0.47")
        dead.go_to(PUT_BACK)
        dead.type("y")
        back.look_again()

        assert back.must_read.asks_live
        assert back.prompt.kind is Ask.LOCKED


def test_who_comes_back_stands_at_the_earth_that_is_off(tmp_path: Path) -> None:
    with seated(tmp_path, LIVE, with_figure(ready_job(), ZE, 0.35)) as bench:
        bench.go_to(FAULT_LN)
        again = type(bench)(bench.session, LIVE, KEYS)
        again.begin()

        assert here(again) == EARTH_BACK


def test_a_question_that_is_put_again_is_read_again_and_by_each_person(tmp_path: Path) -> None:
    with seated(tmp_path, LIVE, job()) as bench:
        bench.must_read.ask_live()
        bench.must_read.shown_to_end()
        bench.must_read.answer_live(yes=False)
        assert not bench.must_read.asks_live
        bench.must_read.ask_live()
        with pytest.raises(BadText, match="Read it to its end first"):
            bench.must_read.answer_live(yes=True)
        bench.must_read.answer_live(yes=False)
        bench.conditions.person("A2")

        assert bench.must_read.asks_live


def test_only_a_circuit_that_is_locked_off_can_be_excepted(tmp_path: Path) -> None:
    with seated(tmp_path, LIVE, job()) as bench:
        say_yes(bench)
        bench.go_to(ZS2)
        now = bench.prompt
        assert now.stop is not None
        assert now.stop.lock is Lock.POLARITY
        with pytest.raises(BadText, match="Nothing is locked off here"):
            bench.conditions.exception("A2", "in a hurry")


def test_after_a_retest_what_stops_everything_comes_before_the_next_bad_one(tmp_path: Path) -> None:
    """An open loop on C3: no other circuit is tested before that is put right."""
    record = job(
        answered(),
        supply(),
        took(ZS1, 9.0, 90),
        took(ZS2, 9.0, 91),
        took(ZS3, Figure(value=1999, sign=Sign.OVER), 92),
    )
    with seated(tmp_path, LIVE, record) as bench:
        go(bench, ZS1)
        bench.retest()
        read_on(bench)
        bench.type("0.9")

        assert here(bench) == ZS3
