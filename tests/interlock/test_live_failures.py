"""What a live reading shows stops the others, everywhere or on its circuit, until it is read right.

IET Guidance Note 3 and HSE GS38 (from memory): a live test is only safe with an earth that was
shown, and with line and neutral where they belong.
"""

from __future__ import annotations

import pytest

from records.interlock.comes_off import EARTH_BACK, ZE
from records.interlock.live_failures import failure_words, live_failures, stopping
from records.interlock.may_take import Interlock, Lock
from records.model.reading import Figure, NotNeeded, NotTaken, Place, Quantity, Slot, Tick
from records.model.record import Record
from records.terms import Part, Sign, Stage, Verdict
from tests.taking.job import slot
from tests.taking.locks import (
    FAULT_LE,
    FAULT_LN,
    POLARITY,
    ZDB,
    ZS1,
    ZS2,
    answered,
    at_minute,
    job,
    supply,
    took,
)

LIVE = Stage.LIVE
VOLTAGE, VOLTAGE_LE, VOLTAGE_NE = (
    slot(each, LIVE) for each in (Quantity.VOLTAGE, Quantity.VOLTAGE_LE, Quantity.VOLTAGE_NE)
)
TIMED = slot(Quantity.RCD_TIME, LIVE, "C2")
OPEN = Figure(value=1999.0, sign=Sign.OVER)
NOT_OUTSIDE = [each for each in Verdict if each is not Verdict.OUTSIDE]


def stood(record: Record, where: Slot, verdict: Verdict) -> dict[str, Verdict]:
    """Return verdicts of which one slot's last reading has the one that is tried."""
    all_within = {each.id: Verdict.WITHIN for each in record.readings}
    return all_within | {record.taken(where)[-1].id: verdict}


@pytest.mark.parametrize(
    ("where", "says"),
    [
        (ZE, "no good earth is shown at the origin"),
        (POLARITY, "the polarity of the supply is not correct"),
        (ZDB, "no good earth is shown at the sub-board"),
        (slot(Quantity.FAULT_LN, LIVE), "the fault current is outside"),
        (slot(Quantity.FAULT_LE, LIVE), "the fault current to earth is outside"),
        (VOLTAGE, "the voltage is outside"),
        (VOLTAGE_LE, "the voltage to earth is outside"),
        (VOLTAGE_NE, "there is voltage on the neutral"),
    ],
)
def test_what_is_outside_at_origin_or_board_stops_everything(where: Slot, says: str) -> None:
    record = job(took(where, 1.0, 70))
    (found,) = live_failures(record, stood(record, where, Verdict.OUTSIDE))

    assert (found.slot, found.why, found.everywhere) == (where, says, True)
    assert says in failure_words(record, found)
    assert not found.stops(where)  # its own retest puts it right
    assert found.stops(ZS1)
    assert found.stops(ZS2)
    doubtful = [Verdict.UNLIKELY] if where == POLARITY else []
    for verdict in NOT_OUTSIDE:
        failed = live_failures(record, stood(record, where, verdict))
        assert bool(failed) is (verdict in doubtful), verdict
    assert live_failures(record, {}) == ()


@pytest.mark.parametrize(("where", "stops"), [(TIMED, False), (ZS2, True)])
def test_of_a_circuit_only_its_loop_stops_others(where: Slot, stops: bool) -> None:
    record = job(took(where, 1.0, 70))

    assert stopping(record) == ((where,) if stops else ())
    assert bool(live_failures(record, stood(record, where, Verdict.OUTSIDE))) is stops
    for verdict in NOT_OUTSIDE:
        assert live_failures(record, stood(record, where, verdict)) == ()


@pytest.mark.parametrize(
    ("taken", "everywhere", "why"),
    [
        (OPEN, True, "the loop is open"),
        (Figure(value=9.0), False, "it may not disconnect in time"),
        (Figure(value=9.0, sign=Sign.UNDER), False, "it may not disconnect in time"),
    ],
)
def test_an_open_loop_stops_every_circuit_and_a_long_one_its_own(
    taken: Figure, everywhere: bool, why: str
) -> None:
    """An open loop may be the earth of all of them."""
    record = job(took(ZS1, taken, 70))
    (found,) = live_failures(record, stood(record, ZS1, Verdict.OUTSIDE))

    assert (found.why, found.everywhere) == (why, everywhere)
    assert found.stops(ZS2) is everywhere
    assert found.stops(slot(Quantity.RCD_TIME, LIVE, "C1"))
    assert not found.stops(ZS1)


@pytest.mark.parametrize("kind", [FAULT_LN, FAULT_LE])
@pytest.mark.parametrize(
    ("kiloamps", "stops"), [(0.0, True), (0.1, True), (0.11, False), (25.0, False)]
)
def test_more_current_at_the_house_than_its_devices_break_is_the_certifiers_to_decide(
    kind: Slot, kiloamps: float, stops: bool
) -> None:
    """But no current at all is no earth, or no neutral."""
    record = job(took(kind, kiloamps, 70))
    found = live_failures(record, stood(record, kind, Verdict.OUTSIDE))

    assert bool(found) is stops
    at_board = slot(kind.quantity, LIVE)
    record = job(took(at_board, kiloamps, 70))
    assert live_failures(record, stood(record, at_board, Verdict.OUTSIDE))


def test_a_dead_reading_outside_is_no_live_failure() -> None:
    dead = Slot(quantity=Quantity.POLARITY, place=Place(part=Part.BOARD), stage=Stage.DEAD)
    record = job(took(dead, Tick(good=False), 70))

    assert live_failures(record, stood(record, dead, Verdict.OUTSIDE)) == ()


@pytest.mark.parametrize("after", [NotTaken(reason="no time left"), NotNeeded(reason="later")])
def test_only_a_true_reading_puts_a_failure_right(after: NotTaken | NotNeeded) -> None:
    record = job(took(ZDB, OPEN, 70), took(ZDB, after, 71))
    first = record.taken(ZDB)[0].id

    assert live_failures(record, {first: Verdict.OUTSIDE})
    right = took(ZDB, 0.43, 72)(record)
    assert not live_failures(right, {first: Verdict.OUTSIDE, right.readings[-1].id: Verdict.WITHIN})


def test_what_was_taken_at_that_moment_had_not_failed_before_it() -> None:
    record = job(took(ZDB, OPEN, 70))
    verdicts = stood(record, ZDB, Verdict.OUTSIDE)

    assert live_failures(record, verdicts, until=at_minute(70)) == ()
    assert live_failures(record, verdicts, until=at_minute(70.1)) != ()


def test_failures_come_in_the_order_of_entry_and_each_once() -> None:
    record = job(took(ZDB, OPEN, 72), took(ZE, OPEN, 70), took(ZDB, OPEN, 73))
    verdicts = {each.id: Verdict.OUTSIDE for each in record.readings[-3:]}

    assert [each.slot for each in live_failures(record, verdicts)] == [ZDB, ZE]
    assert [each.slot for each in live_failures(record, verdicts, slots=[ZE])] == [ZE]


def refusal(record: Record, verdicts: dict[str, Verdict], where: Slot) -> Lock | None:
    found = Interlock(record, verdicts, "A1", at_minute(120)).refusal(where, None, ())
    return found.lock if found is not None else None


def test_its_own_retest_is_taken_but_not_while_what_feeds_it_failed_as_well() -> None:
    """The origin feeds the board, and the board the circuits."""
    record = job(answered(), supply(), took(ZS2, OPEN, 90))
    verdicts = {each.id: Verdict.WITHIN for each in record.readings}
    zs, zdb = record.readings[-1].id, record.taken(ZDB)[-1].id
    volts = record.taken(VOLTAGE)[-1].id
    open_loop = verdicts | {zs: Verdict.OUTSIDE}

    assert refusal(record, open_loop, ZS2) is None
    assert refusal(record, open_loop, ZS1) is Lock.FAILURE
    assert refusal(record, open_loop, ZDB) is Lock.FAILURE
    both = open_loop | {zdb: Verdict.OUTSIDE}
    assert refusal(record, both, ZS2) is Lock.FAILURE
    assert refusal(record, both, ZDB) is None
    # Two of one part: neither feeds the other.
    beside = verdicts | {zdb: Verdict.OUTSIDE, volts: Verdict.OUTSIDE}
    assert refusal(record, beside, ZDB) is None
    assert refusal(record, beside, VOLTAGE) is None
    record = job(answered(), took(FAULT_LE, 0.0, 70), took(ZDB, OPEN, 71))
    above = {each.id: Verdict.WITHIN for each in record.readings}
    above |= {each.id: Verdict.OUTSIDE for each in record.readings[-2:]}
    assert refusal(record, above, FAULT_LE) is None
    assert refusal(record, above, ZDB) is Lock.FAILURE


def test_the_earth_is_said_back_whatever_failed() -> None:
    record = job(answered(), took(ZE, OPEN, 70))

    assert refusal(record, stood(record, ZE, Verdict.OUTSIDE), EARTH_BACK) is None
    assert refusal(record, stood(record, ZE, Verdict.OUTSIDE), ZE) is None
