"""What testers type becomes a reading, or is refused with what would be right."""

from __future__ import annotations

from datetime import timedelta

import pytest

from records.errors import BadQuantity, BadText
from records.judgement.wording import said
from records.model.measurements import measurement
from records.model.reading import Figure, Quantity, Tick
from records.taking.typed_reading import Circumstances, could_not, not_needed, reading, understand
from records.terms import Part, Sign, Stage
from tests.taking.job import AT, slot, small_job, with_figure

R1 = measurement(Part.CIRCUIT, Quantity.R1)
IR = measurement(Part.CIRCUIT, Quantity.IR_LE)
POLARITY = measurement(Part.CIRCUIT, Quantity.POLARITY)
FAULT = measurement(Part.BOARD, Quantity.FAULT_LN)


@pytest.mark.parametrize(
    ("typed", "entry", "words"),
    [
        (".35", R1, "0.35 Ω"),
        ("0,35", R1, "0.35 Ω"),
        ("350 mohm", R1, "0.35 Ω"),
        ("-0.01", R1, "−0.01 Ω"),
        (">1999", R1, "> 1999 Ω"),
        (">999", IR, "> 999 MΩ"),
        (">200M", IR, "> 200 MΩ"),
        ("<0.01", IR, "< 0.01 MΩ"),
        ("1200 A", FAULT, "1.20 kA"),
        ("y", POLARITY, "correct"),
        ("N", POLARITY, "not correct"),
        ("right", POLARITY, "correct"),
    ],
)
def test_what_is_typed_is_said_back_in_full(typed: str, entry, words: str):
    assert said(understand(typed, entry), entry) == words


def test_the_figure_keeps_what_was_typed_beside_its_value():
    taken = understand(" >999 ", IR)

    assert taken == Figure(value=999.0, sign=Sign.OVER, typed=">999")


@pytest.mark.parametrize(
    ("typed", "entry", "says"),
    [
        ("35 m", R1, "mohm"),
        ("1,250", R1, "1.250 or 1250"),
        ("inf", IR, ">999"),
        ("OL", R1, ">"),
        ("abc", R1, "not one figure"),
        ("0.3 0.4", R1, "not one figure"),
        ("9**9", R1, "not one figure"),
        ("35 Mohm", R1, "35000000 Ω, more than any tester shows"),
        ("-5", R1, "Check the sign"),
        ("<-0.01", R1, "Check the sign"),
        ("240 kV", measurement(Part.BOARD, Quantity.VOLTAGE), "240000 V"),
        ("maybe", POLARITY, "y for correct, n for not correct"),
        ("", POLARITY, "y for correct"),
    ],
)
def test_what_is_no_reading_is_refused_with_what_would_be_right(typed: str, entry, says: str):
    with pytest.raises(BadQuantity, match=says.replace("*", r"\*")):
        understand(typed, entry)


@pytest.mark.parametrize(
    ("entry", "most", "over"),
    [
        (R1, "100000", "100001"),
        (IR, "1000000", "1000001"),
        (FAULT, "100", "100.1"),
        (measurement(Part.BOARD, Quantity.VOLTAGE), "1000", "1001"),
        (measurement(Part.CIRCUIT, Quantity.RCD_TIME), "10000", "10001"),
    ],
)
def test_what_no_tester_shows_is_a_slip_of_the_unit(entry, most: str, over: str):
    """Common practice: a hand-held tester shows less than these in each unit."""
    assert understand(most, entry).value == float(most)
    with pytest.raises(BadQuantity, match="more than any tester shows"):
        understand(over, entry)


def test_a_meters_zero_may_lie_a_little_below_nothing():
    assert understand("-0.5", R1).value == -0.5
    for text in ("-0.51", "<-0.01", ">-0.01"):
        with pytest.raises(BadQuantity, match="Check the sign"):
            understand(text, R1)


def test_a_reading_carries_who_with_what_and_how():
    where = slot(Quantity.IR_LE, Stage.DEAD, "C1")
    around = Circumstances("A1", "M1", 250.0, "L and N joined", "damp morning")

    made = reading(small_job(), where, Tick(good=True), around, AT)

    assert (made.id, made.at, made.from_notes) == ("R1", AT, None)
    assert (made.by, made.instrument, made.test_voltage) == ("A1", "M1", 250.0)
    assert (made.method, made.note) == ("L and N joined", "damp morning")


def test_a_reading_from_notes_has_both_times():
    noted = AT - timedelta(hours=3)
    job = with_figure(small_job(), slot(Quantity.R1, Stage.DEAD, "C1"), 0.3)

    made = reading(
        job,
        slot(Quantity.RN, Stage.DEAD, "C1"),
        Figure(value=0.3),
        Circumstances(taken_at=noted),
        AT,
    )

    assert (made.id, made.at, made.from_notes) == ("R2", noted, AT)


@pytest.mark.parametrize("empty", ["", "  ", "--", "...", "12"])
@pytest.mark.parametrize("kind", [could_not, not_needed])
def test_a_reason_has_to_say_something(kind, empty: str):
    with pytest.raises(BadText, match="reason"):
        kind(empty)


def test_a_reason_with_a_control_character_is_refused_and_one_with_brackets_kept():
    with pytest.raises(BadText, match="control character"):
        could_not("board\x1b[5m locked")

    assert not_needed("no loft [/] fitted").reason == "no loft [/] fitted"
