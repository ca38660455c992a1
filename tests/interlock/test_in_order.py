"""What has to be shown before what, once the board is live; each lock on its own.

Order of live tests: IET Guidance Note 3 (from memory). How a reading stood is given, not judged.
"""

from __future__ import annotations

import pytest

from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE
from records.interlock.may_take import Interlock, Lock
from records.model.reading import (
    Figure,
    LiveException,
    LiveGate,
    NotNeeded,
    NotTaken,
    Place,
    Quantity,
    Slot,
    Tick,
)
from records.model.record import Record
from records.terms import Part, Stage, Verdict
from tests.taking.job import slot
from tests.taking.locks import (
    CERTIFIER,
    FAULT_LE,
    FAULT_LN,
    FEED_R1_R2,
    LE,
    POLARITY,
    RUN,
    ZDB,
    ZS1,
    ZS2,
    ZS3,
    Change,
    Entry,
    answered,
    at_minute,
    job,
    read_before,
    supply,
    took,
    without,
)

LIVE, DEAD = Stage.LIVE, Stage.DEAD
GOOD = (Verdict.WITHIN, Verdict.NEAR, Verdict.NOT_NEEDED)
BAD = (Verdict.OUTSIDE, Verdict.UNLIKELY, Verdict.NOT_TAKEN)
TIMED2, LOADED2 = slot(Quantity.RCD_TIME, LIVE, "C2"), slot(Quantity.RCD_LOADED, LIVE, "C2")
FUNCTION2 = slot(Quantity.FUNCTION, LIVE, "C2")
CURRENT = slot(Quantity.LOAD_CURRENT, LIVE)
UNDER_LOAD = slot(Quantity.VOLTAGE_LOADED, LIVE)
BOARD_VOLTS = [
    slot(each, LIVE)
    for each in (
        Quantity.POLARITY,
        Quantity.VOLTAGE,
        Quantity.VOLTAGE_LE,
        Quantity.VOLTAGE_NE,
    )
]


def lock(
    record: Record, where: Slot, stood: dict[Slot, Verdict] | None = None, **more: object
) -> tuple[Lock, Slot | None] | None:
    """Return what keeps a reading from being taken, all others within but those that are given."""
    verdicts = {each.id: Verdict.WITHIN for each in record.readings}
    for slot_, verdict in (stood or {}).items():
        verdicts[record.taken(slot_)[-1].id] = verdict
    taken = more.get("taken")
    assert taken is None or isinstance(taken, Figure | Tick | NotTaken | NotNeeded)
    found = Interlock(record, verdicts, "A1", at_minute(120)).refusal(where, taken, ())
    return None if found is None else (found.lock, found.first)


def test_polarity_and_voltages_at_the_board_come_before_polarity_is_shown() -> None:
    record = job(answered(), supply(until=POLARITY))

    for where in (*BOARD_VOLTS, FAULT_LN, FAULT_LE, ZE):
        assert lock(record, where) is None, where
    for where in (ZDB, ZS2, slot(Quantity.FAULT_LN, LIVE), CURRENT):
        assert lock(record, where) == (Lock.POLARITY, POLARITY), where


@pytest.mark.parametrize("verdict", Verdict)
def test_only_a_right_polarity_opens_the_loops(verdict: Verdict) -> None:
    record = job(answered(), supply(until=POLARITY), took(POLARITY, Tick(good=True), 90))
    found = lock(record, ZDB, {POLARITY: verdict})

    assert (found is None) is (verdict in GOOD)


@pytest.mark.parametrize("verdict", Verdict)
def test_a_doubtful_zdb_shows_that_there_is_an_earth_and_an_unjudged_one_does_not(
    verdict: Verdict,
) -> None:
    record = job(answered(), supply())
    found = lock(record, ZS2, {ZDB: verdict})

    if verdict is Verdict.OUTSIDE:
        assert found == (Lock.FAILURE, ZDB)
    elif verdict is Verdict.NOT_TAKEN:
        assert found == (Lock.POLARITY, ZDB)
    else:
        assert found is None


def test_a_zdb_that_cannot_be_judged_says_what_to_do_about_that() -> None:
    record = job(answered(), supply())
    verdicts = {each.id: Verdict.WITHIN for each in record.readings}
    unjudged = verdicts | {record.taken(ZDB)[-1].id: Verdict.NOT_TAKEN}
    found = Interlock(record, unjudged, "A1", at_minute(120)).refusal(ZS2, None, ())
    missing = Interlock(job(answered(), supply(until=ZDB)), verdicts, "A1", at_minute(120))
    first = missing.refusal(ZS2, None, ())

    assert found is not None
    assert "can't be judged yet" in found.words
    assert first is not None
    assert first.words == "Take Zdb at the sub-board first: it shows that there is an earth."


@pytest.mark.parametrize("verdict", Verdict)
@pytest.mark.parametrize("which", [ZS2, TIMED2])
def test_a_load_goes_on_after_a_right_loop_and_a_right_rcd(which: Slot, verdict: Verdict) -> None:
    both = (took(ZS2, 1.4, 90), took(TIMED2, 24.0, 91))
    record = job(answered(), supply(), *both)
    assert lock(record, LOADED2) is None
    found = lock(record, LOADED2, {which: verdict})

    if which == ZS2 and verdict is Verdict.OUTSIDE:
        assert found == (Lock.FAILURE, ZS2)
    else:
        assert (found is None) is (verdict in GOOD)


@pytest.mark.parametrize("which", [ZS2, TIMED2])
@pytest.mark.parametrize("verdict", Verdict)
def test_a_circuit_is_worked_once_both_were_taken_and_neither_is_outside(
    which: Slot, verdict: Verdict
) -> None:
    """To switch a light on and off is less than a load to measure by: a doubt doesn't stop it."""
    record = job(answered(), supply(), took(ZS2, 1.4, 90), took(TIMED2, 24.0, 91))
    found = lock(record, FUNCTION2, {which: verdict})

    assert (found is None) is (verdict is not Verdict.OUTSIDE)
    assert lock(without(which)(record), FUNCTION2) == (Lock.LOAD, None)
    assert lock(record, slot(Quantity.RCD_BUTTON, LIVE, "C2")) is None


@pytest.mark.parametrize("where", [CURRENT, UNDER_LOAD])
def test_a_load_at_the_board_goes_on_after_one_circuit_was_tested_whole(where: Slot) -> None:
    record = job(answered(), supply())
    assert lock(record, where) == (Lock.LOAD, None)
    half = took(ZS2, 1.4, 90)(record)
    assert lock(half, where) == (Lock.LOAD, None)
    whole = took(TIMED2, 24.0, 91)(half)
    assert lock(whole, where) is None
    assert lock(whole, where, {TIMED2: Verdict.UNLIKELY}) == (Lock.LOAD, None)
    # Of a circuit that is locked off again, what was read of it before opens nothing.
    assert lock(whole, where, {LE: Verdict.OUTSIDE}) == (Lock.LOAD, None)
    at_origin = Slot(quantity=where.quantity, place=Place(part=Part.ORIGIN), stage=LIVE)
    assert lock(record, at_origin) == (Lock.LOAD, None)
    assert lock(whole, at_origin) is None


def test_each_circuit_waits_for_its_own_dead_tests_only() -> None:
    record = job(answered(), supply())
    bad = {LE: Verdict.OUTSIDE}

    assert lock(record, ZS2, bad) == (Lock.CIRCUIT, LE)
    assert lock(record, ZS1, bad) is None
    assert lock(record, ZS3, bad) is None
    # Locked off is said before polarity is asked for: nobody goes there in the meantime.
    assert lock(job(answered(), supply(until=POLARITY)), ZS2, bad) == (Lock.CIRCUIT, LE)


def exception(*decided: LiveException, by: str = "A1", minutes: float = 61) -> Change:
    gate = LiveGate(at=at_minute(minutes), by=by, isolation_understood=True, exceptions=decided)
    return lambda record: record.model_copy(update={"live_gate": (*record.live_gate, gate)})


def test_an_exception_opens_its_circuit_if_who_certifies_made_it_with_the_answer_that_holds() -> (
    None
):
    open_then = ("insulation L-E outside",)
    made = LiveException(
        circuit="C2", by=CERTIFIER.id, reason="heater can't come off", despite=open_then
    )
    not_theirs = made.model_copy(update={"by": "A1", "reason": "in a hurry today"})
    bad = {LE: Verdict.OUTSIDE}

    assert lock(job(exception(made), supply()), ZS2, bad) is None
    assert lock(job(exception(not_theirs), supply()), ZS2, bad) == (Lock.CIRCUIT, LE)
    assert lock(job(exception(made), answered(62), supply()), ZS2, bad) == (Lock.CIRCUIT, LE)
    elsewhere = made.model_copy(update={"circuit": "C3"})
    assert lock(job(exception(elsewhere), supply()), ZS2, bad) == (Lock.CIRCUIT, LE)
    again = made.model_copy(update={"reason": "and again, by telephone"})
    record = job(exception(made, again), supply())
    within = {each.id: Verdict.WITHIN for each in record.readings}
    found = Interlock(record, within, "A1", at_minute(120)).exception("C2")
    assert found is not None
    assert found.reason == "and again, by telephone"  # the last word counts


def test_feed_and_board_come_before_everything_live() -> None:
    record = job(answered(), supply())

    for where in (ZE, POLARITY, ZDB, ZS2, CURRENT):
        found = lock(record, where, {FEED_R1_R2: Verdict.OUTSIDE})
        assert found == (Lock.BOARD, FEED_R1_R2), where
    assert lock(record, RUN, {FEED_R1_R2: Verdict.OUTSIDE}) is None  # dead


@pytest.mark.parametrize("reason", [NotTaken(reason="no time left"), NotNeeded(reason="known")])
def test_a_reason_is_entered_whatever_is_locked_for_it_makes_nothing_live(reason: Entry) -> None:
    """Only the question on safety and an earth that is off come before it."""
    assert lock(job(answered()), ZS2, taken=reason) is None
    bad = {FEED_R1_R2: Verdict.OUTSIDE}
    assert lock(job(answered(), supply()), ZS2, bad, taken=reason) is None
    assert lock(job(), ZS2, taken=reason) == (Lock.ANSWER, None)
    assert lock(job(answered(), took(ZE, 0.35, 70)), ZS2, taken=reason) == (Lock.EARTH, EARTH_BACK)


@pytest.mark.parametrize("reason", [NotTaken(reason="no time left"), NotNeeded(reason="known")])
def test_nothing_replaces_that_all_is_back(reason: Entry) -> None:
    record = job(answered(), took(ZE, 0.35, 70))

    assert lock(record, EARTH_BACK, taken=reason) == (Lock.NO_REASON, EARTH_BACK)
    assert lock(record, EARTH_BACK, taken=Tick(good=True)) is None
    assert lock(record, EARTH_BACK, taken=Tick(good=False)) is None
    assert lock(job(), PUT_BACK, taken=reason) == (Lock.NO_REASON, PUT_BACK)
    assert lock(job(answered()), EARTH_BACK, taken=reason) is None  # nothing came off


def test_with_an_earth_off_only_the_test_that_took_it_off_and_its_question_are_open() -> None:
    record = job(answered(), took(ZE, 0.35, 70))

    for where in (FAULT_LN, POLARITY, ZS2, RUN, LE, PUT_BACK):
        assert lock(record, where) == (Lock.EARTH, EARTH_BACK), where
    assert lock(record, ZE) is None
    assert lock(record, EARTH_BACK) is None


def test_it_says_at_which_stage_the_earth_is_said_back() -> None:
    record = job(answered(), took(ZE, 0.35, 70))
    words = {
        where: Interlock(record, {}, "A1", at_minute(120)).refusal(where, None, ())
        for where in (POLARITY, RUN)
    }
    live, dead = words[POLARITY], words[RUN]

    assert live is not None
    assert "Go to" not in live.words
    assert dead is not None
    assert dead.words.endswith("Go to the live tests and say so there.")
    off = job(took(slot(Quantity.ELECTRODE, DEAD), 40.0, 30))
    found = Interlock(off, {}, "A1", at_minute(120)).refusal(POLARITY, None, ())
    assert found is not None
    assert found.words.endswith("Go to the dead tests and say so there.")


def test_a_caution_is_read_before_a_figure_and_not_before_a_reason() -> None:
    record = job(answered(), supply())
    verdicts = {each.id: Verdict.WITHIN for each in record.readings}
    now = Interlock(record, verdicts, "A1", at_minute(120))

    found = now.refusal(ZS2, None, ("first", "second"))
    assert found is not None
    assert (found.lock, found.caution) == (Lock.CAUTION, "first")
    assert now.refusal(ZS2, NotTaken(reason="no time left"), ("first",)) is None
    assert now.unread(PUT_BACK, ("first",)) == ()
    assert now.unread(EARTH_BACK, ("first",)) == ()
    read = read_before(ZS2, 100)(record)
    key = read.cautions_read[-1].key
    assert Interlock(read, verdicts, "A1", at_minute(120)).refusal(ZS2, None, (key,)) is None


def test_what_stops_everything_live_does_not_ask_for_the_answer_on_safety() -> None:
    """Before the question is put, it is said that no answer would open anything."""

    def stop(*changes: Change) -> Lock | None:
        record = job(*changes)
        verdicts = {each.id: Verdict.WITHIN for each in record.readings}
        found = Interlock(record, verdicts, "A1", at_minute(120)).stops_live
        return found.lock if found is not None else None

    assert stop() is None
    assert stop(took(RUN, 0.29, 30)) is Lock.PUT_BACK
    assert stop(without(FEED_R1_R2)) is Lock.BOARD
    assert stop(answered(), took(ZE, 0.35, 70)) is Lock.EARTH


def test_what_is_off_is_named_the_first_four() -> None:
    record = job(answered(), took(RUN, 0.29, 30), took(LE, 900.0, 31))
    found = Interlock(
        record, {each.id: Verdict.WITHIN for each in record.readings}, "A1", at_minute(120)
    ).refusal(ZE, None, ())

    assert found is not None
    assert found.lock is Lock.PUT_BACK
    assert found.words.endswith(
        "Off or in since: the link of line and earth, the conductors, and what was disconnected."
    )
