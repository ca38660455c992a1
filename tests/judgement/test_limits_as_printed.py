"""A limit is one figure: what is printed is never beyond what is held against it.

A calculated maximum is cut, a calculated minimum raised, to the decimals that are printed: common
practice for the figures of BS 7671, which round the impedances of Table 41.3 down.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records.demo import demo_record
from records.expected.plan import expected
from records.expected.results import What, Worked
from records.judgement.review import review
from records.judgement.review_types import Sense
from records.model.record import Record
from records.tables.rounding import cut_down, raised
from records.units import Unit
from tests.document.generated import job_of

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
MAXIMA = (
    What.IZ,
    What.ZS_LIMIT,
    What.ZS_LIMIT_COLD,
    What.ZS_LIMIT_EXACT,
    What.VOLT_DROP_LIMIT,
    What.BREAKING,
    What.RA_LIMIT,
)
MINIMA = (What.CPC_LEAST, What.BOND_LEAST)


def jobs() -> Iterator[tuple[str, Record]]:
    yield "demo", demo_record()
    yield "generated", job_of(12, seed=3)
    for each in sorted(FIXTURES.glob("*/job.json")):
        yield each.parent.name, Record.model_validate_json(each.read_text("utf-8"))


@pytest.mark.parametrize("record", [pytest.param(each, id=name) for name, each in jobs()])
def test_no_limit_is_printed_beyond_what_it_is(record: Record) -> None:
    follows = expected(record)
    for line in review(record, follows).lines:
        limit = line.limit
        if limit is None or limit.sense is Sense.SHOULD:
            continue
        lower = float(limit.figure)
        assert f" {limit.figure}" in f" {limit}"
        if limit.sense is Sense.MOST:
            assert lower <= limit.value + 1e-9, line.title
        else:
            assert lower >= limit.value - 1e-9, line.title
        if limit.upper is not None:
            upper = str(limit).split(" to ")[1].split()[0]
            assert float(upper) <= limit.upper + 1e-9, line.title


@pytest.mark.parametrize("record", [pytest.param(each, id=name) for name, each in jobs()])
def test_no_design_limit_is_printed_beyond_what_it_is(record: Record) -> None:
    for (place, what), it in expected(record).design.items():
        if isinstance(it, Worked) and not it.words:
            number, _, unit = str(it).partition(" ")
            in_ampere = it.unit is Unit.KILOAMPERE and unit == Unit.AMPERE.value
            printed = float(number) / (1000 if in_ampere else 1)
            assert in_ampere or it.figure == number
            if what in MAXIMA:
                assert printed <= it.value + 1e-9, (place, what)
            if what in MINIMA:
                assert printed >= it.value - 1e-9, (place, what)


@settings(max_examples=200, deadline=None)
@given(st.floats(0.001, 10_000), st.integers(0, 3))
def test_a_maximum_is_cut_and_a_minimum_raised_by_less_than_a_digit(
    value: float, digits: int
) -> None:
    step = 10.0**-digits

    assert value - step <= cut_down(value, digits) <= value + 1e-6 * step
    assert value - 1e-6 * step <= raised(value, digits) <= value + step


@pytest.mark.parametrize(
    ("given", "cut", "up"),
    [(1.37, 1.37, 1.37), (2.18, 2.18, 2.18), (1.3179, 1.31, 1.32), (0.0, 0.0, 0.0)],
)
def test_what_a_table_prints_stays_as_it_is(given: float, cut: float, up: float) -> None:
    assert (cut_down(given), raised(given)) == (cut, up)
