"""What is said of the leads before and while a figure is typed, and what goes on record."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from records.errors import BadQuantity
from records.expected.plan import expected
from records.judgement.review import review
from records.model.job import Instrument, InstrumentKind
from records.model.measurements import MEASUREMENTS, measurement
from records.model.reading import Figure, Quantity, Tick
from records.model.record import Record
from records.taking.card import attempts, card
from records.taking.leads import counted, echo, first_of, fitted, in_hand, warning_of
from records.taking.queue import Order, queue
from records.taking.stage_settings import StageSettings
from records.taking.typed_reading import reading
from records.terms import Part, Sign, Stage
from tests.taking.job import slot, small_job, with_figure

R1 = measurement(Part.CIRCUIT, Quantity.R1)
CROSS = measurement(Part.CIRCUIT, Quantity.CROSS_LN)
ZS = measurement(Part.CIRCUIT, Quantity.ZS)
AT = datetime(2026, 11, 17, 9, 0, tzinfo=UTC)
METER = Instrument(id="M1", kind=InstrumentKind.MULTIFUNCTION, serial="0412", nulled=False)
KNOWN = METER.model_copy(update={"leads": 0.05})


def job_with(meter: Instrument) -> Record:
    """Return the small job with this instrument for its own."""
    job = small_job()
    return job.model_copy(update={"job": job.job.model_copy(update={"instruments": (meter,)})})


@pytest.mark.parametrize(
    ("taken", "leads", "words"),
    [
        (Figure(value=0.42), 0.05, "0.42 Ω − 0.05 Ω leads = 0.37 Ω"),
        (Figure(value=0.42), None, "0.42 Ω"),
        (Figure(value=20.0, sign=Sign.OVER), 0.05, "> 20 Ω, no leads taken off"),
        (Figure(value=20.0, sign=Sign.OVER), None, "> 20 Ω"),
        (Tick(good=True), 0.05, "correct"),
    ],
)
def test_what_is_typed_is_echoed_with_what_is_taken_off(
    taken: Figure | Tick, leads: float | None, words: str
) -> None:
    assert echo(taken, leads, R1) == words


def test_where_there_is_little_room_the_figures_stay_whole() -> None:
    whole = echo(Figure(value=0.42), 0.05, R1)

    assert fitted(whole, 30) == whole
    assert fitted(whole, 29) == "0.42 − 0.05 = 0.37 Ω"
    assert fitted("= > 20 Ω, no leads taken off", 23) == "= > 20 Ω, no leads off"


def test_only_a_figure_loses_its_leads() -> None:
    assert counted(Figure(value=0.42), 0.05) == Figure(value=0.37, leads=0.05)
    assert counted(Tick(good=False), 0.05) == Tick(good=False)
    with pytest.raises(BadQuantity, match="step Job"):
        counted(Figure(value=0.42), 42.0)


def test_nulling_is_not_asked_of_a_meter_that_does_not_null() -> None:
    nulls = KNOWN.model_copy(update={"nulled": True})
    for meter in (None, nulls, KNOWN.model_copy(update={"nulled": None})):
        assert first_of(R1, meter) == R1.first
    assert "Null the leads" in R1.first

    said = first_of(R1, KNOWN)
    assert "Null the leads" not in said
    assert said.endswith(
        "apart. Meter 0412 doesn't null: type what it shows, 0.05 Ω for its leads is taken off."
    )
    assert first_of(CROSS, KNOWN).startswith(CROSS.first)  # it says nothing of nulling
    assert "0.05 Ω for its leads" in first_of(CROSS, KNOWN)
    assert first_of(ZS, KNOWN) == ZS.first
    assert in_hand(KNOWN, R1) == "M1 multifunction tester 0412, less 0.05 Ω leads"
    assert in_hand(KNOWN, ZS) == in_hand(METER, R1) == "M1 multifunction tester 0412"


def test_leads_that_nobody_knows_are_spoken_of_wherever_they_count() -> None:
    for test in MEASUREMENTS:
        said = warning_of(test, METER)
        assert bool(said) == test.leads
        assert "Null the leads" not in first_of(test, METER) or not test.leads
        assert warning_of(test, KNOWN) == warning_of(test, None) == ""
    assert "Meter 0412 doesn't null its leads" in warning_of(R1, METER)
    assert "step Job" in warning_of(R1, METER)


@pytest.mark.parametrize(
    ("meter", "leads"),
    [(KNOWN, 0.05), (METER, None), (KNOWN.model_copy(update={"nulled": True}), None)],
)
def test_a_reading_is_taken_less_the_leads_of_the_instrument_in_hand(
    meter: Instrument, leads: float | None
) -> None:
    job = job_with(meter)
    r1 = slot(Quantity.R1, Stage.DEAD, "C1")
    around = StageSettings().around(job, Stage.DEAD, r1, R1, "Wren Oakes")
    made = reading(job, r1, Figure(value=0.42, typed="0,42"), around, AT)

    value = 0.42 if leads is None else 0.37
    assert made.taken == Figure(value=value, typed="0,42", leads=leads)
    assert made.instrument == "M1"
    zs = slot(Quantity.ZS, Stage.LIVE, "C1")
    live = StageSettings().around(job, Stage.LIVE, zs, ZS, "Wren Oakes")
    assert reading(job, zs, Figure(value=0.8), live, AT).taken == Figure(value=0.8)


def test_the_card_says_it_and_what_was_read_so_far_says_it_too() -> None:
    r1 = slot(Quantity.R1, Stage.DEAD, "C1")
    record = with_figure(job_with(KNOWN), r1, 0.3)
    last = record.readings[-1]
    less = last.model_copy(update={"taken": Figure(value=0.25, leads=0.05)})
    record = record.model_copy(update={"readings": (less,)})
    line = queue(record, review(record, expected(record)), Stage.DEAD, Order.BY_TEST)
    entry = line.entries[line.index(r1) or 0]

    shown = card(record, entry, None, AT, meter=KNOWN)
    assert "0.05 Ω for its leads is taken off" in shown.first
    assert shown.leads == ""
    assert shown.before[0].startswith("1st: 0.25 Ω (0.30 Ω − 0.05 Ω leads)")
    assert "not entered" in card(record, entry, None, AT, meter=METER).leads
    assert entry.own is not None
    assert attempts(record, entry.own)[0].startswith("1st: 0.25 Ω (0.30 Ω − 0.05 Ω leads)")
