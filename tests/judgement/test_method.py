"""How a reading was taken is a part of it: method, sign, both times; what the screen says of it."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from records.judgement.wording import said
from records.model.reading import Figure, Quantity
from records.model.slots import measured_by
from records.terms import Verdict
from tests.judgement.jobs import at, own, read, sound_job, spoilt, without, zs

LE = at(Quantity.IR_LE, "C2")
RUN = at(Quantity.R1_R2, "C2")


@pytest.mark.parametrize(
    ("slot", "value", "how", "words"),
    [
        (zs("C2"), 0.71, {"method": "no-trip"}, "Read 0.71 Ω (no-trip);"),
        (LE, 400.0, {"test_voltage": 500.0}, "Read 400 MΩ (500 V d.c.);"),
        (
            LE,
            400.0,
            {"test_voltage": 250.0, "method": "drivers left in"},
            "Read 400 MΩ (250 V d.c., drivers left in);",
        ),
        (
            LE,
            400.0,
            {"test_voltage": 250.0, "method": "250 V d.c., L and N joined: drivers"},
            "Read 400 MΩ (250 V d.c., L and N joined: drivers);",
        ),
    ],
)
def test_the_method_stands_with_the_value(slot, value, how, words):
    record = spoilt(read(900, slot, value, 900, **how))

    assert own(record, slot).why.startswith(words)


def test_both_times_of_a_reading_from_notes_are_said():
    later = datetime(2026, 3, 17, 19, 30, tzinfo=UTC)
    record = spoilt(read(900, RUN, 0.34, 30, from_notes=later), record=without(RUN))

    assert "Taken 16 Mar 2026 08:30, entered later from notes 17 Mar 2026 19:30." in (
        own(record, RUN).why
    )


@pytest.mark.parametrize(
    ("value", "words"), [(-0.01, "\N{MINUS SIGN}0.01 Ω"), (0.0, "0.00 Ω"), (-0.0, "0.00 Ω")]
)
def test_a_zero_a_little_below_nothing_is_kept_with_its_sign(value, words):
    slot = at(Quantity.EARTHING)
    figure = Figure(value=value)
    record = spoilt((slot, figure))

    assert said(figure, measured_by(slot)) == words
    assert own(record, slot).verdict is Verdict.WITHIN
    assert own(record, slot).attempts[-1].taken.value == value


def test_what_an_rcd_adds_is_explained_and_never_taken_off():
    """IET Guidance Note 3 (from memory): uplift of no-trip readings."""
    total = own(sound_job(), zs("C2")).attempts[-1].taken.value
    value = round(total + 0.35, 2)
    line = own(spoilt(read(900, zs("C2"), value, 900, method="no-trip")), zs("C2"))

    assert line.verdict is Verdict.UNLIKELY
    assert f"Read {value:.2f} Ω (no-trip)" in line.why
    assert "nothing is taken off" in line.why
    assert line.attempts[-1].taken.value == value


def test_a_high_current_reading_is_not_excused_by_the_rcd():
    total = own(sound_job(), zs("C2")).attempts[-1].taken.value
    line = own(spoilt(read(900, zs("C2"), total + 0.35, 900, method="high-current")), zs("C2"))

    assert "An RCD in the path" not in line.why


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (0.71, "1.04 Ω from the limit, more than 10 times"),
        (1.80, "0.05 Ω from the limit, less than"),
        (2.10, "0.35 Ω from the limit, about twice"),
        (2.50, "0.31 Ω from the limit, about twice"),
    ],
)
def test_how_far_the_limit_is_stands_in_uncertainties_of_the_meter(value, words):
    """RCBO type B, 20 A: table 2.19 Ω, cold 1.75 Ω (BS 7671, Table 41.3, read)."""
    line = own(spoilt((zs("C2"), value)), zs("C2"))

    assert f"{words} the uncertainty of the meter (± 8 % by the sheet of meter 1)" in line.why
