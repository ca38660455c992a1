"""Insulation with what can't be disconnected left in: L and N joined, to earth, at 250 V d.c.

BS 7671, 643.3.3 (from memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from records.errors import BadText
from records.judgement.review_types import Review
from records.model.measurements import measurement
from records.model.reading import Figure, Quantity, Slot
from records.model.slots import offered, slots
from records.session import Session
from records.store.file import RecordFile
from records.taking.card import card
from records.taking.desk import Desk
from records.taking.hand_over import limitations
from records.taking.lower_voltage import LOWER_METHOD, as_tested, read_instead
from records.taking.queue import Entry, Order, queue
from records.terms import Part, Sign, Stage
from tests.taking.job import AT, slot, small_job

LN, LE, NE = (
    slot(each, Stage.DEAD, "C2") for each in (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE)
)
WHY = "two drivers"


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    path = tmp_path / "job.farboard"
    RecordFile.create(path, small_job()).close()
    return Desk(Session(RecordFile.open(path), "Wren Oakes"), Stage.DEAD)


def take(at: Desk, where: Slot, figure: Figure) -> None:
    """Read the cautions that stand before a reading, and take it."""
    while (caution := at.unread(where)) is not None:
        at.has_read(caution, where)
    at.take(where, figure)


def _entry(desk: Desk, where: Slot) -> Entry:
    line = queue(desk._record, Review(()), Stage.DEAD, Order.BY_TEST)
    return line.entries[line.index(where) or 0]


def test_the_card_says_what_to_join_and_which_voltage(desk: Desk) -> None:
    usual = card(desk._record, desk.as_tested(_entry(desk, LE)), None, AT)
    desk.settings.lower_here(LE, WHY)
    lower = card(desk._record, desk.as_tested(_entry(desk, LE)), None, AT)

    assert (usual.between, usual.setting) == ("L and earth", "500 V d.c.")
    assert (lower.between, lower.setting) == ("L and N joined, and earth", "250 V d.c.")
    assert "proved dead" in lower.first
    assert f"Left in: {WHY}." in lower.first
    assert lower.first.endswith("Link out afterwards.")


def test_no_other_circuit_is_changed(desk: Desk) -> None:
    desk.settings.lower_here(LE, WHY)
    other = _entry(desk, slot(Quantity.IR_LE, Stage.DEAD, "C1"))

    assert desk.as_tested(other) is other
    assert desk.instead(slot(Quantity.IR_LN, Stage.DEAD, "C1")) is None


@pytest.mark.parametrize("pair", [LN, NE])
def test_a_pair_that_is_joined_is_refused_and_the_other_named(desk: Desk, pair: Slot) -> None:
    desk.settings.lower_here(LN, WHY)

    assert desk.instead(pair) == LE
    with pytest.raises(BadText, match="read insulation L-E"):
        desk.take(pair, Figure(value=200.0))
    assert desk._record.readings == ()


def test_the_joined_reading_sets_the_other_two_aside_by_itself(desk: Desk) -> None:
    assert {LN, NE} <= set(slots(desk._record))
    desk.settings.lower_here(LE, WHY)
    take(desk, LE, Figure(value=999.0, sign=Sign.OVER))
    record = desk._record

    assert record.readings[-1].test_voltage == 250.0
    assert record.readings[-1].method == LOWER_METHOD + WHY
    assert not {LN, NE} & set(slots(record))
    assert {LN, NE} <= set(offered(record))
    told = "\n".join(limitations(record))
    assert "not read: L and N were joined" in told
    assert "read together with L-E" in told


def test_once_read_at_500_volts_again_all_three_are_asked_for(desk: Desk) -> None:
    desk.settings.lower_here(LE, WHY)
    take(desk, LE, Figure(value=50.0))
    desk.settings.lower_here(LE, "")
    take(desk, LE, Figure(value=400.0))

    assert {LN, NE} <= set(slots(desk._record))


def test_a_reading_from_before_covering_sets_nothing_of_the_dead_tests_aside(desk: Desk) -> None:
    early = Desk(desk._session, Stage.BEFORE_COVERING)
    where = slot(Quantity.IR_LE, Stage.BEFORE_COVERING, "C2")
    early.settings.lower_here(where, WHY)
    take(early, where, Figure(value=300.0))

    assert {LN, NE} <= set(slots(desk._record))


def test_a_reading_that_says_not_joined_is_not_taken_for_a_joined_one(desk: Desk) -> None:
    desk.settings.method = "250 V, L and N not joined"
    take(desk, LE, Figure(value=300.0))

    assert {LN, NE} <= set(slots(desk._record))


def test_the_feed_starts_from_the_house_board_that_is_dead() -> None:
    found = as_tested(measurement(Part.FEED, Quantity.IR_LE), WHY)

    assert found.first.startswith("House main switch off, locked off, proved dead")


def test_what_is_no_insulation_reading_is_left_as_it_is() -> None:
    r1 = measurement(Part.CIRCUIT, Quantity.R1)

    assert as_tested(r1, WHY) is r1
    assert read_instead(slot(Quantity.R1, Stage.DEAD, "C1"), WHY) is None


@pytest.mark.parametrize(
    ("part", "quantity", "between", "setting"),
    [
        (Part.CIRCUIT, Quantity.IR_LE, "L and N joined, and earth", "250 V d.c."),
        (Part.FEED, Quantity.IR_LE, "L and N joined, and earth", "250 V d.c."),
        (Part.CIRCUIT, Quantity.IR_FOIL, None, "250 V d.c."),
        (Part.BOARD, Quantity.IR_GROUP, None, "250 V d.c."),
        (Part.CIRCUIT, Quantity.R1, None, None),
        (Part.CIRCUIT, Quantity.ZS, None, None),
    ],
)
def test_every_insulation_test_and_no_other_is_set_to_the_lower_voltage(
    part: Part, quantity: Quantity, between: str | None, setting: str | None
) -> None:
    """500 V into a driver that was left in destroys it; Table 64 has 500 V for the rest."""
    usual = measurement(part, quantity)
    lower = as_tested(usual, WHY)

    assert lower.setting == (setting or usual.setting)
    assert lower.between == (between or usual.between)
    assert as_tested(usual, "") == usual
