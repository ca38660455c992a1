"""Figures against limits: on it, just over, just under, off the meter's range."""

from __future__ import annotations

import pytest

from records.evidence import COMMON_PRACTICE
from records.expected.results import Worked
from records.judgement.compare import away, meets, outside
from records.judgement.review_types import Limit, Sense
from records.judgement.uncertainty import Guard
from records.model.reading import Figure
from records.terms import Sign, Verdict
from records.units import Unit

SHARP = Guard(0.0, False, "")
TENTH = Guard(0.1, False, "")
OF_LIMIT = Guard(0.1, True, "")


def limit(sense: Sense, value: float, upper: float | None = None) -> Limit:
    return Limit(sense, value, Unit.OHM, COMMON_PRACTICE, upper=upper)


@pytest.mark.parametrize(
    ("value", "sign", "verdict"),
    [
        (1.00, "=", Verdict.WITHIN),
        (1.01, "=", Verdict.OUTSIDE),
        (0.99, "<", Verdict.WITHIN),
        (1.01, "<", Verdict.OUTSIDE),
        (0.10, ">", Verdict.OUTSIDE),
        (99.9, ">", Verdict.OUTSIDE),
    ],
)
def test_at_most(value, sign, verdict):
    """Over the range proves no highest value, whatever stands behind the sign."""
    assert meets(Figure(value=value, sign=Sign(sign)), limit(Sense.MOST, 1.0), SHARP) is verdict


@pytest.mark.parametrize(
    ("value", "sign", "verdict"),
    [
        (1.00, "=", Verdict.WITHIN),
        (0.99, "=", Verdict.OUTSIDE),
        (999.0, ">", Verdict.WITHIN),
        (1.0, ">", Verdict.WITHIN),
        (0.5, ">", Verdict.OUTSIDE),
        (5.0, "<", Verdict.OUTSIDE),
    ],
)
def test_at_least(value, sign, verdict):
    """`> 0.5` is no proof of 1.0, and `< 5` is none either."""
    assert meets(Figure(value=value, sign=Sign(sign)), limit(Sense.LEAST, 1.0), SHARP) is verdict


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(129, "outside"), (130, "within"), (500, "within"), (501, "outside"), (215, "within")],
)
def test_between(value, verdict):
    band = limit(Sense.BAND, 130, 500)

    assert meets(Figure(value=float(value)), band, SHARP).value == verdict


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(0.90, "within"), (0.91, "near limit"), (1.00, "near limit"), (1.01, "outside")],
)
def test_the_guard_band_lies_inside_a_highest_value(value, verdict):
    """0.91 Ω and a tenth of it are 1.001 Ω: not proved to be under 1 Ω."""
    assert meets(Figure(value=value), limit(Sense.MOST, 1.0), TENTH).value == verdict


@pytest.mark.parametrize(
    ("value", "verdict"),
    [(1.12, "within"), (1.11, "near limit"), (1.00, "near limit"), (0.99, "outside")],
)
def test_the_guard_band_lies_inside_a_lowest_value(value, verdict):
    """1.11 MΩ less a tenth of it are 0.999 MΩ."""
    assert meets(Figure(value=value), limit(Sense.LEAST, 1.0), TENTH).value == verdict


@pytest.mark.parametrize(("value", "verdict"), [(270, "within"), (271, "near limit")])
def test_an_uncertainty_of_the_limit_is_the_same_everywhere(value, verdict):
    """BS EN 61557-6: 10 % of the limit, 30 ms of 300 ms (from memory)."""
    assert meets(Figure(value=float(value)), limit(Sense.MOST, 300), OF_LIMIT).value == verdict


def test_a_binary_fraction_does_not_fail_a_reading_on_its_limit():
    assert meets(Figure(value=1.12), limit(Sense.MOST, 1.4 * 0.8), SHARP) is Verdict.WITHIN


def test_a_check_is_right_or_wrong():
    should = limit(Sense.SHOULD, 1.0)

    assert meets(Figure(value=1.0), should, SHARP) is Verdict.WITHIN
    assert meets(Figure(value=0.0), should, SHARP) is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("value", "sign", "gap"),
    [
        (0.50, "=", 0.0),
        (0.55, "=", 0.0),
        (0.56, "=", 0.06),
        (0.45, "=", 0.0),
        (0.44, "=", -0.06),
        (9.9, ">", 9.4),
        (0.1, ">", 0.0),
        (0.1, "<", -0.4),
        (0.9, "<", 0.0),
    ],
)
def test_off_an_expectation(value, sign, gap):
    """A figure with a sign is off only if nothing it can mean agrees."""
    expected = Worked("R", 0.5, Unit.OHM, "", "", ())

    found = away(Figure(value=value, sign=Sign(sign)), expected, 0.05)

    assert found == pytest.approx(gap)


def test_an_expectation_can_be_a_range():
    expected = Worked("Zdb", 38.0, Unit.OHM, "", "", (), low=38.0, high=59.0)

    assert away(Figure(value=55.0), expected, 1.0) == 0.0
    assert away(Figure(value=61.0), expected, 1.0) == pytest.approx(2.0)
    assert outside(Figure(value=0.31), 38.0, 59.0, 1.0) == pytest.approx(-37.69)
