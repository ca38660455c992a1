"""What testers type, read as they mean it or refused in words; never guessed, never evaluated."""

from __future__ import annotations

import math
import unicodedata

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from records.errors import BadQuantity
from records.terms import Sign
from records.typed import read_typed
from records.units import Unit, spellings

UNITS = st.sampled_from(list(Unit))
PATIENT = settings(deadline=None)
"""The units library loads with the first unit typed: how long that takes is no fault."""


@pytest.mark.parametrize(
    ("text", "unit", "sign", "value"),
    [
        (".35", Unit.OHM, "=", 0.35),
        ("0,35", Unit.OHM, "=", 0.35),
        ("0.35", Unit.OHM, "=", 0.35),
        (",35", Unit.OHM, "=", 0.35),
        ("0,350", Unit.OHM, "=", 0.35),
        ("350 mohm", Unit.OHM, "=", 0.35),
        ("350mΩ", Unit.OHM, "=", 0.35),
        ("0.35 Ohm", Unit.OHM, "=", 0.35),
        ("0.35 OHMS", Unit.OHM, "=", 0.35),
        ("0.35R", Unit.OHM, "=", 0.35),
        ("12k", Unit.OHM, "=", 12_000.0),
        ("12k", Unit.MEGOHM, "=", 0.012),
        (">999", Unit.MEGOHM, ">", 999.0),
        (">200M", Unit.MEGOHM, ">", 200.0),
        ("> 999 MΩ", Unit.MEGOHM, ">", 999.0),
        (">1 G", Unit.MEGOHM, ">", 1000.0),
        ("<0.01", Unit.OHM, "<", 0.01),
        (">99.9", Unit.OHM, ">", 99.9),
        ("0.00", Unit.OHM, "=", 0.0),
        ("-0.01", Unit.OHM, "=", -0.01),
        ("\N{MINUS SIGN}0.01", Unit.OHM, "=", -0.01),
        ("46 metres", Unit.METRE, "=", 46.0),
        ("46\N{NO-BREAK SPACE}m", Unit.METRE, "=", 46.0),
        ("46\N{THIN SPACE}m", Unit.METRE, "=", 46.0),
        ("2.5 mm²", Unit.SQUARE_MILLIMETRE, "=", 2.5),
        ("2.5mm2", Unit.SQUARE_MILLIMETRE, "=", 2.5),
        ("2.5 sq mm", Unit.SQUARE_MILLIMETRE, "=", 2.5),
        ("6 KA", Unit.KILOAMPERE, "=", 6.0),
        ("6000 A", Unit.KILOAMPERE, "=", 6.0),
        ("1.28", Unit.KILOAMPERE, "=", 1.28),
        ("30 mA", Unit.MILLIAMPERE, "=", 30.0),
        ("0.03 A", Unit.MILLIAMPERE, "=", 30.0),
        ("7 °C", Unit.CELSIUS, "=", 7.0),
        ("-3", Unit.CELSIUS, "=", -3.0),
        (">300", Unit.MILLISECOND, ">", 300.0),
        ("0.04 s", Unit.MILLISECOND, "=", 40.0),
        ("2400 W", Unit.KILOWATT, "=", 2.4),
        ("12", Unit.NUMBER, "=", 12.0),
    ],
)
def test_what_testers_type_is_read_as_they_mean_it(text, unit, sign, value):
    typed = read_typed(text, unit, signs=True)

    assert typed.sign is Sign(sign)
    assert typed.value == value
    assert typed.raw == text


@pytest.mark.parametrize(
    ("text", "unit", "says"),
    [
        ("350m", Unit.OHM, "350 mohm"),
        ("200M", Unit.OHM, "200 Mohm"),
        ("5 m", Unit.MEGOHM, "MΩ"),
        ("1,250", Unit.VOLT, "1.250 or 1250"),
        (">1,250", Unit.MEGOHM, "1.250 or 1250"),
        ("inf", Unit.MEGOHM, ">999"),
        ("OL", Unit.OHM, ">"),
        ("∞", Unit.MEGOHM, ">999"),
        ("", Unit.OHM, "0.35"),
        ("  ", Unit.OHM, "0.35"),
        ("ohm", Unit.OHM, "0.35"),
        ("0.35.2", Unit.OHM, "one figure"),
        ("0.3 5", Unit.OHM, "one figure"),
        ("1..2", Unit.OHM, "one figure"),
        ("46 m 46", Unit.METRE, "one figure"),
        ("12:30", Unit.OHM, "one figure"),
        ("N/A", Unit.OHM, "one figure"),
        ("1e3", Unit.OHM, "one figure"),
        ("nan", Unit.OHM, "one figure"),
        ("½", Unit.OHM, "one figure"),
        ("≥200", Unit.MEGOHM, "one figure"),
        ("~0.3", Unit.OHM, "one figure"),
        (">>999", Unit.MEGOHM, "one figure"),
        ("٣", Unit.OHM, "one figure"),
        ("0.35 V", Unit.OHM, "not a unit for this field"),
        ("0.2 mega", Unit.MEGOHM, "not a unit for this field"),
        ("30 MA", Unit.MILLIAMPERE, "not a unit for this field"),
        ("2.5 mm²/m", Unit.METRE, "not a unit for this field"),
        ("5 x", Unit.NUMBER, "not a unit for this field"),
    ],
)
def test_what_is_not_one_plain_figure_is_refused_with_what_would_be_right(text, unit, says):
    with pytest.raises(BadQuantity) as refused:
        read_typed(text, unit, signs=True)

    assert says in str(refused.value)


@pytest.mark.parametrize("text", [">999", "<0.01", "OL", "inf"])
def test_a_design_field_takes_no_sign_and_no_over_range(text):
    with pytest.raises(BadQuantity):
        read_typed(text, Unit.OHM)


@pytest.mark.parametrize(
    "text", ["2+2", "9**9**9", "2*3 ohm", "__import__('os')", "0.1+0.2", "1/3", "(5)", "5 m * 5"]
)
def test_nothing_is_evaluated(text):
    with pytest.raises(BadQuantity):
        read_typed(text, Unit.OHM, signs=True)


@PATIENT
@given(text=st.text(), unit=UNITS, signs=st.booleans())
@example(text="9" * 5000, unit=Unit.OHM, signs=False)
@example(text="1e400", unit=Unit.OHM, signs=False)
@example(text="0.35 \x1b[31m", unit=Unit.OHM, signs=False)
@example(text="0.35\x00", unit=Unit.OHM, signs=False)
@example(text="5 \ud800", unit=Unit.VOLT, signs=True)
@example(text="0.35\n0.36", unit=Unit.OHM, signs=True)
@example(text="[/] {{ 7*7 }}", unit=Unit.OHM, signs=True)
def test_any_text_gives_a_finite_figure_or_a_sentence_that_every_screen_can_carry(
    text, unit, signs
):
    try:
        typed = read_typed(text, unit, signs=signs)
    except BadQuantity as refused:
        said = str(refused)
        assert said
        assert not any(unicodedata.category(char) in ("Cc", "Cs") for char in said)
        assert len(said) < 400
    else:
        assert math.isfinite(typed.value)
        assert signs or typed.sign is Sign.EQUAL


@st.composite
def _figures(draw):
    unit = draw(UNITS)
    words = ["", *spellings(unit)]
    number = draw(st.from_regex(r"[0-9]{1,4}([.][0-9]{0,3})?", fullmatch=True))
    return unit, number, draw(st.sampled_from(words)), draw(st.sampled_from(["", " ", "  "]))


@PATIENT
@given(_figures())
def test_blanks_and_the_way_a_unit_is_spelt_never_change_a_figure(parts):
    unit, number, word, blank = parts
    close = read_typed(f"{number}{word}", unit)
    apart = read_typed(f"  {number}{blank}{word} ", unit)

    assert apart.value == close.value


@PATIENT
@given(whole=st.integers(0, 9999), part=st.integers(0, 99))
def test_a_decimal_comma_is_a_decimal_point(whole, part):
    comma = read_typed(f"{whole},{part:02d}", Unit.OHM)
    point = read_typed(f"{whole}.{part:02d}", Unit.OHM)

    assert comma.value == point.value == float(f"{whole}.{part:02d}")


@PATIENT
@given(st.integers(0, 99_999))
def test_milliohms_typed_in_an_ohm_field_are_thousandths_to_the_last_digit(number):
    assert read_typed(f"{number} mohm", Unit.OHM).value == pytest.approx(number / 1000, rel=1e-11)


@PATIENT
@given(number=st.integers(0, 9999), sign=st.sampled_from("<>"))
def test_a_sign_is_never_lost(number, sign):
    for text in (f"{sign}{number}", f"{sign} {number} ", f"{sign}{number} MΩ"):
        typed = read_typed(text, Unit.MEGOHM, signs=True)

        assert (typed.sign.value, typed.value) == (sign, number)


def test_words_after_a_figure_are_told_where_they_go() -> None:
    with pytest.raises(BadQuantity, match=r"the figure alone, like 100 A\. Words go under Note"):
        read_typed("100A BS 1361", Unit.AMPERE)
