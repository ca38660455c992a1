"""Going on at the bench: retests, undo and redo, and where one stands after each."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.errors import BadText
from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.model.reading import Quantity, Tick
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.prompt import Ask
from records.taking.queue import Order
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
from tests.taking.test_bench import IR_LE

pytestmark = pytest.mark.usefixtures("clock")


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
