"""A pasted column goes into the open fields as a whole, or not at all."""

from __future__ import annotations

import pytest

from records.errors import BadQuantity
from records.judgement.review_types import Review
from records.model.reading import Quantity
from records.taking.paste import MOST, fills, values
from records.taking.queue import Order, queue
from records.terms import Stage
from tests.taking.job import slot, small_job

LINE = queue(small_job(), Review(()), Stage.DEAD, Order.BY_TEST)
R1 = LINE.index(slot(Quantity.R1, Stage.DEAD, "C1")) or 0


def test_a_column_is_laid_on_the_fields_from_here_on():
    found = fills(LINE, R1, values("0.29\r\n0,30\n  .48 \n\n".strip("\n")))

    assert [(each.entry.slot.quantity, each.taken.value) for each in found] == [
        (Quantity.R1, 0.29),
        (Quantity.RN, 0.30),
        (Quantity.R2, 0.48),
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0.29\nx\n0.48", "Line 2 .* rn: “x” is not one figure"),
        ("0.29\n\n0.48", "Line 2 .* rn: it is empty: copy one value a line, without empty lines"),
        ("0.29\t0.30\n0.48\t1", "several columns"),
        ("\n".join(["1"] * (MOST + 1)), "61 lines"),
        ("\n".join(["1"] * 50), "fields are open"),
    ],
)
def test_what_does_not_fit_is_refused_whole_and_says_which_line(text: str, says: str):
    with pytest.raises(BadQuantity, match=says) as refused:
        fills(LINE, R1, values(text))

    assert "Nothing was taken" in str(refused.value)
