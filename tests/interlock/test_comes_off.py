"""What comes off for a test is asked for until somebody says that it is back.

What each dead test disconnects, lifts or links: IET Guidance Note 3, chapter 2 (from memory).
"""

from __future__ import annotations

import pytest

from records.interlock.comes_off import (
    EARTH_BACK,
    EARTHS,
    ELECTRODE_BACK,
    ELECTRODE_LOOP_BACK,
    PUT_BACK,
    ZE,
    calculated,
    earth_owed,
    is_after,
    last_ones,
    owed_since,
    put_back_owed,
    put_back_shown,
    taken_with_earth_off,
)
from records.interlock.may_take import is_settled
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Reading, Slot, Tick
from records.model.record import Record
from records.terms import Stage
from tests.interlock.test_answers import from_notes
from tests.taking.job import slot
from tests.taking.locks import LE, POLARITY, RUN, Change, Entry, at_minute, job, read_before, took

DEAD, LIVE = Stage.DEAD, Stage.LIVE
ELECTRODE, LOOP = slot(Quantity.ELECTRODE, DEAD), slot(Quantity.ELECTRODE_LOOP, LIVE)
ARMOUR_OPEN = slot(Quantity.ARMOUR_OPEN, DEAD)
BACK, OFF = Tick(good=True), Tick(good=False)

OFF_AFTER = [
    (Quantity.ELECTRODE, None, "the electrode's conductor"),
    (Quantity.ARMOUR_OPEN, None, "the electrode's conductor"),
    (Quantity.EARTHING, None, "the earthing conductor"),
    (Quantity.BONDING, None, "a bonding conductor"),
    (Quantity.R1_R2_CORE, None, "the armour"),
    (Quantity.R1_R2_ARMOUR, None, "the earth core"),
    (Quantity.R1_R2, "C2", "the link of line and earth"),
    (Quantity.R1, "C1", "the legs of the ring"),
    (Quantity.RN, "C1", "the legs of the ring"),
    (Quantity.R2, "C1", "the legs of the ring"),
    (Quantity.CROSS_LN, "C1", "the cross-connection of the ring"),
    (Quantity.CROSS_LE, "C1", "the cross-connection of the ring"),
    (Quantity.R1_RN, "C2", "the link of line and neutral"),
    (Quantity.RN_R2, "C2", "the link of neutral and earth"),
    (Quantity.SWITCHED, "C2", "the link of line and earth"),
    (Quantity.POLARITY, "C2", "the link of line and earth"),
    (Quantity.IR_LN, "C2", "what was disconnected"),
    (Quantity.IR_LE, "C2", "what was disconnected"),
    (Quantity.IR_NE, "C2", "the neutral"),
    (Quantity.IR_GROUP, None, "the link of line and neutral"),
    (Quantity.IR_FOIL, None, "the links"),
]


@pytest.mark.parametrize(("quantity", "circuit", "what"), OFF_AFTER)
def test_after_each_dead_test_it_is_asked_whether_all_is_back(
    quantity: Quantity, circuit: str | None, what: str
) -> None:
    """A link of line and earth left in, or a bond left off, meets whoever switches on."""
    where = slot(quantity, DEAD, circuit)
    assert put_back_shown(job())
    for taken in (Figure(value=0.3), Tick(good=True)):
        record = job(took(where, taken, 30))
        owed = put_back_owed(record)
        assert owed is not None
        assert what in owed.what[-1]
        assert not put_back_shown(record)
        assert put_back_shown(took(PUT_BACK, BACK, 31)(record))
    for reason in (NotTaken(reason="no time left"), NotNeeded(reason="no such core")):
        assert put_back_shown(job(took(where, reason, 30)))  # nothing came off for that


def test_only_what_came_off_since_the_answer_is_named() -> None:
    """Someone sent to look for a link that was taken out finds nothing, and stops looking."""
    record = job(took(RUN, 0.29, 30), took(PUT_BACK, BACK, 31), took(LE, 900.0, 32))
    owed = put_back_owed(record)

    assert owed is not None
    assert owed.what == ("the conductors, and what was disconnected",)


def test_nothing_taken_and_nothing_answered_shows_nothing() -> None:
    empty = job().model_copy(update={"readings": ()})

    assert put_back_owed(empty) is None
    assert not put_back_shown(empty)
    assert put_back_shown(took(PUT_BACK, BACK, 31)(empty))


def test_a_note_of_an_earlier_answer_does_not_undo_that_the_earth_was_found_off() -> None:
    """The note is entered later and tells of an earlier moment: the last answer is “off”."""
    record = job(
        took(ZE, 0.35, 69), took(EARTH_BACK, OFF, 71), from_notes(EARTH_BACK, BACK, 70, 80)
    )
    assert earth_owed(record) is not None

    again = from_notes(EARTH_BACK, BACK, 72, 81)(record)
    assert earth_owed(again) is None


def test_what_takes_nothing_off_is_not_asked_for() -> None:
    assert put_back_shown(job(took(slot(Quantity.ZS, LIVE, "C2"), 1.2, 30)))
    assert put_back_shown(job(took(POLARITY, BACK, 30)))  # live: of the supply, nothing is linked


def test_the_caution_of_an_electrode_test_takes_it_off_and_no_other_dead_one_does() -> None:
    """Whoever read it goes and does it, whether or not a figure comes of it."""
    assert not put_back_shown(job(read_before(ELECTRODE, 30)))
    assert not put_back_shown(job(read_before(ARMOUR_OPEN, 30)))
    assert put_back_shown(job(read_before(LE, 30)))
    assert put_back_shown(job(read_before(LOOP, 30)))  # live: it has its own question
    owed = put_back_owed(job(read_before(ELECTRODE, 30)))
    assert owed is not None
    assert owed.what == ("the electrode's conductor",)


@pytest.mark.parametrize(
    ("test", "question", "what"),
    [
        (ZE, EARTH_BACK, "the earth"),
        (LOOP, ELECTRODE_LOOP_BACK, "the electrode's conductor"),
        (ELECTRODE, ELECTRODE_BACK, "the electrode's conductor"),
        (ARMOUR_OPEN, ELECTRODE_BACK, "the electrode's conductor"),
    ],
)
@pytest.mark.parametrize("before", [took, None])
def test_each_test_that_takes_an_earth_off_has_its_own_question(
    test: Slot, question: Slot, what: str, before: object
) -> None:
    """Off from the moment its caution is read, and from each reading."""
    change = took(test, 0.35, 70) if before else read_before(test, 70)
    owed = earth_owed(job(change))

    assert owed is not None
    assert (owed.slot, owed.since) == (question, at_minute(70))
    assert owed.question == f"Answer this first: is {what} back on its bar and tight?"
    for other in EARTHS:
        assert is_settled(job(change), other) is (other != question)
        assert (owed_since(job(change), other) is None) is (other != question)
    assert earth_owed(job(change, took(question, BACK, 71))) is None
    assert earth_owed(job(change, took(question, BACK, 69))) is not None
    for answer in (OFF, NotTaken(reason="too tired"), NotNeeded(reason="later")):
        still = earth_owed(job(change, took(question, answer, 71)))
        assert still is not None
        assert still.answer is not None
        assert still.answer.taken == answer


def test_a_caution_read_at_the_moment_of_the_answer_is_settled_by_it_and_one_after_it_is_not() -> (
    None
):
    def owed(*changes: Change) -> bool:
        return earth_owed(job(*changes)) is not None

    assert not owed(read_before(ZE, 71), took(EARTH_BACK, BACK, 71))
    assert owed(read_before(ZE, 72), took(EARTH_BACK, BACK, 71))
    # From notes: the answer is about when it was given here, not about its own time.
    assert not owed(read_before(ZE, 72), from_notes(EARTH_BACK, BACK, 60, 73))
    assert owed(read_before(ZE, 74), from_notes(EARTH_BACK, BACK, 60, 73))


def test_settled_is_what_is_owed_no_more() -> None:
    record = job(took(RUN, 0.29, 30))

    assert not is_settled(record, PUT_BACK)
    assert owed_since(record, PUT_BACK) == at_minute(30)
    assert is_settled(record, LE)
    back = took(PUT_BACK, BACK, 31)(record)
    assert is_settled(back, PUT_BACK)
    assert owed_since(back, PUT_BACK) is None


@pytest.mark.parametrize(
    ("method", "nothing_off"),
    [
        ("calculated", True),
        ("Calc. from the fault current", True),
        ("worked out from Zdb", True),
        ("measured", False),
        ("", False),
    ],
)
def test_a_calculated_loop_took_nothing_off(method: str, nothing_off: bool) -> None:
    (made,) = [each for each in job(took(ZE, 0.35, 70)).readings if each.slot == ZE]
    said = made.model_copy(update={"method": method})

    assert calculated(said) is nothing_off
    record = job()
    record = record.model_copy(update={"readings": (*record.readings, said)})
    assert (earth_owed(record) is None) is nothing_off


def reading(id: str, minutes: float, entered: float | None = None) -> Reading:
    notes = None if entered is None else at_minute(entered)
    return Reading(id=id, slot=ZE, taken=BACK, at=at_minute(minutes), from_notes=notes)


@pytest.mark.parametrize(
    ("later", "earlier", "shown"),
    [
        (reading("R2", 71), reading("R1", 70), True),
        (reading("R2", 70), reading("R1", 70), True),  # in one minute, entered after it
        (reading("R1", 70), reading("R2", 70), False),
        (reading("R1", 71), reading("R2", 70), False),  # entered before it: a clock stood ahead
        (reading("R1", 71, 80), reading("R2", 70), True),  # notes come in any order
        (reading("R1", 71), reading("R2", 70, 80), True),
        (reading("R2", 80, 80), reading("R1", 80, 80), False),  # rows of a sheet without times
        (reading("R2", 81, 81), reading("R1", 80, 80), True),
        (reading("R2", 80, 90), reading("R1", 80, 80), True),
        (reading("R2", 80, 80), reading("R1", 80, 90), True),
    ],
)
def test_one_reading_comes_after_another_only_if_that_is_shown(
    later: Reading, earlier: Reading, shown: bool
) -> None:
    """Else an earth counts as back that came off after the answer."""
    assert is_after(later, earlier) is shown


def test_both_count_as_the_last_where_a_clock_stood_ahead() -> None:
    one, two, three = reading("R1", 70), reading("R2", 71), reading("R3", 72)

    assert last_ones((one, two, three)) == (three,)
    assert last_ones((one, three, two)) == (three, two)
    noted = reading("R4", 73, 99)
    assert last_ones((one, two, noted)) == (noted,)  # by its own time it is the last
    assert last_ones((reading("R9", 60, 99), one, two)) == (two,)


@pytest.mark.parametrize(
    ("test", "question"),
    [(ZE, EARTH_BACK), (LOOP, ELECTRODE_LOOP_BACK), (ELECTRODE, ELECTRODE_BACK)],
)
@pytest.mark.parametrize(
    ("between", "early"),
    [
        ((), True),
        (((BACK, 75),), False),
        (((OFF, 75),), True),
        (((BACK, 75), (OFF, 76)), True),
        (((OFF, 75), (BACK, 76)), False),
        (((NotTaken(reason="too tired"), 75),), True),
        (((NotNeeded(reason="later"), 75),), True),
        (((BACK, 80),), False),  # within one minute, and said before it was read
        (((BACK, 65),), True),  # before it came off
        (((BACK, 75), (NotTaken(reason="asked twice"), 76)), False),
    ],
)
def test_what_was_read_between_off_and_back_was_read_without_that_earth(
    test: Slot, question: Slot, between: tuple[tuple[Entry, float], ...], early: bool
) -> None:
    def found(record: Record) -> list[Slot]:
        return [each.slot for each in taken_with_earth_off(record, record.readings)]

    answers = [took(question, taken, minutes) for taken, minutes in between]
    record = job(took(test, 40.0, 70), *answers, took(POLARITY, BACK, 80))

    assert found(record) == ([POLARITY] if early else [])
    after = job(took(test, 40.0, 70), took(POLARITY, BACK, 80), took(question, BACK, 80))
    assert found(after) == [POLARITY]
    before = job(took(POLARITY, BACK, 69), took(test, 40.0, 70))
    assert found(before) == []
    again = job(
        took(test, 40.0, 60),
        took(question, BACK, 61),
        took(test, 40.0, 70),
        took(POLARITY, BACK, 80),
    )
    assert found(again) == [POLARITY]
