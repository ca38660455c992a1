"""What a table prints reaches the result: no figure is kept that nothing reads.

For each data file some job is found that goes by it, one of its figures is changed, and then a
figure of that job, or what is found in it, has to be another.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from functools import cache

import pytest

from records.expected.plan import expected
from records.expected.results import What, Worked
from records.judgement.review import review
from records.model.record import Record
from records.options.buy import buy_list
from records.tables.table import Printed, Table, names, table
from tests.expected.jobs import circuit, job
from tests.tables.jobs import records

Row = tuple[str, ...]


def forget() -> None:
    """Let nothing that was worked out from the tables stay in mind, apart from the tables."""
    for name, module in list(sys.modules.items()):
        if name.partition(".")[0] != "records":
            continue
        for each in list(vars(module).values()):
            if hasattr(each, "cache_clear") and each is not table:
                each.cache_clear()


def _results(record: Record) -> tuple[object, ...]:
    """Return all figures of a job, all that is found in it and all that it needs to be bought,
    without where they come from."""
    result = expected(record)
    figures = [
        (str(key), repr(each.value), each.low, each.high) if isinstance(each, Worked) else key
        for kind in (result.design, result.meter, result.measured)
        for key, each in kind.items()
    ]
    lines = [
        (each.key, each.verdict, each.why, str(each.limit)) for each in review(record, result).lines
    ]
    bought = [(each.what, each.quantity) for each in buy_list(record).items]
    return (*figures, *lines, *bought)


def _other(printed: Printed) -> Printed:
    if not isinstance(printed, str):
        return Decimal(str(printed)) * Decimal("1.37") + 1
    return "2026-01-02" if printed[:4].isdecimal() else f"{printed[:1]}/3"


@contextmanager
def _changed(name: str, row: Row) -> Iterator[None]:
    page = table(name)
    cells = page.cells
    assert isinstance(cells, dict)
    printed = cells[row]
    cells[row] = _other(printed)
    forget()
    try:
        yield
    finally:
        cells[row] = printed
        forget()


@cache
def _read_by() -> dict[str, list[tuple[int, Row]]]:
    """Return by table which jobs read which of its figures, in order."""
    found: dict[str, dict[tuple[int, Row], None]] = {}
    printed = Table.printed
    number = 0

    def spy(page: Table, *row: str) -> object:
        if row in page.cells:
            found.setdefault(page.name, {})[number, row] = None
        return printed(page, *row)

    patch = pytest.MonkeyPatch()
    patch.setattr(Table, "printed", spy)
    try:
        for number, record in enumerate(records()):  # noqa: B007
            forget()
            _results(record)
    finally:
        patch.undo()
        forget()
    return {name: list(rows) for name, rows in found.items()}


@pytest.mark.slow
@pytest.mark.parametrize("name", names())
def test_a_changed_figure_of_a_table_changes_a_result(name):
    read = _read_by().get(name, [])
    assert read, f"no job reads anything in {name}"
    for number, row in read[:40]:
        record = records()[number]
        before = _results(record)
        with _changed(name, row):
            if _results(record) != before:
                return
    pytest.fail(f"no result follows from {name}")


@pytest.mark.parametrize(("time", "rating"), [("0.4 s", "32"), ("5 s", "40")])
def test_a_limit_is_what_its_table_prints(time, rating):
    """BS 7671, Table 41.3: the limit cited to it is the figure printed in it, changed or not."""
    kind, use = "circuit-breaker type B", "sockets" if time == "0.4 s" else "fixed appliance"
    device = {"kind": kind, "rating": float(rating), "breaking": 6.0}
    record = job(circuits=[circuit(device=device, use=use, load=10.0)])

    def limit() -> Worked:
        found = next(
            each
            for (place, what), each in expected(record).design.items()
            if what is What.ZS_LIMIT and place.circuit == "C1"
        )
        assert isinstance(found, Worked)
        return found

    printed = float(table("max_zs_breaker").printed("B", time, rating))
    assert limit().value == printed
    assert "Table 41.3" in str(limit().sources[0])
    with _changed("max_zs_breaker", ("B", time, rating)):
        assert limit().value == pytest.approx(printed * 1.37 + 1)


@pytest.mark.parametrize(
    ("u0", "rating", "value"),
    [(230.0, 32.0, 1.37), (240.0, 32.0, 1.42), (230.0, 45.0, 0.97), (230.0, 50.0, 0.87)],
)
def test_what_no_table_prints_is_calculated_cut_and_says_so(u0, rating, value):
    """0.95 × 240 / (5 × 32) = 1.425 and 218.5 / (5 × 45) = 0.971, cut; 50 A is printed 0.87."""
    device = {"kind": "circuit-breaker type B", "rating": rating, "breaking": 6.0}
    origin = {"earthing": "TN-S", "u0": u0, "ze": 0.3}
    record = job(origin=origin, circuits=[circuit(device=device)])
    (found,) = (
        each
        for (place, what), each in expected(record).design.items()
        if what is What.ZS_LIMIT and place.circuit == "C1"
    )

    assert isinstance(found, Worked)
    assert found.value == value
    calculated = "Cmin × U0 / Ia" in str(found.sources[0])
    assert calculated == (u0 != 230.0 or rating == 45.0)
