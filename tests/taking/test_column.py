"""A pasted column at the bench: offered field by field, taken whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from records.errors import BadText, FarboardError
from records.interlock.comes_off import EARTH_BACK, ZE
from records.model.reading import Quantity
from records.taking.column import fill, offer, offer_lines
from records.taking.interlock import NotNow
from records.terms import Stage
from tests.taking.job import ready_job, slot, with_figure
from tests.taking.locks import FAULT_LN
from tests.taking.seat import DEAD, LIVE, R1, R2, RN, go, here, seated, values

pytestmark = pytest.mark.usefixtures("clock")


def test_each_value_is_offered_to_its_field_and_taken_in_one_go(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        go(bench, R1)
        found = offer(bench, "0.28\n0,29\r\n1.9\n")
        assert offer_lines(bench, found)[1] == "0.29 Ω  →  C1 Bench sockets, rn"
        assert bench.session.record.readings == ()
        told = fill(bench, found)

        assert [values(bench, each) for each in (R1, RN, R2)] == [["0.28"], ["0.29"], ["1.9"]]
        assert here(bench).quantity is Quantity.CROSS_LN
        assert told.tone == "bad"
        assert told.words.startswith("3 readings taken from the paste, ")
        bench.undo()
        assert (bench.session.record.readings, here(bench)) == ((), R1)


def test_only_what_came_from_the_paste_is_counted_as_to_look_at(tmp_path: Path) -> None:
    """A bad reading of this morning is no reason to look at the column again."""
    bad = with_figure(ready_job(), slot(Quantity.R1_R2, DEAD, "C3"), 9.0)
    record = bad.model_copy(
        update={"readings": tuple(each for each in bad.readings if each.slot not in (R1, RN))}
    )
    sound = {each.slot: each.taken.value for each in ready_job().readings if each.slot in (R1, RN)}
    with seated(tmp_path, record=record) as bench:
        go(bench, R1)
        told = fill(bench, offer(bench, f"{sound[R1]}\n{sound[RN]}\n"))

    assert told.words == "2 readings taken from the paste, none of them to look at."
    assert told.tone == "good"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("0.28\nabc", "Line 2"),
        ("0.28\t0.29\n0.3\t0.4", "several columns"),
        ("\n".join(["0.1"] * 12), "other tests begin here"),
        ("0.28\n\n0.29", "Line 2.*empty"),
        ("0.1\n" * 61, "60 is the most"),
    ],
)
def test_what_does_not_fit_is_refused_whole(tmp_path: Path, text: str, why: str) -> None:
    with seated(tmp_path) as bench:
        go(bench, R1)
        with pytest.raises(FarboardError, match=f"{why}.*Nothing was taken"):
            offer(bench, text)

        assert (bench.session.record.readings, here(bench)) == ((), R1)


def test_nothing_is_offered_where_nothing_may_be_typed(tmp_path: Path) -> None:
    with seated(tmp_path, record=with_figure(ready_job(), R1, 0.28)) as bench:
        go(bench, R1)
        with pytest.raises(BadText, match=r"This was taken already\..* Nothing was taken from the"):
            offer(bench, "0.28\n0.29")


def test_a_column_does_not_get_past_an_earth_that_is_off(tmp_path: Path) -> None:
    record = with_figure(ready_job(), ZE, 0.35)
    with seated(tmp_path, LIVE, record) as bench:
        bench.go_to(FAULT_LN)
        found = offer(bench, "1.1\n1.1")
        with pytest.raises(NotNow, match="is the earth back on its bar"):
            fill(bench, found)

        assert bench.session.record.readings == record.readings
        assert here(bench) == EARTH_BACK


def test_a_column_does_not_get_past_a_caution(tmp_path: Path) -> None:
    with seated(tmp_path) as bench:
        bench.go_to(slot(Quantity.IR_LN, DEAD, "C1"))
        found = offer(bench, ">999\n>999")
        with pytest.raises(NotNow, match="Read the caution first"):
            fill(bench, found)

        assert bench.session.record.readings == ()
        assert bench.stage is Stage.DEAD
