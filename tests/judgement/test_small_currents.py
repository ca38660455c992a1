"""A fault current of a few ampere is printed in ampere, not as 0.0045 kA."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from records.evidence import Basis, Source
from records.expected.plan import expected
from records.expected.results import Worked
from records.judgement.review import review
from records.judgement.review_types import Limit, Sense
from records.judgement.wording import amount, rounded
from records.model.record import Record
from records.units import Unit
from tests.expected.jobs import circuit, job
from tui.dialogs.working import working


@pytest.mark.parametrize(
    ("value", "words"),
    [(0.0045, "4.5 A"), (0.0999, "99.9 A"), (0.1, "0.10 kA"), (1.2, "1.20 kA"), (0.0, "0.00 kA")],
)
def test_a_small_current_is_in_ampere(value: float, words: str) -> None:
    assert amount(value, Unit.KILOAMPERE) == words
    assert rounded(value, Unit.KILOAMPERE) == words


def test_other_units_stay() -> None:
    assert amount(0.05, Unit.OHM) == "0.05 Ω"


def _said(record: Record) -> Iterator[str]:
    worked = expected(record)
    for each in (*worked.meter.values(), *worked.design.values(), *worked.measured.values()):
        yield str(each)
        if isinstance(each, Worked) and each.low is not None:
            yield from (line.plain for line in working("it", each))
    for line in review(record, worked).lines:
        yield from filter(None, (str(line.limit or ""), line.why, line.title, line.next_check))


@pytest.mark.parametrize("ra", [21.0, 200.0, 1667.0])
def test_no_current_is_nought_kiloampere_behind_an_electrode(ra: float) -> None:
    """230 V over 200 Ω is 1.15 A; 0.00 kA would say that none flows."""
    record = job(origin={"earthing": "TT", "ze": ra, "fault_current": 0.9}, circuits=[circuit()])
    said = list(_said(record))
    assert any(re.search(r"\b\d[\d.]* A\b", each) for each in said)
    assert [each for each in said if re.search(r"\b0\.0\d* kA", each)] == []


def test_a_limit_on_a_small_current_is_in_ampere_and_on_the_safe_side() -> None:
    source = Source("a table", "", Basis.MEMORY)
    assert str(Limit(Sense.LEAST, 0.04501, Unit.KILOAMPERE, source)) == "at least 45.1 A"
    assert str(Limit(Sense.MOST, 0.04509, Unit.KILOAMPERE, source)) == "at most 45.0 A"
    assert str(Limit(Sense.MOST, 6.0, Unit.KILOAMPERE, source, digits=1)) == "at most 6.0 kA"
