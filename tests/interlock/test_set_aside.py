"""Nothing that was read wrong is set aside: by a reason, by a clock, or by another kind of test."""

from __future__ import annotations

import pytest

from records.expected.plan import expected
from records.interlock.comes_off import PUT_BACK, ZE, taken_with_earth_off
from records.interlock.may_take import Interlock, Lock, Refusal
from records.judgement.review import review
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Reading, Slot, Tick
from records.model.record import Record, next_id
from records.terms import Sign, Stage
from tests.taking.job import slot
from tests.taking.locks import (
    LE,
    POLARITY,
    ZDB,
    ZS1,
    ZS2,
    Change,
    answered,
    at_minute,
    job,
    supply,
    took,
)

DEAD, LIVE = Stage.DEAD, Stage.LIVE
LN, NE = slot(Quantity.IR_LN, DEAD, "C2"), slot(Quantity.IR_NE, DEAD, "C2")
AHEAD = 90_000
"""Minutes that a clock stood ahead: two months."""


def stopped(record: Record, where: Slot = ZS2, minutes: float = 120) -> Refusal | None:
    verdicts = review(record, expected(record)).verdicts
    return Interlock(record, verdicts, "A1", at_minute(minutes)).refusal(where, None, ())


def ready(*changes: Change, minute: float = 100) -> Record:
    """Return a job with its supply tested, changed, and all put back and answered after that."""
    end = took(PUT_BACK, Tick(good=True), minute), answered(minute + 1)
    return job(answered(), supply(), *changes, *end)


def joined(minute: float) -> Change:
    """Return an insulation reading with line and neutral joined, as with equipment in place."""

    def change(record: Record) -> Record:
        made = Reading(
            id=next_id("R", record.readings),
            slot=LE,
            taken=Figure(value=400.0),
            at=at_minute(minute),
            by="A1",
            instrument="M1",
            method="L and N joined",
            test_voltage=250.0,
        )
        return record.model_copy(update={"readings": (*record.readings, made)})

    return change


REASONS = [NotNeeded(reason="heater in place"), NotTaken(reason="no time left")]
OPTIONAL = [
    (slot(Quantity.SWITCHED, DEAD, "C2"), Tick(good=False)),
    (slot(Quantity.RN_R2, DEAD, "C2"), Figure(value=99.9, sign=Sign.OVER)),
    (slot(Quantity.IR_GROUP, DEAD), Figure(value=0.1)),
]


def test_all_is_open_as_long_as_nothing_is_wrong() -> None:
    assert stopped(ready()) is None


@pytest.mark.parametrize("reason", REASONS)
def test_a_short_between_line_and_neutral_is_not_set_aside_by_joining_them(
    reason: NotNeeded | NotTaken,
) -> None:
    """Both sound to earth, and shorted to each other: to join them shows nothing of that."""
    assert stopped(ready(joined(80), took(LN, NotNeeded(reason="heater in place"), 82))) is None
    found = stopped(ready(took(LN, 0.0, 79), joined(80), took(LN, reason, 82)))

    assert found is not None
    assert found.lock is Lock.CIRCUIT
    assert "insulation L-N outside, then" in found.words


def test_neutral_to_earth_is_shown_right_by_both_joined_after_it_only() -> None:
    aside = took(NE, NotNeeded(reason="joined"), 85)

    assert stopped(ready(took(NE, 0.0, 79), joined(80), aside)) is None
    assert stopped(ready(joined(78), took(NE, 0.0, 79), aside)) is not None


@pytest.mark.parametrize(("where", "wrong"), OPTIONAL)
@pytest.mark.parametrize("reason", REASONS)
def test_a_test_that_nobody_asked_for_and_that_was_wrong_stays_wrong(
    where: Slot, wrong: Figure | Tick, reason: NotNeeded | NotTaken
) -> None:
    assert stopped(ready(took(where, reason, 81))) is None
    assert stopped(ready(took(where, wrong, 80))) is not None
    assert stopped(ready(took(where, wrong, 80), took(where, reason, 81))) is not None


@pytest.mark.parametrize(
    ("where", "right", "wrong"),
    [
        (LE, Figure(value=500.0), Figure(value=0.1)),
        (ZS1, Figure(value=0.9), Figure(value=1999.0, sign=Sign.OVER)),
        (POLARITY, Tick(good=True), Tick(good=False)),
    ],
)
def test_a_right_reading_from_a_clock_that_stood_ahead_hides_no_wrong_one_after_it(
    where: Slot, right: Figure | Tick, wrong: Figure | Tick
) -> None:
    """By its time it stays the last one for two months; it was entered before."""
    record = ready(took(where, right, AHEAD), took(where, wrong, 95), minute=AHEAD + 1)
    assert stopped(record, minutes=AHEAD + 3) is not None
    both = ready(took(where, right, AHEAD), took(where, right, 95), minute=AHEAD + 1)

    assert stopped(both, minutes=AHEAD + 3) is None


def test_a_load_is_not_worked_before_anything_was_said_of_its_loop() -> None:
    function, zs3 = slot(Quantity.FUNCTION, LIVE, "C3"), slot(Quantity.ZS, LIVE, "C3")
    timed = slot(Quantity.RCD_TIME, LIVE, "C3")
    first = stopped(ready(), function)
    assert first is not None
    assert first.lock is Lock.LOAD
    timely = took(timed, 24.0, 91)

    assert stopped(ready(took(zs3, 0.9, 90), timely), function) is None
    assert stopped(ready(took(zs3, NotTaken(reason="no adaptor"), 90), timely), function) is None


def test_a_calculated_zdb_shows_no_earth() -> None:
    def counted(record: Record) -> Record:
        last = record.readings[-1].model_copy(update={"method": "calculated"})
        return record.model_copy(update={"readings": (*record.readings[:-1], last)})

    before = (answered(), supply(until=ZDB), took(ZDB, 0.43, 90))
    assert stopped(job(*before)) is None
    found = stopped(job(*before, counted))

    assert found is not None
    assert (found.lock, found.first) == (Lock.POLARITY, ZDB)
    assert "calculated" in found.words


def with_method(method: str) -> Change:
    """Return what says how the last reading was taken."""

    def change(record: Record) -> Record:
        last = record.readings[-1].model_copy(update={"method": method})
        return record.model_copy(update={"readings": (*record.readings[:-1], last)})

    return change


@pytest.mark.parametrize(
    ("taken", "method", "off"),
    [
        (Figure(value=0.35), "", True),
        (Figure(value=0.35), "calculated", False),
        (NotTaken(reason="leads too short"), "", False),
    ],
)
def test_the_earth_was_off_for_a_ze_that_was_measured_only(
    taken: Figure | NotTaken, method: str, off: bool
) -> None:
    """For one that was calculated, or could not be taken, nothing came off its bar."""
    record = job(
        answered(), took(ZE, taken, 70), with_method(method), took(POLARITY, Tick(good=True), 80)
    )
    early = taken_with_earth_off(record, record.readings)

    assert [each.slot for each in early] == ([POLARITY] if off else [])


def test_all_loads_go_on_only_after_the_rcd_was_timed_as_well_as_zs() -> None:
    own = next(each for each in job().circuits if each.rcd.residual is not None)
    loaded = slot(Quantity.RCD_LOADED, LIVE, own.id)
    zs, timed = (slot(each, LIVE, own.id) for each in (Quantity.ZS, Quantity.RCD_TIME))
    first = took(zs, 0.6, 90)  # Zdb 0.43 Ω, and the ring beyond it
    found = stopped(ready(first), loaded)

    assert found is not None
    assert found.lock is Lock.LOAD
    assert stopped(ready(first, took(timed, 24.0, 91)), loaded) is None


def test_what_another_person_answers_takes_nothing_back() -> None:
    mine = answered(60, "A1")

    assert stopped(job(mine, supply(), answered(65, "A2", yes=False))) is None
    assert stopped(job(mine, supply(), answered(65, "A1", yes=False))) is not None
    assert stopped(job(mine, supply(), answered(500, "A1"))) is None  # not said yet
