"""The certifier's own readings: beside the installer's, and a finding where both can't be right."""

from __future__ import annotations

import math
from typing import Any

import pytest

from records.model.certifier import stands_beside
from records.model.job import Duty, Instrument, InstrumentKind, Person
from records.model.reading import Figure, Quantity, Tick
from records.model.record import Record
from records.terms import Stage, Verdict
from tests.judgement.jobs import at, line, over, own, read, reviewed, sound_job, under, zs

PEOPLE = (
    Person(id="A1", name="Wren Oakes", duty=Duty.INSTALLS),
    Person(id="A2", name="Ash Reed", duty=Duty.CERTIFIES),
)
METERS = (
    Instrument(id="M1", kind=InstrumentKind.MULTIFUNCTION, uncertainty=3.0),
    Instrument(id="M2", kind=InstrumentKind.MULTIFUNCTION, uncertainty=4.0),
)
ZS, IR = zs("C2"), at(Quantity.IR_LE, "C2")


def job(ours: float | Figure, *theirs: float | Figure, slot: Any = ZS, meters=METERS) -> Record:
    record = sound_job()
    readings = tuple(
        each.model_copy(
            update={
                "by": "A1",
                "instrument": "M1",
                **({"taken": _figure(ours)} if each.slot == slot else {}),
            }
        )
        for each in record.readings
    )
    beside = tuple(
        read(900 + count, slot, value, 900 + count, by="A2", instrument="M2")
        for count, value in enumerate(theirs)
    )
    about = record.job.model_copy(update={"people": PEOPLE, "instruments": meters})
    return record.model_copy(
        update={"job": about, "readings": readings, "certifier_readings": beside}
    )


def _figure(value: float | Figure) -> Figure:
    return value if isinstance(value, Figure) else Figure(value=value)


def differs(record: Record) -> bool:
    return any("certifier's reading" in each.patterns for each in reviewed(record).findings)


def test_two_readings_may_differ_by_the_root_of_the_sum_of_squares():
    """JCGM 100:2008, 5.1.2: 3 % of 1.00 Ω and 4 % of what the certifier read, here in quadrature.

    0.05 Ω apart they may be at about 1.00 Ω: a 3-4-5 triangle.
    """
    ours = 1.0
    edge = next(
        value
        for value in (ours + step / 100_000 for step in range(20_000))
        if value - ours > math.hypot(0.03 * ours, 0.04 * value)
    )
    assert edge == pytest.approx(1.052, abs=0.001)
    assert not differs(job(ours, edge - 0.0005))
    assert differs(job(ours, edge + 0.0005))


def test_it_is_said_with_both_readings_and_how_far_they_may_be_apart():
    found = line(job(0.80, 1.10), "Zs/live/certifier's reading")
    assert found.verdict is Verdict.UNLIKELY
    assert "The certifier read 1.10 Ω, the installer 0.80 Ω. That is 0.30 Ω apart" in found.why
    assert "root of the sum of the squares of 0.024 Ω and 0.044 Ω" in found.why
    assert "together" in found.next_check
    assert len(found.causes) == 3


def test_meters_without_a_sheet_may_be_off_as_far_as_the_standard_lets_them():
    """BS EN 61557-3: a loop tester by 30 %, so 1.00 Ω and 1.30 Ω may be the same loop."""
    plain = tuple(each.model_copy(update={"uncertainty": None}) for each in METERS)
    assert not differs(job(1.0, 1.3, meters=plain))
    assert differs(job(0.5, 1.0, meters=plain))


@pytest.mark.parametrize(
    ("ours", "theirs", "apart"),
    [
        (over(200.0), over(999.0), False),
        (over(200.0), Figure(value=450.0), False),
        (over(999.0), Figure(value=450.0), True),
        (Figure(value=450.0), over(999.0), True),
        (over(999.0), Figure(value=990.0), False),
        (under(0.5), over(200.0), True),
    ],
)
def test_a_figure_out_of_range_disagrees_only_where_it_must(ours, theirs, apart):
    assert differs(job(ours, theirs, slot=IR)) is apart


def test_the_installers_reading_still_counts():
    alone, beside = job(0.80), job(0.80, 1.10)
    assert own(beside, ZS).verdict == own(alone, ZS).verdict
    assert own(beside, ZS).why == own(alone, ZS).why
    assert beside.taken(ZS) == alone.taken(ZS)


def test_one_that_fails_is_outside_whatever_the_installer_read():
    found = line(job(1.9, 3.5), "Zs/live/certifier's reading")
    assert found.verdict is Verdict.OUTSIDE
    assert "The certifier's reading: Read 3.50 Ω" in found.why


def test_the_certifiers_last_one_is_what_they_say():
    assert differs(job(0.80, 1.10))
    assert not differs(job(0.80, 1.10, 0.81))


def test_what_stands_beside_is_a_figure_of_the_certifier_where_another_read_one():
    record = job(0.80)
    figure = Figure(value=1.0)
    assert stands_beside(record, ZS, figure, "A2")
    assert not stands_beside(record, ZS, figure, "A1")
    assert not stands_beside(record, ZS, Tick(good=True), "A2")
    untaken = record.model_copy(update={"readings": ()})
    assert not stands_beside(untaken, ZS, figure, "A2")
    theirs = record.model_copy(
        update={"readings": tuple(e.model_copy(update={"by": "A2"}) for e in record.readings)}
    )
    assert not stands_beside(theirs, ZS, figure, "A2")
    assert Stage.LIVE is ZS.stage
