"""What else can be said at the bench: reasons, methods, notes, work done, who and with what."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest

from records.errors import BadQuantity, BadText, FarboardError
from records.interlock.comes_off import EARTH_BACK, ZE
from records.model.reading import NotTaken, Quantity
from records.taking.act_names import KEYS, LINES, ActNames
from records.taking.interlock import NotNow
from records.taking.prompt import Ask
from tests.taking.job import slot, small_job, with_figure
from tests.taking.locks import CERTIFIER, answered, job, took
from tests.taking.seat import (
    DEAD,
    LIVE,
    R1,
    RN,
    go,
    here,
    seated,
    values,
)

# Reasons why there is no reading

pytestmark = pytest.mark.usefixtures("clock")
IR_LN, IR_LE = (slot(each, DEAD, "C2") for each in (Quantity.IR_LN, Quantity.IR_LE))


@pytest.mark.parametrize("act", ["could_not", "not_needed"])
def test_a_reason_is_said_in_words_and_goes_on_record(tmp_path: Path, act: str) -> None:
    with seated(tmp_path) as bench:
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
    with seated(tmp_path, record=job(took(R1, 0.28, 5))) as bench:
        bench.go_to(RN)
        assert not bench.may_be_elsewhere
    with seated(tmp_path / ".." / tmp_path.name) as bench:
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
    with seated(tmp_path, LIVE, job(answered(), took(ZE, 0.35, 70))) as bench:
        assert here(bench) == EARTH_BACK
        for act in (bench.could_not, bench.not_needed):
            with pytest.raises(NotNow, match="Nothing replaces the earth"):
                act("no time left")


# What goes with a reading


def test_250_volts_want_a_reason_and_hold_for_one_circuit(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
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
    with seated(tmp_path) as bench:
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
    with seated(tmp_path, names=names) as bench:
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
    with seated(tmp_path, record=with_figure(small_job(), IR_LE, 0.2)) as bench:
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
    with seated(tmp_path, record=job()) as bench:
        go(bench, R1)
        bench.conditions.person("ash reed")
        bench.conditions.meter("0412")
        with pytest.raises(BadText, match="It has: A1 Wren Oakes; A2 Ash Reed"):
            bench.conditions.person("nobody")
        with pytest.raises(BadText, match=r"no such instrument\. It has: M1"):
            bench.conditions.meter("M9")

        assert (bench.desk.settings.person, bench.desk.settings.instruments) == ("A2", ["M1"])


def test_a_test_that_nobody_asks_for_comes_into_the_queue(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        count = len(bench.queue.entries)
        told = bench.conditions.ask_by_words("insulation whole sub-board")
        assert here(bench).quantity is Quantity.IR_GROUP
        assert len(bench.queue.entries) == count + 1
        assert "without a reading nothing is missing" in told.words
        assert here(bench) not in bench.conditions.others
        with pytest.raises(BadText, match="others lists them"):
            bench.conditions.ask_by_words("C9 zeppelin")
