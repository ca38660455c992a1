"""How readings are put into words."""

from __future__ import annotations

import pytest

from records.judgement.wording import amount, listed, number, rounded, said
from records.model.measurements import measurement
from records.model.reading import Figure, NotNeeded, NotTaken, Quantity, Tick
from records.terms import Part, Sign
from records.units import Unit

R1_R2 = measurement(Part.CIRCUIT, Quantity.R1_R2)
IR = measurement(Part.CIRCUIT, Quantity.IR_LN)
RCD = measurement(Part.CIRCUIT, Quantity.RCD_TIME)


@pytest.mark.parametrize(
    ("taken", "kind", "words"),
    [
        (Figure(value=0.35), R1_R2, "0.35 Ω"),
        (Figure(value=0.3), R1_R2, "0.30 Ω"),
        (Figure(value=0.035), R1_R2, "0.035 Ω"),
        (Figure(value=-0.01), R1_R2, "−0.01 Ω"),
        (Figure(value=-0.0), R1_R2, "0.00 Ω"),
        (Figure(value=99.9, sign=Sign.OVER), R1_R2, "> 99.9 Ω"),
        (Figure(value=999.0, sign=Sign.OVER), IR, "> 999 MΩ"),
        (Figure(value=0.5, sign=Sign.OVER), IR, "> 0.5 MΩ"),
        (Figure(value=0.01, sign=Sign.UNDER), IR, "< 0.01 MΩ"),
        (Figure(value=1.5), IR, "1.50 MΩ"),
        (Figure(value=250.0), IR, "250 MΩ"),
        (Figure(value=26.0), RCD, "26 ms"),
        (Figure(value=26.4), RCD, "26.4 ms"),
        (Tick(good=True), R1_R2, "correct"),
        (Tick(good=False), R1_R2, "not correct"),
        (NotTaken(reason="behind the stove"), R1_R2, "could not be taken: behind the stove"),
        (NotNeeded(reason="no spur"), R1_R2, "not needed: no spur"),
    ],
)
def test_a_reading_is_said_as_the_trade_writes_it(taken, kind, words):
    assert said(taken, kind) == words


def test_a_reading_is_never_rounded_away():
    assert number(0.1234, 2) == "0.1234"
    assert amount(12.34, Unit.MEGOHM) == "12.34 MΩ"


def test_what_was_worked_out_is_rounded():
    assert rounded(0.1234, Unit.OHM) == "0.12 Ω"
    assert rounded(123.4, Unit.MEGOHM) == "123 MΩ"


def test_an_enumeration_reads_as_a_person_writes_it():
    assert listed([]) == ""
    assert listed(["r1"]) == "r1"
    assert listed(["r1", "rn", "r2"]) == "r1, rn and r2"
