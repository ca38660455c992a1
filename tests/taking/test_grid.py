"""The grid has every reading of a stage once."""

from __future__ import annotations

import pytest

from records.judgement.review_types import Judged, Review
from records.model.reading import Quantity
from records.model.slots import slots
from records.taking.grid import cell_words, grid
from records.taking.queue import Order, queue
from records.terms import Sign, Stage, Verdict
from tests.taking.job import slot, small_job, with_figure


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
        "Feed", "Board", "C1 Bench sockets", "S1", "S2", "S3", "C2 Light [loft]", "C3 Heater",
    ]  # fmt: skip


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
