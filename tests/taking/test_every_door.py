"""Every way to the record against every lock: nobody gets by, and nothing comes in silently."""

from __future__ import annotations

import io
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from records.errors import FarboardError
from records.expected.plan import expected
from records.interlock.comes_off import EARTH_BACK, PUT_BACK, ZE, earth_owed
from records.interlock.may_take import Interlock, Lock
from records.judgement.review import review
from records.judgement.review_types import Judged
from records.model.reading import Figure, NotNeeded, NotTaken, Reading, Slot, Tick
from records.model.record import Record, next_id
from records.model.slots import measured_by
from records.session import Session
from records.store.exchange import from_json, to_json
from records.taking.act_names import KEYS
from records.taking.bench import Bench
from records.taking.column import fill
from records.taking.desk import Desk
from records.taking.interlock import NotNow
from records.taking.paste import Fill
from records.taking.queue import Entry
from records.terms import Stage, Verdict
from tests.taking.locks import (
    FAULT_LN,
    FEED_R1_R2,
    LE,
    POLARITY,
    STATES,
    ZDB,
    ZS2,
    State,
    answered,
    at_minute,
    job,
    read_before,
    spoilt,
    supply,
    took,
    true_entry,
    without,
)
from tests.taking.seat import opened, read_all, read_on
from tui.plain.bench import LineBench
from tui.plain.talk import Talk

DOORS = ("desk", "field", "re-test", "paste", "column", "could not", "line by line")


def _line(session: Session, state: State, text: str) -> str:
    said: list[str] = []
    # Two lines more than are asked for: a caution, and what could be taken for a value.
    # Where the earth is off, “yes” would say that it is back; where nobody answered, it is a no.
    first = [] if earth_owed(state.record) else ["no" if state.lock is Lock.ANSWER else "yes"]
    talk = Talk(
        io.StringIO("\n".join([*first, f"go: {_words(state)}", "ok", "ok", text, "keep"])),
        said.append,
        echo=False,
    )
    LineBench(session, state.slot.stage, talk, asks_again=True, confirms=True).run()
    return "".join(said)


def _at_bench(session: Session, state: State, only: Slot | None) -> Bench:
    """Return a bench at the reading, with its cautions read; `only`: the re-test of the review."""
    bench = Bench(session, state.slot.stage, KEYS, only=only)
    bench.begin()
    if not bench.go_to(state.slot):
        bench.conditions.ask_for(state.slot)
    assert bench.entry is not None
    assert bench.entry.slot == state.slot
    read_on(bench)
    bench.position.again = True
    return bench


def _value(entry: Entry, state: State) -> Fill:
    return Fill(entry, true_entry(state.slot))


def _words(state: State) -> str:
    return f"{state.slot.place.circuit or state.slot.place.part.value} {state.slot.quantity.value}"


@pytest.mark.parametrize("name", STATES)
@pytest.mark.parametrize("door", DOORS)
def test_no_door_lets_by_what_the_interlock_refuses(
    tmp_path: Path, clock: dict[str, datetime], name: str, door: str
) -> None:
    state = STATES[name]
    clock["now"] = at_minute(state.minutes)
    session = opened(tmp_path, state.record)
    at = Desk(session, state.slot.stage)
    if door == "line by line":
        typed = "y" if isinstance(true_entry(state.slot), Tick) else "1.2"
        _line(session, state, typed)
    elif door == "could not":
        # A reason why there is no reading opens nothing: the reading is refused as before.
        with suppress(NotNow):
            at.take(state.slot, NotTaken(reason="no time"))
        with pytest.raises(NotNow):
            at.take(state.slot, true_entry(state.slot))
    else:
        entry = Entry(state.slot, measured_by(state.slot), "", "")
        ways = {
            "desk": lambda: at.take(state.slot, true_entry(state.slot)),
            "field": lambda: _at_bench(session, state, None).take(true_entry(state.slot)),
            "re-test": lambda: _at_bench(session, state, state.slot).take(true_entry(state.slot)),
            "paste": lambda: at.fill([Fill(entry, true_entry(state.slot))]),
            "column": lambda: fill(_at_bench(session, state, None), [_value(entry, state)]),
        }
        with pytest.raises(FarboardError) as caught:
            ways[door]()
        if isinstance(caught.value, NotNow):
            assert caught.value.refusal.lock is state.lock
        else:  # all of the stage is locked: the bench says that a question stands before it
            assert state.lock in (Lock.ANSWER, Lock.BOARD, Lock.PUT_BACK)

    new = session.record.readings[len(state.record.readings) :]
    true = [each for each in new if isinstance(each.taken, Figure | Tick)]
    assert not [each for each in true if each.slot == state.slot], new
    session.close()


@pytest.mark.parametrize("name", STATES)
def test_the_refusal_says_what_to_do_first(name: str) -> None:
    state = STATES[name]
    found = _interlock(state.record, state.minutes).refusal(state.slot, None, ())

    assert found is not None
    assert found.lock is state.lock
    assert len(found.words) > 20
    assert found.words[0].isupper()


@pytest.mark.parametrize("name", [each for each in STATES if STATES[each].kept_as])
@pytest.mark.parametrize("way", ["sheet", "import"])
def test_what_comes_in_a_file_is_kept_and_is_a_finding(name: str, way: str) -> None:
    state = STATES[name]
    record = _with(state, minutes=state.minutes, notes=way == "sheet")
    if way == "import":
        record = from_json(to_json(record))
    found = [each for each in _findings(record) if state.kept_as in each.patterns]
    slot = state.slot

    assert found, [each.key for each in _findings(record)]
    assert any(slot in each.about for each in found)
    assert record.readings[-1].slot == slot  # kept as it came
    if state.lock is not Lock.ANSWER:
        assert all(each.verdict is Verdict.OUTSIDE for each in found)


@pytest.mark.parametrize("name", [each for each in STATES if not STATES[each].kept_as])
def test_a_state_that_stands_by_itself_is_never_silent(name: str) -> None:
    """The caution was read and no time of Ze is known: the earth itself is the finding."""
    state = STATES[name]
    record = _with(state, minutes=state.minutes, notes=False)
    grave = {each.key for each in _findings(record)}
    quiet = (
        "the answer was taken back",
        "a dead test was taken since the answer",
        "a load on the circuit before its RCD was timed",
    )

    assert (
        name in quiet
        or {
            "origin/-/-/live/earth-back",
            "board/-/-/dead/put-back",
        }
        & grave
    )


def test_all_is_taken_on_a_sound_job_in_the_order_of_the_tests(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    """The locks let by what is right: else somebody would look for a way round them."""
    record = job(answered())
    for slot, taken in {**_good(), ZS2: Figure(value=1.4)}.items():
        clock["now"] += timedelta(minutes=1)
        folder = tmp_path / slot.quantity.name / slot.place.part.name
        folder.mkdir(parents=True, exist_ok=True)
        session = opened(folder, record)
        at = Desk(session, Stage.LIVE)
        read_all(at, slot)
        at.take(slot, taken)
        record = session.record
        session.close()

    assert _interlock(record, 130).failures == ()
    assert earth_owed(record) is None


def _good() -> dict[object, object]:
    from tests.taking.locks import GOOD

    return dict(GOOD)


# What nothing stands in for, and what only a competent person decides


@pytest.mark.parametrize("taken", [NotTaken(reason="too tired"), NotNeeded(reason="earth later")])
def test_nothing_stands_in_for_the_earth_or_for_what_is_put_back(
    tmp_path: Path, clock: dict[str, datetime], taken: NotTaken | NotNeeded
) -> None:
    session = opened(tmp_path, job(answered(), took(ZE, 0.35, 70)))
    for stage, slot in ((Stage.LIVE, EARTH_BACK), (Stage.DEAD, PUT_BACK)):
        with pytest.raises(NotNow, match=r"Nothing (replaces|else will do)"):
            Desk(session, stage).take(slot, taken)
    session.close()


def test_an_exception_needs_who_certifies_and_a_reason_and_is_printed(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job(spoilt(LE, 0.2), supply(), answered()))
    at = Desk(session, Stage.LIVE)
    read_all(at, ZS2)
    for who, why in (("Wren Oakes", "no time"), ("Nobody", "no time"), ("A2", ""), ("", "no time")):
        with pytest.raises(Exception, match=r"certif|reason"):
            at.except_circuit("C2", who, why)
    at.except_circuit("C2", "ash reed", "heater in place, tested at 250 V by me")
    read_all(at, ZS2)
    at.take(ZS2, Figure(value=1.4))
    found = [each for each in session.review.findings if each.place.circuit == "C2"]

    assert "tested live by exception" in {name for each in found for name in each.patterns}
    assert any("Ash Reed let it be taken, because heater in place" in each.why for each in found)
    assert any(each.verdict is Verdict.OUTSIDE for each in found)  # the dead test stays one
    clock["now"] += timedelta(hours=5)
    stop = at.refusal(ZS2)
    assert stop is not None
    assert stop.lock is Lock.ANSWER
    session.close()


@pytest.mark.parametrize(
    ("by", "where", "opens"), [("A2", "their sheet of 3 March", True), ("A1", "my notes", False)]
)
def test_only_who_certifies_can_have_tested_the_feed_elsewhere(
    by: str, where: str, opens: bool
) -> None:
    elsewhere = NotTaken.model_validate(
        {"reason": "tested elsewhere", "stands_in": {"by": by, "where": where}}
    )
    record = job(spoilt(FEED_R1_R2, elsewhere), answered())
    found = _interlock(record, 120)

    assert (found.stops_live is None) is opens


def test_a_feed_that_reads_wrong_here_is_not_put_right_by_another_paper() -> None:
    elsewhere = NotTaken.model_validate(
        {"reason": "tested elsewhere", "stands_in": {"by": "A2", "where": "their sheet"}}
    )
    record = job(spoilt(FEED_R1_R2, 9.0), took(FEED_R1_R2, elsewhere, 20), answered())
    stop = _interlock(record, 120).stops_live

    assert stop is not None
    assert stop.lock is Lock.BOARD


# Cautions


def test_what_was_read_before_it_was_live_does_not_count_for_a_dead_test_after(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    """Back from live to dead, the installation is live: safe isolation is read again."""
    session = opened(tmp_path, job(answered(100)))
    dead, live = Desk(session, Stage.DEAD), Desk(session, Stage.LIVE)
    read_all(dead, LE)
    assert dead.unread(LE) is None
    live.open_live()
    read_all(live, POLARITY)
    live.take(POLARITY, Tick(good=True))

    assert dead.unread(LE) is not None
    with pytest.raises(NotNow) as caught:
        dead.take(LE, Figure(value=400.0))
    assert caught.value.refusal.lock is Lock.CAUTION
    session.close()


@pytest.mark.parametrize("change", ["another person", "five hours", "the next day"])
def test_a_caution_is_read_by_each_person_and_again_after_a_few_hours(
    tmp_path: Path, clock: dict[str, datetime], change: str
) -> None:
    session = opened(tmp_path, job())
    at = Desk(session, Stage.DEAD)
    read_all(at, LE)
    assert at.unread(LE) is None
    if change == "another person":
        at.settings.person = "A2"
    else:
        clock["now"] += timedelta(hours=5 if change == "five hours" else 22)

    assert at.unread(LE) is not None
    session.close()


def test_the_caution_before_ze_comes_again_each_time_the_earth_comes_off(
    tmp_path: Path, clock: dict[str, datetime]
) -> None:
    session = opened(tmp_path, job(answered()))
    at = Desk(session, Stage.LIVE)
    read_all(at, FAULT_LN)
    assert at.unread(ZE) is not None  # read for another test of the same set-up
    read_all(at, ZE)
    assert earth_owed(session.record) is not None
    at.take(ZE, Figure(value=0.35))
    at.take(EARTH_BACK, Tick(good=True))

    assert at.unread(FAULT_LN) is None
    assert at.unread(ZE) is not None
    session.close()


def test_reading_one_caution_by_its_name_counts_for_nothing_else() -> None:
    record = job(answered(), read_before(ZDB, 100))
    found = _interlock(record, 120)

    assert found.unread(ZDB, ["a", f"before {ZDB.quantity}"]) == ("a",)


# Order of the gravest


def test_the_earth_stands_before_everything_else_in_the_review() -> None:
    record = job(
        spoilt(LE, 0.0),
        spoilt(FEED_R1_R2, 9.0),
        without(PUT_BACK),
        answered(),
        supply(),
        took(POLARITY, Tick(good=False), 100),
        took(ZE, 0.35, 105),
    )

    assert _findings(record)[0].slot == EARTH_BACK
    assert _findings(record)[1].slot == PUT_BACK


def _interlock(record: Record, minutes: float) -> Interlock:
    verdicts = review(record, expected(record)).verdicts
    return Interlock(record, verdicts, "A1", at_minute(minutes))


def _findings(record: Record) -> tuple[Judged, ...]:
    return review(record, expected(record)).findings


def _with(state: State, *, minutes: float, notes: bool) -> Record:
    made = Reading(
        id=next_id("R", state.record.readings),
        slot=state.slot,
        taken=true_entry(state.slot),
        at=at_minute(minutes),
        by="A1",
        instrument="M1",
        from_notes=at_minute(minutes + 2000) if notes else None,
    )
    return state.record.model_copy(update={"readings": (*state.record.readings, made)})
