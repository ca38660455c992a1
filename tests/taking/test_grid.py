"""The grid has every reading of a stage once."""

from __future__ import annotations

import pytest

from records.demo import demo_record
from records.judgement.review_types import Judged, Review
from records.model.reading import Quantity
from records.model.slots import slots
from records.taking.grid import cell_words, grid, pages, width
from records.taking.queue import Order, queue
from records.terms import Sign, Stage, Verdict
from tests.taking.job import slot, small_job, with_figure
from tests.taking.twelve import twelve


@pytest.mark.parametrize("stage", Stage)
def test_every_slot_has_one_cell_and_can_be_found_there(stage: Stage):
    line = queue(small_job(), Review(()), stage, Order.BY_TEST)
    table = grid(line)

    assert len(table.cells) == len(slots(small_job(), stage))
    for each in line.entries:
        assert table.entry(*table.where(each)) == each


def test_points_come_right_under_their_circuit():
    names = [name for _, name in grid(_line()).rows]

    assert names == [
        "Feed",
        "Board",
        "C1 Bench sockets",
        "S1",
        "S2",
        "S3",
        "C2 Light [loft]",
        "C3 Heater",
    ]


def test_a_cell_that_is_not_needed_is_empty_and_outside_there_is_nothing():
    table = grid(_line())

    assert table.entry(0, table.columns.index(Quantity.R1)) is None
    assert table.entry(99, 0) is None
    assert cell_words(None) == ""


def test_a_cell_shows_mark_and_figure_without_the_unit():
    where = slot(Quantity.IR_LN, Stage.DEAD, "C1")
    job = with_figure(small_job(), where, 999, Sign.OVER)
    own = Judged("k", Verdict.WITHIN, where.place, "t", "w", where, attempts=job.readings)
    line = queue(job, Review((own,)), Stage.DEAD, Order.BY_TEST)

    assert cell_words(line.entries[line.index(where) or 0]) == "✓ > 999"
    assert cell_words(line.entries[0]) == "·"


def _line():
    return queue(small_job(), Review(()), Stage.DEAD, Order.BY_TEST)


@pytest.mark.parametrize("job", [small_job(), twelve(), demo_record()], ids=["3", "12", "demo"])
@pytest.mark.parametrize("stage", Stage)
def test_columns_come_in_the_order_of_the_tests_whichever_order_the_list_has(job, stage: Stage):
    by_test, by_circuit = (grid(queue(job, Review(()), stage, order)).columns for order in Order)
    listed = queue(job, Review(()), stage, Order.BY_TEST).entries

    assert by_test == by_circuit
    assert by_test == tuple(dict.fromkeys(each.slot.quantity for each in listed))


@pytest.mark.parametrize("job", [small_job(), twelve(), demo_record()], ids=["3", "12", "demo"])
@pytest.mark.parametrize("stage", Stage)
@pytest.mark.parametrize("order", Order)
def test_the_arrows_lead_to_every_reading_and_out_of_every_row(job, stage: Stage, order: Order):
    line = queue(job, Review(()), stage, order)
    table = grid(line)
    found = [line.entries[0]]
    for each in found:
        ways = ((1, 0), (-1, 0), (0, 1), (0, -1))
        found += [
            other
            for other in (table.beside(each, *way) for way in ways)
            if other is not None and other not in found
        ]

    assert {each.slot for each in found} == {each.slot for each in line.entries}
    last = len(table.rows) - 1
    for each in line.entries:
        row, _ = table.where(each)
        assert row == last or table.beside(each, 1, 0) is not None
        assert row == 0 or table.beside(each, -1, 0) is not None


@pytest.mark.parametrize("room", range(36, 120, 5))
@pytest.mark.parametrize("stage", Stage)
def test_what_is_read_at_one_place_in_one_go_is_on_one_page(stage: Stage, room: int):
    table = grid(queue(demo_record(), Review(()), stage, Order.BY_TEST))
    found = pages(table, room, 2)
    page = {table.columns[at]: each for each in found for at in each}

    for together in (
        (Quantity.IR_LN, Quantity.IR_LE, Quantity.IR_NE),
        (Quantity.R1, Quantity.RN, Quantity.R2),
        (Quantity.FAULT_LN, Quantity.FAULT_LE),
    ):
        assert len({page.get(each) for each in together}) == 1
    assert [at for each in found for at in each] == list(range(len(table.columns)))
    for each in found:
        assert len(each) == 1 or sum(width(table, at) + 2 for at in each) <= room


def test_a_window_too_narrow_for_a_group_still_shows_each_column():
    table = grid(_line())

    assert pages(table, 5, 2) == [range(at, at + 1) for at in range(len(table.columns))]
