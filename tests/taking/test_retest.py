"""One reading tested again, from the review: the bench for that reading alone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from records.errors import BadText, CannotWrite, FarboardError
from records.interlock.comes_off import EARTH_BACK, ZE
from records.interlock.may_take import Lock
from records.model.reading import Figure, Quantity, Slot
from records.model.record import Record
from records.taking.act_names import REVIEW
from records.taking.bench import Bench
from records.taking.interlock import NotNow
from records.taking.prompt import Ask
from records.terms import Stage, Verdict
from tests.taking.job import slot, small_job, with_figure
from tests.taking.locks import FAULT_LN, ZS2, answered, job, supply, took
from tests.taking.seat import DEAD, R1, RN, here, opened, read_on, values

pytestmark = pytest.mark.usefixtures("clock")
IR = slot(Quantity.IR_LE, DEAD, "C1")


def faulty() -> Record:
    return with_figure(small_job(), IR, 0.2)


@contextmanager
def retesting(
    folder: Path, where: Slot, record: Record | None = None, *, read_only: bool = False
) -> Iterator[Bench]:
    session = opened(folder, record, read_only=read_only)
    bench = Bench(session, where.stage, REVIEW, only=where)
    bench.begin()
    yield bench
    session.close()


def test_it_stands_at_that_reading_and_takes_it_again_and_the_first_stays(tmp_path: Path) -> None:
    with retesting(tmp_path, IR, faulty()) as bench:
        assert bench.prompt.kind is Ask.CAUTION
        assert read_on(bench) == 2  # safe isolation, then insulation
        bench.check_begun()
        told = bench.type(">999")

        assert values(bench, IR) == ["0.2", ">999"]
        # Alone it is within; that it turned good by itself is said at once.
        assert told.words.startswith("C1 Bench sockets, insulation L-E: unlikely. It was 0.20 MΩ")
        assert told.mark == Verdict.UNLIKELY.mark
        assert here(bench) == IR  # and nowhere else: nothing typed now lands in another reading
        assert bench.prompt.kind is Ask.TAKEN
        with pytest.raises(BadText, match="taken already"):
            bench.type("5")


def test_it_says_nothing_of_the_stage_even_if_it_was_the_last_one(tmp_path: Path) -> None:
    with retesting(tmp_path, IR, faulty()) as bench:
        read_on(bench)
        told = bench.type("999")

        assert not told.done
        assert "of this stage" not in told.words


def test_what_was_never_taken_is_taken_for_the_first_time(tmp_path: Path) -> None:
    with retesting(tmp_path, R1, small_job()) as bench:
        read_on(bench)
        bench.check_begun()
        bench.type("0.28")

        assert values(bench, R1) == ["0.28"]


def test_a_reading_that_nobody_has_to_take_is_taken_too(tmp_path: Path) -> None:
    session = opened(tmp_path)
    free = Bench(session, DEAD, REVIEW).conditions.others[0]
    session.close()
    with retesting(tmp_path, free) as bench:
        assert here(bench) == free
        assert bench.desk.settings.more == []  # the bench of the stage goes on as it was


def test_the_place_at_the_bench_stays_as_it_was(tmp_path: Path) -> None:
    with retesting(tmp_path, IR, faulty()) as bench:
        at_bench = Bench(bench.session, DEAD, REVIEW)
        at_bench.begin()
        at_bench.go_to(RN)
        bench.look_again()
        read_on(bench)
        bench.type("999")

        assert bench.desk.settings.slot == RN
        assert here(at_bench) == RN


@pytest.mark.parametrize("answered_yes", [False, True])
def test_a_live_one_waits_for_the_question_or_for_the_dead_tests(
    tmp_path: Path, answered_yes: bool
) -> None:
    zs = slot(Quantity.ZS, Stage.LIVE, "C1")
    record = with_figure(small_job(), zs, 9.0) if not answered_yes else took(zs, 9.0, 80)(job())
    with retesting(tmp_path, zs, record) as bench:
        with pytest.raises(BadText if answered_yes else NotNow) as caught:
            bench.check_begun()

        if answered_yes:  # all dead tests are right, but nobody answered
            assert "g, then Enter asks it" in str(caught.value)
        else:
            assert "Nothing goes live yet" in str(caught.value)
            assert "satisfactory first" in str(caught.value)
        with pytest.raises(FarboardError):
            bench.type("1.0")
        assert len(values(bench, zs)) == 1


def test_none_while_the_earth_is_off_whatever_is_typed(tmp_path: Path) -> None:
    off = job(answered(), took(ZE, 0.35, 70))
    for folder, where in (("dead", IR), ("live", ZS2)):
        (tmp_path / folder).mkdir()
        with retesting(tmp_path / folder, where, off) as bench:
            with pytest.raises(NotNow, match="is the earth back") as caught:
                bench.check_begun()
            assert caught.value.refusal.lock is Lock.EARTH
            before = bench.session.record
            bench.position.again = True
            with pytest.raises(NotNow):
                bench.type("1.2")
            with pytest.raises(NotNow):
                bench.take(Figure(value=1.2))

            assert bench.session.record is before
            # “y” to the earth's question can't be typed here by mistake.
            assert here(bench) == where
    with retesting(tmp_path / "live", EARTH_BACK) as bench:
        bench.check_begun()
        bench.type("y")
        assert bench.desk.interlock.earth is None


def test_the_earth_that_comes_off_meanwhile_stops_it(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    with retesting(tmp_path, FAULT_LN, job(answered(), supply())) as bench:
        clock["now"] += timedelta(minutes=1)
        read_on(bench)
        bench.check_begun()
        other = Bench(bench.session, Stage.LIVE, REVIEW, only=ZE)
        other.begin()
        read_on(other)  # from now on the earth is off
        with pytest.raises(NotNow, match="is the earth back"):
            bench.type("2.2")

        assert len(values(bench, FAULT_LN)) == 1


def test_a_caution_read_hours_ago_is_read_again_and_what_is_typed_waits(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    with retesting(tmp_path, IR, faulty()) as bench:
        read_on(bench)
        bench.keep_draft(">999")
        clock["now"] += timedelta(hours=5)
        with pytest.raises(BadText, match="Read the caution first, then press Enter"):
            bench.type(">999")
        assert bench.prompt.kind is Ask.CAUTION
        assert bench.prompt.closed == ""
        assert bench.draft == ">999"
        read_on(bench)
        bench.type(">999")

        assert (values(bench, IR), bench.draft) == (["0.2", ">999"], "")


def test_what_is_not_on_disk_is_not_taken_and_is_typed_still(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise CannotWrite("The disk is full.")

    with retesting(tmp_path, IR, faulty()) as bench:
        read_on(bench)
        bench.keep_draft(">999")
        with monkeypatch.context() as broken:
            broken.setattr(bench.session.file, "change", full)
            with pytest.raises(CannotWrite):
                bench.type(">999")
        assert bench.draft == ">999"
        assert bench.position.again
        bench.type(">999")
        assert values(bench, IR) == ["0.2", ">999"]


def test_what_waits_in_its_field_is_the_same_at_the_bench(tmp_path: Path) -> None:
    with retesting(tmp_path, IR, faulty()) as bench:
        read_on(bench)
        bench.keep_draft("0.1")
        at_bench = Bench(bench.session, DEAD, REVIEW)
        at_bench.begin()
        at_bench.go_to(IR)
        assert at_bench.draft == ""  # something is on record there, and nothing is asked for
        at_bench.retest()

        assert at_bench.draft == "0.1"


def test_l_and_n_joined_refuse_the_other_two_before_anything_is_typed(tmp_path: Path) -> None:
    ln = slot(Quantity.IR_LN, DEAD, "C1")
    with retesting(tmp_path, ln, with_figure(small_job(), ln, 0.2)) as bench:
        read_on(bench)
        bench.desk.settings.lower_here(ln, "controls fitted")
        with pytest.raises(BadText, match="read insulation L-E"):
            bench.check_begun()


def test_a_reading_whose_test_the_job_asks_for_no_more_is_not_taken(tmp_path: Path) -> None:
    gone = slot(Quantity.R1, DEAD, "C2")  # no ring
    with retesting(tmp_path, gone) as bench:
        assert bench.entry is None
        with pytest.raises(BadText, match="asks for this reading no more"):
            bench.check_begun()
        with pytest.raises(BadText):
            bench.type("1")


def test_a_record_open_for_looking_takes_none(tmp_path: Path) -> None:
    opened(tmp_path, faulty()).close()
    with (
        retesting(tmp_path, IR, read_only=True) as bench,
        pytest.raises(BadText, match="for reading only"),
    ):
        bench.check_begun()
