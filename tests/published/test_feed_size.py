"""A feed sized in a text book, against the table of feeds.

Linsley, Basic Electrical Installation Work, worked example of cable size (from memory): an
extension takes 6 kW 18 m from the consumer unit, by flat twin-and-earth on joists under insulation
(method A), air 35 °C, TN-S with Ze 0.8 Ω. Type B breaker: Ib 26.09 A, In 32 A, 32 / 0.94 = 34.04 A,
so 10 mm²; 4.4 mV/A/m × 26.09 A × 18 m = 2.07 V. Behind a fuse to BS 3036 of 30 A the book takes
0.97 for 35 °C, as its edition did: 30 / (0.97 × 0.725) = 42.7 A, 10 mm² of 43 A. Today's 0.94 gives
44.02 A, just above the 44 A of 10 mm² in Table 4D5: 16 mm².
"""

from __future__ import annotations

import pytest

from records.model.wiring import Run
from records.options.cell import Check
from records.options.feed import feed_options
from records.terms import CableKind, DeviceKind, Method, Verdict
from tests.options.jobs import job

IB = 6000 / 230
JOISTS = Run(length=18.0, method=Method.A, ambient=35.0)


def flat(kind, rating):
    choice = feed_options(job(JOISTS, kind=kind, rating=rating, load=IB, ze=0.8, circuits=()))
    return [each for each in choice.options if each.make.cable is CableKind.FLAT]


def cell(option, check):
    return next(each for each in option.cells if each.check is check)


def test_behind_a_breaker_the_smallest_flat_cable_is_10_mm2_and_the_rating_decides():
    options = flat(DeviceKind.BREAKER_B, 32.0)
    six = next(each for each in options if each.make.csa == 6.0)
    ten = next(each for each in options if each.make.csa == 10.0)

    assert next(each for each in options if each.verdict is not Verdict.OUTSIDE) is ten
    assert six.decides is not None
    assert six.decides.check is Check.RATING
    assert cell(ten, Check.RATING).result.value >= 32.0
    assert cell(ten, Check.DROP).result.value == pytest.approx(2.07, abs=0.005)


def test_the_loop_of_10_with_4_mm2_is_that_of_the_book_and_within_its_device():
    """(1.83 + 4.61) mΩ/m × 18 m × 1.20 + 0.8 Ω = 0.94 Ω; 1.37 Ω for type B 32 A."""
    (ten,) = (each for each in flat(DeviceKind.BREAKER_B, 32.0) if each.make.csa == 10.0)
    loop = cell(ten, Check.LOOP)

    assert loop.result.value == pytest.approx(0.94, abs=0.005)
    assert loop.verdict is Verdict.WITHIN


def test_behind_a_rewirable_fuse_the_factor_of_today_asks_for_one_size_more():
    assert pytest.approx(42.7, abs=0.05) == 30 / (0.97 * 0.725)
    assert pytest.approx(44.02, abs=0.005) == 30 / (0.94 * 0.725)
    options = flat(DeviceKind.BS_3036, 30.0)
    ten = next(each for each in options if each.make.csa == 10.0)
    sixteen = next(each for each in options if each.make.csa == 16.0)

    assert cell(ten, Check.RATING).verdict is Verdict.OUTSIDE
    assert 29.9 < cell(ten, Check.RATING).result.value < 30.0
    assert cell(sixteen, Check.RATING).verdict is Verdict.WITHIN
