"""Schedules of 1, 12, 40 and 60 circuits, each with its own data: every value where it belongs."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from records.document.front import where
from records.document.ledger import Ledger
from records.document.pictures import pictures
from records.document.schedule import schedule_bytes
from records.expected.plan import expected
from records.expected.results import What
from records.judgement.review import review
from records.judgement.wording import said
from records.model.reading import Figure, Quantity
from records.model.record import Record
from records.model.slots import measured_by
from records.terms import Part, Stage, Verdict
from tests.document import job
from tests.document.generated import job_of
from tests.document.reading_back import anchors, margins, opened, table, text

pytestmark = pytest.mark.slow

COLUMNS = {Quantity.IR_LN: 6, Quantity.IR_LE: 7, Quantity.IR_NE: 8}


def _made(record: Record) -> bytes:
    return schedule_bytes(record, fingerprint=job.FINGERPRINT, made=job.MADE)


@pytest.mark.parametrize("count", [1, 12, 40, 60])
def test_every_circuit_has_its_line_with_its_own_last_readings(count: int) -> None:
    record = job_of(count)
    document = opened(_made(record))
    dead = {each[0]: each for each in table(document, "Dead tests: last standing")[1:]}
    live = {each[0]: each for each in table(document, "Live tests: last standing")[1:]}

    assert len(dead) == len(live) == count
    assert [each[1] for each in dead.values()] == [each.name for each in record.circuits]
    checked = 0
    for reading in record.readings:
        slot, taken = reading.slot, reading.taken
        if slot.place.part is not Part.CIRCUIT or not isinstance(taken, Figure):
            continue
        value = said(taken, measured_by(slot)).split(" Ω")[0].split(" MΩ")[0].split(" ms")[0]
        if slot.stage is Stage.DEAD and slot.quantity in COLUMNS:
            assert dead[str(slot.place.circuit)][COLUMNS[slot.quantity]].startswith(value)
        elif slot.quantity is Quantity.ZS:
            assert live[str(slot.place.circuit)][2].startswith(value)
        elif slot.quantity is Quantity.RCD_TIME:
            assert live[str(slot.place.circuit)][4].startswith(value)
        else:
            continue
        checked += 1
    assert checked >= 4 * count


@pytest.mark.parametrize("count", [40, 60])
def test_a_slow_rcd_carries_its_mark_wherever_it_counts_and_has_no_time_of_a_table(
    count: int,
) -> None:
    record = job_of(count)
    document = opened(_made(record))
    slow = {
        str(each.slot.place.circuit)
        for each in record.readings
        if each.slot.quantity is Quantity.RCD_TIME
        and isinstance(each.taken, Figure)
        and each.taken.value > 300
    }
    live = {each[0]: each for each in table(document, "Live tests: last standing")[1:]}
    calculated = {each[0]: each for each in table(document, "Calculated from the design")[1:]}
    own = {each[0]: each for each in table(document, "Your own readings")[1:]}

    assert slow
    for each in slow:
        assert re.search(r"F\d+", live[each][4])
        assert re.match(r"test failed F\d+", calculated[each][7])
        assert re.search(r"F\d+", own[each][8])
    for each in calculated.keys() - slow - {"feed"}:
        assert "test failed" not in calculated[each][7]


@pytest.mark.parametrize("count", [12, 40])
def test_each_gap_stands_on_page_one_and_is_counted_at_the_head_of_each_page(count: int) -> None:
    record = job_of(count)
    document = opened(_made(record))
    lines = review(record, expected(record)).lines
    missing = [each for each in lines if each.verdict is Verdict.NOT_TAKEN and each.slot]
    listed = table(document, "What is missing")[1:]

    assert sum(int(each[1]) for each in listed) == sum(
        each.verdict is Verdict.NOT_TAKEN for each in lines
    )
    for margin in margins(document):
        assert margin.startswith(f"INCOMPLETE: {len(missing)} reading")


def test_every_reading_is_in_the_log_and_nothing_is_cut_short() -> None:
    record = job_of(40)
    document = opened(_made(record))
    log = [each for each in table(document, "Every reading")[1:] if len(each) > 1]
    blank = re.compile(r"[·✗–] (not taken|outside|not needed)")
    values = [each[at] for each in log for at in (3, 4) if each[at] and not blank.match(each[at])]

    assert len(values) == len(record.readings)
    assert "…" not in text(document)
    to, names = anchors(document)
    assert to - names == set()


def test_the_same_record_gives_the_same_bytes_and_they_stay_small(tmp_path: Path) -> None:
    record = job_of(12)

    assert _made(record) == _made(record)
    assert len(_made(record)) < 150_000


def test_alike_findings_name_each_of_their_places() -> None:
    """Told once, with one reason: where it is must not be lost by that."""
    record = job_of(12)
    document = opened(_made(record))
    groups = [each for each in Ledger(review(record, expected(record))).groups if len(each) > 1]
    printed = text(document)

    assert groups
    for group in groups:
        named = "; ".join(dict.fromkeys(where(record, each) for each in group))
        assert f"Where\n{named}\n" in printed


def test_no_loop_is_drawn_that_shows_no_reading_and_no_design_at_its_limit() -> None:
    record = job_of(60)
    follows = expected(record)
    verdicts = review(record, follows)
    tight = {
        each.place.circuit
        for each in verdicts.lines
        if each.what is What.ZS and each.verdict in (Verdict.OUTSIDE, Verdict.NEAR)
    }
    for each in pictures(record, follows, verdicts):
        if each["title"].endswith(": loop"):
            shown = each["image"]["words"]
            assert "By the readings" in shown or each["title"].split()[0] in tight
