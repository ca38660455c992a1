"""A failed or doubted reading carries its findings wherever its value or its consequence stands."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from records.demo import demo_record
from records.document.ledger import Ledger
from records.document.reading_cells import Cells
from records.document.schedule import schedule_bytes
from records.document.workings import WorkingsOf
from records.expected.plan import expected
from records.judgement.review import review
from records.model.reading import Figure, Quantity, Reading, Tick
from records.model.record import Record
from records.terms import Sign
from tests.document import job
from tests.document.generated import job_of
from tests.document.reading_back import opened, table

pytestmark = pytest.mark.slow

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def jobs() -> Iterator[tuple[str, Record]]:
    yield "demo", demo_record()
    yield "generated", job_of(12, seed=2)
    for each in sorted(FIXTURES.glob("*/job.json")):
        yield each.parent.name, Record.model_validate_json(each.read_text("utf-8"))


def _made(record: Record) -> bytes:
    return schedule_bytes(
        record, fingerprint=job.FINGERPRINT, made=job.MADE, workings=WorkingsOf.ALL
    )


def _told(record: Record) -> dict[str, set[str]]:
    """Return the findings that each reading is part of, by the name of its bookmark."""
    verdicts = review(record, expected(record))
    ledger = Ledger(verdicts)
    cells = Cells(record, verdicts, ledger)
    return {name: set(ledger.told(slot)) for slot, name in cells.numbers.items()}


@pytest.mark.parametrize("record", [pytest.param(each, id=name) for name, each in jobs()])
def test_wherever_a_reading_is_named_its_findings_stand_beside_it(record: Record) -> None:
    """Each link to a reading, in tables and findings, and the reading itself in the log."""
    told = _told(record)
    heading, seen = "", 0
    for each in opened(_made(record)).element.body.iter(f"{_W}p"):
        style = each.find(f"{_W}pPr/{_W}pStyle")
        if style is not None and style.get(f"{_W}val").startswith("Heading"):
            heading = "".join(text.text or "" for text in each.iter(f"{_W}t")).split("  ")[0]
        to = [link.get(f"{_W}anchor") for link in each.iter(f"{_W}hyperlink")]
        for name in filter(told.__contains__, to):
            seen += 1
            assert told[name] - {heading} <= set(to), (heading, name, to)
    assert seen or not record.readings


def _with(record: Record, wanted: Callable[[Reading], bool], taken: Figure | Tick) -> Record:
    readings = tuple(
        each.model_copy(update={"taken": taken}) if wanted(each) else each
        for each in record.readings
    )
    return record.model_copy(update={"readings": readings})


@pytest.mark.parametrize(
    ("quantity", "taken"),
    [
        (Quantity.RCD_TIME, Figure(value=301.0)),
        (Quantity.RCD_TIME, Figure(value=999.0, sign=Sign.OVER)),
        (Quantity.RCD_BUTTON, Tick(good=False)),
    ],
)
def test_no_time_of_a_table_is_printed_for_an_rcd_that_failed(
    quantity: Quantity, taken: Figure | Tick
) -> None:
    """BS EN 61009-1, Table 1: 300 ms at 1 × IΔn (from memory); 40 ms stands for 5 × IΔn."""
    record = _with(
        demo_record(),
        lambda it: it.slot.quantity is quantity and it.slot.place.circuit == "C4",
        taken,
    )
    document = opened(_made(record))
    (row,) = (each for each in table(document, "Calculated from") if each[0] == "C4")
    workings = table(document, "Workings")
    at = next(n for n, each in enumerate(workings) if each[0].startswith("C4 "))
    inside = []
    for each in workings[at + 1 :]:
        if len(each) == 1:
            break
        inside.append(each)
    times = [each for each in inside if "disconnection time, RCD" in each[1]]

    assert re.fullmatch(r"test failed( F\d+)+", row[7])
    assert times
    for each in times:
        assert each[3] == "test failed"
        assert re.search(r" F\d+$", each[1])


def test_an_rcd_at_its_limit_has_its_time() -> None:
    record = _with(
        demo_record(),
        lambda it: it.slot.quantity is Quantity.RCD_TIME and it.slot.place.circuit == "C4",
        Figure(value=250.0),
    )
    (row,) = (each for each in table(opened(_made(record)), "Calculated") if each[0] == "C4")

    assert row[7].startswith("≤ 40 ms")
